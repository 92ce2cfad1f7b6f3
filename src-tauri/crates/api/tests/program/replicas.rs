//! Bundles arrive in any order: the devices judge alike.

use crate::settle::{Two, choices, give, open, read};
use crate::support::{Program, slot_at_500_v};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

fn handed(program: &Program, job: &str) -> Vec<u8> {
    let path = program.ask("hand_over", json!({ "job": job, "testers": [] }))["files"][0].clone();
    std::fs::read(path.as_str().unwrap()).unwrap()
}

/// Everything that is judged, and what waits: without who holds the device.
fn judged(program: &Program, job: &str) -> Value {
    let mut look = program.ask("look", json!({ "job": job }));
    look["me"] = Value::Null;
    let questions: Vec<Value> =
        open(program, job).iter().map(|it| json!([it["id"], it["asks"], it["place"], choices(it)])).collect();
    let readings = program.ask("readings", json!({ "job": job }))["rows"].clone();
    let mut file: Value = serde_json::from_str(&program.api.job_file(job).unwrap()).unwrap();
    file["made"] = Value::Null;
    json!({ "look": look, "questions": questions, "readings": readings, "file": file })
}

/// The orders of `0..count`.
fn orders(count: usize) -> Vec<Vec<usize>> {
    match count {
        0 => vec![Vec::new()],
        _ => orders(count - 1)
            .into_iter()
            .flat_map(|order| {
                (0..count).map(move |at| {
                    let mut order = order.clone();
                    order.insert(at, count - 1);
                    order
                })
            })
            .collect(),
    }
}

#[test]
fn every_order_of_arrival_gives_the_same_judgements() {
    let two = Two::start();
    let third = Program::start_with(99);
    give(&two.one, &third, &two.job);
    third.ask("add_person", json!({ "job": two.job, "name": "C. Recorder" }));
    third.ask("choose_tester", json!({ "board": two.board, "tester": two.tester }));
    let all = [&two.one, &two.other, &third];

    // The first reads, the second says that it could not be, the third reads it otherwise and finds the tester wrong.
    read(&two.one, &two.board, "487");
    read(&two.one, &two.board, "0.50");
    let slot = slot_at_500_v(&two.other, &two.board);
    two.other.ask("mark_not_tested", json!({ "board": two.board, "slot": slot, "reason": "no_access" }));
    read(&third, &two.board, "0.70");
    third.ask("record_quick_check", crate::recall::box_wrong_at_one_megohm(&two.tester));
    let first = two.circuit(&two.one, 0);
    two.one.ask("remove_circuit", json!({ "circuit": two.circuit(&two.one, 1)["id"] }));
    for (program, description) in [(&two.one, "Oven"), (&two.other, "Stove")] {
        let mut form = first["form"].clone();
        form["description"] = json!(description);
        program.ask("save_circuit", json!({ "board": two.board, "circuit": first["id"], "form": form }));
    }
    let early = handed(&two.one, &two.job);
    // Later the first learns of the second, and settles one thing.
    give(&two.other, &two.one, &two.job);
    let question = open(&two.one, &two.job).into_iter().find(|it| it["asks"] == "Two names of one circuit").unwrap();
    let choice = json!({ "job": two.job, "question": question["id"], "choice": question["choices"][0]["id"] });
    two.one.ask("settle", choice);

    let bundles = [early, handed(&two.one, &two.job), handed(&two.other, &two.job), handed(&third, &two.job)];
    let mut first: Option<Value> = None;
    for (number, order) in orders(bundles.len()).into_iter().enumerate() {
        let program = Program::start_with(1000 + number as u64);
        for at in &order {
            program.ask("take_in_bundle", json!({ "base64": BASE64_STANDARD.encode(&bundles[*at]) }));
        }
        let now = judged(&program, &two.job);
        assert!(!now["questions"].as_array().unwrap().is_empty());
        match &first {
            None => first = Some(now),
            Some(first) => assert_eq!(&now, first, "{order:?}"),
        }
    }
    // And those that recorded it say no other.
    for program in all {
        for bundle in &bundles {
            program.ask("take_in_bundle", json!({ "base64": BASE64_STANDARD.encode(bundle) }));
        }
        let (now, first) = (judged(program, &two.job), first.as_ref().unwrap());
        assert_eq!((&now["questions"], &now["readings"]), (&first["questions"], &first["readings"]));
    }
}
