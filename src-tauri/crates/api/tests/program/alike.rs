//! What two devices recorded apart and that looks like one thing: it is asked, never made.

use crate::settle::{Two, choices, give, open, read};
use crate::support::{Program, single_phase};
use serde_json::{Value, json};

/// Each device adds a circuit of its own, by the reference it writes.
fn added_twice(two: &Two, mine: &str, theirs: &str) {
    for (program, reference) in [(&two.one, mine), (&two.other, theirs)] {
        let mut form = two.circuit(program, 0)["form"].clone();
        form["reference"] = json!(reference);
        program.ask("save_circuit", json!({ "board": two.board, "form": form }));
    }
}

fn references(program: &Program, board: &str) -> Vec<String> {
    let view = program.ask("circuits", json!({ "board": board }))["circuits"].clone();
    view.as_array().unwrap().iter().map(|one| one["reference"].as_str().unwrap().to_owned()).collect()
}

/// Reads the pairs of the last circuit, from the first on.
fn read_last(program: &Program, board: &str, texts: &[&str]) {
    let view = program.ask("circuits", json!({ "board": board }))["circuits"].clone();
    let last = view.as_array().unwrap().last().unwrap()["id"].clone();
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    program.ask("run", json!({ "board": board, "circuit": last }));
    for text in texts {
        let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
        let typed = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
        program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    }
}

/// Its job file is read by another program.
fn can_be_read_again(program: &Program, job: &str) {
    let text = program.api.job_file(job).unwrap();
    Program::start_with(5).ask("import_job_file", json!({ "text": text }));
}

fn answer(two: &Two, question: &Value, choice: &str) -> Value {
    let settled = two.one.ask("settle", json!({ "job": two.job, "question": question["id"], "choice": choice }));
    settled["done"]["undo"].clone()
}

/// The readings that stand: where, and what.
fn readings(program: &Program, job: &str) -> Vec<(String, String)> {
    let rows = program.ask("readings", json!({ "job": job }))["rows"].clone();
    let text = |it: &Value| it.as_str().unwrap().to_owned();
    let mut all: Vec<_> = rows.as_array().unwrap().iter().map(|it| (text(&it["place"]), text(&it["shown"]))).collect();
    all.sort();
    all
}

#[test]
fn a_circuit_added_on_both_is_asked_about_and_nothing_changes_by_that() {
    let two = Two::start();
    added_twice(&two, "7a", "7 A");
    read_last(&two.one, &two.board, &["487", "300"]);
    read_last(&two.other, &two.board, &["350"]);
    let all = two.meet();
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!((&all[0]["asks"], &all[0]["place"]), (&json!("One circuit added twice?"), &json!("DB-1 · 7a")));
    assert_eq!(choices(&all[0]), ["One and the same", "Two different ones"]);
    let lines = all[0]["choices"][0]["lines"].to_string();
    assert!(lines.contains("7a: A. Recorder, this device") && lines.contains("7 A: B. Recorder, device"), "{lines}");
    assert!(lines.contains("3 readings of both count for it"), "{lines}");
    for program in [&two.one, &two.other] {
        assert_eq!(references(program, &two.board).len(), 4, "two circuits more, until a person says otherwise");
        assert_eq!(program.ask("job", json!({ "job": two.job }))["stop"], 0, "a question is no stop");
    }
}

#[test]
fn one_and_the_same_has_the_readings_of_both_and_taking_it_back_brings_both_back() {
    let two = Two::start();
    added_twice(&two, "7", "7");
    read_last(&two.one, &two.board, &["487", "300"]);
    read_last(&two.other, &two.board, &["350"]);
    let question = two.meet()[0].clone();
    let apart = readings(&two.one, &two.job);
    assert_eq!(apart.len(), 3);
    let undo = answer(&two, &question, "same");

    // The first pair was read on both: that is to settle now.
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("Two readings of one pair")), "{all:?}");
    for program in [&two.one, &two.other] {
        assert_eq!(references(program, &two.board), ["1", "2", "7"]);
        assert_eq!(program.ask("job", json!({ "job": two.job }))["stop"], 1);
        let mut one = readings(program, &two.job);
        assert_eq!(one.len(), 3, "what was read on either counts");
        one.dedup_by_key(|(place, _)| place.clone());
        assert_eq!(one.len(), 2, "on the pairs of one circuit");
    }
    // Changed afterwards, it is one circuit still.
    let mut form = two.circuit(&two.one, 2)["form"].clone();
    let id = two.circuit(&two.one, 2)["id"].clone();
    form["description"] = json!("Oven");
    form["notes"] = json!("damp");
    let changed = two.one.ask("save_circuit", json!({ "board": two.board, "circuit": id, "form": form }));
    assert_eq!(two.meet().len(), 1, "one name");
    two.one.ask("undo", json!({ "token": changed["undo"] }));

    two.one.ask("undo", json!({ "token": undo }));
    assert_eq!(two.meet(), [question], "asked again");
    assert_eq!(readings(&two.one, &two.job), apart);
    assert_eq!(readings(&two.other, &two.job), apart);
}

