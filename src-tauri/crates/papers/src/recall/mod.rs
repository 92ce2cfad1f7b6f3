//! The recall list on paper: what a failed tester puts in doubt, for whoever has to call people and test again.
//!
//! Whoever fills the model has already sorted the readings and made the sentences.

mod csv;
mod view;

pub(crate) use view::View;

use crate::report::{Digest, Fingerprint};
use chrono::FixedOffset;
use provenohm_assess::ids::{JobId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Shown, Volts};
use serde::{Deserialize, Serialize};

/// More readings than this stand in the table of the CSV file only: pages beyond all turning help nobody.
pub const LINES_ON_PAPER: usize = 5_000;

/// Everything a recall list says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecallList {
    /// Language of the sentences in this model: the id of their locale (`en`).
    pub language: String,
    /// When it was made.
    pub as_of: Moment,
    /// Offset from UTC, in minutes, of every time that is printed without one.
    pub offset_minutes: i32,
    /// Version of the rules that judged.
    pub rules_version: u32,
    /// The tester.
    pub tester: TesterId,
    /// What people call it.
    pub name: String,
    /// Its serial number.
    pub serial: String,
    /// True for an invented tester; every page then says so.
    pub demo: bool,
    /// How many readings, and how many are resolved, in a sentence.
    pub sum: String,
    /// What found it failed, or its damage: a title and what it says.
    pub causes: Vec<RecallCause>,
    /// By job, the one with the most urgent line first.
    pub jobs: Vec<RecallJob>,
    /// Digest of what the record says that this was made from: its start is the fingerprint. None where it was a file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record: Option<Digest>,
}

/// A failed verification or quick check, or damage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecallCause {
    /// What it is, with its date.
    pub title: String,
    /// What it says.
    pub lines: Vec<String>,
}

/// A job with readings in doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecallJob {
    /// Its id in the record.
    pub id: JobId,
    /// Its name.
    pub name: String,
    /// Where it is; may be empty.
    pub place: String,
    /// True for invented demonstration data; its pages then say so.
    pub demo: bool,
    /// Who to call.
    pub people: Vec<String>,
    /// Each sign-off of it that stands, in a sentence.
    pub signed: Vec<String>,
    /// By board, the one with the most urgent line first.
    pub boards: Vec<RecallBoard>,
}

/// A board with readings in doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecallBoard {
    /// Its name.
    pub name: String,
    /// By circuit, the one with the most urgent line first; of a circuit, the most urgent first.
    pub lines: Vec<RecallLine>,
}

/// How a reading put in doubt is sorted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RecallSort {
    /// No longer certain: test again.
    TestAgain,
    /// Cannot be judged.
    CannotBeJudged,
    /// Still clears the limit even with the error found.
    StillClears,
}

/// A reading put in doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecallLine {
    /// The reading.
    pub reading: ReadingId,
    /// Its circuit.
    pub circuit: String,
    /// Its pair.
    pub pair: String,
    /// What was shown.
    pub shown: Shown,
    /// Test voltage set, V d.c.
    pub test_voltage_v: Volts,
    /// When it was taken.
    pub taken_at: Moment,
    /// How it is sorted.
    pub sort: RecallSort,
    /// What is left of it, with its figure.
    pub sentence: String,
    /// What is said beside a figure that rests on an error found later.
    pub remark: Option<String>,
    /// What put it in doubt.
    pub because: String,
    /// What became of it; absent: nothing yet.
    pub resolved: Option<String>,
}

impl RecallList {
    /// Offset from UTC of every time that is printed without one.
    #[must_use]
    pub fn offset(&self) -> FixedOffset {
        FixedOffset::east_opt(self.offset_minutes.saturating_mul(60)).unwrap_or(*self.as_of.offset())
    }

    /// The fingerprint of the record it was made from; nothing where that was a file.
    #[must_use]
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.record.as_ref().map(Digest::fingerprint)
    }

    /// How many readings it lists.
    #[must_use]
    pub fn len(&self) -> usize {
        self.jobs.iter().flat_map(|job| &job.boards).map(|board| board.lines.len()).sum()
    }

    /// Whether it lists none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}
