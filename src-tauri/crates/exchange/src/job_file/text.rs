//! Reading and writing the file's text.

use super::{Fault, JobFile};

/// What stands in `format`.
const FORMAT: &str = "provenohm-job";

/// The version written; no other is read.
pub const VERSION: u32 = 1;

/// More bytes than any job needs; beyond it nothing is read.
const MOST_BYTES: usize = 64 << 20;

/// Why text is no job file. Place and reason are for a person to find it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAJobFile {
    /// Larger than a job file can be.
    #[error("it is larger than {} MiB", MOST_BYTES >> 20)]
    TooLarge,
    /// Nothing in it.
    #[error("it is empty")]
    Empty,
    /// Not the JSON of a job file.
    #[error("line {line}, column {column}: {reason}")]
    Malformed {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong there.
        reason: String,
    },
    /// JSON of something else.
    #[error("`format` is not `{FORMAT}`")]
    OtherFormat,
    /// Made by a newer version.
    #[error("version {0} is newer than version {VERSION}, which this program reads")]
    Newer(u32),
    /// Something in it cannot be, or is named and not in the file.
    #[error("{place}: {reason}")]
    Broken {
        /// Where.
        place: String,
        /// What is wrong there.
        reason: Fault,
    },
}

impl JobFile {
    /// Reads a job file and checks that what it names is in it.
    ///
    /// # Errors
    /// [`NotAJobFile`] with place and reason.
    pub fn read(text: &str) -> Result<Self, NotAJobFile> {
        if text.len() > MOST_BYTES {
            return Err(NotAJobFile::TooLarge);
        }
        if text.trim().is_empty() {
            return Err(NotAJobFile::Empty);
        }
        /// The two fields that say whether the rest can be read.
        #[derive(serde::Deserialize)]
        struct Head {
            format: Option<String>,
            version: Option<u32>,
        }
        let head: Head = serde_json::from_str(text).map_err(|error| {
            // JSON that is not even an object with these two is the JSON of something else.
            if error.is_data() { NotAJobFile::OtherFormat } else { malformed(&error) }
        })?;
        if head.format.as_deref() != Some(FORMAT) {
            return Err(NotAJobFile::OtherFormat);
        }
        if let Some(newer) = head.version.filter(|version| *version > VERSION) {
            return Err(NotAJobFile::Newer(newer));
        }
        let file: Self = serde_json::from_str(text).map_err(|error| malformed(&error))?;
        file.check()?;
        Ok(file)
    }

    /// The file's text: JSON with the fields in their declared order.
    ///
    /// # Errors
    /// What JSON refuses; nothing in a job file is.
    pub fn write(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string_pretty(self).map(|text| text + "\n")
    }

    /// A file of this version, still to be filled.
    #[must_use]
    pub fn format() -> (String, u32) {
        (FORMAT.to_owned(), VERSION)
    }
}

fn malformed(error: &serde_json::Error) -> NotAJobFile {
    let reason = error.to_string();
    let at = format!(" at line {} column {}", error.line(), error.column());
    let reason = reason.strip_suffix(&at).map_or(reason.clone(), str::to_owned);
    NotAJobFile::Malformed { line: error.line(), column: error.column(), reason }
}
