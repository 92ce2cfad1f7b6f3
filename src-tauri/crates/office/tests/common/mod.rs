//! Running the headless program.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, dead_code, unreachable_pub)]

use serde_json::Value;
use std::path::PathBuf;
use std::process::{Command, Output};

pub const JOB: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../schemas/job.example.json");

pub fn office(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_provenohm-office")).args(arguments).output().unwrap()
}

pub fn told(arguments: &[&str]) -> String {
    let output = office(arguments);
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{arguments:?}: {complaint}");
    String::from_utf8(output.stdout).unwrap()
}

pub fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&told(arguments)).unwrap()
}

/// Exit 2 with one sentence and no panic.
pub fn refused(arguments: &[&str]) -> String {
    let output = office(arguments);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(!said.contains("panicked"), "{said}");
    said.trim_end().to_owned()
}

pub struct Folder(tempfile::TempDir);

impl Folder {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn with(&self, name: &str, text: &str) -> String {
        std::fs::write(self.file(name), text).unwrap();
        self.text(name)
    }

    pub fn text(&self, name: &str) -> String {
        self.file(name).display().to_string()
    }
}

pub fn example() -> String {
    std::fs::read_to_string(JOB).unwrap()
}

/// The example file with something in it changed.
pub fn changed(change: impl FnOnce(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(&example()).unwrap();
    change(&mut file);
    file.to_string()
}
