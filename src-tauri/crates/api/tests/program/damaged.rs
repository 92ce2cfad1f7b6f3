//! A record that is no longer as it was written: what is said, what still leaves it, and the way on.

use crate::support::{Program, host_from};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::{Api, Failure, Host};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use tempfile::TempDir;

/// Each opening has randomness of its own, as in life.
fn another_host() -> Host {
    static OPENED: AtomicU64 = AtomicU64::new(1_000);
    host_from("2026-11-25T10:00:00+00:00", OPENED.fetch_add(1, Ordering::Relaxed))
}

fn open(folder: &Path) -> Api {
    Api::open_or_say(folder, another_host()).unwrap()
}

fn ask(api: &Api, operation: &str, input: Value) -> Value {
    api.call(operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
}

fn refused(api: &Api, operation: &str, input: Value) -> Failure {
    api.call(operation, input).unwrap_err()
}

fn record(folder: &TempDir) -> PathBuf {
    folder.path().join("record.sqlite")
}

/// A job in a record in a folder, which no program has open, and another device that took it in.
fn recorded() -> (TempDir, Program, String) {
    let folder = TempDir::new().unwrap();
    let api = open(folder.path());
    let job = ask(&api, "start_job", json!({ "name": "Mill Lane", "place": "Unit 7", "person": "A. Recorder" }));
    let job = job["id"].as_str().unwrap().to_owned();
    ask(&api, "add_board", json!({ "job": job, "name": "DB-1" }));
    let other = Program::start_with(77);
    other.ask("take_in_bundle", handed(&api, &job));
    (folder, other, job)
}

fn handed(api: &Api, job: &str) -> Value {
    file(&ask(api, "hand_over", json!({ "job": job, "testers": [] })))
}

fn file(written: &Value) -> Value {
    let bytes = std::fs::read(written["files"][0].as_str().unwrap()).unwrap();
    json!({ "base64": BASE64_STANDARD.encode(bytes) })
}

/// One bit of a text in the record, wherever it stands there.
fn alter(folder: &TempDir, text: &str) {
    let mut bytes = std::fs::read(record(folder)).unwrap();
    let places: Vec<usize> =
        (0..bytes.len() - text.len()).filter(|at| bytes[*at..].starts_with(text.as_bytes())).collect();
    assert!(!places.is_empty());
    places.into_iter().for_each(|at| bytes[at] ^= 1);
    std::fs::write(record(folder), bytes).unwrap();
}

#[test]
fn a_job_with_a_damaged_entry_is_handed_over_without_it_and_mended_by_another_device() {
    let (folder, other, job) = recorded();
    alter(&folder, "Unit 7");
    let api = open(folder.path());
    assert_eq!(refused(&api, "job", json!({ "job": job })).code, "record_damaged");
    let written = ask(&api, "hand_over", json!({ "job": job, "testers": [] }));
    let words = written["words"].as_str().unwrap();
    assert!(words.starts_with("Bundle written without 1 entry that is damaged here"), "{words}");
    let third = Program::start_with(78);
    let taken = third.ask("take_in_bundle", file(&written));
    assert!(taken["lines"].to_string().contains("1 entry in between is missing"), "{taken}");

    let whole = other.ask("hand_over", json!({ "job": job, "testers": [] }));
    let taken = ask(&api, "take_in_bundle", file(&whole));
    assert!(taken["lines"].to_string().contains("1 entry that was damaged here is as it was written again"), "{taken}");
    assert_eq!(ask(&api, "job", json!({ "job": job }))["place"], "Unit 7");
    assert_eq!(ask(&api, "hand_over", json!({ "job": job, "testers": [] }))["words"], "Bundle written");
}

#[test]
fn a_record_that_does_not_open_is_set_aside_and_bundles_bring_its_jobs_back() {
    let (folder, other, job) = recorded();
    let mut damaged = std::fs::read(record(&folder)).unwrap();
    damaged[..100].fill(0xa5);
    std::fs::write(record(&folder), &damaged).unwrap();
    assert!(Api::open(folder.path(), another_host()).is_err_and(|it| it.code == "record_damaged"));

    let api = open(folder.path());
    assert!(ask(&api, "catalogue", json!({}))["ftl"].as_str().unwrap().contains("set-aside"), "the screens have words");
    assert!(ask(&api, "place", json!({}))["hash"].is_null());
    let said = refused(&api, "jobs", json!({}));
    assert_eq!(said.code, "record_damaged");
    assert!(said.words.contains("set the record aside"), "{said}");
    assert_eq!(refused(&api, "make_demo", json!({})).code, "record_damaged", "nothing is written to nowhere");

    let aside = ask(&api, "set_record_aside", json!({}));
    let path = aside["files"][0].as_str().unwrap();
    assert_eq!(std::fs::read(path).unwrap(), damaged, "nothing of it is deleted or changed");
    assert!(aside["words"].as_str().unwrap().contains("record-set-aside-2026-11-25-"), "{aside}");
    assert!(aside["lines"][0].as_str().unwrap().starts_with("Nothing of it could be read"), "{aside}");
    assert!(ask(&api, "jobs", json!({}))["jobs"].as_array().unwrap().is_empty());
    ask(&api, "take_in_bundle", file(&other.ask("hand_over", json!({ "job": job, "testers": [] }))));
    assert_eq!(ask(&api, "job", json!({ "job": job }))["place"], "Unit 7");
    assert_eq!(refused(&api, "set_record_aside", json!({})).code, "record_sound");
    drop(api);
    assert_eq!(ask(&open(folder.path()), "job", json!({ "job": job }))["place"], "Unit 7", "and it stays");
}

#[test]
fn what_is_as_it_was_written_goes_on_in_the_new_record() {
    let (folder, _, job) = recorded();
    alter(&folder, "DB-1");
    let api = open(folder.path());
    assert_eq!(refused(&api, "job", json!({ "job": job })).code, "record_damaged");
    let aside = ask(&api, "set_record_aside", json!({}));
    assert!(aside["lines"][0].as_str().unwrap().ends_with("are as they were written, and here again"), "{aside}");
    assert_eq!(aside["lines"][1], "1 entry of it is not as it was written, and stays there");
    let view = ask(&api, "job", json!({ "job": job }));
    assert_eq!((&view["place"], view["boards"].as_array().map(Vec::len)), (&json!("Unit 7"), Some(0)));
    ask(&api, "add_board", json!({ "job": job, "name": "DB-2" }));
    let third = Program::start_with(78);
    third.ask("take_in_bundle", handed(&api, &job));
    assert_eq!(third.ask("job", json!({ "job": job }))["boards"].as_array().map(Vec::len), Some(1));
}

#[test]
fn the_device_goes_on_as_a_new_one_where_its_own_file_is_damaged_too() {
    let (folder, _, job) = recorded();
    for name in ["record.sqlite", "device.sqlite"] {
        std::fs::write(folder.path().join(name), [0xa5; 8192]).unwrap();
    }
    let api = open(folder.path());
    let aside = ask(&api, "set_record_aside", json!({}));
    assert_eq!(aside["files"].as_array().map(Vec::len), Some(2), "{aside}");
    assert_eq!(refused(&api, "job", json!({ "job": job })).code, "not_found");
    ask(&api, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" }));
}

#[test]
fn a_record_in_memory_and_a_sound_one_are_not_set_aside() {
    assert_eq!(Program::start().refused("set_record_aside", json!({})).code, "record_sound");
    let (folder, _, job) = recorded();
    let api = open(folder.path());
    assert_eq!(refused(&api, "set_record_aside", json!({})).code, "record_sound");
    assert_eq!(ask(&api, "job", json!({ "job": job }))["place"], "Unit 7");
}
