//! The two ends a reading is taken between.

use super::{Conductor, NotAPair};
use crate::ids::CircuitId;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use ts_rs::TS;

/// One thing a lead is connected to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
pub enum Terminal {
    /// A live conductor of a circuit.
    Live {
        /// The circuit.
        circuit: CircuitId,
        /// Its conductor.
        conductor: Conductor,
    },
    /// The live conductors of all other circuits, joined.
    OtherCircuits,
    /// The protective conductor connected to earth (PE, or PEN where the circuit has one).
    Earth,
}

/// One end: the terminals joined there. Never empty.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(transparent)]
#[ts(as = "Vec<Terminal>")]
pub struct End(pub BTreeSet<Terminal>);

/// Two ends. `a` is the lesser in the order of the ends, so that equal pairs compare equal; reading one from a file
/// puts them in that order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(try_from = "TwoEnds")]
pub struct Pair {
    /// One end.
    pub a: End,
    /// The other end.
    pub b: End,
}

/// Two ends in any order, as they stand in a file.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "Pair")]
struct TwoEnds {
    /// One end.
    a: End,
    /// The other end.
    b: End,
}

impl TryFrom<TwoEnds> for Pair {
    type Error = NotAPair;

    fn try_from(ends: TwoEnds) -> Result<Self, NotAPair> {
        Self::between(ends.a, ends.b)
    }
}

/// What sort of pair it is; limit sets speak of these.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum PairKind {
    /// Two live conductors of one circuit.
    LiveLive,
    /// One live conductor and earth.
    LiveEarth,
    /// All live conductors of one circuit joined, and earth.
    JoinedEarth,
    /// All live conductors joined, and the other circuits joined.
    JoinedOthers,
    /// Live conductors of several circuits joined, and earth.
    GroupEarth,
}

/// Before equipment is connected, or after.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Before equipment is connected.
    #[default]
    Before,
    /// After equipment is connected.
    After,
}
