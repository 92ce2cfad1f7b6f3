//! What can be done without a window: limits looked up, a reading explained, a job file judged or put on paper, a
//! verification computed and put on paper.
//!
//! Answers are plain data for other software (JSON Schemas in `schemas/`), each with the lines a person reads.

mod bench;
mod discharge;
mod explain;
mod files;
mod group;
mod judge;
mod limit;
mod lines;
mod recall;
mod schedule;
mod sets;
mod tester_report;
mod verification_file;
mod verify;

pub use bench::{BenchTold, TesterNamed, VerificationFile, bench};
pub use discharge::{DischargeTold, discharge};
pub use explain::{ExplainAsked, Explained, explain};
pub use files::{bundle, no_one_job, no_record, not_answered, read_text, write_text};
pub use group::{OwnTold, ParallelTold, own, parallel};
pub use judge::{BoardJudged, CircuitJudged, JobJudged, PairJudged, ReadingJudged, Sums, TesterSums, judge};
pub use limit::{LimitAsked, LimitTold, PairTold, ReducedTold, limit};
pub use lines::{judgement_lines, not_strict_because};
pub use recall::recall_lines;
pub use schedule::schedule;
pub use sets::{SetTold, sets};
pub use tester_report::{tester_report, tester_report_of};
pub use verify::{verify, verify_lines};

use crate::failure::Failure;
use crate::tell;
use provenohm_assess::limits::{LimitSet, SetId, shipped};
use provenohm_assess::quantity::Ohms;
use provenohm_exchange::job_file::JobFile;

/// Why something could not be done: one sentence that names the place and the reason.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Refused(pub String);

impl From<Failure> for Refused {
    fn from(failure: Failure) -> Self {
        let words = provenohm_words::Words::new(provenohm_words::Locale::ENGLISH);
        let failure = failure.worded(&words);
        Self(match failure.detail {
            Some(detail) => format!("{} ({detail})", failure.words),
            None => failure.words,
        })
    }
}

/// Which limit set is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SetAsked {
    /// One that comes with the program, by its id.
    Shipped(String),
    /// One of the user's own.
    Own(Box<LimitSet>),
}

impl SetAsked {
    /// A set of the user's own, from the text of its file.
    ///
    /// # Errors
    /// [`Refused`] with line, column and reason.
    pub fn own(text: &str) -> Result<Self, Refused> {
        let loaded = LimitSet::load(text.as_bytes());
        loaded.map(|loaded| Self::Own(Box::new(loaded.set))).map_err(|why| Refused(words().set_complaint(&why)))
    }

    /// The set.
    fn set(&self) -> Result<LimitSet, Refused> {
        let id = match self {
            Self::Own(set) => return Ok(LimitSet::clone(set)),
            Self::Shipped(id) => SetId(id.clone()),
        };
        let sets = shipped().map_err(|why| Refused(words().set_complaint(why)))?;
        let found = sets.iter().find(|loaded| loaded.set.id == id);
        found.map(|loaded| loaded.set.clone()).ok_or_else(|| {
            let known: Vec<&str> = sets.iter().map(|loaded| loaded.set.id.0.as_str()).collect();
            let args = [("found", id.0.as_str().into()), ("choices", known.join(", ").into())];
            Refused(words().text_with("said-json-no-choice", &args))
        })
    }
}

/// A job file, or why it is none.
///
/// # Errors
/// [`Refused`] with place and reason.
pub fn job_file(text: &str) -> Result<JobFile, Refused> {
    JobFile::read(text).map_err(|why| Refused(tell::not_a_job_file(&words(), &why)))
}

/// Without zeros that say nothing.
fn exact(ohms: Ohms) -> Ohms {
    Ohms(ohms.0.normalize())
}

/// The words of the command line.
fn words() -> provenohm_words::Words {
    provenohm_words::Words::new(provenohm_words::Locale::ENGLISH)
}

/// A refusal in words.
#[must_use]
pub fn refusal(refusal: provenohm_assess::quantity::Refusal, typed: &str) -> String {
    words().refusal(refusal, typed)
}

/// What a voltage looks like.
#[must_use]
pub fn no_volts() -> String {
    words().text_with("complaint-volts", &[("example", "230".into())])
}

/// What a capacitance looks like.
#[must_use]
pub fn no_farads() -> String {
    words().text("office-capacitance")
}

/// What a percentage looks like.
#[must_use]
pub fn no_percent() -> String {
    words().text_with("complaint-percent", &[("example", "3".into())])
}

/// What a stated accuracy looks like.
#[must_use]
pub fn no_accuracy() -> String {
    words().text("office-accuracy")
}

/// What an instant looks like.
#[must_use]
pub fn no_moment() -> String {
    words().text_with("office-moment", &[("example", "2026-11-25T12:00:00+01:00".into())])
}

/// What the reader of a choice or of JSON complains of, in words.
#[must_use]
pub fn json_complaint(reason: &str) -> String {
    words().json_complaint(reason)
}
