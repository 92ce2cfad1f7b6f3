//! Testers of different cards side by side, a plot looked at closely, and the thirty-second routine between verifications.
use crate::bench::picture;
use provenohm_tests::{Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};

/// A box of known resistances.
async fn known_resistances(window: &Window) -> Result<Value, Trouble> {
    let values = ["0.5 MΩ", "1 MΩ", "10 MΩ", "100 MΩ"].map(|nominal| json!({ "nominal": nominal, "within_percent": "0.1", "stated_as": "expanded", "rated_voltage": "1000" }));
    let form = json!({
        "kind": "decade_box", "name": "Box 1", "serial": "B 1", "valid_until": "1 May 2099", "values": values,
    });
    let saved = window.call("save_reference", json!({ "form": form })).await?;
    Ok(saved["references"][0]["id"].clone())
}

/// Another make: 500 V alone, one range up to 50 MΩ, ±(10 % + 5 digits).
async fn other_make(window: &Window) -> Result<String, Trouble> {
    let range = json!({ "from": "0.1 MΩ", "to": "50 MΩ", "resolution": "0.1 MΩ", "percent": "10", "digits": "5" });
    let card = json!({ "voltages": [{ "volts": "500", "over_range": "50 MΩ", "ranges": [range] }] });
    let identity = json!({ "name": "Tester B", "serial": "0002" });
    let saved = window.call("save_tester", json!({ "identity": identity, "card": card })).await?;
    Ok(saved["id"].as_str().unwrap().to_owned())
}

