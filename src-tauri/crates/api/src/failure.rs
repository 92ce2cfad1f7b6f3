//! How an operation refuses: a stable code, the person's words, and complaints about fields.

use crate::views::Complaint;
use provenohm_exchange::NoSnapshot;
use provenohm_logbook::random::NoRandomness;
use provenohm_logbook::record::WriteError;
use provenohm_logbook::store::OpenError;
use provenohm_logbook::view::ReadError;
use provenohm_words::Words;

/// The code of everything that is refused since the record is not as it was written.
pub(crate) const DAMAGED: &str = "record_damaged";

/// An operation was refused or could not be done. Nothing of it was recorded.
#[derive(
    Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, schemars::JsonSchema, ts_rs::TS, thiserror::Error,
)]
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

impl Failure {
    /// A failure of this code; the catalogue has its words under `failure-CODE`.
    pub(crate) fn of(code: &str) -> Self {
        Self { code: code.to_owned(), words: String::new(), complaints: Vec::new(), detail: None }
    }

    /// With words of its own.
    pub(crate) fn saying(self, words: impl Into<String>) -> Self {
        Self { words: words.into(), ..self }
    }

    /// With technical text to copy.
    pub(crate) fn because(self, detail: impl std::fmt::Display) -> Self {
        Self { detail: Some(detail.to_string()), ..self }
    }

    /// A form with complaints.
    pub(crate) fn form(complaints: Vec<Complaint>) -> Self {
        Self { complaints, ..Self::of("form") }
    }

    /// Fills in the catalogue's words where the failure has none of its own.
    pub(crate) fn worded(self, words: &Words) -> Self {
        if self.words.is_empty() { Self { words: words.failure(&self.code), ..self } } else { self }
    }
}

impl From<WriteError> for Failure {
    fn from(error: WriteError) -> Self {
        let code = match &error {
            damage if damage.is_damage() => DAMAGED,
            WriteError::NewerRecord => "record_newer",
            WriteError::TooLong => "too_long",
            WriteError::DiskFull => "storage_full",
            WriteError::UnknownPerson(_) => "no_person",
            WriteError::NoReason => "reason_needed",
            WriteError::UnknownEntry(_) => "not_found",
            WriteError::LeavesWork => "worked_on_since",
            WriteError::BegunElsewhere => "begun_elsewhere",
            WriteError::Sqlite(_) => "storage",
            _ => "unexpected",
        };
        Self::of(code).because(error)
    }
}

impl From<ReadError> for Failure {
    fn from(error: ReadError) -> Self {
        let code = match &error {
            ReadError::Sqlite(_) if !error.is_damage() => "storage",
            _ => DAMAGED,
        };
        Self::of(code).because(error)
    }
}

impl From<OpenError> for Failure {
    fn from(error: OpenError) -> Self {
        let code = match &error {
            OpenError::NeedsNewer => "record_newer",
            OpenError::DiskFull => "storage_full",
            damage if damage.is_damage() => DAMAGED,
            _ => "storage",
        };
        Self::of(code).because(error)
    }
}

impl From<NoSnapshot> for Failure {
    fn from(error: NoSnapshot) -> Self {
        match error {
            NoSnapshot::NoSuchJob => Self::of("not_found"),
            NoSnapshot::Unreadable(error) => error.into(),
        }
    }
}

impl From<NoRandomness> for Failure {
    fn from(error: NoRandomness) -> Self {
        Self::of("unexpected").because(error)
    }
}
