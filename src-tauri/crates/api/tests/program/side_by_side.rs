//! Two devices say different things of one slot, one person or what one of them removed: nothing is chosen by order.

use crate::settle::{Two, choices, give, open, read};
use crate::support::{Program, slot_at_500_v};
use serde_json::{Value, json};

fn not_tested(program: &Program, board: &str, reason: &str) {
    let slot = slot_at_500_v(program, board);
    program.ask("mark_not_tested", json!({ "board": board, "slot": slot, "reason": reason }));
}

fn settle(program: &Program, job: &str, question: &Value, words: &str) -> Value {
    let at = choices(question).iter().position(|it| it == words).unwrap();
    let choice = json!({ "job": job, "question": question["id"], "choice": question["choices"][at]["id"] });
    program.ask("settle", choice)["done"]["undo"].clone()
}

fn counts(program: &Program, job: &str) -> [u64; 3] {
    let look = program.ask("look", json!({ "job": job }));
    ["look", "stop", "not_tested"].map(|name| look[name].as_u64().unwrap())
}

fn sorted(question: &Value) -> Vec<String> {
    let mut all = choices(question);
    all.sort();
    all
}

fn one(all: Vec<Value>) -> Value {
    assert_eq!(all.len(), 1, "{all:?}");
    all.into_iter().next().unwrap()
}

#[test]
fn two_reasons_why_a_pair_was_not_tested_are_two_until_one_is_chosen() {
    let two = Two::start();
    not_tested(&two.one, &two.board, "no_access");
    not_tested(&two.other, &two.board, "live");
    let question = one(two.meet());
    assert_eq!(question["asks"], "Two reasons why one pair was not tested");
    assert_eq!((&question["place"], &question["both"]), (&json!("DB-1 · 1 · L–N"), &Value::Null));
    for program in [&two.one, &two.other] {
        assert_eq!(counts(program, &two.job), [2, 0, 1], "beside what is missing; no judgement rests on it");
        let look = program.ask("look", json!({ "job": two.job }));
        assert_eq!(look["items"][0]["sentences"].as_array().unwrap().len(), 2, "both are told: {look}");
    }
    let words = choices(&question)[0].clone();
    let undo = settle(&two.one, &two.job, &question, &words);
    assert_eq!(two.meet(), Vec::<Value>::new());
    let look = two.other.ask("look", json!({ "job": two.job }));
    assert_eq!(look["items"][0]["sentences"].as_array().unwrap().len(), 1);
    two.one.ask("undo", json!({ "token": undo }));
    assert_eq!(two.meet(), [question]);
}

#[test]
fn the_same_reason_said_twice_asks_nobody() {
    let two = Two::start();
    not_tested(&two.one, &two.board, "no_access");
    not_tested(&two.other, &two.board, "no_access");
    assert_eq!(two.meet(), Vec::<Value>::new());
}

#[test]
fn a_reading_and_the_word_of_another_device_that_none_was_taken_stop_until_one_is_chosen() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    not_tested(&two.other, &two.board, "no_access");
    let question = one(two.meet());
    assert_eq!((&question["asks"], &question["both"]), (&json!("Tested, or not tested"), &Value::Null));
    let said = sorted(&question);
    assert_eq!(said[0], "487\u{a0}MΩ");
    for program in [&two.one, &two.other] {
        assert_eq!(counts(program, &two.job), [1, 1, 0]);
    }
    let made = two.one.ask("make_schedule", json!({ "job": two.job, "format": "csv" }));
    let paper = std::fs::read_to_string(made["files"][0].as_str().unwrap()).unwrap();
    assert!(paper.contains(&format!("other value, to settle: {}", said[1])), "both are on the paper: {paper}");
    let undo = settle(&two.one, &two.job, &question, &said[1]);
    assert_eq!(two.meet(), Vec::<Value>::new());
    assert_eq!(counts(&two.other, &two.job), [2, 0, 1]);
    two.one.ask("undo", json!({ "token": undo }));
    let again = one(two.meet());
    assert_eq!(again["id"], question["id"]);
    settle(&two.one, &two.job, &again, "487\u{a0}MΩ");
    two.meet();
    assert_eq!(counts(&two.other, &two.job), [1, 0, 0]);
}

#[test]
fn who_knew_the_reading_says_that_no_other_could_be_taken_and_that_asks_nobody() {
    let two = Two::start();
    read(&two.one, &two.board, "487");
    let slot = slot_at_500_v(&two.one, &two.board);
    two.meet();
    let first = two.one.ask("look", json!({ "job": two.job }))["boards"][0]["rows"][0]["cells"][0]["slot"].clone();
    assert_ne!(slot, first);
    let said = json!({ "board": two.board, "slot": first, "reason": "no_access" });
    two.other.ask("mark_not_tested", said);
    assert_eq!(two.meet(), Vec::<Value>::new());
    assert_eq!(counts(&two.one, &two.job), [1, 0, 0]);
    // A job made of its file says the same.
    let text = two.one.api.job_file(&two.job).unwrap();
    let third = Program::start_with(5);
    let job = third.ask("import_job_file", json!({ "text": text }))["job"].as_str().unwrap().to_owned();
    assert_eq!(open(&third, &job), Vec::<Value>::new());
}