/// A run at 500 V in which each resistance was shown so.
async fn measured(window: &Window, tester: &str, r#box: &Value, shown: &[(&str, &str)]) -> Result<String, Trouble> {
    let plan: Vec<Value> = shown
        .iter()
        .map(|(ohms, _)| {
            let resistor = json!({ "reference": r#box, "nominal_ohm": ohms });
            json!({ "test_voltage_v": "500", "repeats": 1, "item": { "what": "indication", "resistor": resistor } })
        })
        .collect();
    let start = json!({
        "tester": tester, "references": [r#box], "edition": "iec-61557-2-2019", "rule": "simple", "plan": plan,
    });
    let mut view = window.call("start_bench", start).await?;
    let bench = view["id"].as_str().unwrap().to_owned();
    for (_, text) in shown {
        let measure = json!({ "bench": bench, "step": view["current"], "key": "m", "text": text });
        view = window.call("measure", measure).await?;
    }
    Ok(bench)
}

/// Marks in the first plot of a screen, and what stands at the ends of its vertical axis.
async fn plotted(window: &Window, screen: &str) -> Result<(u64, String), Trouble> {
    let script = "const plot = document.querySelector('#' + arguments[0] + ' svg[role=img]');
        return [plot.querySelectorAll('path[transform]').length,
            [...plot.querySelectorAll('text[text-anchor=end]')].map((text) => text.textContent).join(' ')]";
    let told = window.ask(script, &[json!(screen)]).await?;
    Ok((told[0].as_u64().unwrap(), told[1].as_str().unwrap().to_owned()))
}

#[tokio::test]
async fn testers_of_different_cards_are_compared_and_one_is_checked_between_verifications() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(1, single_phase())]).await?;
    let r#box = known_resistances(&window).await?;
    let other = other_make(&window).await?;
    // Far off at the bottom, as low-cost testers are: it dwarfs the rest of the plot.
    let all = [("500000", "0.80"), ("1000000", "1.01"), ("10000000", "10.00"), ("100000000", "101")];
    let first = measured(&window, &job.tester, &r#box, &all).await?;
    let second = measured(&window, &other, &r#box, &[("1000000", "1.1"), ("10000000", "10.4")]).await?;

    window.go(&format!("#/bench-result/{first}")).await?;
    window.until_shown("does not conform").await?;
    let (marks, axis) = plotted(&window, "screen-bench-result").await?;
    assert_eq!(marks, 4);
    let left_out = "const boxes = document.querySelectorAll('#screen-bench-result td input[type=checkbox]');
        boxes[0].click(); return boxes.length";
    assert_eq!(window.ask(left_out, &[]).await?, json!(4), "each point can be left out of the view");
    let marks_are = "return document.querySelectorAll('#screen-bench-result svg[role=img]')[0].querySelectorAll('path[transform]').length === arguments[0]";
    window.until("the point to leave the plot", marks_are, &[json!(3)]).await?;
    let (_, closer) = plotted(&window, "screen-bench-result").await?;
    assert_ne!(closer, axis, "what remains is seen closer");
    window.choose("magnified", "5").await?;
    let axis_is_not = "return [...document.querySelectorAll('#screen-bench-result svg[role=img]')[0].querySelectorAll('text[text-anchor=end]')].map((text) => text.textContent).join(' ') !== arguments[0]";
    window.until("the plot to be magnified", axis_is_not, &[json!(closer)]).await?;
    window.until_shown("does not conform").await?;

    window.go("#/compare").await?;
    window.until_shown_in("screen-compare").await?;
    window.tap(&format!("run-{first}")).await?;
    window.tap(&format!("run-{second}")).await?;
    let both = "return document.querySelectorAll('#screen-compare thead th').length === 4";
    window.until("both testers side by side", both, &[]).await?;
    let rows = "return [...document.querySelectorAll('#screen-compare tbody tr')].map((row) => [...row.children].map((cell) => cell.innerText.replaceAll('\\u00a0', ' ').trim()))";
    let rows = window.ask(rows, &[]).await?;
    let of = |known: &str| rows.as_array().unwrap().iter().find(|row| row[0] == known).unwrap().clone();
    // 0.80 − 0.50 = 0.30 MΩ; the other make was not tested there.
    assert!(of("0.5 MΩ")[1].as_str().unwrap().contains("does not conform"), "{rows}");
    assert_eq!(of("0.5 MΩ")[2], "not tested");
    // 10 % of 1.1 and five steps of 0.1 MΩ permit 0.61 MΩ: what is far off for one card conforms to the other.
    assert!(of("1.0 MΩ")[2].as_str().unwrap().contains("+10 %"), "{rows}");
    assert!(of("1.0 MΩ")[2].as_str().unwrap().contains("conforms"), "{rows}");
    let (marks, _) = plotted(&window, "screen-compare").await?;
    assert_eq!(marks, 6, "four and two on the same axes");
    let out = "document.querySelector('#screen-compare td input[type=checkbox]').click(); return true";
    window.ask(out, &[]).await?;
    let marks_are = "return document.querySelectorAll('#screen-compare svg[role=img]')[0].querySelectorAll('path[transform]').length === arguments[0]";
    window.until("the far point to leave the plot", marks_are, &[json!(5)]).await?;
    picture(&window, "compare").await?;

    quick_check(&window, &job).await
}

/// The routine by its own screen: leads apart, leads together, one resistance of the box.
async fn quick_check(window: &Window, job: &Job) -> Result<(), Trouble> {
    window.go(&format!("#/tester/{}", job.tester)).await?;
    window.tap("quick-check-new").await?;
    window.until_shown("No quick check on record").await?;
    window.fill_id("quick-open", "> 999 MΩ").await?;
    window.fill_id("quick-shorted", "0.00 MΩ").await?;
    window.choose("quick-volts", "500").await?;
    let there = "return document.getElementById('quick-known-0') !== null";
    if window.ask(there, &[]).await? != Value::Bool(true) {
        window.tap("quick-add").await?;
    }
    window.fill_id("quick-known-0", "1 MΩ").await?;
    window.fill_id("quick-shown-0", "1.01 MΩ").await?;
    window.tap("quick-save").await?;
    window.until_shown("Quick check recorded: as expected").await?;
    window.tap("quick-check-new").await?;
    window.until_shown("as expected").await
}
