//! Reading JSON so that a complaint names line and place.

use serde::de::DeserializeOwned;

/// Where JSON is not what it should be, and why.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, {place}: {reason}")]
pub struct NotThat {
    /// Line, from 1.
    pub line: usize,
    /// Member and elements down to it, `readings[3].reading`; empty: the whole.
    pub place: String,
    /// What is wrong there.
    pub reason: String,
    /// It is no JSON at all, or ends too early.
    pub no_json: bool,
}

/// Reads a value, and nothing beside it.
///
/// # Errors
/// [`NotThat`] for what is wrong first.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, NotThat> {
    let mut source = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut source).map_err(|error| {
        let place = error.path().to_string();
        NotThat::at(if place == "." { String::new() } else { place }, &error.into_inner())
    })?;
    source.end().map_err(|error| NotThat::at(String::new(), &error))?;
    Ok(value)
}

impl NotThat {
    fn at(place: String, error: &serde_json::Error) -> Self {
        let reason = error.to_string();
        let at = format!(" at line {} column {}", error.line(), error.column());
        let reason = reason.strip_suffix(&at).map_or_else(|| reason.clone(), str::to_owned);
        Self { line: error.line().max(1), place, reason, no_json: !error.is_data() }
    }
}
