//! The demo job is as varied as real work, and says that it is invented.

use crate::support::Program;
use serde_json::{Value, json};

fn demo() -> (Program, Value) {
    let program = Program::start();
    let job = program.ask("make_demo", json!({}));
    (program, job)
}

#[test]
fn three_boards_sixty_circuits_six_testers_and_it_says_so() {
    let (program, job) = demo();
    assert_eq!(job["demo"], true);
    assert!(job["name"].as_str().unwrap().contains("Invented"));
    let jobs = program.ask("jobs", json!({}));
    assert!(jobs["jobs"][0]["summary"].as_str().unwrap().starts_with("3 boards, 60 circuits, "), "{jobs}");
    assert_eq!(program.ask("testers", json!({}))["testers"].as_array().unwrap().len(), 6);
}

#[test]
fn the_east_board_waits_with_fifty_four_pairs() {
    let (program, job) = demo();
    let east = &job["boards"][1];
    assert_eq!((east["done"].clone(), east["of"].clone()), (json!(0), json!(54)));
    let view = program.ask("circuits", json!({ "board": east["id"] }));
    assert_eq!(view["sum"], "54 readings for 12 circuits");
}

#[test]
fn it_holds_everything_there_is_to_look_at() {
    let (program, job) = demo();
    let look = program.ask("look", json!({ "job": job["id"] }));
    let sentences = look["items"].to_string();
    for said in ["below 1.0\u{a0}MΩ", "too close to call", "no access", "Tester B", "Tester C", "Tester D"] {
        assert!(sentences.contains(said), "nothing says {said}: {sentences}");
    }
    let states: Vec<&str> =
        job["testers"].as_array().unwrap().iter().map(|one| one["state"]["words"].as_str().unwrap()).collect();
    assert!(states.iter().any(|words| words.contains("proved to")), "{states:?}");
    assert!(states.iter().any(|words| words.contains("not proved")), "{states:?}");
    assert!(states.iter().any(|words| words.contains("lapsed")), "{states:?}");
    assert!(states.iter().any(|words| words.contains("barred")), "{states:?}");
}

#[test]
fn the_reading_before_the_repair_stays_on_record() {
    let (program, job) = demo();
    let workshop = job["boards"][2]["id"].clone();
    let rows = program.ask("readings", json!({ "job": job["id"], "board": workshop }));
    let repaired = rows["rows"].as_array().unwrap().iter().find(|row| row["shown"] == "410\u{a0}MΩ").unwrap().clone();
    let origin = program.ask("origin", json!({ "board": workshop, "slot": repaired["slot"] }));
    assert_eq!(origin["earlier"][0]["shown"], "0.35\u{a0}MΩ");
    assert!(origin["earlier"][0]["what"].as_str().unwrap().contains("repaired"), "{origin}");
}

#[test]
fn the_job_counts_what_the_list_of_things_to_look_at_holds() {
    let (program, job) = demo();
    let look = program.ask("look", json!({ "job": job["id"] }));
    assert_eq!((&job["look"], &job["stop"]), (&look["look"], &look["stop"]));
    let items = look["items"].as_array().unwrap();
    assert_eq!(look["look"].as_u64().unwrap() + look["stop"].as_u64().unwrap(), items.len() as u64);
}

#[test]
fn the_schedule_is_shown_page_by_page_and_made_as_files() {
    let (program, job) = demo();
    let ready = program.ask("schedule", json!({ "job": job["id"] }));
    assert!(ready["ready"].to_string().contains("Not signed"), "{ready}");
    let page = program.ask("preview_page", json!({ "job": job["id"], "page": 1 }));
    assert!(page["png_base64"].as_str().unwrap().starts_with("iVBORw0KGgo"), "a PNG");
    let beyond = page["pages"].as_u64().unwrap() + 1;
    let refused = program.refused("preview_page", json!({ "job": job["id"], "page": beyond }));
    assert_eq!(refused.code, "page_not_there");
    for (format, head) in [("pdf", &b"%PDF"[..]), ("xlsx", b"PK"), ("csv", b"line_number,")] {
        let written = program.ask("make_schedule", json!({ "job": job["id"], "format": format }));
        let bytes = std::fs::read(written["files"][0].as_str().unwrap()).unwrap();
        assert!(bytes.starts_with(head), "{format}");
    }
}

