//! What a job is judged by: another set, other policies, sets of one's own.

use crate::support::{Program, single_phase};
use serde_json::{Value, json};

/// A job with one circuit and a reading of 0.60 MΩ at 500 V.
fn read_once() -> (Program, String, String) {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let tester = program.tester("Tester A");
    program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let typed = json!({ "typed": { "text": "0.60", "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    (program, job, board)
}

fn set(program: &Program, id: &str) -> Value {
    let sets = program.ask("limit_sets", json!({}));
    let found = sets["sets"].as_array().unwrap().iter().find(|one| one["name"]["id"] == id).cloned();
    found.unwrap_or_else(|| panic!("{id} in {sets}"))
}

fn rules(job: &str, set: &Value, value: &str, reason: &str) -> Value {
    json!({ "job": job, "limit_set": set["name"], "value_policy": value, "tester_policy": "usual", "reason": reason })
}

fn said(program: &Program, board: &str) -> String {
    program.ask("run", json!({ "board": board }))["read_back"]["judgement"]["words"].as_str().unwrap().to_owned()
}

#[test]
fn another_limit_set_judges_the_readings_anew_and_needs_a_reason() {
    let (program, job, board) = read_once();
    assert!(said(&program, &board).starts_with("below"), "1.0 MΩ, IEC 60364-6:2016 Table 6.1");
    let older = set(&program, "iec-60364-6-61");
    let refused = program.refused("set_job_rules", rules(&job, &older, "simple", " "));
    assert_eq!(refused.complaints[0].field, "reason");
    program.ask("set_job_rules", rules(&job, &older, "simple", "built to the older edition"));
    assert!(said(&program, &board).starts_with("meets"), "0.5 MΩ, IEC 60364-6-61: {}", said(&program, &board));
}

#[test]
fn the_guarded_policy_asks_for_the_guard() {
    let (program, job, board) = read_once();
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let typed = json!({ "typed": { "text": "1.01", "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    assert!(said(&program, &board).starts_with("meets"));
    let same = set(&program, "iec-60364-6-2016");
    program.ask("set_job_rules", rules(&job, &same, "guarded", "the client asks for it"));
    assert!(said(&program, &board).starts_with("too close"), "{}", said(&program, &board));
}

#[test]
fn a_set_of_ones_own_is_taken_when_it_is_sound_and_refused_with_line_and_reason_when_not() {
    let program = Program::start();
    let shipped = include_str!("../../../assess/limit-sets/iec-60364-6-2016.json");
    let own = shipped.replace("\"id\": \"iec-60364-6-2016\"", "\"id\": \"our-own\"");
    assert_ne!(own, shipped);
    let sets = program.ask("load_set", json!({ "text": own }));
    let taken = sets["sets"].as_array().unwrap().iter().find(|one| one["name"]["id"] == "our-own").unwrap();
    assert_eq!(taken["own"], true);

    let spoiled = own.replacen("\"volts\"", "\"wolts\"", 1);
    let refused = program.refused("load_set", json!({ "text": if spoiled == own { "{".to_owned() } else { spoiled } }));
    assert!(refused.words.chars().any(|one| one.is_ascii_digit()), "names the line: {}", refused.words);
    let cut = &own[..own.len() / 2];
    let refused = program.refused("load_set", json!({ "text": cut }));
    assert!(refused.words.contains("line") || refused.words.contains("Line"), "{}", refused.words);
    let after = program.ask("limit_sets", json!({}));
    assert_eq!(after, sets, "a refused set changes nothing");
}

#[test]
fn a_quick_check_that_the_job_asks_for_is_missed_until_it_is_there() {
    let (program, job, board) = read_once();
    let same = set(&program, "iec-60364-6-2016");
    let mut asked = rules(&job, &same, "simple", "asked for by the client");
    asked["quick_check_days"] = json!(7);
    let view = program.ask("set_job_rules", asked);
    assert_eq!(view["quick_check_days"], 7);
    assert!(view["rules_words"].as_str().unwrap().ends_with("within 7 days before each reading"));
    let missed = "no quick check of the tester within 7 days before";
    let looked = || program.ask("look", json!({ "job": job })).to_string().contains(missed);
    assert!(looked());
    let tester = program.ask("run", json!({ "board": board }))["tester"]["id"].clone();
    let form =
        json!({ "volts": "500", "points": [{ "known": "1 MΩ", "uncertainty_percent": "1", "shown": "1.00 MΩ" }] });
    program.ask("record_quick_check", json!({ "tester": tester, "form": form }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let typed = json!({ "typed": { "text": "250", "comparator": "exact", "unit": "m" } });
    let saved = program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    assert!(!saved["saved"].to_string().contains(missed), "checked before this one");
    assert!(looked(), "the one before stays");
    let mut none = rules(&job, &same, "simple", "no longer");
    none["quick_check_days"] = json!(0);
    program.ask("set_job_rules", none);
    assert!(!looked());
}
