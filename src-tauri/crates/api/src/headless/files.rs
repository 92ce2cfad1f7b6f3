//! Files read and written beside a record, and why they could not be.

use super::{Refused, words};
use crate::failure::Failure;
use provenohm_exchange::bundle::Bundle;
use std::io::{Error, ErrorKind, Read as _};
use std::path::Path;

/// No file that is read here is larger: a bundle is the largest.
const MOST_BYTES: u64 = provenohm_exchange::bundle::limits::MOST_BYTES;

/// The text of a file, without the byte order mark some editors write: in UTF-8 it says nothing.
///
/// # Errors
/// [`Refused`] for a file that is not there, may not be read, or is not text.
pub fn read_text(path: &Path) -> Result<String, Refused> {
    let bytes = read_bytes(path)?;
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
    String::from_utf8(text.to_vec()).map_err(|_| Refused(words().text("file-not-text")))
}

/// The bytes of a bundle that can be opened.
///
/// # Errors
/// [`Refused`] for a file that is not there, may not be read, or is no bundle.
pub fn bundle(path: &Path) -> Result<Vec<u8>, Refused> {
    let bytes = read_bytes(path)?;
    Bundle::open(&bytes).map_err(Failure::from)?;
    Ok(bytes)
}

pub(super) fn read_bytes(path: &Path) -> Result<Vec<u8>, Refused> {
    let file = std::fs::File::open(path).map_err(|error| not_read(&error))?;
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|error| not_read(&error))?;
    let too_large = || Refused(words().text("file-too-large"));
    if bytes.len() as u64 > MOST_BYTES { Err(too_large()) } else { Ok(bytes) }
}

/// The first bytes of a file, fewer where it is shorter.
pub(super) fn beginning(path: &Path, bytes: usize) -> Result<Vec<u8>, Refused> {
    let file = std::fs::File::open(path).map_err(|error| not_read(&error))?;
    let mut begins = Vec::new();
    file.take(bytes as u64).read_to_end(&mut begins).map_err(|error| not_read(&error))?;
    Ok(begins)
}

/// Writes a file whole or not at all.
///
/// # Errors
/// [`Refused`] with the reason.
pub fn write_text(path: &Path, text: &str) -> Result<(), Refused> {
    folder_is_there(path)?;
    Ok(crate::ops::files::write_file(path, text.as_bytes())?)
}

/// That the folder a file is to be written to is there: the program makes none by a slip of the finger.
pub(super) fn folder_is_there(path: &Path) -> Result<(), Refused> {
    match path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        Some(folder) if !folder.is_dir() => {
            let args = [("folder", folder.display().to_string().into())];
            Err(Refused(words().text_with("office-no-folder", &args)))
        }
        _ => Ok(()),
    }
}

/// Why an answer could not be written.
#[must_use]
pub fn not_answered(error: &Error) -> String {
    let reason = system_reason(error);
    words().text_with("office-not-answered", &[("reason", reason.into())])
}

/// That a folder holds no record.
#[must_use]
pub fn no_record(folder: &Path) -> String {
    words().text_with("office-no-record", &[("folder", folder.display().to_string().into())])
}

/// That a record has no job of that name, or several and none was named.
#[must_use]
pub fn no_one_job(named: Option<&str>, jobs: &[String]) -> String {
    let listed = ("jobs", jobs.join("; ").into());
    match named {
        _ if jobs.is_empty() => words().text("office-no-jobs"),
        Some(name) => words().text_with("office-no-such-job", &[("name", name.into()), listed]),
        None => words().text_with("office-which-job", &[listed]),
    }
}

fn not_read(error: &Error) -> Refused {
    let key = match error.kind() {
        ErrorKind::NotFound => "file-not-there",
        ErrorKind::PermissionDenied => "file-closed",
        ErrorKind::IsADirectory => "file-is-folder",
        _ => {
            let args = [("reason", system_reason(error).into())];
            return Refused(words().text_with("file-not-read", &args));
        }
    };
    Refused(words().text(key))
}

/// The system's reason without its number.
fn system_reason(error: &Error) -> String {
    let text = error.to_string();
    text.split(" (os error").next().unwrap_or_default().to_owned()
}
