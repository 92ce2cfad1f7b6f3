//! `cargo xtask prove [PART…]`: what takes longer than a change should wait for.
use std::{fs, path::PathBuf, time::Instant};

use crate::command::{cargo, command, read, shown};
use crate::{mobile, node, pdf, places, run, trouble::Trouble};

/// One check that can be run by its name.
struct Part {
    name: &'static str,
    run: fn() -> Result<(), Trouble>,
}

const PARTS: [Part; 3] = [
    Part { name: "mobile-check", run: mobile::check },
    Part { name: "axe", run: every_look },
    Part { name: "pdf", run: pdf::conforms },
];

/// Runs the parts named, or all that have not held yet for this commit. A row is written as each ends, so that a run
/// that was broken off goes on where it stopped.
pub(crate) fn prove(names: &[&str]) -> Result<(), Trouble> {
    let unknown = names.iter().find(|name| PARTS.iter().all(|part| part.name != **name));
    if let Some(name) = unknown {
        let all: Vec<&str> = PARTS.iter().map(|part| part.name).collect();
        return Err(Trouble::new(format!("There is no part {name}."), format!("name some of: {}", all.join(", "))));
    }
    let state = state()?;
    let mut failed = Vec::new();
    for part in &PARTS {
        let row = row(part.name);
        let held = fs::read_to_string(&row).is_ok_and(|held| held.starts_with(&format!("held {state} ")));
        if names.contains(&part.name) || (names.is_empty() && !held) {
            println!("── {}", part.name);
            let started = Instant::now();
            let done = (part.run)();
            let word = if done.is_ok() { "held" } else { "failed" };
            write_row(&row, &format!("{word} {state} in {} s\n", started.elapsed().as_secs()))?;
            if let Err(trouble) = done {
                eprintln!("{trouble}");
                failed.push(part.name);
            }
        } else if names.is_empty() {
            println!("── {} held already for {state}", part.name);
        }
    }
    if failed.is_empty() {
        return Ok(());
    }
    Err(Trouble::new(
        format!("Not proved: {}.", failed.join(", ")),
        "read what each said, and run it again by its name",
    ))
}

/// Every screen in every theme, at every width, and at twice the text size.
fn every_look() -> Result<(), Trouble> {
    node::ensure()?;
    node::packages()?;
    node::build()?;
    shown(&mut cargo(&run::BUILD))?;
    let words = ["test", "--workspace", "--locked", "--test", "windows", "--", "screens::", "--include-ignored"];
    shown(&mut cargo(&words))
}

/// The commit, marked where files differ from it: such a state never counts as proved before.
#[expect(clippy::disallowed_methods, reason = "a mark in a log, nothing of the record")]
fn state() -> Result<String, Trouble> {
    let commit = read(command("git").args(["rev-parse", "--short=12", "HEAD"]))?;
    let changes = read(command("git").args(["status", "--porcelain"]))?;
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).map_or(0, |since| since.as_secs());
    let commit = commit.trim();
    Ok(if changes.is_empty() { commit.to_owned() } else { format!("{commit}+changes-at-{now}") })
}

fn row(name: &str) -> PathBuf {
    places::target().join("prove").join(name)
}

fn write_row(row: &PathBuf, line: &str) -> Result<(), Trouble> {
    let folder = places::target().join("prove");
    fs::create_dir_all(&folder).and_then(|()| fs::write(row, line)).map_err(|error| {
        Trouble::new(format!("{} could not be written: {error}.", row.display()), "check the folder and its rights")
    })
}
