//! What became of readings that a failed tester put in doubt, as far as a person said it.

use provenohm_assess::ids::{PersonId, ReadingId};
use provenohm_assess::moment::Moment;
use provenohm_assess::recall::FailingEntry;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A person's statement that nothing more has to be done about a reading put in doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Resolved {
    /// The reading.
    pub reading: ReadingId,
    /// What put it in doubt: an entry of its tester. A later failure asks anew.
    pub entry: FailingEntry,
    /// Why nothing more has to be done.
    pub reason: String,
    /// Who says so.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// When that was recorded.
    pub recorded_at: Moment,
}
