//! What can be done without a window: limits looked up, a reading explained, a job file judged or put on paper, a
//! verification computed and put on paper.
//!
//! Answers are plain data for other software (JSON Schemas in `schemas/`), each with the lines a person reads.

mod bench;
mod explain;
mod group;
mod judge;
mod limit;
mod lines;
mod recall;
mod schedule;
mod sets;
mod tester_report;

pub use bench::{BenchTold, TesterNamed, VerificationFile, bench};
pub use explain::{ExplainAsked, Explained, explain};
pub use group::{OwnTold, ParallelTold, own, parallel};
pub use judge::{BoardJudged, CircuitJudged, JobJudged, PairJudged, ReadingJudged, Sums, judge};
pub use limit::{LimitAsked, LimitTold, PairTold, ReducedTold, limit};
pub use lines::judgement_lines;
pub use recall::recall_lines;
pub use schedule::schedule;
pub use sets::{SetTold, sets};
pub use tester_report::{tester_report, tester_report_of};

use crate::failure::Failure;
use provenohm_assess::limits::{LimitSet, SetId, shipped};
use provenohm_assess::quantity::Ohms;

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

/// A shipped set by its id.
fn set(id: &str) -> Result<&'static LimitSet, Refused> {
    let sets = shipped().map_err(|complaint| Refused(complaint.to_string()))?;
    let wanted = SetId(id.to_owned());
    let found = sets.iter().find(|loaded| loaded.set.id == wanted);
    found.map(|loaded| &loaded.set).ok_or_else(|| {
        let known: Vec<&str> = sets.iter().map(|loaded| loaded.set.id.0.as_str()).collect();
        Refused(format!("there is no limit set `{id}`; there are {}", known.join(", ")))
    })
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
