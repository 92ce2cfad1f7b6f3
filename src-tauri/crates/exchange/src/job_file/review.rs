//! What reviewers said: new readings asked for, and what was accepted with a reason.

use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{PersonId, ReadingId};
use provenohm_assess::moment::Moment;
use provenohm_logbook::entry::body::is_unanswered;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A new reading of a slot is asked for. It is open until something stands there that it did not ask about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Requested {
    /// The two ends.
    pub pair: Pair,
    /// Before or after equipment.
    pub stage: Stage,
    /// The readings asked about.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<ReadingId>,
    /// When the statements asked about said that the slot was not tested.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_tested: Vec<Moment>,
    /// Why.
    pub reason: String,
    /// Who asks.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// When that was recorded.
    pub recorded_at: Moment,
}

impl Requested {
    /// Whether it waits for an answer, given what stands in its slot.
    #[must_use]
    pub fn is_open(
        &self,
        readings: impl IntoIterator<Item = ReadingId>,
        not_tested: impl IntoIterator<Item = Moment>,
    ) -> bool {
        is_unanswered((&self.readings, &self.not_tested), readings, not_tested)
    }
}

/// What was accepted.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", tag = "kind")]
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
        /// Before or after equipment.
        stage: Stage,
        /// When that was said.
        at: Moment,
    },
}

/// What asks for a look is accepted. It holds for the reasons it names.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Accepted {
    /// What.
    pub of: AcceptedOf,
    /// The codes of the reasons to look.
    pub codes: Vec<String>,
    /// Why.
    pub reason: String,
    /// Who accepts.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// When that was recorded.
    pub recorded_at: Moment,
}
