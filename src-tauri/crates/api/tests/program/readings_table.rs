//! Readings from a table and as one: each line by the rules of the pad, none filled in, none overwritten, and what was
//! copied out is known again.

use crate::support::{Program, single_phase};
use proptest::prelude::*;
use provenohm_api::{PersonId, Seat};
use serde_json::{Value, json};
use std::collections::BTreeSet;

const HEAD: &str = "circuit\tpair\tstage\tcomparator\treading\tunit\ttest_voltage_v\ttester\ttime";

struct Scene {
    program: Program,
    job: String,
    board: String,
    tester: String,
}

impl Scene {
    /// Two single-phase circuits and a proved tester.
    fn new() -> Self {
        let program = Program::start();
        let (job, board) = program.job();
        program.circuits(&board, 2, single_phase());
        let tester = program.tester("Tester A");
        program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
        Self { program, job, board, tester }
    }

    /// With the tester in hand and set, at the pad.
    fn at_the_pad(&self) -> Value {
        self.program.ask("choose_tester", json!({ "board": self.board, "tester": self.tester }));
        self.program.ask("set_volts", json!({ "board": self.board, "volts": 500 }))
    }

    fn table(&self, text: &str) -> Value {
        json!({ "board": self.board, "text": text, "format": "tsv" })
    }

    fn lines(&self, lines: &[&str]) -> Value {
        self.table(&std::iter::once(&HEAD).chain(lines).copied().collect::<Vec<_>>().join("\n"))
    }

    fn preview(&self, lines: &[&str]) -> Value {
        let seen = self.program.ask("preview_readings", self.lines(lines));
        adds_up(&seen);
        seen
    }

    fn complaints(&self, lines: &[&str]) -> Vec<(u64, String)> {
        let told = |one: &Value| (one["line"].as_u64().unwrap(), one["words"].as_str().unwrap().to_owned());
        self.preview(lines)["complaints"].as_array().unwrap().iter().map(told).collect()
    }

    fn copied(&self) -> String {
        let copied = self.program.ask("copy_out", json!({ "board": self.board, "what": "readings" }));
        copied["text"].as_str().unwrap().to_owned()
    }

    fn slots(&self) -> Vec<Value> {
        let view = self.program.ask("grid", json!({ "board": self.board }));
        let rows = view["rows"].as_array().unwrap().iter();
        rows.flat_map(|row| row["cells"].as_array().unwrap().clone()).collect()
    }

    /// Takes back what was recorded at the pad, one by one.
    fn empty(&self) {
        while self.program.api.call("undo_reading", json!({ "board": self.board })).is_ok() {}
    }
}

/// Interface rule O5: what came is what is told of it.
fn adds_up(seen: &Value) {
    let count = |name: &str| seen[name].as_u64().unwrap();
    let (new, same, not) = (count("new"), count("same"), count("not_taken"));
    assert_eq!(count("lines"), new + same + not, "{seen}");
    assert_eq!(seen["rows"].as_array().unwrap().len() as u64, new + same, "{seen}");
    let sum = format!("In {} = new {new} + same {same} + not taken {not}", count("lines"));
    assert_eq!(seen["sum"].as_str().unwrap().replace('\u{2009}', ""), sum);
    let said = seen["complaints"].as_array().unwrap();
    assert_eq!(said.is_empty(), not == 0 && count("lines") > 0, "{seen}");
    assert!(said.iter().all(|one| one["words"].as_str().unwrap().split(' ').count() <= 16), "{seen}");
}

fn known_again(program: &Program, board: &Value, text: &str) -> Value {
    let table = json!({ "board": board, "text": text, "format": "tsv" });
    let seen = program.ask("preview_readings", table.clone());
    if seen["lines"] != 0 {
        adds_up(&seen);
        assert_eq!(seen["same"], seen["lines"], "{seen}");
        let done = program.ask("import_readings", table);
        assert_eq!(
            (&done["undo"], program.ask("copy_out", json!({ "board": board, "what": "readings" }))["text"].as_str()),
            (&Value::Null, Some(text))
        );
    }
    seen
}

