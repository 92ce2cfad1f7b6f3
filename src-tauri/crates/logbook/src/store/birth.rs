//! When and where a file came to be: a copy written as a new file has another birth.

use std::fs::Metadata;
use std::io;
use std::path::Path;
use std::time::UNIX_EPOCH;

/// A file's birth, in words that only its equality is asked of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Birth(pub(super) String);

impl Birth {
    /// The birth of a file that is there; `None` where neither system nor file system tells one.
    ///
    /// # Errors
    /// The file cannot be asked.
    pub(super) fn of(path: &Path) -> io::Result<Option<Self>> {
        let told = std::fs::metadata(path)?;
        let created = told.created().ok().and_then(|at| at.duration_since(UNIX_EPOCH).ok());
        let created = created.map(|since| format!("{}.{:09}", since.as_secs(), since.subsec_nanos()));
        let parts: Vec<String> = created.into_iter().chain(number(&told)).collect();
        Ok((!parts.is_empty()).then(|| Self(parts.join(" "))))
    }
}

/// The file's number in its volume, where a copy may keep the instant (iOS, macOS) or the library tells none (Android).
#[cfg(any(target_vendor = "apple", target_os = "android"))]
fn number(told: &Metadata) -> Option<String> {
    use std::os::unix::fs::MetadataExt as _;
    Some(told.ino().to_string())
}

/// Elsewhere the instant is enough, and some volumes number their files anew whenever they are connected.
#[cfg(not(any(target_vendor = "apple", target_os = "android")))]
const fn number(_: &Metadata) -> Option<String> {
    None
}
