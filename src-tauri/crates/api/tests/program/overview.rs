//! Many jobs at a glance say what the screens of each job say, and the readings without a proved tester are found.

use crate::support::{Program, single_phase};
use serde_json::{Value, json};

/// Two jobs of two circuits of line and neutral, six pairs each, and three testers: A proved, B lapsed, C never verified.
///
/// Mill Lane, one circuit read with A: 1.12, 1.20, 487 MΩ. Ferry Road, one circuit and a pair: three with B, one with C.
struct Office {
    program: Program,
    mill: String,
    ferry: String,
    board: String,
    testers: [String; 3],
}

impl Office {
    fn open() -> Self {
        let program = Program::start();
        let begin = |name: &str| {
            let job = program.ask("start_job", json!({ "name": name, "place": "North", "person": "A. Recorder" }));
            let job = job["id"].as_str().unwrap().to_owned();
            let board = program.ask("add_board", json!({ "job": job, "name": "DB-1" }))["boards"][0]["id"].clone();
            let board = board.as_str().unwrap().to_owned();
            program.circuits(&board, 2, single_phase());
            (job, board)
        };
        let (mill, board) = begin("Mill Lane");
        let (ferry, other) = begin("Ferry Road");
        let testers = ["Tester A", "Tester B", "Tester C"].map(|name| program.tester(name));
        program.certificate(&testers[0], "3 Mar 2026", "3 Mar 2027");
        program.certificate(&testers[1], "3 Mar 2025", "3 Mar 2026");
        read(&program, &board, &testers[0], &["1.12", "1.20", "487"]);
        read(&program, &other, &testers[1], &["210", "220", "230"]);
        read(&program, &other, &testers[2], &["240"]);
        Self { program, mill, ferry, board, testers }
    }

    fn overview(&self) -> Value {
        self.program.ask("overview", json!({}))
    }

    /// A quick check that finds A failed at 1 MΩ and good from 10 MΩ up: it puts 1.12 and 1.20 MΩ in doubt, not 487.
    fn fail_a(&self) {
        let point = |known: &str, shown: &str| json!({ "known": known, "uncertainty_percent": "1", "shown": shown });
        let points =
            [point("1 MΩ", "1.12 MΩ"), point("10 MΩ", "10.3 MΩ"), point("100 MΩ", "103 MΩ"), point("500 MΩ", "")];
        let form = json!({ "volts": "500", "points": points, "open": "> 999 MΩ", "shorted": "0.01 MΩ" });
        self.program.ask("record_quick_check", json!({ "tester": self.testers[0], "form": form }));
    }
}