/// The same name added on each device, by its own person, who has then written something.
fn named_twice(two: &Two, name: &str) -> [String; 2] {
    [&two.one, &two.other].map(|program| {
        let people = program.ask("add_person", json!({ "job": two.job, "name": name }))["people"].clone();
        let id = people.as_array().unwrap().iter().find(|it| it["name"] == name).unwrap()["id"].clone();
        program.ask("be_person", json!({ "job": two.job, "person": id }));
        program.ask("confirm_cautions", json!({ "job": two.job }));
        id.as_str().unwrap().to_owned()
    })
}

#[test]
fn one_person_under_two_ids_is_asked_about_and_never_made() {
    let two = Two::start();
    let ids = named_twice(&two, "C. Recorder");
    assert_ne!(ids[0], ids[1]);
    let asked = |all: &[Value]| all.iter().find(|it| it["asks"] == "One person entered twice?").cloned();
    let all = two.meet();
    let question = asked(&all).unwrap();
    assert_eq!(
        (&question["place"], &choices(&question)[..]),
        (&json!("C. Recorder"), &["One and the same".to_owned(), "Two different ones".to_owned()][..])
    );
    let undo = settle(&two.one, &two.job, &question, "One and the same");
    assert_eq!(asked(&two.meet()), None);
    two.one.ask("undo", json!({ "token": undo }));
    assert!(asked(&two.meet()).is_some());
    settle(&two.other, &two.job, &question, "Two different ones");
    assert_eq!(asked(&two.meet()), None);
}

/// A circuit removed on the first device, after something was done to it on the other.
fn removed_here_and(change: impl Fn(&Two, &Value)) -> Vec<Value> {
    let two = Two::start();
    read(&two.one, &two.board, "0.50");
    two.meet();
    let circuit = two.circuit(&two.one, 0);
    two.one.ask("remove_circuit", json!({ "circuit": circuit["id"] }));
    change(&two, &circuit);
    let question = one(two.meet());
    assert_eq!(question["asks"], "Removed on one device, changed on another");
    question["choices"][0]["lines"].as_array().unwrap().clone()
}

/// The slot of the reading.
fn first_slot(two: &Two) -> Value {
    two.other.ask("look", json!({ "job": two.job }))["boards"][0]["rows"][0]["cells"][0]["slot"].clone()
}

#[test]
fn what_was_removed_here_and_asked_for_accepted_or_noted_there_stays_until_a_person_is_asked() {
    let review = |act: &'static str| {
        move |two: &Two, _: &Value| {
            let about = json!({ "board": two.board, "slot": first_slot(two), "reason": "looks odd" });
            two.other.ask(act, about);
        }
    };
    let said = removed_here_and(review("ask_reading"));
    assert!(said[0].as_str().unwrap().starts_with("A new reading asked for: B. Recorder, device "), "{said:?}");
    let said = removed_here_and(review("accept"));
    assert!(said[0].as_str().unwrap().starts_with("Something accepted with a reason: B. Recorder"), "{said:?}");
    let said = removed_here_and(|two, circuit| {
        let mut form = circuit["form"].clone();
        form["notes"] = json!("damp");
        two.other.ask("save_circuit", json!({ "board": two.board, "circuit": circuit["id"], "form": form }));
    });
    assert!(said[0].as_str().unwrap().starts_with("damp: B. Recorder, device "), "{said:?}");
}

#[test]
fn a_board_removed_here_and_given_to_somebody_or_put_in_order_there_stays() {
    for change in ["people", "order"] {
        let two = Two::start();
        two.one.ask("remove_board", json!({ "board": two.board }));
        if change == "people" {
            let me = two.other.ask("job", json!({ "job": two.job }))["me"].clone();
            two.other.ask("set_board_people", json!({ "board": two.board, "people": [me] }));
        } else {
            let circuit = two.circuit(&two.other, 0)["id"].clone();
            two.other.ask("move_circuit", json!({ "circuit": circuit, "by": 1 }));
        }
        assert_eq!(one(two.meet())["asks"], "Removed on one device, changed on another", "{change}");
    }
}

#[test]
fn two_removals_of_one_circuit_are_one() {
    let two = Two::start();
    let circuit = two.circuit(&two.one, 0)["id"].clone();
    read(&two.one, &two.board, "487");
    two.meet();
    for program in [&two.one, &two.other] {
        program.ask("remove_circuit", json!({ "circuit": circuit }));
    }
    assert_eq!(two.meet(), Vec::<Value>::new());
}

