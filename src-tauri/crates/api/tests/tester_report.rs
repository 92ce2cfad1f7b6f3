//! The tester report of a verification file, followed by hand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_api::headless::tester_report_of;
use provenohm_papers::report::Sign;
use provenohm_papers::tester_report::PointLine;
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../../schemas/verification.example.json");

/// A check box of 0.497 MΩ under a tester of ±(1.5 % of reading + 3 digits), resolution 0.001 MΩ (seen, calc).
fn check_box(shown: &str) -> PointLine {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    file["run"]["rule"] = json!("simple");
    file["card"]["voltages"][0]["ranges"] = json!([{
        "from_ohm": "50000", "to_ohm": "2000000", "resolution_ohm": "1000", "accuracy_percent": "1.5",
        "accuracy_digits": 3,
    }]);
    let value = &mut file["references"][0]["what"]["values"][0];
    value["nominal_ohm"] = json!("497000");
    value["stated_ohm"] = json!("497000");
    let mut point = file["measured"][1].clone();
    point["item"]["resistor"]["nominal_ohm"] = json!("497000");
    point["item"]["shown"]["digits"] = json!(shown);
    file["measured"] = json!([point]);
    let report = tester_report_of(&file.to_string()).unwrap();
    report.voltages[0].points[0].clone()
}

#[test]
fn the_check_box_of_0_497_megohms_can_be_followed() {
    let point = check_box("0.450");
    let plain = |text: &str| text.replace('\u{a0}', " ");
    assert_eq!(plain(&point.known), "0.497 MΩ");
    assert_eq!(plain(&point.error), "−47 kΩ");
    assert_eq!(plain(&point.permitted), "9.75 kΩ");
    assert_eq!(plain(&point.permitted_from), "1.5 % of 0.45 MΩ + 3 × 1 kΩ");
    assert_eq!(point.decision.text, "does not conform");
    // Accepted from 0.486700 to 0.507614.
    let decision = |shown: &str| check_box(shown).decision.text;
    for (shown, conforms) in [("0.486", false), ("0.487", true), ("0.507", true), ("0.508", false)] {
        assert_eq!(decision(shown).starts_with("conforms"), conforms, "{shown}: {}", decision(shown));
    }
}

#[test]
fn a_meter_across_the_resistor_is_shown_with_what_it_makes_of_it() {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    file["references"][1]["what"]["input_resistance_ohm"] = json!("10000000");
    file["measured"][1]["item"]["across"] = file["references"][1]["id"].clone();
    let report = tester_report_of(&file.to_string()).unwrap();
    let points = &report.voltages[0].points;
    let loaded = points.iter().find(|point| point.resistor.contains("Probe 1")).expect("it is a point of its own");
    assert_eq!(loaded.known.replace('\u{a0}', " "), "0.909091 MΩ");
}

#[test]
fn a_lapsed_reference_says_what_it_costs_and_a_mark_stands_for_a_serial_number() {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    file["references"][0]["valid_until"] = json!("2026-01-31");
    file["run"]["mark"] = json!("M-7");
    file["tester"] = json!({ "name": "Tester B" });
    let report = tester_report_of(&file.to_string()).unwrap();
    assert!(report.name.contains("M-7"), "{}", report.name);
    assert!(report.remarks.iter().any(|said| said.text.contains("Box 1")), "{:?}", report.remarks);
    assert!(report.references[0].valid.text.contains("conditional at most"));
    let points = report.voltages.iter().flat_map(|voltage| &voltage.points);
    assert!(points.into_iter().all(|point| point.decision.text != "conforms"));
}

/// What no budget could take in stands on paper as something to look at, never beside the disc that says nothing is odd.
#[test]
fn what_no_budget_could_take_in_is_something_to_look_at() {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    for measured in file["measured"].as_array_mut().unwrap() {
        measured["conditions"].as_object_mut().unwrap().remove("temperature_c");
    }
    let report = tester_report_of(&file.to_string()).unwrap();
    let remark = report.remarks.iter().find(|said| said.text.starts_with("No temperature was read"));
    assert_eq!(remark.map(|said| said.sign), Some(Sign::Look), "{:?}", report.remarks);
    assert!(report.remarks.iter().all(|said| said.sign == Sign::Look));
}
