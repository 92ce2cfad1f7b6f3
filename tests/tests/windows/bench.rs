//! A tester verified at the bench, and what follows when it does not hold.
use provenohm_tests::{Entry, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};
use std::path::PathBuf;

/// Leaves a picture where pictures are asked for.
pub(super) async fn picture(window: &Window, name: &str) -> Result<(), Trouble> {
    match std::env::var_os("PROVENOHM_PICTURES") {
        Some(folder) => window.picture(&PathBuf::from(folder).join(format!("{name}.png"))).await,
        None => Ok(()),
    }
}

/// A box of five known resistances, added by its form; a probe that volts are read on.
async fn references(window: &Window) -> Result<(), Trouble> {
    window.go("#/references").await?;
    window.tap("reference-new").await?;
    window.fill_id("reference-name", "Box 1").await?;
    window.fill_id("reference-serial", "B1").await?;
    window.fill_id("reference-until", "1 May 2099").await?;
    for (at, nominal) in ["0.25 MΩ", "0.5 MΩ", "1 MΩ", "10 MΩ", "100 MΩ"].into_iter().enumerate() {
        if at > 0 {
            window.tap("value-add").await?;
        }
        window.fill_id(&format!("value-{at}-nominal"), nominal).await?;
        window.fill_id(&format!("value-{at}-percent"), "0.1").await?;
        window.fill_id(&format!("value-{at}-rated"), "1000").await?;
    }
    window.tap("reference-save").await?;
    window.until_shown("Box 1, resistor, serial number B1").await?;
    let probe = json!({
        "kind": "high_voltage_probe", "name": "Probe", "serial": "P1", "input_resistance": "1 GΩ",
        "valid_until": "1 May 2099",
        "values": [{ "nominal": "1500 V", "within_percent": "0.2", "stated_as": "expanded" }],
    });
    window.call("save_reference", json!({ "form": probe })).await?;
    Ok(())
}

/// What a sound tester shows or gives at a step: the keys to press, the last of them saves.
fn sound(view: &Value) -> (String, String) {
    let current = view["steps"].as_array().unwrap().iter().find(|one| one["id"] == view["current"]).unwrap();
    let title = current["title"].as_str().unwrap().replace('\u{a0}', " ");
    let volts: u32 = current["group"].as_str().unwrap().split('\u{a0}').next().unwrap().parse().unwrap();
    let says = |text: String, key: &str| (text, key.to_owned());
    match title.as_str() {
        "Leads together" => says("0.00".into(), "m"),
        "Leads apart" => says(String::new(), "over"),
        at if at.starts_with("Open-circuit voltage") => says((volts + volts / 10).to_string(), "v"),
        "Polarity at the terminals" => says(String::new(), "earth_positive"),
        at if at.ends_with("voltage") => says((volts + volts / 50).to_string(), "v"),
        at => {
            let (number, unit) = at.split(" of ").next().unwrap().split_once(' ').unwrap();
            assert_eq!(unit, "MΩ", "{at}");
            let number: f64 = number.parse().unwrap();
            says(if number < 20.0 { format!("{number:.2}") } else { format!("{number:.0}") }, "m")
        }
    }
}

/// Answers the look at the tester, item by item.
async fn look_at(window: &Window) -> Result<(), Trouble> {
    for part in ["case", "leads", "marked_category", "marked_standard", "battery"] {
        window.choose(&format!("look-{part}"), "yes").await?;
    }
    Ok(())
}

async fn begin(window: &Window, tester: &str) -> Result<String, Trouble> {
    window.go(&format!("#/tester/{tester}")).await?;
    window.tap("bench-open").await?;
    window.until_shown_in("screen-benches").await?;
    window.tap("reference-B1").await?;
    window.tap("reference-P1").await?;
    window.tap("bench-usual").await?;
    window.until_shown("No current meter at hand").await?;
    picture(window, "bench-begin").await?;
    window.tap("bench-start").await?;
    window.until("the pad", "return document.getElementById('bench-heading') !== null", &[]).await?;
    let place = window.ask("return location.hash", &[]).await?;
    Ok(place.as_str().unwrap().split('/').nth(2).unwrap().to_owned())
}

/// Presses one step in on the pad, and waits until it is saved.
async fn press_in(window: &Window, digits: &str, key: &str) -> Result<(), Trouble> {
    for digit in digits.split_inclusive(|_: char| true) {
        window.tap_digits(digit).await?;
        // A key pressed again within 80 ms of its release is a bounce.
        tokio::time::sleep(std::time::Duration::from_millis(90)).await;
    }
    let ready = "const key = document.getElementById(arguments[0]); return key !== null && key.getAttribute('aria-disabled') !== 'true'";
    let id = format!("key-{key}");
    window.until("the saving key", ready, &[json!(id)]).await?;
    let said = window.ask("return document.querySelector('[data-announce]').textContent", &[]).await?;
    let progress = window.text("bench-steps").await?;
    window.tap(&id).await?;
    let saved = "return document.getElementById('bench-steps').innerText.trim() !== arguments[0]
        || document.querySelector('[data-announce]').textContent !== arguments[1]";
    window.until("the figure to be saved", saved, &[json!(progress), said]).await
}

