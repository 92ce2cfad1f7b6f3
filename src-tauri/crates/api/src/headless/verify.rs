//! Whether files are what was signed.

use super::{Refused, words};
use crate::api::RECORD;
use crate::failure::Failure;
use crate::host::Host;
use crate::long_work::LongWork;
use crate::verify;
use crate::views::VerifyView;
use provenohm_logbook::record::{InspectError, Record};
use std::path::{Path, PathBuf};

/// Looks at a bundle, a record (its file or its folder), or the PDFs of one schedule, and changes none of them.
///
/// # Errors
/// [`Refused`] with place and reason for what cannot be read at all.
pub fn verify(files: &[PathBuf]) -> Result<VerifyView, Refused> {
    let words = words();
    let mut host = Host::system();
    if let [one] = files {
        let file = if one.is_dir() { one.join(RECORD) } else { one.clone() };
        // A record may be larger than any file that is read whole.
        let begins = super::files::beginning(&file, verify::SQLITE.len()).map_err(|refused| named(&file, &refused))?;
        if verify::is_record(&begins) {
            let inspected = Record::inspect(&file, &mut host).map_err(Failure::from);
            let told = inspected.and_then(|inspected| verify::inspected(&words, &mut host, &inspected));
            return told.map_err(|failure| named(&file, &failure.into()));
        }
        let bytes = super::files::read_bytes(&file).map_err(|refused| named(&file, &refused))?;
        return verify::bytes(&words, &mut host, &bytes, &LongWork::default())
            .map_err(|failure| named(&file, &failure.into()));
    }
    let mut parts = Vec::new();
    for file in files {
        let bytes = super::files::read_bytes(file).map_err(|refused| named(file, &refused))?;
        if !bytes.starts_with(b"%PDF-") {
            return Err(named(file, &Failure::of("verify_one").into()));
        }
        parts.push(bytes);
    }
    Ok(verify::parts(&words, &parts, &LongWork::default())?)
}

fn named(file: &Path, refused: &Refused) -> Refused {
    Refused(format!("{}: {refused}", file.display()))
}

impl From<InspectError> for Failure {
    fn from(error: InspectError) -> Self {
        match error {
            InspectError::Open(error) => error.into(),
            error => Self::of("record_damaged").because(error),
        }
    }
}

/// The lines a person reads.
#[must_use]
pub fn verify_lines(told: &VerifyView) -> Vec<String> {
    std::iter::once(&told.words).chain(told.lines.iter().map(|line| &line.words)).cloned().collect()
}
