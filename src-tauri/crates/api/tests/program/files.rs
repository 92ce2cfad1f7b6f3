//! Job files in and out, and what is said beside readings: notes, stage, conditions.

use crate::support::{Program, single_phase, slot_at_500_v};
use serde_json::{Value, json};

fn typed(text: &str) -> Value {
    json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } })
}

fn save(program: &Program, board: &str, text: &str) -> Value {
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed(text) }))
}

fn ready() -> (Program, String, String) {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    (program, job, board)
}

#[test]
fn what_was_taken_back_comes_through_a_job_file_without_a_reason_of_its_own() {
    let (program, job, board) = ready();
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    save(&program, &board, "20");
    program.ask("undo_reading", json!({ "board": board }));
    save(&program, &board, "30");
    let text = program.api.job_file(&job).unwrap();
    let file: Value = serde_json::from_str(&text).unwrap();
    let past: Vec<&Value> = file["readings"].as_array().unwrap().iter().filter_map(|one| one.get("past")).collect();
    assert_eq!(past.len(), 1);
    assert_eq!(past[0].get("reason"), None, "an undo gives none: {}", past[0]);
    let origin = program.ask("origin", json!({ "board": board, "slot": slot }));
    assert!(origin.to_string().contains("Taken back"), "worded when it is shown: {origin}");

    let other = Program::start();
    let imported = other.ask("import_job_file", json!({ "text": text }));
    let again: Value = serde_json::from_str(&other.api.job_file(imported["job"].as_str().unwrap()).unwrap()).unwrap();
    let stands = |file: &Value| {
        let readings = file["readings"].as_array().unwrap().iter();
        readings.filter(|one| one.get("past").is_none()).map(|one| one["reading"]["shown"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(stands(&again), stands(&file));
    assert!(again["job"]["from_file"].as_bool().unwrap());
}

#[test]
fn a_replaced_reading_stays_replaced_in_whatever_order_the_file_lists_them() {
    let (program, job, board) = ready();
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    save(&program, &board, "0.20");
    let reading = program.ask("origin", json!({ "board": board, "slot": slot }))["current"][0]["id"].clone();
    program.ask(
        "replace_reading",
        json!({ "job": job, "reading": reading, "text": "40", "comparator": "exact", "unit": "m", "why": "repaired" }),
    );
    let mut file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    file["readings"].as_array_mut().unwrap().reverse();
    let other = Program::start();
    let imported = other.ask("import_job_file", json!({ "text": file.to_string() }));
    let again: Value = serde_json::from_str(&other.api.job_file(imported["job"].as_str().unwrap()).unwrap()).unwrap();
    let standing = again["readings"].as_array().unwrap().iter().filter(|one| one.get("past").is_none()).count();
    assert_eq!(standing, 1, "{}", again["readings"]);
    assert_eq!(again["readings"][0]["past"]["fate"]["why"], "repaired");
}

#[test]
fn a_job_file_whose_replacements_run_in_a_circle_or_whose_correction_gives_no_reason_is_refused() {
    let (program, job, board) = ready();
    save(&program, &board, "20");
    save(&program, &board, "30");
    let file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    let id = |at: usize| file["readings"][at]["reading"]["id"].clone();
    let replaced = |by: Value| json!({ "fate": { "kind": "replaced", "by": by, "why": "repeated" }, "recorded_at": "2026-11-25T10:00:00Z" });
    let mut circle = file.clone();
    circle["readings"][0]["past"] = replaced(id(1));
    circle["readings"][1]["past"] = replaced(id(0));
    let mut silent = file.clone();
    silent["readings"][1]["corrections"] =
        json!([{ "test_voltage_v": "250", "reason": " ", "recorded_at": "2026-11-25T10:00:00Z" }]);
    let other = Program::start();
    for (spoiled, place) in [(circle, "readings[0]"), (silent, "readings[1].corrections[0]")] {
        let refused = other.refused("import_job_file", json!({ "text": spoiled.to_string() }));
        assert_eq!(refused.code, "not_a_job_file");
        assert!(refused.words.contains(place), "{refused:?}");
    }
    assert_eq!(other.ask("jobs", json!({}))["jobs"], json!([]));
}

#[test]
fn a_note_is_kept_and_changed_and_taken_away() {
    let (program, _, board) = ready();
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let note = |text: &str| program.ask("set_note", json!({ "board": board, "slot": slot, "text": text }));
    assert_eq!(note(" damp behind the panel ")["note"], "damp behind the panel");
    assert_eq!(note("dry again")["note"], "dry again");
    assert_eq!(note("")["note"], Value::Null);
}

#[test]
fn each_stage_has_its_own_slots() {
    let (program, _, board) = ready();
    save(&program, &board, "20");
    let after = program.ask("set_stage", json!({ "board": board, "stage": "after" }));
    let signs = |view: &Value| -> Vec<String> {
        view["slots"].as_array().unwrap().iter().map(|slot| slot["sign"].as_str().unwrap().to_owned()).collect()
    };
    assert!(signs(&after).iter().all(|sign| sign == "todo"), "{}", after["slots"]);
    let before = program.ask("set_stage", json!({ "board": board, "stage": "before" }));
    assert!(signs(&before).iter().any(|sign| sign != "todo"));
}

#[test]
fn a_reduced_voltage_is_allowed_for_a_reason_of_the_set_and_said() {
    let program = Program::start();
    let (job, board) = program.job();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase", "spd_stays": true });
    program.circuits(&board, 1, form);
    program.ask("set_volts", json!({ "board": board, "volts": 250 }));
    let conditions = json!({ "board": board, "loads": "out", "n_isolated": true, "reduced": "surge_protector" });
    let view = program.ask("set_conditions", conditions);
    assert_eq!(view["conditions"]["reduced"], "surge_protector");
    assert_eq!(view["conditions"]["n_isolated"], true);
    let saved = save(&program, &board, "1.20");
    assert!(
        saved["saved"]["sentences"].to_string().contains("meets 1.0\u{a0}MΩ at 250\u{a0}V"),
        "IEC 60364-6:2016: 250 V where a surge protector stays, the minimum staying 1 MΩ: {}",
        saved["saved"]
    );
    let file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    assert_eq!(file["readings"][0]["reading"]["conditions"]["reduced"], "surge_protector");
    assert_eq!(file["readings"][0]["reading"]["conditions"]["n_isolated"], true);
}

#[test]
fn a_job_taken_from_a_file_is_taken_back_whole_and_no_more_once_somebody_worked_on_it() {
    let from = Program::start();
    let (job, board) = from.job();
    from.circuits(&board, 2, single_phase());
    let tester = from.tester("Tester A");
    from.ask("choose_tester", json!({ "board": board, "tester": tester }));
    let slot = slot_at_500_v(&from, &board);
    from.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed("487") }));
    let text = from.api.job_file(&job).unwrap();

    let to = Program::start_with(7);
    let before = [to.ask("jobs", json!({})), to.ask("testers", json!({}))];
    let imported = to.ask("import_job_file", json!({ "text": text }));
    assert_ne!(to.ask("jobs", json!({})), before[0], "it is there");
    to.ask("undo", json!({ "token": imported["done"]["undo"] }));
    assert_eq!([to.ask("jobs", json!({})), to.ask("testers", json!({}))], before);

    let imported = to.ask("import_job_file", json!({ "text": text }));
    let job = &imported["job"];
    to.ask("add_board", json!({ "job": job, "name": "DB-9" }));
    let refused = to.refused("undo", json!({ "token": imported["done"]["undo"] }));
    assert_eq!(refused.code, "worked_on_since", "{}", refused.words);
    assert_eq!(
        to.ask("job", json!({ "job": job }))["boards"].as_array().unwrap().len(),
        2,
        "nothing of it was taken back"
    );
}