fn read(program: &Program, board: &str, tester: &str, readings: &[&str]) {
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    for digits in readings {
        let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
        let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
        program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    }
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

fn words(sentences: &Value) -> Vec<&str> {
    list(sentences).iter().map(|one| one["words"].as_str().unwrap()).collect()
}

/// Every figure of the overview is that of the screen it leads to.
fn says_what_the_screens_say(program: &Program) {
    let overview = program.ask("overview", json!({}));
    let jobs = list(&overview["jobs"]);
    let names = |all: &[Value]| all.iter().map(|one| one["id"].clone()).collect::<Vec<_>>();
    assert_eq!(names(jobs), names(list(&program.ask("jobs", json!({}))["jobs"])));
    let unproved = program.ask("unproved", json!({}));
    let mut with_unproved = 0;
    for one in jobs {
        let of = json!({ "job": one["id"] });
        let (job, look) = (program.ask("job", of.clone()), program.ask("look", of.clone()));
        let sum = |key: &str| list(&job["boards"]).iter().map(|board| board[key].as_u64().unwrap()).sum::<u64>();
        assert_eq!((one["done"].as_u64(), one["of"].as_u64()), (Some(sum("done")), Some(sum("of"))));
        for key in ["name", "place", "look", "stop", "to_settle"] {
            assert_eq!(one[key], job[key], "{key}");
        }
        for key in ["look", "stop", "asked"] {
            assert_eq!(one[key], look[key], "{key}");
        }
        let missing = list(&look["items"]).iter().filter(|it| it["key"].as_str().unwrap().starts_with("missing"));
        assert_eq!(missing.count() > 0, one["missing"] != 0);
        if one["is_signed"] == true {
            assert_eq!(one["signed"], job["signed"]);
        } else {
            assert_eq!((list(&job["signed"]).len(), words(&one["signed"])), (0, vec!["Not signed"]));
        }
        let own = program.ask("unproved", of);
        let count: u64 = list(&own["jobs"]).iter().map(|it| it["count"].as_u64().unwrap()).sum();
        assert_eq!(one["unproved"].as_u64(), Some(count));
        with_unproved += usize::from(count > 0);
        assert_eq!(
            list(&own["jobs"]),
            list(&unproved["jobs"]).iter().filter(|it| it["job"] == one["id"]).cloned().collect::<Vec<_>>()
        );
    }
    assert_eq!(list(&unproved["jobs"]).len(), with_unproved);
    for one in list(&overview["recalls"]) {
        let recall = program.ask("recall", json!({ "tester": one["tester"] }));
        let counts = |of: &Value| (of["all"].clone(), of["resolved"].clone());
        assert_eq!(counts(one), counts(&recall["counts"]));
        assert_eq!(one["jobs"], list(&recall["jobs"]).len());
    }
    let testers = program.ask("testers", json!({}));
    assert_eq!(list(&overview["testers"]).len(), list(&testers["testers"]).len());
    for one in list(&overview["testers"]) {
        let line = list(&testers["testers"]).iter().find(|it| it["id"] == one["id"]).unwrap();
        assert_eq!(one["state"], line["state"]);
        let tester = program.ask("tester", json!({ "tester": one["id"] }));
        if !tester["due"].is_null() {
            assert_eq!(one["due"], tester["due"]);
        }
        let recalled = list(&overview["recalls"]).iter().any(|it| it["tester"] == one["id"]);
        assert_eq!(recalled, !tester["in_doubt"].is_null());
    }
}

#[test]
fn each_job_says_what_it_lacks_in_words() {
    let office = Office::open();
    let overview = office.overview();
    assert_eq!(overview["words"], "2 jobs, 2 lack something, 1 with unproved readings");
    let [ferry, mill] = list(&overview["jobs"]) else { panic!("{overview}") };
    // Three of six pairs read; on a board that was begun the other three are missing, one line of the list to look at.
    assert_eq!((&mill["progress"], &mill["circuits"]), (&json!("3 of 6"), &json!(2)));
    assert_eq!(words(&mill["lacks"]), ["1 to look at", "3 required pairs have no reading", "3 to do"]);
    assert_eq!((&mill["unproved"], &mill["recall"]), (&json!(0), &Value::Null));
    // Four of six; each of the four has a tester that was not proved, and the missing ones are the fifth line.
    assert_eq!((&ferry["progress"], &ferry["look"]), (&json!("4 of 6"), &json!(5)));
    assert_eq!(words(&ferry["lacks"]), ["5 to look at", "2 required pairs have no reading", "2 to do"]);
    assert_eq!(words(&ferry["unproved_words"]), ["1 not proved", "3 lapsed"]);
    assert_eq!(words(&ferry["signed"]), ["Not signed"]);
    says_what_the_screens_say(&office.program);
}

#[test]
fn testers_stand_by_when_they_are_due() {
    let office = Office::open();
    let overview = office.overview();
    let lines: Vec<_> = list(&overview["testers"])
        .iter()
        .map(|one| (one["name"].as_str().unwrap(), one["last_day"].as_str(), one["due"]["words"].as_str().unwrap()))
        .collect();
    let expected = [
        ("Tester C", None, "Never verified"),
        ("Tester B", Some("3 Mar 2026"), "Verification was due by 3 Mar 2026"),
        ("Tester A", Some("3 Mar 2027"), "Next verification by 3 Mar 2027"),
    ];
    assert_eq!(lines, expected);
}

#[test]
fn a_recall_is_followed_and_a_signed_job_says_what_came_since() {
    let office = Office::open();
    office.program.ask("sign_off", json!({ "job": office.mill, "name": "R. Reviewer" }));
    office.fail_a();
    let mill = office.overview()["jobs"][1].clone();
    assert_eq!((&mill["unproved"], words(&mill["unproved_words"])), (&json!(2), vec!["2 in doubt"]));
    assert_eq!(mill["recall"]["words"], "0 of 2 resolved");
    assert!(words(&mill["signed"]).contains(&"Since then 2 readings have come into doubt"), "{mill}");
    says_what_the_screens_say(&office.program);

    let recall = office.program.ask("recall", json!({ "tester": office.testers[0] }));
    let reading = recall["jobs"][0]["boards"][0]["lines"][0]["reading"].clone();
    let stated = json!({ "tester": office.testers[0], "job": office.mill, "reading": reading, "reason": "taken out" });
    office.program.ask("resolve_recall", stated);
    let overview = office.overview();
    assert_eq!(overview["jobs"][1]["recall"]["words"], "1 of 2 resolved");
    assert_eq!(overview["recalls"][0]["said"]["words"], "1 of 2 resolved, in 1 job");
    // Tested again with a proved tester, all of it is resolved.
    office.program.certificate(&office.testers[2], "24 Nov 2026", "24 Nov 2027");
    for row in list(&office.program.ask("readings", json!({ "job": office.mill }))["rows"]).iter().take(2) {
        office.program.ask("choose_tester", json!({ "board": office.board, "tester": office.testers[2] }));
        let again = json!({
            "job": office.mill, "reading": row["reading"], "text": "350", "comparator": "exact", "unit": "m", "why": "repeated",
        });
        office.program.ask("replace_reading", again);
    }
    says_what_the_screens_say(&office.program);
}

#[test]
fn unproved_readings_are_told_by_tester_and_reason_with_what_to_do() {
    let office = Office::open();
    let told = office.program.ask("unproved", json!({}));
    assert_eq!(told["words"], "4 readings whose tester was not proved, in 1 job");
    let [ferry] = list(&told["jobs"]) else { panic!("{told}") };
    assert_eq!((&ferry["job"], &ferry["words"]), (&json!(office.ferry), &json!("4 readings")));
    let groups: Vec<_> = list(&ferry["groups"])
        .iter()
        .map(|one| {
            (
                one["state"].as_str().unwrap(),
                one["name"].as_str().unwrap(),
                one["said"]["words"].as_str().unwrap(),
                words(&one["places"]),
            )
        })
        .collect();
    let expected = [
        (
            "not_proved",
            "Tester C, serial number serial Tester C",
            "Tester C: no verification on record at 500\u{a0}V",
            vec!["DB-1 · 2 · L–N"],
        ),
        (
            "lapsed",
            "Tester B, serial number serial Tester B",
            "Tester B: verification lapsed on 3 Mar 2026, before this reading",
            vec!["DB-1 · 1 · L–N, L–PE, N–PE"],
        ),
    ];
    assert_eq!(groups, expected);
    let todo = |at: usize| ferry["groups"][at]["todo"].as_str().unwrap();
    assert_eq!(todo(0), "Verify the tester, or test again with a proved one");
    assert_eq!(office.program.ask("unproved", json!({ "job": office.mill }))["jobs"], json!([]));
    let nowhere = json!({ "job": "0190a0c1-0000-7000-8000-000000000000" });
    assert_eq!(office.program.refused("unproved", nowhere).code, "not_found");
}

#[test]
fn a_reading_with_no_tester_chosen_is_among_them() {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let typed = json!({ "typed": { "text": "487", "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    let overview = program.ask("overview", json!({}));
    assert_eq!(words(&overview["jobs"][0]["lacks"])[0], "1 blocks a sign-off");
    assert_eq!(words(&overview["jobs"][0]["unproved_words"]), ["1 with no tester"]);
    let told = program.ask("unproved", json!({ "job": job }));
    assert_eq!(told["jobs"][0]["groups"][0]["name"], "No tester chosen");
    says_what_the_screens_say(&program);
}

#[test]
fn schedules_of_two_jobs_of_one_name_are_two_files() {
    let program = Program::start();
    let jobs = [program.job(), program.job()];
    let tester = program.tester("Tester A");
    for (_, board) in &jobs {
        program.circuits(board, 1, single_phase());
        read(&program, board, &tester, &["487"]);
    }
    // The last that either is told: both are as of that instant.
    program.certificate(&tester, "24 Nov 2026", "24 Nov 2027");
    let files = jobs.map(|(job, _)| {
        let made = json!({ "job": job, "format": "csv", "as_signed": null });
        program.ask("make_schedule", made)["files"][0].as_str().unwrap().to_owned()
    });
    assert_ne!(files[0], files[1]);
    for file in &files {
        assert!(file.contains("Mill-Lane-") && std::path::Path::new(file).exists(), "{file}");
    }
}

#[test]
fn the_demo_at_a_glance_is_what_its_screens_say() {
    let program = Program::start();
    assert_eq!(
        program.ask("overview", json!({}))["words"],
        "No jobs yet, none lacks anything, none with unproved readings"
    );
    program.ask("make_demo", json!({}));
    program.job();
    says_what_the_screens_say(&program);
    let overview = program.ask("overview", json!({}));
    assert_eq!(words(&overview["jobs"][0]["lacks"]), ["No circuits yet"]);
    // The same from what was kept.
    says_what_the_screens_say(&program);
}
