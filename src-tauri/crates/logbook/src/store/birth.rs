//! When and where a file came to be: a copy of its bytes has another birth, whichever way it was made.

use std::io;
use std::path::Path;
use std::time::UNIX_EPOCH;

/// A file's birth, in words that only its equality is asked of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Birth(pub(super) String);

impl Birth {
    /// The birth of a file that is there; `None` where the file system keeps none.
    ///
    /// # Errors
    /// The file cannot be asked.
    pub(super) fn of(path: &Path) -> io::Result<Option<Self>> {
        let told = std::fs::metadata(path)?;
        let Ok(created) = told.created() else { return Ok(None) };
        let Ok(since) = created.duration_since(UNIX_EPOCH) else { return Ok(None) };
        Ok(Some(Self(format!("{}.{:09}{}", since.as_secs(), since.subsec_nanos(), number(&told)))))
    }
}

/// Where a copy may keep the instant, the file's number in its volume as well.
#[cfg(target_vendor = "apple")]
fn number(told: &std::fs::Metadata) -> String {
    use std::os::unix::fs::MetadataExt as _;
    format!(" {}", told.ino())
}

/// Nothing sets the instant on Linux and Android. Windows tells no number that lasts.
#[cfg(not(target_vendor = "apple"))]
const fn number(_: &std::fs::Metadata) -> &'static str {
    ""
}