/// A fleet: sound, wrong at the low end, voltage falling under load, lapsed, failed after being used on two jobs.
#[test]
fn the_fleet_has_a_tester_for_every_way_to_be_wrong() {
    let (program, _) = demo();
    let testers = program.ask("testers", json!({}))["testers"].clone();
    let tester = |name: &str| -> Value {
        let found = testers.as_array().unwrap().iter().find(|one| one["name"] == name).unwrap();
        program.ask("tester", json!({ "tester": found["id"] }))
    };
    let at_500 = |tester: &Value| tester["state"][1]["words"].as_str().unwrap().replace('\u{a0}', " ");
    assert!(at_500(&tester("Tester A")).contains("proved to"));
    assert!(at_500(&tester("Tester C")).contains("lapsed"));
    assert_eq!(at_500(&tester("Tester E")), "500 V: Tester E · barred at 1.0 MΩ");
    assert_eq!(at_500(&tester("Tester F")), "500 V: Tester F · barred");
    let low = tester("Tester E")["verifications"].to_string().replace('\u{a0}', " ");
    assert!(low.contains("indications hold 10 MΩ to 500 MΩ"), "{low}");
    let recall = program.ask("recall", json!({ "tester": tester("Tester D")["id"] }));
    assert_eq!(recall["jobs"].as_array().unwrap().len(), 2, "{recall}");
    let references = program.ask("references", json!({}));
    let named = |one: &Value| one["title"].as_str().unwrap().starts_with("Invented");
    assert!(references["references"].as_array().unwrap().iter().all(named), "{references}");
}

/// The text of the pages at a path, as poppler-utils reads it.
fn pages(made: &Value) -> Vec<String> {
    let path = made["files"][0].as_str().unwrap();
    let output = std::process::Command::new("pdftotext").args([path, "-"]).output().unwrap();
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    text.split('\u{c}').filter(|page| !page.trim().is_empty()).map(str::to_owned).collect()
}

#[test]
fn each_of_its_testers_is_said_to_be_invented_on_screen_and_on_paper() {
    let (program, _) = demo();
    let real = program.tester("Tester of our own");
    let mut reports = 0;
    for line in program.ask("testers", json!({}))["testers"].as_array().unwrap() {
        let tester = &line["id"];
        let invented = *tester != real;
        assert_eq!(line["invented"], invented, "{line}");
        assert_eq!(program.ask("tester", json!({ "tester": tester }))["invented"], invented);
        let list = program.ask("make_recall", json!({ "tester": tester, "format": "pdf" }));
        assert!(pages(&list).iter().all(|page| page.contains("Invented demonstration data") == invented), "{line}");
        for bench in program.ask("benches", json!({ "tester": tester }))["runs"].as_array().unwrap() {
            let report = program.ask("make_tester_report", json!({ "bench": bench["id"], "format": "pdf" }));
            assert!(pages(&report).iter().all(|page| page.contains("Invented data")), "{line}");
            reports += 1;
        }
    }
    assert_eq!(reports, 2, "of the two the bench finds wrong");
}

#[test]
fn an_invented_tester_stays_so_under_another_name() {
    let (program, _) = demo();
    let tester = program.ask("testers", json!({}))["testers"][5]["id"].clone();
    let view = program.ask("tester", json!({ "tester": tester }));
    let mut identity = view["identity"].clone();
    identity["name"] = json!("Renamed");
    let saved = program.ask("save_tester", json!({ "tester": tester, "identity": identity, "card": view["card"] }));
    assert_eq!((&saved["identity"]["name"], &saved["invented"]), (&json!("Renamed"), &json!(true)));
}