/// A table of three, and what each comes to by IEC 60364-6:2016, Table 6A (`seen`): 1.0 MΩ at 500 V for a nominal voltage
/// up to 500 V. With the tester's ±(3 % + 2 digits), 1.20 MΩ meets it and 0.85 MΩ is below it.
#[test]
fn each_line_becomes_a_reading_of_its_own_judged_as_one_from_the_pad() {
    let scene = Scene::new();
    let lines = [
        "1\tL–N\tbefore\t>\t999\tMΩ\t500\tTester A\t2026-11-25 09:10",
        "1\tL-PE\tbefore\t\t1,20\tMohm\t500\tserial Tester A\t25 Nov 2026, 09:12",
        "2\tl - n\tBEFORE\t\t0.85\tMOhm\t500\tTester A\t2026-11-25T09:14:30+00:00",
    ];
    let seen = scene.preview(&lines);
    assert_eq!((&seen["complaints"], &seen["new"]), (&json!([]), &json!(3)));
    assert_eq!(seen["rows"][1]["shown"], "1.20\u{a0}MΩ", "the zero shows the tester's resolution");
    assert_eq!(seen["rows"][0]["place"], "DB-1 · 1 · L–N");
    assert_eq!(seen["rows"][2]["person"], "A. Recorder");
    assert!(scene.slots().iter().all(|cell| cell["shown"].is_null()), "a preview takes nothing");

    let done = scene.program.ask("import_readings", scene.lines(&lines));
    assert_eq!(done["words"], "Took 3 readings from the table");
    let shown: Vec<Value> = scene.slots().iter().map(|cell| json!([cell["shown"], cell["sign"]])).collect();
    let open = json!([null, "todo"]);
    let expected = [
        json!([">\u{a0}999\u{a0}MΩ", "done"]),
        json!(["1.20\u{a0}MΩ", "done"]),
        open.clone(),
        json!(["0.85\u{a0}MΩ", "look"]),
        open.clone(),
        open,
    ];
    assert_eq!(shown, expected);

    // The record keeps when it was taken and when it was put there.
    let slot = scene.slots()[0]["slot"].clone();
    let origin = scene.program.ask("origin", json!({ "board": scene.board, "slot": slot }));
    let told = |label: &str| {
        let lines = origin["current"][0]["lines"].as_array().unwrap();
        lines.iter().find(|line| line["label"] == label).map(|line| line["value"].as_str().unwrap().to_owned())
    };
    assert_eq!(told("Time").as_deref(), Some("25 Nov 2026 09:10"));
    assert_eq!(told("Put on record").as_deref(), Some("25 Nov 2026 10:00"));

    // One act, so one undo.
    scene.program.ask("undo", json!({ "token": done["undo"] }));
    assert!(scene.slots().iter().all(|cell| cell["shown"].is_null()));
}

#[test]
fn a_line_comes_to_what_the_same_figure_on_the_pad_comes_to() {
    let scene = Scene::new();
    let slot = scene.at_the_pad()["slot"].clone();
    let typed = json!({ "typed": { "text": "0.85", "comparator": "exact", "unit": "m" } });
    scene.program.ask("save_reading", json!({ "board": scene.board, "slot": slot, "indication": typed }));
    let by_pad = scene.copied();
    scene.empty();
    assert!(!scene.copied().contains("0.85"));
    scene.program.ask("import_readings", scene.table(&by_pad));
    assert_eq!(scene.copied(), by_pad, "its judgement among the rest");
    let cell = |text: &str, at: usize| text.lines().nth(1).unwrap().split('\t').nth(at).unwrap().to_owned();
    assert_eq!(cell(&by_pad, 7), "0.85");
    assert!(cell(&by_pad, 17).contains("1.0\u{a0}MΩ"), "{by_pad}");
}

#[test]
fn importing_twice_changes_nothing() {
    let scene = Scene::new();
    let lines = ["1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10"];
    scene.program.ask("import_readings", scene.lines(&lines));
    let seen = scene.preview(&lines);
    assert_eq!((&seen["same"], &seen["new"], &seen["complaints"]), (&json!(1), &json!(0), &json!([])));
    assert_eq!(seen["rows"][0]["what"], "here already");
    let before = scene.copied();
    let done = scene.program.ask("import_readings", scene.lines(&lines));
    assert_eq!((&done["undo"], &done["words"]), (&Value::Null, &json!("Nothing was taken: all of it is here already")));
    assert_eq!(scene.copied(), before);
    // A difference in what it says is no sameness, and nothing is overwritten.
    for other in [
        "1\tL–N\tbefore\t\t487.0\tMΩ\t500\tTester A\t2026-11-25 09:10",
        "1\tL–N\tbefore\t>\t487\tMΩ\t500\tTester A\t2026-11-25 09:10",
        "1\tL–N\tbefore\t\t487\tGΩ\t500\tTester A\t2026-11-25 09:10",
        "1\tL–N\tbefore\t\t487\tMΩ\t250\tTester A\t2026-11-25 09:10",
        "1\tL–N\tbefore\t\t487\tMΩ\t500\tnone\t2026-11-25 09:10",
        "1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:11",
    ] {
        assert_eq!(
            scene.complaints(&[other]),
            [(2, "A reading stands there; replace it in Review".to_owned())],
            "{other}"
        );
    }
}

