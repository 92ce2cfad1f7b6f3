//! Reading and writing the file's text.

use super::{Fault, JobFile};
use crate::json::{self, NotThat};

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
    #[error(transparent)]
    Malformed(#[from] NotThat),
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
        let head: Head = json::read(text).map_err(|error| {
            // JSON that is not even an object with these two is the JSON of something else.
            if error.no_json { error.into() } else { NotAJobFile::OtherFormat }
        })?;
        if head.format.as_deref() != Some(FORMAT) {
            return Err(NotAJobFile::OtherFormat);
        }
        if let Some(newer) = head.version.filter(|version| *version > VERSION) {
            return Err(NotAJobFile::Newer(newer));
        }
        let file: Self = json::read(text)?;
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
