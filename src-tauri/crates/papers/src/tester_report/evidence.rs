//! What a tester report is worked out from, as data.

use provenohm_assess::bench::{BenchResult, BenchRun, Measured};
use provenohm_assess::reference::Reference;
use provenohm_assess::standard::Edition;
use provenohm_assess::tester::Card;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Every input, and the result unrounded: with the rules of that version the one follows from the other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// The run.
    pub run: BenchRun,
    /// The tester's card; absent: it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<Card>,
    /// The references as their certificates stood.
    pub references: Vec<Reference>,
    /// The edition of the tester standard.
    pub edition: Edition,
    /// What was measured, by time.
    pub measured: Vec<Measured>,
    /// What follows, every step of it.
    pub result: BenchResult,
}