#[test]
fn what_was_asked_for_on_either_is_asked_for_on_the_one() {
    let two = Two::start();
    added_twice(&two, "7", "7");
    for (program, pair) in [(&two.one, 0), (&two.other, 1)] {
        let look = program.ask("look", json!({ "job": two.job }));
        let row = look["boards"][0]["rows"].as_array().unwrap().last().unwrap().clone();
        let slot = &row["cells"][pair]["slot"];
        program.ask("ask_reading", json!({ "board": two.board, "slot": slot, "reason": "not read yet" }));
    }
    let question = two.meet()[0].clone();
    let undo = answer(&two, &question, "same");
    assert_eq!(two.meet(), Vec::<Value>::new());
    for program in [&two.one, &two.other] {
        let look = program.ask("look", json!({ "job": two.job }));
        assert_eq!(look["asked"], 2, "{look}");
        can_be_read_again(program, &two.job);
    }
    read_last(&two.one, &two.board, &["487", "300"]);
    assert_eq!(two.one.ask("look", json!({ "job": two.job }))["asked"], 0, "answered on the one that stands");
    two.one.ask("undo", json!({ "token": undo }));
    assert_ne!(two.one.ask("look", json!({ "job": two.job }))["asked"], 0, "the other waits again");
}

#[test]
fn circuits_called_otherwise_are_one_with_two_names_until_one_is_chosen() {
    let two = Two::start();
    added_twice(&two, "7", "7 ");
    let [mine, theirs] = [&two.one, &two.other].map(|program| two.circuit(program, 2));
    for (program, circuit, description) in [(&two.one, &mine, "Oven"), (&two.other, &theirs, "Stove")] {
        let mut form = circuit["form"].clone();
        form["description"] = json!(description);
        program.ask("save_circuit", json!({ "board": two.board, "circuit": circuit["id"], "form": form }));
    }
    let question = two.meet()[0].clone();
    let same = answer(&two, &question, "same");
    let names = two.meet()[0].clone();
    assert_eq!(names["asks"], "Two names of one circuit");
    let stove = choices(&names).iter().position(|it| it == "7 Stove").unwrap();
    answer(&two, &names, names["choices"][stove]["id"].as_str().unwrap());
    assert_eq!(two.meet(), Vec::<Value>::new());
    assert_eq!(two.circuit(&two.other, 2)["description"], "Stove");
    // Two again, and neither without a name.
    two.one.ask("undo", json!({ "token": same }));
    two.meet();
    assert_eq!(references(&two.other, &two.board), ["1", "2", "7", "7"]);
}

#[test]
fn two_different_circuits_are_not_asked_about_again_on_any_device() {
    let two = Two::start();
    added_twice(&two, "7", "7");
    let question = two.meet()[0].clone();
    let undo = answer(&two, &question, "different");
    assert_eq!(two.meet(), Vec::<Value>::new());
    let third = Program::start_with(99);
    give(&two.other, &third, &two.job);
    assert_eq!(open(&third, &two.job), Vec::<Value>::new());
    two.one.ask("undo", json!({ "token": undo }));
    assert_eq!(two.meet(), [question]);
}

#[test]
fn circuits_of_one_device_or_of_other_references_are_not_asked_about() {
    let two = Two::start();
    added_twice(&two, "7", "8");
    two.one.circuits(&two.board, 1, single_phase());
    let all = two.meet();
    // Whatever number the first device gave its new circuit, it is the 8 of the other's at most.
    assert!(all.iter().all(|one| one["place"] == "DB-1 · 8"), "{all:?}");
}

/// What each device wrote of the circuit may differ: that is shown, and settled once they are one.
#[test]
fn one_reference_is_asked_about_whatever_else_is_said_of_the_circuits() {
    let two = Two::start();
    for (program, nominal) in [(&two.one, "230"), (&two.other, "400")] {
        let mut form = two.circuit(program, 0)["form"].clone();
        form["reference"] = json!("7");
        form["nominal"] = json!(nominal);
        program.ask("save_circuit", json!({ "board": two.board, "form": form }));
    }
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("One circuit added twice?")), "{all:?}");
    let lines = all[0]["choices"][0]["lines"].to_string();
    assert!(lines.contains("They differ: 230"), "{lines}");
    answer(&two, &all[0], "same");
    let all = two.meet();
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!(choices(&all[0]).len(), 2, "which of the two it is: {all:?}");
}

