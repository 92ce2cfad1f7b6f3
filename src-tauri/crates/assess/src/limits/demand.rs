//! What a set asks of one circuit: the answer of a lookup.

use super::Source;
use crate::circuit::{Pair, PairKind, Stage};
use crate::quantity::{Ohms, Volts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One minimum with the test voltage it asks for and its source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// Minimum, Ω.
    pub minimum_ohm: Ohms,
    /// Test voltage d.c., V; absent where the set states none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub test_voltage_v: Option<Volts>,
    /// Title of the set.
    pub set: String,
    /// Where the figure stands.
    pub source: Source,
}

/// A pair the set requires, with its own limit (Ω/V depends on the two ends).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct RequiredPair {
    /// The two ends.
    pub pair: Pair,
    /// Its kind.
    pub kind: PairKind,
    /// Its limit.
    pub limit: Limit,
}

/// What follows from a circuit at a stage: its pairs, their limits, and what is forbidden.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Demand {
    /// The stage it is for.
    pub stage: Stage,
    /// Pairs in the order they are read in.
    pub pairs: Vec<RequiredPair>,
    /// Kinds of pair that must not be taken with these loads.
    pub forbidden: Vec<PairKind>,
}
