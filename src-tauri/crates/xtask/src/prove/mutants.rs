//! Mutants: the judgement and the core of the record changed in one place at a time. The tests have to notice each change, but
//! for those that a file accepts, each with its reason.
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use crate::command::command;
use crate::{places, trouble::Trouble};

use super::parts::{Part, Told};
use super::tools;

const CARGO_MUTANTS: (&str, &str) = ("cargo-mutants", "27.1.0");

/// Whose every change has to be noticed.
const CHANGED: [&str; 5] = [
    "src-tauri/crates/assess/src/**/*.rs",
    "src-tauri/crates/logbook/src/chain/**/*.rs",
    "src-tauri/crates/logbook/src/entry/**/*.rs",
    "src-tauri/crates/logbook/src/seal/**/*.rs",
    "src-tauri/crates/logbook/src/project/**/*.rs",
];

/// The changes that may go unnoticed: one a line, what it is and, after a tab, why.
const ACCEPTED: &str = "tests/mutants/accepted.tsv";

/// What cargo-mutants ends with where it came to its end, and some changes were not noticed or made the tests hang.
const CAME_TO_ITS_END: [i32; 2] = [2, 3];

/// Tries every change, or those of the files that `PROVENOHM_MUTANTS` names; goes on where it was broken off.
pub(crate) fn mutants(part: &Part) -> Result<Told, Trouble> {
    let folder = places::target().join("prove/mutants");
    fs::create_dir_all(&folder).map_err(|error| unread(&folder, &error))?;
    let asked = std::env::var("PROVENOHM_MUTANTS").ok();
    let files: Vec<&str> = asked.as_deref().map_or_else(|| CHANGED.to_vec(), |asked| asked.split(' ').collect());
    let mut try_all = command(&tools::tool(CARGO_MUTANTS)?.to_string_lossy());
    try_all.args(["mutants", "--iterate", "--no-shuffle", "--colors=never", "--timeout-multiplier=4", "--output"]);
    try_all.arg(&folder).args(files.iter().flat_map(|file| ["--file", file])).args(["--", "--locked"]);
    // It works on a copy with a target folder of its own. What runs often elsewhere runs often enough for a change here.
    try_all.env_remove("CARGO_TARGET_DIR").env("PROVENOHM_KILLS", "2").env("PROVENOHM_SCHEDULES", "20");
    let ended = try_all.status().map_err(|error| stopped(&error))?;
    if !ended.success() && !ended.code().is_some_and(|code| CAME_TO_ITS_END.contains(&code)) {
        return Err(stopped(&ended));
    }
    let out = folder.join("mutants.out");
    let accepted = accepted()?;
    let missed = lines(&out.join("missed.txt"))?;
    let unforeseen: Vec<&String> = missed.iter().filter(|one| !accepted.contains(&without_place(one))).collect();
    for one in &unforeseen {
        println!("   nobody noticed: {one}");
    }
    if !unforeseen.is_empty() {
        return Err(Trouble::new(
            format!("{} changes went unnoticed.", unforeseen.len()),
            format!("write the test that notices them, or say in {ACCEPTED} why none can"),
        ));
    }
    let noticed = ["caught.txt", "previously_caught.txt", "timeout.txt"];
    let noticed = noticed.map(|name| lines(&out.join(name)).map(|lines| lines.len()));
    let noticed = noticed.into_iter().sum::<Result<usize, _>>()?;
    Ok(part.told(format!("{noticed} changes noticed, {} accepted", missed.len())))
}

/// The changes that the file accepts. Each has its reason, or the file is refused.
fn accepted() -> Result<BTreeSet<String>, Trouble> {
    let all = lines(&places::root().join(ACCEPTED))?;
    let mut changes = BTreeSet::new();
    for line in all.iter().filter(|line| !line.starts_with('#')) {
        match line.split_once('\t') {
            Some((change, why)) if !why.trim().is_empty() => changes.insert(change.to_owned()),
            _ => return Err(Trouble::new(format!("{ACCEPTED} gives no reason for: {line}"), "write it behind a tab")),
        };
    }
    Ok(changes)
}

/// `src/a.rs:12:5: replace …` without line and column, which move.
fn without_place(change: &str) -> String {
    match change.split_once(": ") {
        Some((place, what)) => format!("{}: {what}", place.split(':').next().unwrap_or(place)),
        None => change.to_owned(),
    }
}

/// The lines of a file; none where it is not there.
fn lines(file: &Path) -> Result<Vec<String>, Trouble> {
    match fs::read_to_string(file) {
        Ok(text) => Ok(text.lines().filter(|line| !line.trim().is_empty()).map(str::to_owned).collect()),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(Vec::new()),
        Err(error) => Err(unread(file, &error)),
    }
}

fn stopped(why: &dyn std::fmt::Display) -> Trouble {
    Trouble::new(format!("cargo-mutants stopped: {why}."), "read what it says above; it goes on where it was")
}

fn unread(path: &Path, error: &std::io::Error) -> Trouble {
    Trouble::new(format!("{} could not be read or made: {error}.", path.display()), "check the folder and its rights")
}

#[cfg(test)]
mod tests {
    use super::without_place;

    #[test]
    fn a_change_is_known_by_what_it_is_wherever_it_stands() {
        let told = "src-tauri/crates/assess/src/a.rs:12:5: replace Limit::of -> bool with true";
        assert_eq!(without_place(told), "src-tauri/crates/assess/src/a.rs: replace Limit::of -> bool with true");
    }
}