#[test]
fn nothing_is_filled_in_and_each_line_says_what_it_lacks() {
    let scene = Scene::new();
    for (line, words) in [
        ("1\tL–N\tbefore\t\t487\t\t500\tTester A\t2026-11-25 09:10", "Write the unit: kΩ, MΩ or GΩ"),
        ("1\tL–N\tbefore\t\t487\tΩ\t500\tTester A\t2026-11-25 09:10", "Write the unit: kΩ, MΩ or GΩ"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t\tTester A\t2026-11-25 09:10", "Write the test voltage in volts, for example 500"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t0\tTester A\t2026-11-25 09:10", "Write a figure above zero"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\t\t2026-11-25 09:10", "Write the tester's name or serial number, or “none”"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t", "Write date and time, for example 25 Nov 2026 10:42"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25", "Write date and time, for example 25 Nov 2026 10:42"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t11:00", "Write date and time, for example 25 Nov 2026 10:42"),
        (
            "1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t03/04/2026 11:00",
            "Write date and time, for example 25 Nov 2026 10:42",
        ),
        ("1\tL–N\t\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "Fill in “stage”"),
        ("\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "Fill in “circuit”"),
        ("1\t\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "Fill in “pair”"),
        ("1\tL–N\tbefore\t\t\tMΩ\t500\tTester A\t2026-11-25 09:10", "Fill in “reading”"),
        ("9\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "No circuit “9” on this board"),
        ("1\tL1–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "The set asks no “L1–N” of circuit 1"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester Z\t2026-11-25 09:10", "No tester “Tester Z” here: add it first"),
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 23:10", "This lies in the future"),
        ("1\tL–N\tbefore\t\t1.2.3\tMΩ\t500\tTester A\t2026-11-25 09:10", "One decimal sign only"),
        ("1\tL–N\tbefore\t\t1 200\tMΩ\t500\tTester A\t2026-11-25 09:10", "Write digits, for example 487\u{a0}MΩ"),
        ("1\tL–N\tbefore\t\t123456\tMΩ\t500\tTester A\t2026-11-25 09:10", "Five digits at most"),
        ("1\tL–N\tbefore\t\t>999\tMΩ\t500\tTester A\t2026-11-25 09:10", "Write digits, for example 487\u{a0}MΩ"),
        ("1\tL–N\tbefore\t~\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "“~” is none of: >, <"),
        ("1\tL–N\tlater\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "“later” is none of: before, after"),
    ] {
        assert_eq!(scene.complaints(&[line]), [(2, words.to_owned())], "{line}");
        let refused = scene.program.refused("import_readings", scene.lines(&[line]));
        assert_eq!((refused.code.as_str(), refused.complaints[0].field.as_str()), ("form", "line.2"), "{line}");
    }
    let twice = "1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10";
    let good = "1\tL–PE\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10";
    assert_eq!(scene.complaints(&[twice, good, twice]), [(4, "Line 2 reads this pair too".to_owned())]);
    scene.program.refused("import_readings", scene.lines(&[twice, good, twice]));
    assert!(scene.slots().iter().all(|cell| cell["shown"].is_null()), "whole or not at all");
}

#[test]
fn the_first_row_has_to_name_the_columns() {
    let scene = Scene::new();
    let line = "1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10";
    for (head, words) in [
        ("1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10", "The first row must name the columns"),
        (&HEAD.replace("unit", "units"), "Unknown column “units”"),
        (&HEAD.replace("unit", "pair"), "Column “pair” stands here twice"),
        (&HEAD.replace("\tunit", ""), "The first row lacks the column “unit”"),
    ] {
        let seen = scene.program.ask("preview_readings", scene.table(&format!("{head}\n{line}")));
        adds_up(&seen);
        assert_eq!((&seen["complaints"][0]["words"], &seen["not_taken"]), (&json!(words), &json!(1)), "{seen}");
    }
    let seen = scene.program.ask("preview_readings", scene.table(HEAD));
    assert_eq!(seen["complaints"][0]["words"], "No line with a reading in it");
    // Another order, with a day in a column of its own.
    let text = "date;time;tester_serial;tester;unit;reading;comparator;stage;pair;circuit;test_voltage_v;read_by\n\
                25 Nov 2026;09:10;serial Tester A;;GΩ;1,52;<;before;L–N;1;500;A. Recorder\n";
    let csv = json!({ "board": scene.board, "text": text, "format": "csv" });
    let seen = scene.program.ask("preview_readings", csv);
    assert_eq!((&seen["new"], &seen["rows"][0]["shown"]), (&json!(1), &json!("<\u{a0}1.52\u{a0}GΩ")), "{seen}");
}

#[test]
fn open_pairs_copied_out_are_there_to_be_filled_in() {
    let scene = Scene::new();
    let open = scene.copied();
    assert_eq!(open.lines().count(), 7, "{open}");
    let seen = scene.program.ask("preview_readings", scene.table(&open));
    assert_eq!(seen["complaints"][0]["words"], "No line with a reading in it");
    let filled = open.replacen("open\t\t\t\t\t\t\t", "open\t\t487\tMΩ\t500\tTester A\t\t2026-11-25 09:10", 1);
    let done = scene.program.ask("import_readings", scene.table(&filled));
    assert_eq!(done["words"], "Took 1 reading from the table");
    let other = filled.replace("DB-1", "DB-9");
    let seen = scene.program.ask("preview_readings", scene.table(&other));
    assert_eq!(seen["complaints"][0]["words"], "This line is of board “DB-9”");
}

/// A reading that comes from a table ends that its pair was not tested, as one from the pad does.
#[test]
fn a_pair_that_was_not_tested_is_tested_after_all() {
    let scene = Scene::new();
    let slot = scene.at_the_pad()["slot"].clone();
    scene.program.ask("mark_not_tested", json!({ "board": scene.board, "slot": slot, "reason": "no_access" }));
    assert!(scene.copied().lines().nth(1).unwrap().contains("not_tested"));
    let lines = ["1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10"];
    let done = scene.program.ask("import_readings", scene.lines(&lines));
    assert_eq!(scene.slots()[0]["sign"], "done");
    scene.program.ask("undo", json!({ "token": done["undo"] }));
    assert_eq!(scene.slots()[0]["shown"].is_null(), scene.slots()[0]["sign"] == "todo");
}

#[test]
fn two_testers_of_one_name_are_told_apart_by_their_serial_numbers() {
    let scene = Scene::new();
    let identity = json!({ "name": "Tester A", "serial": "77" });
    scene.program.ask("save_tester", json!({ "identity": identity, "card": { "voltages": [] } }));
    let line = |tester: &str| format!("1\tL–N\tbefore\t\t487\tMΩ\t500\t{tester}\t2026-11-25 09:10");
    let said = "Several testers are “Tester A”: write the serial number too".to_owned();
    assert_eq!(scene.complaints(&[&line("Tester A")]), [(2, said)]);
    assert_eq!(scene.preview(&[&line("77")])["rows"][0]["tester"], "Tester A, serial number 77");
}

#[test]
fn a_login_records_as_itself_and_a_device_for_its_jobs_people() {
    let scene = Scene::new();
    let head = format!("{HEAD}\tread_by");
    let table = |who: &str, pair: &str| {
        let line = format!("1\t{pair}\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10\t{who}");
        scene.table(&format!("{head}\n{line}"))
    };
    let words = |seen: &Value| seen["complaints"][0]["words"].as_str().unwrap_or_default().to_owned();
    scene.program.ask("add_person", json!({ "job": scene.job, "name": "B. Recorder", "role": "" }));
    let seen = scene.program.ask("preview_readings", table("Nobody", "L–N"));
    assert_eq!(words(&seen), "“Nobody” is not among the job's people");
    let seen = scene.program.ask("preview_readings", table("B. Recorder", "L–N"));
    assert_eq!(seen["rows"][0]["person"], "B. Recorder", "{seen}");
    scene.program.ask("import_readings", table("B. Recorder", "L–N"));

    let person = serde_json::from_value::<PersonId>(json!(format!("{:032x}", 5))).unwrap();
    let seat = Seat { person, name: "C. Office".to_owned(), role: "Office".to_owned() };
    let seen = scene.program.api.call_as(&seat, "preview_readings", table("A. Recorder", "L–PE")).unwrap();
    assert_eq!(words(&seen), "Whoever logged in records as themselves: leave read_by empty");
    let seen = scene.program.api.call_as(&seat, "preview_readings", table("B. Recorder", "L–N")).unwrap();
    assert_eq!(seen["same"], 1, "what stands is known again, whoever read it: {seen}");
    for who in ["", "C. Office"] {
        let seen = scene.program.api.call_as(&seat, "preview_readings", table(who, "L–PE")).unwrap();
        assert_eq!(seen["rows"][0]["person"], "C. Office", "{seen}");
    }
    let done = scene.program.api.call_as(&seat, "import_readings", table("", "L–PE")).unwrap();
    scene.program.api.call_as(&seat, "undo", json!({ "token": done["undo"] })).unwrap();
}

/// The joined reading and what it leaves open stand in one table; on the pad one follows from the other.
#[test]
fn a_joined_reading_below_its_limit_brings_its_singles_with_it() {
    let scene = Scene::new();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase", "joined_to_earth": true });
    scene.program.circuits(&scene.board, 1, form);
    let at = "\tMΩ\t500\tTester A\t2026-11-25 09:10";
    let lines = [
        format!("3\tL+N – PE\tbefore\t\t0.50{at}"),
        format!("3\tL–PE\tbefore\t\t487{at}"),
        format!("3\tN–PE\tbefore\t\t0.50{at}"),
    ];
    let lines = lines.each_ref().map(String::as_str);
    assert_eq!(scene.preview(&lines)["complaints"], json!([]));
    scene.program.ask("import_readings", scene.lines(&lines));
    let text = scene.copied();
    assert_eq!(known_again(&scene.program, &json!(scene.board), &text)["same"], 3);
}

#[test]
fn circuits_tested_together_come_back_as_they_were() {
    let scene = Scene::new();
    scene.at_the_pad();
    let circuits = scene.program.ask("circuits", json!({ "board": scene.board }))["circuits"].clone();
    let group: Vec<&Value> = circuits.as_array().unwrap().iter().map(|one| &one["id"]).collect();
    let slot = scene.program.ask("start_group", json!({ "board": scene.board, "circuits": group }))["slot"].clone();
    let typed = json!({ "typed": { "text": "20.0", "comparator": "exact", "unit": "m" } });
    scene.program.ask("save_reading", json!({ "board": scene.board, "slot": slot, "indication": typed }));
    scene.program.ask("stop_group", json!({ "board": scene.board }));
    let text = scene.copied();
    assert!(text.contains("all lives of 1, 2"), "{text}");
    known_again(&scene.program, &json!(scene.board), &text);
    scene.empty();
    scene.program.ask("stop_group", json!({ "board": scene.board }));
    scene.program.ask("import_readings", scene.table(&text));
    assert_eq!(scene.copied(), text);
}

#[test]
fn every_board_of_the_demo_job_is_known_again() {
    let program = Program::start();
    let job = program.ask("make_demo", json!({}));
    let boards = job["boards"].as_array().unwrap();
    let mut lines = 0;
    for board in boards {
        let text = program.ask("copy_out", json!({ "board": board["id"], "what": "readings" }))["text"].clone();
        lines += known_again(&program, &board["id"], text.as_str().unwrap())["same"].as_u64().unwrap();
    }
    assert!(lines > 50, "{lines}");
}

#[test]
fn nothing_that_is_pasted_is_too_much_or_harms_a_spreadsheet() {
    let scene = Scene::new();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase", "reference": "=1+1", "description": "@SUM(A1)\u{202e}" });
    scene.program.ask("save_circuit", json!({ "board": scene.board, "form": form }));
    let text = scene.copied();
    assert!(text.contains("\t'=1+1\t'@SUM(A1)"), "{text}");
    assert!(!text.contains("\t=") && !text.contains("\t@"), "{text}");
    let line = "'=1+1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10";
    assert_eq!(scene.preview(&[line])["new"], 1, "an apostrophe that was put there is taken off again");

    let long = "x".repeat(10_000_000);
    for text in [
        long.clone(),
        format!("{HEAD}\n1\t{long}\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10"),
        format!("{HEAD}\n1\tL–N\tbefore\t\t{}\tMΩ\t500\tTester A\t2026-11-25 09:10", "9".repeat(10_000_000)),
        format!("{HEAD}\n{}", "1\tL–N\tbefore\t\t487\tMΩ\t500\tTester A\tnow\n".repeat(150_000)),
        format!("{HEAD}\n\"{}", "1\tL–N\n".repeat(1_000_000)),
        format!("{HEAD}\n1\t\u{202e}N–L\u{0}\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:10"),
        "\t".repeat(5_000_000),
    ] {
        let seen = scene.program.ask("preview_readings", scene.table(&text));
        adds_up(&seen);
        assert_eq!(seen["new"], 0);
        let told = seen.to_string();
        assert!(told.len() < 100_000, "{} bytes told", told.len());
    }
}

fn figure() -> impl Strategy<Value = (String, &'static str, &'static str)> {
    let digits = prop_oneof!["[1-9][0-9]{0,4}", "0\\.[0-9]{1,4}", "[1-9][0-9]?\\.[0-9]{1,3}"];
    let comparator = prop::sample::select(vec!["exact", "more_than", "less_than"]);
    (digits, comparator, prop::sample::select(vec!["k", "m", "g"]))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// Whatever was recorded is known again, all of it; and on the same circuits, emptied, it comes to the same judgements.
    #[test]
    fn what_is_copied_out_is_known_again_and_comes_back_the_same(
        figures in prop::collection::vec(prop::option::weighted(0.8, figure()), 1..10),
        joined in any::<bool>(),
        chosen in any::<bool>(),
        loads in prop::sample::select(vec!["out", "connected"]),
        stage in prop::sample::select(vec!["before", "after"]),
    ) {
        let scene = Scene::new();
        let form = json!({ "nominal": "400", "to_earth": "230", "measure": "none", "conductors": "three_phase_n", "joined_to_earth": joined });
        scene.program.circuits(&scene.board, 1, form);
        if chosen {
            scene.program.ask("choose_tester", json!({ "board": scene.board, "tester": scene.tester }));
        }
        scene.program.ask("set_stage", json!({ "board": scene.board, "stage": stage }));
        scene.program.ask("set_volts", json!({ "board": scene.board, "volts": 500 }));
        scene.program.ask("set_conditions", json!({ "board": scene.board, "loads": loads, "n_isolated": joined }));
        for figure in figures {
            let slot = scene.program.ask("run", json!({ "board": scene.board }))["slot"].clone();
            if slot.is_null() {
                break;
            }
            match figure {
                None => drop(scene.program.ask("mark_not_tested", json!({ "board": scene.board, "slot": slot, "reason": "live" }))),
                Some((text, comparator, unit)) => {
                    let typed = json!({ "typed": { "text": text, "comparator": comparator, "unit": unit } });
                    scene.program.ask("save_reading", json!({ "board": scene.board, "slot": slot, "indication": typed }));
                }
            }
        }
        let text = scene.copied();
        known_again(&scene.program, &json!(scene.board), &text);
        let said = |text: &str| -> BTreeSet<String> {
            text.lines().filter(|line| line.split('\t').nth(5) == Some("read")).map(str::to_owned).collect()
        };
        let before = said(&text);
        scene.empty();
        prop_assert!(said(&scene.copied()).is_empty());
        if !before.is_empty() {
            scene.program.ask("import_readings", scene.table(&text));
        }
        prop_assert_eq!(said(&scene.copied()), before);
    }

    /// Interface rule O5: however a table is mixed, its sum adds up, and one with a complaint is not taken.
    #[test]
    fn the_sum_adds_up_for_any_table(
        cells in prop::collection::vec(
            prop::collection::vec(prop::sample::select(vec![
                "1", "2", "L–N", "L–PE", "before", "", ">", "487", "1.20", "MΩ", "kOhm", "500", "Tester A", "none",
                "2026-11-25 09:10", "2026-11-25 09:11", "=1", "\u{202e}",
            ]), 9),
            0..12,
        ),
        good in prop::collection::vec((0..2_usize, 0..3_usize, 1..3_usize), 0..12),
    ) {
        let scene = Scene::new();
        let pairs = ["L–N", "L–PE", "N–PE"];
        let good = good.into_iter().map(|(circuit, pair, time)| {
            format!("{}\t{}\tbefore\t\t487\tMΩ\t500\tTester A\t2026-11-25 09:1{time}", circuit + 1, pairs[pair])
        });
        let mut lines: Vec<String> = good.collect();
        lines.extend(cells.into_iter().map(|cells| cells.join("\t")));
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let seen = scene.preview(&lines);
        let taken = scene.program.api.call("import_readings", scene.lines(&lines));
        prop_assert_eq!(taken.is_ok(), seen["complaints"] == json!([]));
        let read = scene.slots().iter().filter(|cell| !cell["shown"].is_null()).count() as u64;
        let expected = if taken.is_ok() { seen["new"].as_u64().unwrap() } else { 0 };
        prop_assert_eq!(read, expected);
    }
}
