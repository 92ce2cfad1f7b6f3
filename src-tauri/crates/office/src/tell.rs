//! Writing answers and complaints.

use crate::ask::Outcome;
use provenohm_api::headless;
use serde::Serialize;
use std::io::Write as _;
use std::process::ExitCode;

/// An answer as JSON.
pub(crate) fn json<T: Serialize>(told: &T) -> Outcome {
    let text = serde_json::to_string_pretty(told).map_err(|error| error.to_string())?;
    let mut out = std::io::stdout().lock();
    answered(writeln!(out, "{text}").and_then(|()| out.flush()))
}

/// A text that is an answer by itself.
pub(crate) fn whole(text: &str) -> Outcome {
    let mut out = std::io::stdout().lock();
    answered(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// An answer in lines; a name in them never makes a line or a colour of its own. A reader that went away has read what it wanted; an answer that could not be written otherwise
/// was not given.
pub(crate) fn lines(lines: impl IntoIterator<Item = String>) -> Outcome {
    let mut out = std::io::stdout().lock();
    let plain = |line: String| line.replace(char::is_control, "\u{fffd}");
    let written = lines.into_iter().try_for_each(|line| writeln!(out, "{}", plain(line))).and_then(|()| out.flush());
    answered(written)
}

fn answered(written: std::io::Result<()>) -> Outcome {
    match written {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(headless::not_answered(&error)),
        _ => Ok(ExitCode::SUCCESS),
    }
}

/// One sentence on the standard error.
pub(crate) fn complain(sentence: &str) {
    let _closed = writeln!(std::io::stderr().lock(), "{sentence}");
}
