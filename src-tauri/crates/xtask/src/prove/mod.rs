//! `cargo xtask prove [PART…]`: what takes longer than a change should wait for, each part by its name.

mod checks;
mod fuzz;
mod instrumented;
mod mutants;
mod parts;
mod references;
mod row;
mod tools;

use std::time::Instant;

use crate::command::{command, read};
use crate::trouble::Trouble;
use parts::{Extent, Part, Told};
use row::Row;

/// Runs the parts named, or all that have not held yet for this commit; with `--again`, those too. A row is written
/// as each ends, so that a run that was broken off goes on where it stopped; at the end all rows are one table. `--long` is for
/// a night: more schedules, longer fuzzing, and mutants.
pub(crate) fn prove(words: &[&str]) -> Result<(), Trouble> {
    let (options, names): (Vec<&str>, Vec<&str>) = words.iter().partition(|word| word.starts_with("--"));
    if let Some(option) = options.iter().find(|option| !["--again", "--long"].contains(option)) {
        return Err(Trouble::new(format!("There is no option {option}."), "those there are: --again, --long"));
    }
    let (again, long) = (options.contains(&"--again"), options.contains(&"--long"));
    let parts = parts::all(if long { Extent::Long } else { Extent::Usual })?;
    if let Some(name) = names.iter().find(|name| !parts.iter().any(|part| part.is_meant_by(name))) {
        let all: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
        return Err(Trouble::new(format!("There is no part {name}."), format!("name some of: {}", all.join(", "))));
    }
    let named = |part: &Part| names.iter().any(|name| part.is_meant_by(name));
    let meant = |part: &&Part| if names.is_empty() { part.is_usual() } else { named(part) };
    // What held in the usual time is not yet shown at length.
    let state = if long { format!("{} at length", state()?) } else { state()? };
    let mut failed = Vec::new();
    for part in parts.iter().filter(meant) {
        let before = Row::read(&part.name)?;
        if !again && before.is_some_and(|row| row.held && row.state == state) {
            println!("── {} held already for {state}", part.name);
            continue;
        }
        println!("── {}", part.name);
        let row = run(part, &state);
        row.write(&part.name)?;
        if !row.held {
            failed.push(part.name.as_str());
        }
    }
    row::print_table(&parts)?;
    if failed.is_empty() {
        return Ok(());
    }
    Err(Trouble::new(
        format!("Not shown to hold: {}.", failed.join(", ")),
        "read what each said above, mend it, and run it again by its name",
    ))
}

fn run(part: &Part, state: &str) -> Row {
    let started = Instant::now();
    let told = (part.run)(part);
    if let Err(trouble) = &told {
        eprintln!("{trouble}");
    }
    let held = told.is_ok();
    let Told { cases, replay } = told.unwrap_or_else(|trouble| Told {
        cases: trouble.to_string().lines().next().unwrap_or_default().to_owned(),
        replay: format!("cargo xtask prove {}", part.name),
    });
    Row { held, state: state.to_owned(), seconds: started.elapsed().as_secs(), cases, replay }
}

/// The commit, marked where files differ from it: such a state never counts as proved before.
fn state() -> Result<String, Trouble> {
    let commit = read(command("git").args(["rev-parse", "--short=12", "HEAD"]))?;
    let changes = read(command("git").args(["status", "--porcelain"]))?;
    let commit = commit.trim();
    Ok(if changes.is_empty() { commit.to_owned() } else { format!("{commit}+changes-at-{}", parts::now()) })
}
