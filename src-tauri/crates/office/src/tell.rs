//! Writing answers and complaints. A reader that went away is no failure worth a panic.

use crate::ask::Outcome;
use serde::Serialize;
use std::io::Write as _;
use std::process::ExitCode;

/// An answer as JSON.
pub(crate) fn json<T: Serialize>(told: &T) -> Outcome {
    let text = serde_json::to_string_pretty(told).map_err(|error| error.to_string())?;
    lines([text])
}

/// An answer in lines.
pub(crate) fn lines(lines: impl IntoIterator<Item = String>) -> Outcome {
    let mut out = std::io::stdout().lock();
    for line in lines {
        if writeln!(out, "{line}").is_err() {
            break;
        }
    }
    Ok(ExitCode::SUCCESS)
}

/// One sentence on the standard error.
pub(crate) fn complain(sentence: &str) {
    let _closed = writeln!(std::io::stderr().lock(), "{sentence}");
}
