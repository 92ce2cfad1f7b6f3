//! Every screen, on the demo job, at every width: no barrier, nothing cut off, nothing too small to hit.
use std::path::PathBuf;

use provenohm_tests::{Opening, Trouble, Window};
use serde_json::{Value, json};

/// A way of looking at the screens.
#[derive(Debug, Clone, Copy)]
struct Look {
    size: (u32, u32),
    /// What a control must measure at least, CSS pixels.
    finger: u32,
    theme: &'static str,
    /// Size of the text in percent.
    text: u32,
}

const PHONE: Look = Look { size: (390, 844), finger: 48, theme: "light", text: 100 };

async fn looked_at(look: Look) -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening { size: look.size, demo: true, ..Opening::phone(record.path()) }).await?;
    let settings = window.call("settings", json!({})).await?;
    let mut settings = settings["settings"].clone();
    settings["theme"] = look.theme.into();
    window.call("set_settings", settings).await?;
    let places = places(&window).await?;
    drop(window);

    // Opened again, as a person would find it the next day.
    let window = Window::open(&Opening { size: look.size, demo: true, ..Opening::phone(record.path()) }).await?;
    window.until_shown_in("screen-jobs").await?;
    let text = "document.documentElement.style.fontSize = arguments[0] + '%'";
    let mut troubles = Vec::new();
    for (name, place) in places {
        window.go(&place).await?;
        window.until_shown_in(&format!("screen-{name}")).await?;
        if look.text != 100 {
            window.ask(text, &[json!(look.text)]).await?;
        }
        if let Some(folder) = std::env::var_os("PROVENOHM_PICTURES") {
            let file = format!("{name}-{}-{}-{}.png", look.size.0, look.theme, look.text);
            window.picture(&PathBuf::from(folder).join(file)).await?;
        }
        troubles.extend(window.barriers(look.finger).await?.into_iter().map(|barrier| format!("{name}: {barrier}")));
    }
    assert!(troubles.is_empty(), "{look:?}:\n{}", troubles.join("\n"));
    Ok(())
}

/// Each screen by its name, and where it is.
async fn places(window: &Window) -> Result<Vec<(&'static str, String)>, Trouble> {
    let jobs = window.call("jobs", json!({})).await?;
    let job = jobs["jobs"][0]["id"].as_str().unwrap().to_owned();
    let view = window.call("job", json!({ "job": job })).await?;
    let board = view["boards"][0]["id"].as_str().unwrap().to_owned();
    let testers = window.call("testers", json!({})).await?;
    let tester = testers["testers"][0]["id"].as_str().unwrap().to_owned();
    let barred = testers["testers"].as_array().into_iter().flatten().find(|one| one["state"]["level"] == "stop");
    let barred = barred.and_then(|one| one["id"].as_str()).unwrap().to_owned();
    window.call("confirm_cautions", json!({ "job": job })).await?;
    let bench = bench(window, &tester).await?;
    Ok(vec![
        ("jobs", "#/jobs".to_owned()),
        ("overview", "#/overview".to_owned()),
        ("office", "#/office".to_owned()),
        ("job", format!("#/job/{job}")),
        ("circuits", format!("#/circuits/{board}")),
        ("grid", format!("#/grid/{board}")),
        ("run", format!("#/run/{board}")),
        ("look", format!("#/look/{job}")),
        ("correct", format!("#/correct/{job}")),
        ("testers", format!("#/testers/{job}")),
        ("tester", format!("#/tester/{tester}/{job}")),
        ("recall", format!("#/recall/{barred}/{job}")),
        ("references", "#/references".to_owned()),
        ("benches", format!("#/benches/{tester}/{job}")),
        ("bench", format!("#/bench/{bench}/{job}")),
        ("bench-result", format!("#/bench-result/{bench}/{job}")),
        ("drift", format!("#/drift/{tester}/{job}")),
        ("compare", "#/compare".to_owned()),
        ("cautions", format!("#/cautions/{job}")),
        ("signoff", format!("#/signoff/{job}")),
        ("schedule", format!("#/schedule/{job}")),
        ("handover", format!("#/handover/{job}")),
        ("settle", format!("#/settle/{job}")),
    ])
}

