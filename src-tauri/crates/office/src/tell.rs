//! Writing answers and complaints.

use crate::ask::Outcome;
use provenohm_api::headless;
use serde::Serialize;
use std::io::Write as _;
use std::process::ExitCode;

/// An answer as JSON.
pub(crate) fn json<T: Serialize>(told: &T) -> Outcome {
    let text = serde_json::to_string_pretty(told).map_err(|error| error.to_string())?;
    lines([text])
}

/// An answer in lines. A reader that went away has read what it wanted; an answer that could not be written otherwise
/// was not given.
pub(crate) fn lines(lines: impl IntoIterator<Item = String>) -> Outcome {
    let mut out = std::io::stdout().lock();
    let written = lines.into_iter().try_for_each(|line| writeln!(out, "{line}")).and_then(|()| out.flush());
    match written {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(headless::not_answered(&error)),
        _ => Ok(ExitCode::SUCCESS),
    }
}

/// One sentence on the standard error.
pub(crate) fn complain(sentence: &str) {
    let _closed = writeln!(std::io::stderr().lock(), "{sentence}");
}
