//! Running other programs, with their failure told in one sentence.
use std::io::{BufRead as _, BufReader};
use std::process::{Command, ExitStatus, Stdio};

use crate::{places, trouble::Trouble};

/// `program` in the repository's top folder.
pub(crate) fn command(program: &str) -> Command {
    let mut command = Command::new(program);
    command.current_dir(places::root());
    command
}

/// The cargo that runs this task.
pub(crate) fn cargo(words: &[&str]) -> Command {
    let program = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let mut command = command(&program);
    command.args(words);
    command
}

/// Runs with its output shown as it comes.
pub(crate) fn shown(command: &mut Command) -> Result<(), Trouble> {
    let line = line_of(command);
    let status = command.status().map_err(|error| not_started(&line, &error))?;
    if status.success() {
        return Ok(());
    }
    Err(ended(&line, status))
}

/// Runs in silence; the output is shown only if it fails.
pub(crate) fn quiet(command: &mut Command) -> Result<(), Trouble> {
    let line = line_of(command);
    let output = command.stdin(Stdio::null()).output().map_err(|error| not_started(&line, &error))?;
    if output.status.success() {
        return Ok(());
    }
    eprintln!("{}", String::from_utf8_lossy(&output.stdout));
    eprintln!("{}", String::from_utf8_lossy(&output.stderr));
    Err(ended(&line, output.status))
}

/// What a program prints.
pub(crate) fn read(command: &mut Command) -> Result<String, Trouble> {
    let line = line_of(command);
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| not_started(&line, &error))?;
    if output.status.success() {
        return Ok(String::from_utf8_lossy(&output.stdout).into_owned());
    }
    Err(ended(&line, output.status))
}

/// What a program prints, shown as it comes and kept.
pub(crate) fn told(command: &mut Command) -> Result<String, Trouble> {
    let line = line_of(command);
    let mut program = command.stdout(Stdio::piped()).spawn().map_err(|error| not_started(&line, &error))?;
    let mut text = String::new();
    if let Some(out) = program.stdout.take() {
        // Split by hand, because not all that programs print is UTF-8.
        for part in BufReader::new(out).split(b'\n') {
            let part = part.map_err(|error| not_started(&line, &error))?;
            let part = String::from_utf8_lossy(&part);
            println!("{part}");
            text.push_str(&part);
            text.push('\n');
        }
    }
    let status = program.wait().map_err(|error| not_started(&line, &error))?;
    if status.success() { Ok(text) } else { Err(ended(&line, status)) }
}

/// Whether the program can be started at all.
pub(crate) fn there(program: &str, word: &str) -> bool {
    command(program)
        .arg(word)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

fn line_of(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    let words: Vec<_> = words.map(|word| word.to_string_lossy()).collect();
    words.join(" ")
}

fn ended(line: &str, status: ExitStatus) -> Trouble {
    Trouble::new(
        format!("`{line}` ended with {status}."),
        "read the lines above, correct what they name, and run the same task again",
    )
}

fn not_started(line: &str, error: &std::io::Error) -> Trouble {
    Trouble::new(
        format!("`{line}` could not be started: {error}."),
        "install that program, or put it on the PATH, and run the same task again",
    )
}
