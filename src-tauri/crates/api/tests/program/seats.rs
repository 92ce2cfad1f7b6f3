//! Several people who log in at one program: whose work is whose, and what one chooses for themselves.

use crate::support::{Program, single_phase};
use provenohm_api::{PersonId, Seat};
use serde_json::{Value, json};

fn seat(person: u128, name: &str) -> Seat {
    let person = serde_json::from_value::<PersonId>(json!(format!("{person:032x}"))).unwrap();
    Seat { person, name: name.to_owned(), role: "Recorder".to_owned() }
}

fn ask(program: &Program, seat: &Seat, operation: &str, input: Value) -> Value {
    program.api.call_as(seat, operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
}

fn refused(program: &Program, seat: &Seat, operation: &str, input: Value) -> String {
    program.api.call_as(seat, operation, input).unwrap_err().code
}

fn names(view: &Value) -> Vec<&str> {
    view["people"].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap()).collect()
}

#[test]
fn a_job_begun_at_a_seat_is_of_that_person_whatever_name_is_typed() {
    let program = Program::start();
    let one = seat(1, "A. Recorder");
    for start in
        [json!({ "name": "Mill Lane", "place": "", "person": "" }), json!({ "name": "B", "place": "", "person": "C" })]
    {
        let view = ask(&program, &one, "start_job", start);
        assert_eq!((names(&view), &view["me"]), (vec!["A. Recorder"], &json!(one.person)));
        assert_eq!(view["people"][0]["role"], "Recorder");
    }
    let demo = ask(&program, &one, "make_demo", json!({}));
    assert_eq!(names(&demo), ["A. Recorder"]);
}

#[test]
fn whoever_first_writes_in_a_job_joins_its_people_once_and_undo_leaves_them_there() {
    let program = Program::start();
    let (one, other) = (seat(1, "A. Recorder"), seat(2, "B. Recorder"));
    let job = ask(&program, &one, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" }))["id"].clone();
    let board = ask(&program, &one, "add_board", json!({ "job": job, "name": "DB-1" }))["boards"][0]["id"].clone();
    assert_eq!(names(&ask(&program, &other, "job", json!({ "job": job }))), ["A. Recorder"], "looking is no joining");
    let many = json!({ "board": board, "count": "2", "form": single_phase() });
    let added = ask(&program, &other, "add_many_circuits", many.clone());
    ask(&program, &other, "add_many_circuits", many);
    assert_eq!(names(&ask(&program, &one, "job", json!({ "job": job }))), ["A. Recorder", "B. Recorder"]);
    assert_eq!(refused(&program, &one, "undo", json!({ "token": added["undo"] })), "not_you");
    ask(&program, &other, "undo", json!({ "token": added["undo"] }));
    let view = ask(&program, &one, "job", json!({ "job": job }));
    assert_eq!(names(&view), ["A. Recorder", "B. Recorder"]);
    assert_eq!(view["boards"][0]["summary"].as_str().unwrap().split(' ').next(), Some("2"), "{view}");
}

#[test]
fn nobody_acts_or_signs_as_somebody_else() {
    let program = Program::start();
    let (one, other) = (seat(1, "A. Recorder"), seat(2, "B. Recorder"));
    let job = ask(&program, &one, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" }))["id"].clone();
    program.api.know(&other).unwrap();
    let named = ask(&program, &one, "add_person", json!({ "job": job, "name": "B. Recorder", "role": "" }));
    assert_eq!(named["people"][1]["id"], json!(other.person), "a login is known by its name before its first work");
    assert_eq!(refused(&program, &one, "be_person", json!({ "job": job, "person": other.person })), "not_you");
    ask(&program, &one, "be_person", json!({ "job": job, "person": one.person }));
    assert_eq!(refused(&program, &one, "sign_off", json!({ "job": job, "name": "B. Recorder" })), "not_you");
    for name in ["", "A. Recorder"] {
        assert_eq!(refused(&program, &one, "sign_off", json!({ "job": job, "name": name })), "sign_off_nothing");
    }
}

#[test]
fn what_a_person_chooses_is_theirs_and_what_the_record_says_is_everybodys() {
    let program = Program::start();
    let (one, other) = (seat(1, "A. Recorder"), seat(2, "B. Recorder"));
    let (_, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let testers = ["Tester A", "Tester B"].map(|name| program.tester(name));
    for (seat, tester) in [(&one, &testers[0]), (&other, &testers[1])] {
        ask(&program, seat, "choose_tester", json!({ "board": board, "tester": tester }));
    }
    // Each sees their own tester, though one job is judged for both.
    for (seat, name) in [(&one, "Tester A"), (&other, "Tester B"), (&one, "Tester A")] {
        let view = ask(&program, seat, "run", json!({ "board": board }));
        assert!(view["tester"].to_string().contains(name), "{}", view["tester"]);
    }
    ask(&program, &one, "set_place", json!({ "hash": "#/testers" }));
    ask(&program, &one, "set_settings", json!({ "theme": "dark", "hand": "left", "gloves": true, "locale": "en-XA" }));
    let asked = |seat| ask(&program, seat, "settings", json!({}))["settings"]["locale"].clone();
    assert_eq!((asked(&one), asked(&other)), (json!("en-XA"), json!("en")));
    assert!(ask(&program, &one, "limit_sets", json!({})).to_string().contains('«'), "in their own language");
    assert_eq!(ask(&program, &other, "place", json!({}))["hash"], Value::Null);
    // Who records at the device itself is neither.
    assert_eq!(program.ask("place", json!({}))["hash"], Value::Null);
    assert_eq!(program.ask("settings", json!({}))["settings"]["theme"], "system");
}
