//! The kept inputs of every target, each as it once was found or thought of.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_fuzz::{TARGETS, seeds, target};
use std::path::{Path, PathBuf};

fn corpora() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("corpora")
}

fn replay(name: &str) {
    let target = target(name).unwrap();
    for seed in seeds(name) {
        (target.holds)(&seed);
    }
    let files = std::fs::read_dir(corpora().join(name)).unwrap().map(|file| file.unwrap().path());
    let mut replayed = 0;
    for file in files {
        // Shown only if it fails.
        println!("{}", file.display());
        (target.holds)(&std::fs::read(file).unwrap());
        replayed += 1;
    }
    assert!(replayed > 0, "nothing is kept for {name}");
}

/// Adding a target without its test, or a folder without its target, fails here.
#[test]
fn every_target_and_no_other_has_a_corpus() {
    let mut kept: Vec<String> = std::fs::read_dir(corpora())
        .unwrap()
        .map(|folder| folder.unwrap().file_name().into_string().unwrap())
        .collect();
    kept.sort();
    let mut named = TARGETS.map(|target| target.name);
    named.sort_unstable();
    assert_eq!(kept, named);
}

#[test]
fn published_examples_are_read_where_they_are_aimed() {
    assert!(seeds("entry").len() > 40, "a body and a whole entry of each kind");
}

#[test]
fn entries() {
    replay("entry");
}

#[test]
fn bundles() {
    replay("bundle");
}

#[test]
fn job_files() {
    replay("job-file");
}

#[test]
fn verification_files() {
    replay("verification-file");
}

#[test]
fn limit_sets() {
    replay("limit-set");
}

#[test]
fn circuits_tables() {
    replay("circuits-table");
}

#[test]
fn hub_requests() {
    assert!(seeds("hub-request").len() > 9, "the published conversation");
    replay("hub-request");
}

#[test]
fn readings_tables() {
    replay("readings-table");
}

#[test]
fn quantities() {
    replay("quantity");
}

#[test]
fn keypad_sequences() {
    replay("keypad");
}

#[test]
fn typed_dates() {
    replay("typed-dates");
}

#[test]
fn papers() {
    replay("paper");
}
