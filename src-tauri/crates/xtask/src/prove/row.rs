//! One line for each part, kept in `target/prove/`, and the table they make.
use std::{fs, io, path::PathBuf};

use serde_json::{Value, json};

use crate::{places, trouble::Trouble};

use super::parts::Part;

/// How a part ended.
pub(crate) struct Row {
    pub(crate) held: bool,
    /// The commit it was run on.
    pub(crate) state: String,
    pub(crate) seconds: u64,
    /// How many cases, or what failed.
    pub(crate) cases: String,
    pub(crate) replay: String,
}

impl Row {
    /// The row of a part, if there is one that can be read; a row of an older form counts as none.
    pub(crate) fn read(name: &str) -> Result<Option<Self>, Trouble> {
        let file = file(name);
        let text = match fs::read_to_string(&file) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(unusable(&file, &error)),
        };
        let row: Value = serde_json::from_str(&text).unwrap_or_default();
        let word = |field: &str| row[field].as_str().map(str::to_owned);
        let whole = (row["held"].as_bool(), word("state"), row["seconds"].as_u64(), word("cases"), word("replay"));
        let (Some(held), Some(state), Some(seconds), Some(cases), Some(replay)) = whole else { return Ok(None) };
        Ok(Some(Self { held, state, seconds, cases, replay }))
    }

    pub(crate) fn write(&self, name: &str) -> Result<(), Trouble> {
        let Self { held, state, seconds, cases, replay } = self;
        let row = json!({ "held": held, "state": state, "seconds": seconds, "cases": cases, "replay": replay });
        put(&file(name), &format!("{row:#}\n"))
    }
}

/// Prints all rows there are as one table, and keeps it in `target/prove/table.md`.
pub(crate) fn print_table(parts: &[Part]) -> Result<(), Trouble> {
    let mut table =
        String::from("| part | promise | how it was tried | cases | result | again by |\n|---|---|---|---|---|---|\n");
    for part in parts {
        let Part { name, promise, how, .. } = part;
        let line = match Row::read(name)? {
            None => format!("| {name} | {promise} | {how} | | not run | |\n"),
            Some(Row { held, state, seconds, cases, replay }) => {
                let word = if held { "held" } else { "failed" };
                format!("| {name} | {promise} | {how} | {cases} | {word} at {state}, {seconds} s | `{replay}` |\n")
            }
        };
        table.push_str(&line);
    }
    print!("\n{table}");
    let kept = places::target().join("prove/table.md");
    put(&kept, &table)?;
    println!("\n   kept in {}", kept.display());
    Ok(())
}

fn put(file: &PathBuf, text: &str) -> Result<(), Trouble> {
    let folder = places::target().join("prove");
    fs::create_dir_all(&folder).and_then(|()| fs::write(file, text)).map_err(|error| unusable(file, &error))
}

fn file(name: &str) -> PathBuf {
    places::target().join("prove").join(format!("{name}.json"))
}

fn unusable(file: &std::path::Path, error: &io::Error) -> Trouble {
    Trouble::new(
        format!("{} could not be read or written: {error}.", file.display()),
        "check the folder and its rights, and run the same task again",
    )
}
