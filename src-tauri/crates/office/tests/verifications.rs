//! What the headless program takes for a verification file.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Folder, refused, told};
use serde_json::{Value, json};

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../schemas/verification.example.json");

fn changed(change: impl FnOnce(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(&std::fs::read_to_string(FILE).unwrap()).unwrap();
    change(&mut file);
    file.to_string()
}

/// `bench` and `tester-report` refuse it with the same sentence, which names the place.
fn refused_by_both(change: impl FnOnce(&mut Value), place: &str) -> String {
    let folder = Folder::new();
    let file = folder.with("verification.json", &changed(change));
    let said = refused(&["bench", &file]);
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(said.contains(place), "{place}: {said}");
    assert_eq!(refused(&["tester-report", &file, "-o", &folder.text("report.pdf")]), said);
    said
}

#[test]
fn the_example_is_taken() {
    assert!(told(&["bench", FILE]).contains("indications hold"));
}

#[test]
fn nothing_in_it_is_passed_over_in_silence() {
    let again = |file: &mut Value, list: &str| {
        let one = file[list][0].clone();
        file[list].as_array_mut().unwrap().push(one);
    };
    assert!(refused_by_both(|file| again(file, "measured"), "measured[").contains("twice"));
    assert!(refused_by_both(|file| again(file, "references"), "references[").contains("twice"));
    let other = "0190a000-0000-7000-8000-0000000000ff";
    refused_by_both(|file| file["measured"][0]["bench"] = other.into(), "measured[0]");
    refused_by_both(|file| file["measured"][0]["test_voltage_v"] = "-500".into(), "measured[0]");
    refused_by_both(|file| file["measured"][0]["series"] = "as_left".into(), "measured[0]");
    refused_by_both(|file| file["measured"][0]["at"] = "2001-01-01T08:00:00+00:00".into(), "measured[0]");
    refused_by_both(|file| file["measured"][0]["conditions"] = json!({ "temperature_c": "2300" }), "measured[0]");
    let meter = |what: &'static str, figure: &'static str| {
        move |file: &mut Value| {
            let mut all = file["measured"].as_array_mut().unwrap().iter_mut();
            all.find(|it| it["item"]["what"] == what).unwrap()["item"][figure]["shown"] = "-0.001".into();
        }
    };
    refused_by_both(meter("short_circuit", "current"), "measured[");
    refused_by_both(meter("open_circuit", "voltage"), "measured[");
    refused_by_both(meter("at_load", "voltage"), "measured[");
    refused_by_both(|file| file["card"]["voltages"][0]["ranges"][0]["to_ohm"] = "0".into(), "card");
}

#[test]
fn a_reference_is_one_that_can_be() {
    let value = |key: &'static str, figure: Value| {
        move |file: &mut Value| file["references"][0]["what"]["values"][0][key] = figure
    };
    refused_by_both(value("stated_ohm", "-1".into()), "references[0]");
    assert!(refused_by_both(value("stated_ohm", "1".into()), "references[0]").contains("twofold"));
    refused_by_both(value("within_percent", "-0.2".into()), "references[0]");
    assert!(refused_by_both(value("stated", json!({ "expanded": { "k": "0" } })), "references[0]").contains("k is 1"));
    assert!(refused_by_both(value("nominal_ohm", "1000000".into()), "references[0]").contains("twice"));
}

#[test]
fn a_misspelt_member_of_what_was_measured_is_refused() {
    let said = refused_by_both(
        |file| {
            let one = file["measured"].as_array_mut().unwrap();
            let indication = one.iter_mut().find(|it| it["item"]["what"] == "indication").unwrap();
            indication["item"]["acros"] = "0190a000-0000-7000-8000-000000000012".into();
        },
        "measured[",
    );
    assert!(said.contains("“acros”"), "{said}");
}
