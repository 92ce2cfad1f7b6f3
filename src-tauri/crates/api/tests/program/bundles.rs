//! Bundles out of one program and into another.

use crate::support::{Program, single_phase};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

/// A job with a circuit, a proved tester and one reading; its ids.
fn recorded() -> (Program, String, String) {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let tester = program.tester("Tester A");
    program.certificate(&tester, "2026-03-02", "2027-03-02");
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    read(&program, &board, "200");
    (program, job, board)
}

fn read(program: &Program, board: &str, text: &str) {
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let indication = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": indication }));
}

fn handed(program: &Program, job: &str) -> Vec<u8> {
    let written = program.ask("hand_over", json!({ "job": job, "testers": [] }));
    let path = written["path"].as_str().unwrap();
    assert!(path.ends_with("Mill-Lane.provenohm-bundle"), "{path}");
    std::fs::read(path).unwrap()
}

fn file(bytes: &[u8]) -> Value {
    json!({ "base64": BASE64_STANDARD.encode(bytes) })
}

/// The job as it is judged, without when and by whom the file was made.
fn judged(program: &Program, job: &str) -> Value {
    let mut file: Value = serde_json::from_str(&program.api.job_file(job).unwrap()).unwrap();
    file["made"] = Value::Null;
    file
}

#[test]
fn a_job_handed_over_is_the_same_job_on_the_other_device() {
    let (program, job, _) = recorded();
    let bytes = handed(&program, &job);
    let other = Program::start();
    let preview = other.ask("preview_bundle", file(&bytes));
    assert_eq!(preview["job"], json!(job));
    assert!(other.ask("jobs", json!({}))["jobs"].as_array().unwrap().is_empty(), "only looked at");
    let came = preview["came"].as_u64().unwrap();
    assert_eq!(preview["words"], format!("In {came} = joined {came} + same 0 + to settle 0"));
    let lines = preview["lines"].to_string();
    assert!(lines.contains("Job Mill Lane") && lines.contains("Tester Tester A"), "{lines}");

    assert_eq!(other.ask("take_in_bundle", file(&bytes)), preview, "it comes out as told");
    assert_eq!(judged(&other, &job), judged(&program, &job));
    let again = other.ask("take_in_bundle", file(&bytes));
    assert_eq!(again["words"], format!("In {came} = joined 0 + same {came} + to settle 0"));
}

#[test]
fn what_was_not_handed_over_yet_is_said() {
    let (program, job, board) = recorded();
    let lines = |program: &Program| program.ask("handed", json!({ "job": job }))["lines"].clone();
    assert_eq!(
        lines(&program),
        json!(["On this device: not handed over yet", "1 reading of this device not handed over yet"])
    );
    let bytes = handed(&program, &job);
    assert!(lines(&program)[0].as_str().unwrap().starts_with("Handed over on "), "{}", lines(&program));
    assert_eq!(lines(&program)[1], "Every reading of this device is in that file");
    read(&program, &board, "300");
    assert_eq!(lines(&program)[1], "1 reading of this device not handed over yet");
    program.ask("take_in_bundle", file(&bytes));
    assert!(lines(&program)[2].as_str().unwrap().starts_with("Received last on "), "{}", lines(&program));
    assert_eq!(
        lines(&program)[1],
        "1 reading of this device not handed over yet",
        "its own bundle back brings nothing"
    );
}

#[test]
fn what_was_judged_before_is_judged_anew_with_what_came() {
    let (program, job, board) = recorded();
    let other = Program::start();
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    assert_eq!(judged(&other, &job)["readings"].as_array().unwrap().len(), 1);
    read(&program, &board, "0.50");
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    assert_eq!(judged(&other, &job), judged(&program, &job));
}

#[test]
fn no_bundle_is_refused_in_one_sentence_and_nothing_is_taken() {
    let (program, job, _) = recorded();
    let bytes = handed(&program, &job);
    let other = Program::start();
    let mut altered = bytes.clone();
    altered[bytes.len() / 2] ^= 1;
    let mut newer = bytes.clone();
    newer[9] = 9;
    for (bytes, code) in [
        (&bytes[..bytes.len() - 1], "bundle_damaged"),
        (&altered, "bundle_damaged"),
        (&newer, "bundle_newer"),
        (b"{}", "not_a_bundle"),
        (b"", "not_a_bundle"),
    ] {
        for operation in ["preview_bundle", "take_in_bundle"] {
            let refused = other.refused(operation, file(bytes));
            assert_eq!(refused.code, code);
            assert!(!refused.words.is_empty() && refused.words != code);
        }
    }
    assert_eq!(other.refused("take_in_bundle", json!({ "base64": "?" })).code, "not_a_bundle");
    assert!(other.ask("jobs", json!({}))["jobs"].as_array().unwrap().is_empty());
    assert_eq!(other.refused("hand_over", json!({ "job": job, "testers": [] })).code, "not_found");
}
