//! What a reviewer says of a job: a new reading is asked for, or what asks for a look is accepted, with the reason.

use crate::entry::coded::{coded_choice, coded_map};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{JobId, PersonId, ReadingId};
use provenohm_assess::moment::Moment;

/// A new reading of a slot is asked for, always with a reason. Nothing that stands there changes by it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// The job.
    pub job: JobId,
    /// The two ends.
    pub pair: Pair,
    /// Before equipment is connected, or after.
    pub stage: Stage,
    /// The readings asked about; none where nothing had been read.
    pub readings: Vec<ReadingId>,
    /// When the statements asked about said that it was not tested; none where nobody had said so.
    pub not_tested: Vec<Moment>,
    /// Who asks.
    pub person: PersonId,
    /// When.
    pub at: Moment,
}

coded_map!(Request { 0: job, 1: pair, 2: stage, 3 * readings, 4 * not_tested, 5: person, 6: at });

impl Request {
    /// Whether it waits for an answer, given what stands in its slot: readings, and when it was said not to be tested.
    #[must_use]
    pub fn is_open(
        &self,
        readings: impl IntoIterator<Item = ReadingId>,
        not_tested: impl IntoIterator<Item = Moment>,
    ) -> bool {
        is_unanswered((&self.readings, &self.not_tested), readings, not_tested)
    }
}

/// Whether nothing stands in a slot but what was asked about: readings, and statements that it was not tested, each named
/// by when it was said.
#[must_use]
pub fn is_unanswered(
    (readings, not_tested): (&[ReadingId], &[Moment]),
    standing: impl IntoIterator<Item = ReadingId>,
    said: impl IntoIterator<Item = Moment>,
) -> bool {
    standing.into_iter().all(|id| readings.contains(&id)) && said.into_iter().all(|at| not_tested.contains(&at))
}

/// What was accepted.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AcceptedOf {
    /// A reading.
    Reading {
        /// The reading.
        reading: ReadingId,
    },
    /// That a slot was not tested.
    NotTested {
        /// The two ends.
        pair: Pair,
        /// Before equipment is connected, or after.
        stage: Stage,
        /// When that was said: another statement is another thing.
        at: Moment,
    },
}

coded_choice!(AcceptedOf { 0 = Reading { 0: reading }, 1 = NotTested { 0: pair, 1: stage, 2: at } });

/// A person accepts what asks for a look, always with a reason. No judgement changes by it; a reason to look that is not
/// among those named asks anew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// The job.
    pub job: JobId,
    /// What is accepted.
    pub of: AcceptedOf,
    /// The stable codes of the reasons to look, in rising order.
    pub codes: Vec<String>,
    /// Who accepts.
    pub person: PersonId,
    /// When.
    pub at: Moment,
}

coded_map!(Accepted { 0: job, 1: of, 2: codes, 3: person, 4: at });