/// A run at the bench of a tester, worked through in part and closed.
async fn bench(window: &Window, tester: &str) -> Result<String, Trouble> {
    let value = |nominal: &str| json!({ "nominal": nominal, "within_percent": "0.1", "stated_as": "expanded", "rated_voltage": "1000" });
    let values = ["0.25 MΩ", "0.5 MΩ", "1 MΩ", "10 MΩ", "100 MΩ"].map(value);
    let box_of = json!({
        "kind": "decade_box", "name": "Box 1", "serial": "B 1", "valid_until": "1 May 2099",
        "values": values,
    });
    let probe = json!({
        "kind": "high_voltage_probe", "name": "Probe", "serial": "P 1", "input_resistance": "1 GΩ",
        "values": [{ "nominal": "1500 V", "within_percent": "0.2", "stated_as": "expanded" }],
    });
    window.call("save_reference", json!({ "form": box_of })).await?;
    let saved = window.call("save_reference", json!({ "form": probe })).await?;
    // The demo has references of its own.
    let own = |one: &&Value| ["B 1", "P 1"].contains(&one["form"]["serial"].as_str().unwrap());
    let references: Vec<Value> =
        saved["references"].as_array().unwrap().iter().filter(own).map(|one| one["id"].clone()).collect();
    let edition = "iec-61557-2-2019";
    let asked = json!({ "tester": tester, "references": references, "edition": edition });
    let plan = window.call("plan_bench", asked).await?;
    let plan: Vec<Value> = plan["points"].as_array().unwrap().iter().map(|one| one["point"].clone()).collect();
    let start =
        json!({ "tester": tester, "references": references, "edition": edition, "rule": "simple", "plan": plan });
    let mut view = window.call("start_bench", start).await?;
    let bench = view["id"].as_str().unwrap().to_owned();
    for (key, text) in [("m", "0.00"), ("over_range", ""), ("m", "0.25"), ("m", "0.25"), ("m", "0.25"), ("m", "0.61")] {
        let measure = json!({ "bench": bench, "step": view["current"], "key": key, "text": text });
        view = window.call("measure", measure).await?;
    }
    let volts =
        view["steps"].as_array().unwrap().iter().find(|one| one["title"].as_str().unwrap().ends_with("voltage"));
    let measure = json!({ "bench": bench, "step": volts.unwrap()["id"], "key": "v", "text": "262" });
    window.call("measure", measure).await?;
    let look = ["case", "leads", "marked_category", "marked_standard", "battery"].map(|part| (part, "yes"));
    let look: std::collections::BTreeMap<_, _> = look.into();
    window.call("set_bench_look", json!({ "bench": bench, "look": look })).await?;
    window.call("close_bench", json!({ "bench": bench, "valid_until": "1 May 2099" })).await?;
    Ok(bench)
}

// Each width and each theme once; every combination of them is `every_screen_in_every_look`.
#[tokio::test]
async fn every_screen_at_320() -> Result<(), Trouble> {
    looked_at(Look { size: (320, 568), ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_390_in_the_sun() -> Result<(), Trouble> {
    looked_at(Look { theme: "sun", ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_768_in_the_dark() -> Result<(), Trouble> {
    looked_at(Look { size: (768, 1024), theme: "dark", ..PHONE }).await
}

#[tokio::test]
async fn every_screen_at_1280() -> Result<(), Trouble> {
    looked_at(Look { size: (1280, 800), finger: 24, ..PHONE }).await
}

#[tokio::test]
#[ignore = "takes long; `cargo xtask prove axe` runs it"]
async fn every_screen_in_every_look() -> Result<(), Trouble> {
    for (size, finger) in [((320, 568), 48), ((390, 844), 48), ((768, 1024), 48), ((1280, 800), 24)] {
        for theme in ["light", "dark", "sun"] {
            for text in [100, 200] {
                looked_at(Look { size, finger, theme, text }).await?;
            }
        }
    }
    Ok(())
}
