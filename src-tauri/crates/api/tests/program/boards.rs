//! A board goes and comes back; what was measured on it stays in the record and on paper.

use crate::support::{Program, single_phase, slot_at_500_v};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

#[test]
fn a_board_with_readings_goes_stays_on_the_schedule_and_comes_back() {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let slot = slot_at_500_v(&program, &board);
    let typed = json!({ "typed": { "text": "3.21", "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    let boards = |program: &Program| program.ask("job", json!({ "job": job }))["boards"].as_array().unwrap().len();
    let schedule = |program: &Program| -> String {
        let made = program.ask("make_schedule", json!({ "job": job, "format": "csv" }));
        std::fs::read_to_string(made["files"][0].as_str().unwrap()).unwrap()
    };
    assert!(!schedule(&program).contains("taken away"));

    let done = program.ask("remove_board", json!({ "board": board }));
    assert_eq!(done["words"], "Removed DB-1 and 1 reading: it stays in the record and on the schedule");
    assert_eq!(boards(&program), 0);
    assert_eq!(program.refused("run", json!({ "board": board })).code, "not_found");
    let paper = schedule(&program);
    assert!(paper.contains("3.21") && paper.contains("DB-1, taken away"), "{paper}");
    let file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    assert_eq!(file["boards"][0]["taken_away"], true);

    program.ask("undo", json!({ "token": done["undo"] }));
    assert_eq!(boards(&program), 1);
    assert_eq!(program.ask("run", json!({ "board": board }))["read_back"]["shown"], "3.21\u{a0}MΩ");
    assert!(!schedule(&program).contains("taken away"));
}

#[test]
fn a_board_taken_away_stays_away_through_a_job_file() {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let slot = slot_at_500_v(&program, &board);
    let typed = json!({ "typed": { "text": "3.21", "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    program.ask("remove_board", json!({ "board": board }));
    let mut file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    file["job"]["id"] = json!("018f0000-0000-7000-8000-000000000001");
    let taken = program.ask("import_job_file", json!({ "text": file.to_string() }));
    let view = program.ask("job", json!({ "job": taken["job"] }));
    assert_eq!(view["boards"], json!([]));
    let again: Value = serde_json::from_str(&program.api.job_file(taken["job"].as_str().unwrap()).unwrap()).unwrap();
    assert_eq!(again["boards"][0]["taken_away"], true);
    assert_eq!(again["readings"][0]["reading"]["shown"], file["readings"][0]["reading"]["shown"]);
}

#[test]
fn a_board_without_readings_leaves_nothing_on_paper() {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 2, single_phase());
    let done = program.ask("remove_board", json!({ "board": board }));
    assert_eq!(done["words"], "Removed DB-1");
    let file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    assert_eq!(file["boards"], json!([]));
}

#[test]
fn what_stops_a_sign_off_goes_on_stopping_it_when_its_circuit_or_board_is_taken_away() {
    let program = Program::start();
    let (job, board) = program.job();
    let view = program.circuits(&board, 1, single_phase());
    let slot = slot_at_500_v(&program, &board);
    // No tester was chosen: a Stop.
    let typed = json!({ "typed": { "text": "3.21", "comparator": "exact", "unit": "m" } });
    let saved = program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    let stops = || {
        [
            program.ask("job", json!({ "job": job }))["stop"].clone(),
            program.ask("look", json!({ "job": job }))["stop"].clone(),
        ]
    };
    assert_eq!(stops(), [1, 1]);
    program.ask("remove_circuit", json!({ "circuit": view["circuits"][0]["id"] }));
    assert_eq!(stops(), [1, 1]);
    program.ask("remove_board", json!({ "board": board }));
    assert_eq!(stops(), [1, 1]);
    let look = program.ask("look", json!({ "job": job }));
    assert_eq!(look["items"][0]["level"], "stop", "{look}");
    assert_eq!(look["items"][0]["place"], "DB-1 · 1 · L–N");
    let to_correct = program.ask("readings", json!({ "job": job }));
    assert_eq!(to_correct["rows"][0]["place"], "DB-1 · 1 · L–N", "a tester named now ends it");
    let reading = &saved["saved"]["reading"];
    program.ask("withdraw_reading", json!({ "job": job, "reading": reading, "reason": "wrong circuit" }));
    assert_eq!(stops(), [0, 0]);
}

/// Who does a board is a note that travels with the job and keeps nobody from recording; two notes wait to be settled.
#[test]
fn who_does_a_board_is_said_and_settled_and_locks_nothing() {
    let program = Program::start();
    let (job, board) = program.job();
    let view = program.ask("add_person", json!({ "job": job, "name": "B. Recorder", "role": "" }));
    let id = |name: &str| {
        let people = view["people"].as_array().unwrap();
        people.iter().find(|person| person["name"] == name).unwrap()["id"].clone()
    };
    assert_eq!(view["boards"][0]["people_words"], Value::Null);
    let asked = |people: Value| json!({ "board": board, "people": people });
    let view = program.ask("set_board_people", asked(json!([id("A. Recorder"), id("B. Recorder")])));
    assert_eq!(view["boards"][0]["people_words"], "for A. Recorder, B. Recorder");
    let view = program.ask("set_board_people", asked(json!([])));
    assert_eq!(view["boards"][0]["people_words"], Value::Null);
    assert_eq!(program.refused("set_board_people", asked(json!([job]))).code, "not_found");

    let other = Program::start_with(7);
    let bring = |from: &Program, to: &Program| {
        let written = from.ask("hand_over", json!({ "job": job, "testers": [] }));
        let bytes = std::fs::read(written["files"][0].as_str().unwrap()).unwrap();
        to.ask("take_in_bundle", json!({ "base64": BASE64_STANDARD.encode(bytes) }));
    };
    bring(&program, &other);
    other.ask("be_person", json!({ "job": job, "person": id("B. Recorder") }));
    other.ask("set_board_people", asked(json!([id("B. Recorder")])));
    let view = program.ask("set_board_people", asked(json!([id("A. Recorder")])));
    assert_eq!(view["boards"][0]["people_words"], "for A. Recorder");
    bring(&other, &program);
    let open = program.ask("settling", json!({ "job": job }))["questions"][0].clone();
    let choices = open["choices"].as_array().unwrap();
    let names: std::collections::BTreeSet<&str> = choices.iter().map(|one| one["words"].as_str().unwrap()).collect();
    assert_eq!(names, ["A. Recorder", "B. Recorder"].into());
    let chosen = choices.iter().find(|one| one["words"] == "B. Recorder").unwrap()["id"].clone();
    program.ask("settle", json!({ "job": job, "question": open["id"], "choice": chosen }));
    let view = program.ask("job", json!({ "job": job }));
    assert_eq!((&view["boards"][0]["people_words"], &view["to_settle"]), (&json!("for B. Recorder"), &json!(0)));
    // A. Recorder records on it all the same.
    assert_eq!(program.ask("run", json!({ "board": board }))["board_name"], "DB-1");

    let text = program.api.job_file(&job).unwrap();
    let imported = Program::start_with(9);
    let made = imported.ask("import_job_file", json!({ "text": text }));
    assert_eq!(imported.ask("job", json!({ "job": made["job"] }))["boards"][0]["people_words"], "for B. Recorder");
}
