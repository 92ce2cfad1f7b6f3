//! What a model must keep to before it is put on paper.

use std::collections::BTreeSet;

use provenohm_assess::ids::{ReadingId, TesterId};
use thiserror::Error;

use super::Schedule;

/// Lines of one document; beyond it a schedule is cut into parts.
pub const LINES_IN_A_PART: usize = 1_500;
/// Why a model cannot be put on paper.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum ModelError {
    /// The same reading twice.
    #[error("reading {0} stands in the schedule twice")]
    Twice(ReadingId),
    /// A reading names a tester the schedule does not describe.
    #[error("reading {reading} names tester {tester}, which the schedule does not describe")]
    UnknownTester {
        /// The reading.
        reading: ReadingId,
        /// The tester.
        tester: TesterId,
    },
    /// More lines than can be numbered.
    #[error("more lines than a schedule can number")]
    TooMany,
    /// The model could not be written as JSON.
    #[error("the report model could not be written: {0}")]
    Unwritable(serde_json::Error),
}

/// Checks that every reading is there once and its tester is described.
pub(super) fn check(schedule: &Schedule) -> Result<(), ModelError> {
    let testers: BTreeSet<TesterId> = schedule.testers.iter().map(|tester| tester.id).collect();
    let mut seen = BTreeSet::new();
    for reading in schedule.boards.iter().flat_map(|board| &board.circuits).flat_map(|circuit| circuit.readings()) {
        if !seen.insert(reading.id) {
            return Err(ModelError::Twice(reading.id));
        }
        if let Some(tester) = reading.tester.filter(|tester| !testers.contains(tester)) {
            return Err(ModelError::UnknownTester { reading: reading.id, tester });
        }
    }
    Ok(())
}