#[test]
fn a_tester_used_under_the_greater_of_its_ids_is_named_and_its_readings_are_counted() {
    let two = Two::start();
    let form = two.one.ask("tester", json!({ "tester": two.tester }))["card"].clone();
    let made = [&two.one, &two.other].map(|program| {
        let identity = json!({ "name": "Tester M", "serial": "M1" });
        let saved = program.ask("save_tester", json!({ "identity": identity, "card": form }));
        saved["id"].as_str().unwrap().to_owned()
    });
    let greater = made[0].clone().max(made[1].clone());
    let (user, lender, lent) =
        if greater == made[0] { (&two.one, &two.other, &made[1]) } else { (&two.other, &two.one, &made[0]) };
    user.ask("choose_tester", json!({ "board": two.board, "tester": greater }));
    read(user, &two.board, "487");
    // The other one comes along without a reading of its own.
    let path = lender.ask("hand_over", json!({ "job": two.job, "testers": [lent] }))["files"][0].clone();
    let bytes = std::fs::read(path.as_str().unwrap()).unwrap();
    user.ask("take_in_bundle", json!({ "base64": base64::Engine::encode(&base64::prelude::BASE64_STANDARD, bytes) }));
    let question = one(open(user, &two.job));
    assert_eq!(question["asks"], "One tester registered twice?");
    assert_eq!(question["place"], "Tester M, serial number M1");
    let lines = question["choices"][0]["lines"].to_string();
    assert!(lines.contains("1 reading counts for it"), "{lines}");
    settle(user, &two.job, &question, "One and the same");
    give(user, lender, &two.job);
    // Two names of the one: its place is a tester still, and so is the line under a reading.
    for (program, name) in [(user, "Tester P"), (lender, "Tester Q")] {
        let least = made[0].clone().min(made[1].clone());
        let identity = json!({ "name": name, "serial": "M1" });
        program.ask("save_tester", json!({ "tester": least, "identity": identity, "card": form }));
    }
    give(lender, user, &two.job);
    let question = one(open(user, &two.job));
    assert_eq!(question["asks"], "Two names of one tester");
    assert!(question["place"].as_str().unwrap().ends_with("serial number M1"), "{question}");
}

#[test]
fn whatever_is_asked_for_on_a_board_that_was_removed_goes_with_the_job_file() {
    let two = Two::start();
    let slot = slot_at_500_v(&two.one, &two.board);
    two.one.ask("ask_reading", json!({ "board": two.board, "slot": slot, "reason": "not read yet" }));
    two.one.ask("add_board", json!({ "job": two.job, "name": "DB-2" }));
    two.one.ask("remove_board", json!({ "board": two.board }));
    let text = two.one.api.job_file(&two.job).unwrap();
    Program::start_with(5).ask("import_job_file", json!({ "text": text }));
}

#[test]
fn nothing_on_a_paper_was_recorded_after_its_as_of() {
    // The clock of the second device is the later one.
    let two = Two::start();
    read(&two.other, &two.board, "487");
    let me = two.other.ask("job", json!({ "job": two.job }))["me"].clone();
    let circuit = two.circuit(&two.other, 1)["id"].clone();
    // The name of the file says "as of".
    let paper = || {
        let made = two.other.ask("make_schedule", json!({ "job": two.job, "format": "csv" }));
        let path = made["files"][0].as_str().unwrap().to_owned();
        path[path.len() - "20261125-100000.csv".len()..].to_owned()
    };
    let mut before = paper();
    let check = crate::recall::box_wrong_at_one_megohm(&two.tester);
    let acts: [(&str, Value); 6] = [
        ("rename_board", json!({ "board": two.board, "name": "DB-7" })),
        ("set_board_people", json!({ "board": two.board, "people": [me] })),
        ("move_circuit", json!({ "circuit": circuit, "by": -1 })),
        ("report_damage", json!({ "tester": two.tester, "what": "dropped" })),
        ("record_quick_check", check),
        ("set_job_names", json!({ "job": two.job, "name": "Mill Lane", "place": "North" })),
    ];
    for (act, asked) in acts {
        two.other.ask(act, asked);
        let after = paper();
        assert!(after > before, "{act}: {after} is not later than {before}");
        before = after;
    }
}

#[test]
fn an_own_reading_of_another_person_stands_beside_the_first_until_one_is_chosen() {
    let two = Two::start();
    read(&two.one, &two.board, "0.50");
    two.meet();
    let slot = first_slot(&two);
    two.other.ask("set_volts", json!({ "board": two.board, "volts": 500 }));
    let run = two.other.ask("run", json!({ "board": two.board, "slot": slot }));
    assert_eq!(run["hint"], "A new reading stands beside 0.50\u{a0}MΩ of another person until one is chosen");
    let typed = json!({ "typed": { "text": "120", "comparator": "exact", "unit": "m" } });
    two.other.ask("save_reading", json!({ "board": two.board, "slot": slot, "indication": typed }));
    let question = one(two.meet());
    assert_eq!(sorted(&question), ["0.50\u{a0}MΩ", "120\u{a0}MΩ"]);
    // Their own they replace as before.
    let again = json!({ "typed": { "text": "130", "comparator": "exact", "unit": "m" } });
    two.other.ask("save_reading", json!({ "board": two.board, "slot": slot, "indication": again }));
    assert_eq!(sorted(&one(two.meet())), ["0.50\u{a0}MΩ", "130\u{a0}MΩ"]);
}
