//! The report of a verification file.

use super::bench::{edition_of, verification};
use super::{Refused, words};
use crate::ops::files::write_file;
use crate::ops::tester_report::{bytes, format_of};
use crate::report::{self, Made, Named};
use provenohm_papers::tester_report::TesterReport;
use std::path::Path;

/// The report of a verification file, as data.
///
/// # Errors
/// [`Refused`] with place and reason.
pub fn tester_report_of(text: &str) -> Result<TesterReport, Refused> {
    let file = verification(text)?;
    let tester = file.tester.clone().unwrap_or_default();
    let made = Made {
        run: &file.run,
        measured: &file.measured,
        references: &file.references,
        card: Some(&file.card),
        edition: edition_of(&file)?,
        tester: Named { name: tester.name, serial: tester.serial, model: tester.model },
        invented: file.invented,
        drift: Vec::new(),
        record: None,
    };
    Ok(report::tester_report(&words(), made))
}

/// Writes the report of a verification file. The ending of `path` says which format: `.pdf`, `.xlsx` or `.json`.
///
/// # Errors
/// [`Refused`] with place and reason.
pub fn tester_report(text: &str, path: &Path) -> Result<(), Refused> {
    let format = format_of(path).ok_or_else(|| Refused(words().text("office-tester-report-ending")))?;
    let report = tester_report_of(text)?;
    Ok(write_file(path, &bytes(&words(), &report, format)?)?)
}