/// Each device adds the board by its name: its circuits are asked about one by one, as boards are not joined.
#[test]
fn circuits_of_two_boards_of_one_name_are_asked_about() {
    let two = Two::start();
    for (program, name) in [(&two.one, "DB-9"), (&two.other, "db - 9"), (&two.other, "DB-8")] {
        let view = program.ask("add_board", json!({ "job": two.job, "name": name }));
        let board = view["boards"].as_array().unwrap().last().unwrap()["id"].as_str().unwrap().to_owned();
        program.circuits(&board, 1, single_phase());
    }
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("One circuit added twice?")), "{all:?}");
    let lines = all[0]["choices"][0]["lines"].to_string();
    assert!(lines.contains("On two boards of one name: DB"), "{lines}");
    answer(&two, &all[0], "same");
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("Two boards for one circuit")), "{all:?}");
    answer(&two, &all[0], all[0]["choices"][0]["id"].as_str().unwrap());
    assert_eq!(two.meet(), Vec::<Value>::new());
}

/// The same tester, written into each device's list by hand, and one reading on each.
fn registered_twice(two: &Two, serials: [&str; 2]) -> [String; 2] {
    let form = two.one.ask("tester", json!({ "tester": two.tester }))["card"].clone();
    let made = [(&two.one, serials[0]), (&two.other, serials[1])].map(|(program, serial)| {
        let identity = json!({ "name": "Tester M", "serial": serial });
        let id = program.ask("save_tester", json!({ "identity": identity, "card": form }))["id"].clone();
        program.ask("choose_tester", json!({ "board": two.board, "tester": id }));
        id.as_str().unwrap().to_owned()
    });
    read(&two.one, &two.board, "487");
    let second = two.circuit(&two.other, 1)["id"].clone();
    two.other.ask("set_volts", json!({ "board": two.board, "volts": 500 }));
    let slot = two.other.ask("run", json!({ "board": two.board, "circuit": second }))["slot"].clone();
    let typed = json!({ "typed": { "text": "350", "comparator": "exact", "unit": "m" } });
    two.other.ask("save_reading", json!({ "board": two.board, "slot": slot, "indication": typed }));
    made
}

fn levels(program: &Program, job: &str) -> Vec<Value> {
    let rows = program.ask("readings", json!({ "job": job }))["rows"].clone();
    rows.as_array().unwrap().iter().map(|it| it["level"].clone()).collect()
}

#[test]
fn a_tester_registered_twice_is_one_in_its_proofs_its_recall_and_its_list() {
    let two = Two::start();
    let [mine, theirs] = registered_twice(&two, ["m 1", "M1"]);
    two.one.certificate(&mine, "3 Mar 2026", "3 Mar 2027");
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("One tester registered twice?")), "{all:?}");
    assert_eq!(levels(&two.other, &two.job), ["done", "look"], "only one of them is proved");
    let undo = answer(&two, &all[0], "same");

    // The serial number was written in two ways: that is to settle, and nothing else.
    let all = two.meet();
    assert_eq!((all.len(), &all[0]["asks"]), (1, &json!("Two names of one tester")), "{all:?}");
    let written = choices(&all[0]).iter().position(|it| it == "Tester M · M1").unwrap();
    answer(&two, &all[0], all[0]["choices"][written]["id"].as_str().unwrap());
    assert_eq!(two.meet(), Vec::<Value>::new());
    for program in [&two.one, &two.other] {
        assert_eq!(levels(program, &two.job), ["done", "done"], "what proves one proves the other");
        let testers = program.ask("testers", json!({}))["testers"].clone();
        let named = testers.as_array().unwrap().iter().filter(|it| it["name"] == "Tester M").count();
        assert_eq!(named, 1, "{testers}");
        assert_eq!(program.ask("job", json!({ "job": two.job }))["testers"].as_array().unwrap().len(), 1);
    }
    can_be_read_again(&two.other, &two.job);
    // Damage found on one puts the readings of both in doubt, and the serial number leads to both.
    let told = two.one.ask("report_damage", json!({ "tester": theirs, "what": "dropped" }));
    assert_eq!(told["id"], json!(theirs));
    assert_eq!(two.meet(), Vec::<Value>::new());
    for asked in ["m1", mine.as_str(), theirs.as_str()] {
        let recall = two.other.ask("recall", json!({ "tester": asked }));
        assert_eq!((&recall["candidates"], &recall["counts"]["all"]), (&json!([]), &json!(2)), "{asked}: {recall}");
    }
    two.one.ask("undo", json!({ "token": undo }));
    two.meet();
    let after = levels(&two.other, &two.job);
    assert_ne!(after[0], "look", "the damage was of the other: {after:?}");
    let testers = two.other.ask("testers", json!({}))["testers"].clone();
    assert_eq!(testers.as_array().unwrap().iter().filter(|it| it["name"] == "Tester M").count(), 2, "{testers}");
}

#[test]
fn two_testers_with_one_serial_number_can_be_two() {
    let two = Two::start();
    registered_twice(&two, ["M1", "M1"]);
    let question = two.meet()[0].clone();
    let undo = answer(&two, &question, "different");
    assert_eq!(two.meet(), Vec::<Value>::new());
    two.one.ask("undo", json!({ "token": undo }));
    assert_eq!(two.meet(), [question]);
}