#[tokio::test]
async fn a_tester_is_verified_at_three_test_voltages_by_the_keypad() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let job = Job::with(&window, &[(1, single_phase())]).await?;
    references(&window).await?;
    picture(&window, "references").await?;
    let bench = begin(&window, &job.tester).await?;
    let mut measured = 0;
    loop {
        let view = window.call("bench", json!({ "bench": bench })).await?;
        if view["current"].is_null() {
            break;
        }
        let (digits, key) = sound(&view);
        press_in(&window, &digits, &key).await?;
        measured += 1;
        if measured == 7 {
            picture(&window, "bench").await?;
        }
        assert!(measured < 100, "a run ends");
    }
    assert!(measured > 30, "three voltages with their repeats: {measured}");
    window.until_shown("No step is open").await?;
    picture(&window, "bench-done").await?;
    window.tap("bench-to-result").await?;
    window.until_shown_in("screen-bench-result").await?;
    window.until_shown("500 V: indications hold from 0.25 MΩ to 100 MΩ").await?;
    picture(&window, "bench-result").await?;
    let plots = "return document.querySelectorAll('#screen-bench-result svg[role=img]').length";
    assert_eq!(window.ask(plots, &[]).await?, json!(6), "errors and loads at three voltages");
    let points = "return document.querySelectorAll('#screen-bench-result svg[role=img]')[2].querySelectorAll('path[transform]').length";
    assert_eq!(window.ask(points, &[]).await?, json!(5), "a mark for each of five resistances at 500 V");
    window.tap("report-pdf").await?;
    window.until("the report", "return document.getElementById('written-path') !== null", &[]).await?;
    let report = std::fs::read(window.text("written-path").await?).unwrap();
    assert!(report.starts_with(b"%PDF"), "the tester report is written");
    look_at(&window).await?;
    window.tap("close-suggested").await?;
    window.tap("close-record").await?;
    window.until_shown_in("screen-tester").await?;
    window.until_shown("500 V: Tester A · proved").await?;
    Ok(())
}

/// Two jobs read with one tester; then its output voltage is found to fall at the rated load.
async fn two_jobs_with_one_tester(window: &Window) -> Result<(Job, Job), Trouble> {
    let first = Job::with(window, &[(1, single_phase())]).await?;
    first.prove_tester(window).await?;
    let second = Job::with(window, &[(1, single_phase())]).await?;
    window.call("choose_tester", json!({ "board": second.board, "tester": first.tester })).await?;
    for job in [&first, &second] {
        window.call("choose_tester", json!({ "board": job.board, "tester": first.tester })).await?;
        window.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
        for digits in ["450", "1.20"] {
            let slot = window.call("run", json!({ "board": job.board })).await?["slot"].clone();
            let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
            window.call("save_reading", json!({ "board": job.board, "slot": slot, "indication": typed })).await?;
        }
    }
    Ok((first, second))
}

#[tokio::test]
async fn a_failed_verification_recalls_the_readings_of_two_jobs_and_a_new_reading_resolves_one() -> Result<(), Trouble>
{
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening::phone(record.path())).await?;
    let (first, second) = two_jobs_with_one_tester(&window).await?;
    references(&window).await?;
    let bench = begin(&window, &first.tester).await?;
    let view = window.call("bench", json!({ "bench": bench })).await?;
    let failing = [
        ("Leads together", "0.00", "m", 1),
        ("1.0 MΩ of Box 1", "1.30", "m", 3),
        ("10 MΩ of Box 1", "10.00", "m", 1),
        ("100 MΩ of Box 1", "100", "m", 1),
        ("Rated load, 0.5 MΩ of Box 1, voltage", "510", "v", 1),
    ];
    for (title, digits, key, times) in failing {
        let step = view["steps"].as_array().unwrap().iter().find(|one| {
            one["title"].as_str().unwrap().replace('\u{a0}', " ") == title
                && one["group"] == "500\u{a0}V"
                && one["detail"] == ""
        });
        let step = step.unwrap_or_else(|| panic!("no step {title}"))["id"].clone();
        for _ in 0..times {
            window.call("bench", json!({ "bench": bench, "step": step })).await?;
            let measure = json!({ "bench": bench, "step": step, "key": key, "text": digits });
            window.call("measure", measure).await?;
        }
    }
    window.go(&format!("#/bench-result/{bench}")).await?;
    window.until_shown("does not conform").await?;
    picture(&window, "bench-result-failed").await?;
    window.tap("close-record").await?;
    window.until_shown("Look at it, then answer yes or no").await?;
    look_at(&window).await?;
    window.tap("close-record").await?;
    window.until_shown_in("screen-tester").await?;
    window.until_shown("2 readings in doubt").await?;

    window.tap("tester-recall").await?;
    window.until_shown_in("screen-recall").await?;
    let recall = window.call("recall", json!({ "tester": first.tester })).await?;
    let jobs: Vec<&Value> = recall["jobs"].as_array().unwrap().iter().map(|one| &one["job"]).collect();
    assert_eq!(jobs.len(), 2, "both jobs are on the list: {recall}");
    assert!(jobs.contains(&&json!(first.job)) && jobs.contains(&&json!(second.job)));
    let open = recall["counts"]["all"].as_u64().unwrap();
    picture(&window, "recall-two-jobs").await?;

    // Tested again with a tester that is proved: the line is resolved by the new reading.
    let other = window.call("save_tester", other_tester()).await?["id"].clone();
    window.call("record_verification", json!({ "tester": other, "form": provenohm_tests::verification() })).await?;
    window.call("choose_tester", json!({ "board": first.board, "tester": other })).await?;
    window.call("set_volts", json!({ "board": first.board, "volts": 500 })).await?;
    window.tap_named("Test again").await?;
    window.recording().await?;
    window.tap_in(Entry::Typed { digits: "430", unit: 'm' }).await?;
    let recall = window.call("recall", json!({ "tester": first.tester })).await?;
    assert_eq!(recall["counts"]["resolved"], 1, "of {open}: {recall}");
    window.go(&format!("#/recall/{}", first.tester)).await?;
    window.until_shown(&format!("{open} readings in doubt, 1 resolved")).await?;
    Ok(())
}

fn other_tester() -> Value {
    let mut form = provenohm_tests::tester();
    form["identity"] = json!({ "name": "Tester B", "serial": "0002" });
    form
}
