//! What became of a reading that a failed tester put in doubt.

use crate::entry::coded::coded_map;
use provenohm_assess::ids::{JobId, PersonId, ReadingId};
use provenohm_assess::moment::Moment;
use provenohm_assess::recall::FailingEntry;

/// A person's statement that nothing more has to be done about a reading put in doubt, always with a reason. It stands
/// in the job's own book; a new reading of the same slot needs no such statement. What the reading is judged as, and
/// that it is in doubt, stays as it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecallResolved {
    /// Its job.
    pub job: JobId,
    /// The reading.
    pub reading: ReadingId,
    /// What put it in doubt. A later failure asks anew.
    pub entry: FailingEntry,
    /// Who says so.
    pub person: PersonId,
    /// When.
    pub at: Moment,
}

coded_map!(RecallResolved { 0: job, 1: reading, 2: entry, 3: person, 4: at });
