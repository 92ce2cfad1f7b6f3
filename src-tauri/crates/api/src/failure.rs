//! How an operation refuses: a stable code, the person's words, and complaints about fields.

use crate::views::Complaint;

/// An operation was refused or could not be done. Nothing of it was recorded.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS, thiserror::Error)]
#[error("{words}")]
pub struct Failure {
    /// Stable, snake_case: `form` (see the complaints), `refused` (cannot be a reading), `unknown_operation`, …
    pub code: String,
    /// One sentence for the person.
    pub words: String,
    /// What is wrong with which field; empty unless the code is `form`.
    pub complaints: Vec<Complaint>,
    /// Technical text to copy, where something broke.
    pub detail: Option<String>,
}
