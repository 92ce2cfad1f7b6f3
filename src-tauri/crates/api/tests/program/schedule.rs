//! What the schedule says, read from its files as an electrician reads them.

use crate::support::{Program, single_phase};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::process::Command;

pub(crate) type Row = BTreeMap<String, String>;

fn file(program: &Program, job: &Value, format: &str) -> String {
    let made = program.ask("make_schedule", json!({ "job": job, "format": format }));
    made["files"][0].as_str().unwrap().to_owned()
}

pub(crate) fn rows(program: &Program, job: &Value) -> Vec<Row> {
    let mut reader = csv::Reader::from_path(file(program, job, "csv")).unwrap();
    reader.deserialize().map(|row| row.unwrap()).collect()
}

/// The text of the pages as poppler-utils reads it, in the order it was set.
pub(crate) fn paper(program: &Program, job: &Value) -> String {
    let output = Command::new("pdftotext").args(["-raw", &file(program, job, "pdf"), "-"]).output().unwrap();
    assert!(output.status.success());
    String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What page 1 lists, one sentence each.
fn listed(program: &Program, job: &Value) -> Vec<String> {
    let ready = program.ask("schedule", json!({ "job": job }));
    ready["ready"].as_array().unwrap().iter().map(|line| line["said"]["words"].as_str().unwrap().to_owned()).collect()
}

pub(crate) fn demo() -> (Program, Value) {
    let program = Program::start();
    let job = program.ask("make_demo", json!({}))["id"].clone();
    (program, job)
}

/// A job with one board of single-phase circuits and a tester set to 500 V, its leads checked.
struct Begun {
    program: Program,
    job: Value,
    board: String,
}

impl Begun {
    fn with(circuits: u32) -> Self {
        let program = Program::start();
        let (job, board) = program.job();
        program.circuits(&board, circuits, single_phase());
        let tester = program.tester("Tester A");
        program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        program.ask("choose_tester", json!({ "board": board, "tester": tester }));
        program.ask("set_volts", json!({ "board": board, "volts": 500 }));
        Self { program, job: json!(job), board }
    }

    fn save(&self, indication: &Value) {
        let slot = self.program.ask("run", json!({ "board": self.board }))["slot"].clone();
        let asked = json!({ "board": self.board, "slot": slot, "indication": indication });
        self.program.ask("save_reading", asked);
    }

    fn type_in(&self, megohms: &str) {
        self.save(&json!({ "typed": { "text": megohms, "comparator": "exact", "unit": "m" } }));
    }
}

#[test]
fn n_isolated_is_said_only_where_there_is_an_n() {
    let (program, job) = demo();
    let rows = rows(&program, &job);
    let says = |row: &Row| row["remarks_text"].contains("N isolated from PE");
    let has_n = |row: &Row| row["conductors_text"].split(", ").any(|name| name == "N");
    let measured = || rows.iter().filter(|row| row["status"] == "current");
    let wrong: Vec<_> = measured().filter(|row| says(row) != has_n(row)).map(|row| &row["conductors_text"]).collect();
    assert_eq!(wrong, [] as [&String; 0]);
    assert!(measured().any(says) && measured().any(|row| row["conductors_text"] == "L+, L−"));
}

/// A board is said to have its N not isolated; a circuit without N has nothing to look at for that.
#[test]
fn a_circuit_without_n_is_not_marked_for_its_n() {
    let begun = Begun::with(1);
    let three = json!({ "nominal": "400", "to_earth": "230", "measure": "none", "conductors": "three_phase" });
    begun.program.circuits(&begun.board, 1, three);
    let conditions = json!({ "board": begun.board, "loads": "out", "n_isolated": false, "reduced": null });
    begun.program.ask("set_conditions", conditions);
    (0..6).for_each(|_| begun.type_in("487"));
    let rows = rows(&begun.program, &begun.job);
    let marked: Vec<bool> = rows.iter().map(|row| row["remarks_text"].contains("N was not isolated")).collect();
    assert_eq!(marked[..6], [true, true, true, false, false, false]);
    assert_eq!(listed(&begun.program, &begun.job)[1], "3 readings were taken with N not isolated from PE");
}

#[test]
fn a_felv_circuit_names_its_supply() {
    let (program, job) = demo();
    let rows = rows(&program, &job);
    let felv = || rows.iter().filter(|row| row["protective_measure_text"] == "FELV");
    assert!(felv().count() > 0);
    assert!(felv().all(|row| row["supply_voltage_text"] == "230\u{a0}V a.c."));
    assert!(rows.iter().all(|row| row["supply_voltage_text"].is_empty() || row["protective_measure_text"] == "FELV"));
    assert!(paper(&program, &job).contains("FELV, supply 230 V a.c."));
}

/// Tester D was found failed after it was used: what its paper said before is said of the day of the reading.
#[test]
fn what_is_said_of_a_tester_that_failed_later_does_not_contradict_itself() {
    let (program, job) = demo();
    let rows = rows(&program, &job);
    let doubted: Vec<&Row> = rows.iter().filter(|row| row["tester_state"] == "in_doubt").collect();
    assert!(!doubted.is_empty());
    for row in doubted {
        let said = row["remarks_text"].replace('\u{a0}', " ");
        assert!(said.contains("after this reading") && said.contains("certificate INV-1004 was valid to"), "{said}");
        assert!(!said.contains("proved to"), "{said}");
    }
}

#[test]
fn page_one_says_in_what_a_tester_failed() {
    let (program, job) = demo();
    let paper = paper(&program, &job);
    let said = "500 V as found: failed, rated current not met, output only 412 V at 0.5 MΩ, 1.0 MΩ shown as 1.14 MΩ";
    assert!(paper.contains(said), "{paper}");
}

/// A paper that says no more than "failed" is said to say no more.
#[test]
fn a_failed_certificate_without_particulars_says_so() {
    let begun = Begun::with(1);
    begun.type_in("487");
    let tester = begun.program.ask("testers", json!({}))["testers"][0]["id"].clone();
    let form = json!({
        "date": "3 Apr 2026", "kind": "calibration", "by": "A laboratory",
        "findings": [{ "volts": "500", "as_found": "failed" }],
    });
    begun.program.ask("record_verification", json!({ "tester": tester, "form": form }));
    let paper = paper(&begun.program, &begun.job);
    assert!(paper.contains("500 V as found: failed, in what is not stated"), "{paper}");
}

#[test]
fn what_is_far_below_over_range_readings_keeps_their_sign() {
    let begun = Begun::with(6);
    // L–N of six circuits: over-range but for the last one.
    for circuit in 0..6 {
        for pair in 0..3 {
            if circuit == 5 && pair == 0 { begun.type_in("3.20") } else { begun.save(&json!("over_range")) }
        }
    }
    let rows = rows(&begun.program, &begun.job);
    let low = rows.iter().find(|row| row["shown_digits"] == "3.20").unwrap();
    let said = low["remarks_text"].replace('\u{a0}', " ");
    assert!(said.contains("far below the median of 5 like pairs on this board: > 999 MΩ"), "{said}");
}

#[test]
fn far_below_others_and_fewer_digits_are_listed_apart() {
    let begun = Begun::with(6);
    for circuit in 0..6 {
        for pair in 0..3 {
            begun.type_in(if circuit == 5 && pair == 0 {
                "2.10"
            } else if circuit == 4 && pair == 0 {
                "12.5"
            } else {
                "487"
            });
        }
    }
    let listed = listed(&begun.program, &begun.job);
    for said in ["1 reading is far below like pairs on its board", "1 reading has fewer digits than its tester shows"] {
        assert!(listed.iter().any(|line| line == said), "{said}: {listed:?}");
    }
    assert!(!listed.iter().any(|line| line.contains("odd")), "{listed:?}");
}

#[test]
fn page_one_names_the_places_of_what_was_replaced_reduced_or_not_checked() {
    let (program, job) = demo();
    let text = paper(&program, &job);
    let place = "DB-3 Workshop · 9 Sockets, benches · L–PE (No. ";
    let (_, after) = text.split_once(place).unwrap_or_else(|| panic!("{text}"));
    assert!(after[..60].contains("; replaced: repaired, tested again)"), "{after:.60}");
    // The line that took its place says why as well.
    let rows = rows(&program, &job);
    let current = rows.iter().find(|row| row["status"] == "current" && !row["reason_text"].is_empty()).unwrap();
    assert_eq!((current["shown_digits"].as_str(), current["reason_text"].as_str()), ("410", "repaired, tested again"));

    let program = Program::start();
    let (board_job, board) = program.job();
    let with_surge_protector = json!({
        "nominal": "230", "measure": "none", "conductors": "single_phase", "joined_to_earth": true, "spd_stays": true,
    });
    program.circuits(&board, 1, with_surge_protector);
    let tester = program.tester("Tester A");
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    let conditions = json!({ "board": board, "loads": "out", "n_isolated": true, "reduced": "surge_protector" });
    program.ask("set_conditions", conditions);
    program.ask("set_volts", json!({ "board": board, "volts": 250 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": "over_range" }));
    let text = paper(&program, &json!(board_job));
    let reduced = "1 reading was taken at the reduced test voltage DB-1 · 1 · ";
    let (_, after) = text.split_once(reduced).unwrap_or_else(|| panic!("{text}"));
    assert!(after[..90].contains("(No. 1; surge protectors cannot practicably be disconnected)"), "{after:.90}");
    let unchecked = "1 over-range reading without a lead check that day DB-1 · 1 · ";
    assert!(text.contains(unchecked), "{text}");
}

#[test]
fn cautions_nobody_confirmed_are_said_not_to_be() {
    let begun = Begun::with(1);
    assert!(paper(&begun.program, &begun.job).contains("Cautions: not confirmed by anyone"));
    begun.type_in("487");
    assert!(paper(&begun.program, &begun.job).contains("Cautions: not confirmed by A. Recorder"));
    begun.program.ask("confirm_cautions", json!({ "job": begun.job }));
    let said = paper(&begun.program, &begun.job);
    assert!(said.contains("Read and confirmed by A. Recorder on") && !said.contains("not confirmed"), "{said}");
}

#[test]
fn times_of_another_offset_say_so() {
    let begun = Begun::with(1);
    (0..3).for_each(|_| begun.type_in("487"));
    let mut file: Value =
        serde_json::from_str(&begun.program.api.job_file(begun.job.as_str().unwrap()).unwrap()).unwrap();
    file["readings"][0]["reading"]["at"] = json!("2026-11-25T12:05:00+02:00");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("schedule.pdf");
    let file = provenohm_exchange::job_file::JobFile::read(&file.to_string()).unwrap();
    provenohm_api::headless::schedule(file, &path).unwrap();
    let output = Command::new("pdftotext").args(["-raw", path.to_str().unwrap(), "-"]).output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Times in UTC+00:00") && text.contains("25 Nov 2026 12:05 UTC+02:00"), "{text}");
    assert_eq!(text.matches("UTC+02:00").count(), 1, "{text}");
}
