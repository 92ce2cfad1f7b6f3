//! The schedule of a job file.

use super::{Refused, words};
use crate::judged::Judged;
use crate::long_work::LongWork;
use crate::ops::schedule::write_schedule;
use crate::report;
use crate::views::ScheduleFormat;
use provenohm_exchange::job_file::JobFile;
use std::path::{Path, PathBuf};

/// Writes the schedule of a job file. The ending of `path` says which format: `.pdf`, `.xlsx` or `.csv`. A long one
/// comes as FILE-1.pdf, FILE-2.pdf … Returns what was written.
///
/// # Errors
/// [`Refused`] with place and reason.
pub fn schedule(job: JobFile, path: &Path) -> Result<Vec<PathBuf>, Refused> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    let format = match ending.as_str() {
        "pdf" => ScheduleFormat::Pdf,
        "xlsx" => ScheduleFormat::Xlsx,
        "csv" => ScheduleFormat::Csv,
        _ => return Err(Refused(words().text("office-schedule-ending"))),
    };
    let words = words();
    let model = report::schedule(&words, &Judged::of(job)?)?;
    super::files::folder_is_there(path)?;
    Ok(write_schedule(&words, &model, format, path, &LongWork::default())?)
}
