//! The program killed in the middle of taking in, settling, signing off and handing over: each is done or not done, and
//! done again it comes to the same.

use crate::support::{Program, host_from, single_phase, slot_at_500_v};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::Api;
use serde_json::{Value, json};
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

fn open(folder: &Path, seed: u64) -> Api {
    Api::open(folder, host_from("2026-11-26T10:00:00+00:00", seed)).unwrap()
}

fn ask(api: &Api, operation: &str, input: Value) -> Value {
    api.call(operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
}

/// Not a test of its own: the process that the next one kills.
#[test]
#[ignore = "run by the test that kills it"]
fn working_process() {
    let Some(folder) = std::env::var_os("PROVENOHM_KILLED") else { return };
    let folder = Path::new(&folder);
    let api = open(folder, u64::from(std::process::id()));
    let step: Value = serde_json::from_slice(&std::fs::read(folder.join("step.json")).unwrap()).unwrap();
    println!("begins");
    ask(&api, step["operation"].as_str().unwrap(), step["input"].clone());
    println!("done");
}

/// One step of a job, and what it may leave behind: what was before it, or what comes after.
struct Step {
    operation: &'static str,
    input: Value,
}

/// What of a job a step changes: readings, questions, sign-offs, and whether the bundle that lies there is whole.
fn seen(folder: &Path, job: &str) -> Value {
    let api = open(folder, 5);
    let count = |view: &Value| view.as_array().map(Vec::len);
    let jobs = ask(&api, "jobs", json!({}))["jobs"][0]["summary"].clone();
    let questions = count(&ask(&api, "settling", json!({ "job": job }))["questions"]);
    let signed = count(&ask(&api, "sign_off_view", json!({ "job": job }))["signed"]);
    let papers = std::fs::read_dir(folder.join("papers")).into_iter().flatten().map(Result::unwrap);
    let bundles = papers.filter(|file| file.path().extension().is_some_and(|ending| ending == "provenohm-bundle"));
    let whole = |bytes: Vec<u8>| ask(&api, "preview_bundle", json!({ "base64": BASE64_STANDARD.encode(bytes) }));
    // Killed and done again there may be two of them, each of its own moment: what lies there is whole.
    let mut joined: Vec<u64> =
        bundles.map(|file| whole(std::fs::read(file.path()).unwrap())["joined"].as_u64().unwrap()).collect();
    joined.sort_unstable();
    joined.dedup();
    json!([jobs, questions, signed, joined])
}

fn copy(from: &Path) -> TempDir {
    let to = TempDir::new().unwrap();
    for file in std::fs::read_dir(from).unwrap().map(Result::unwrap).filter(|file| file.path().is_file()) {
        std::fs::copy(file.path(), to.path().join(file.file_name())).unwrap();
    }
    to
}

/// Starts a step in a process of its own and kills it after a while.
fn killed(folder: &Path, step: &Step, after: Duration) {
    let text = json!({ "operation": step.operation, "input": step.input }).to_string();
    std::fs::write(folder.join("step.json"), text).unwrap();
    let mut process = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "killed::working_process", "--ignored", "--nocapture", "--test-threads=1"])
        .env("PROVENOHM_KILLED", folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(process.stdout.take().unwrap()).lines().map_while(Result::ok);
    assert!(lines.any(|line| line.ends_with("begins")), "it came to the step");
    std::thread::sleep(after);
    process.kill().unwrap();
    process.wait().unwrap();
}

/// How many kills of each step: more overnight.
fn kills() -> u32 {
    let asked = std::env::var("PROVENOHM_KILLS").ok().and_then(|number| number.parse::<u32>().ok());
    asked.map_or(3, |number| number.div_ceil(20))
}

/// A job whose first pair two devices read apart: the folder of the one, closed, its id, and the other's bundle.
fn prepared() -> (TempDir, String, Value) {
    let folder = TempDir::new().unwrap();
    let one = Program::of(open(folder.path(), 1));
    let (job, board) = one.job();
    one.circuits(&board, 4, single_phase());
    let tester = one.tester("Tester A");
    one.certificate(&tester, "2026-03-02", "2027-03-02");
    one.ask("choose_tester", json!({ "board": board, "tester": tester }));
    let bundle = |from: &Program| {
        let written = from.ask("hand_over", json!({ "job": job, "testers": [] }));
        let bytes = std::fs::read(written["files"][0].as_str().unwrap()).unwrap();
        json!({ "base64": BASE64_STANDARD.encode(bytes) })
    };
    let other = Program::start_with(7);
    other.ask("take_in_bundle", bundle(&one));
    let people = other.ask("add_person", json!({ "job": job, "name": "B. Recorder" }))["people"].clone();
    let person = people.as_array().unwrap().iter().find(|it| it["name"] == "B. Recorder").unwrap()["id"].clone();
    other.ask("be_person", json!({ "job": job, "person": person }));
    other.ask("choose_tester", json!({ "board": board, "tester": tester }));
    let read = |on: &Program, megohms: &str| {
        let slot = slot_at_500_v(on, &board);
        let typed = json!({ "typed": { "text": megohms, "comparator": "exact", "unit": "m" } });
        on.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    };
    read(&one, "487");
    (0..10).for_each(|_| read(&other, "200"));
    let brought = bundle(&other);
    drop(one);
    let _ = std::fs::remove_dir_all(folder.path().join("papers"));
    (folder, job, brought)
}

#[test]
fn kills_in_the_middle_of_a_step_leave_all_of_it_or_nothing() {
    let (mut folder, job, brought) = prepared();
    let question =
        |folder: &TempDir| ask(&open(folder.path(), 5), "settling", json!({ "job": job }))["questions"][0].clone();
    for operation in ["take_in_bundle", "settle", "sign_off", "hand_over"] {
        let input = match operation {
            "take_in_bundle" => brought.clone(),
            "settle" => {
                let asked = question(&folder);
                json!({ "job": job, "question": asked["id"], "choice": asked["choices"][0]["id"] })
            }
            "sign_off" => json!({ "job": job, "name": "R. Reviewer" }),
            _ => json!({ "job": job, "testers": [] }),
        };
        let step = Step { operation, input };
        let before = seen(folder.path(), &job);
        let whole = copy(folder.path());
        let began = Instant::now();
        ask(&open(whole.path(), 6), operation, step.input.clone());
        let (took, after) = (began.elapsed(), seen(whole.path(), &job));
        assert_ne!(before, after, "{operation} is seen");
        for kill in 0..kills() {
            let trial = copy(folder.path());
            killed(trial.path(), &step, took * (2 * kill + 1) / (2 * kills()));
            let left = seen(trial.path(), &job);
            assert!(left == before || left == after, "{operation}: {left} is neither {before} nor {after}");
            if left == before {
                ask(&open(trial.path(), 8), operation, step.input.clone());
                assert_eq!(seen(trial.path(), &job), after, "{operation} done again");
            }
        }
        folder = whole;
    }
}
