//! A limit set as it stands in its data file.

use super::Source;
use crate::circuit::{Conductors, Current, Item, Loads, Location, MeasureName, PairKind, Stage};
use crate::quantity::{Ohms, Volts};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Id of a limit set, for example `iec-60364-6-2016`: lower-case letters, digits and hyphens.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(transparent)]
pub struct SetId(pub String);

/// A set named exactly: id, version, and the SHA-256 of the bytes of its file.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct SetName {
    /// Which set.
    pub id: SetId,
    /// Which version of it.
    pub version: u32,
    /// SHA-256 of its bytes, 64 lower-case hexadecimal digits.
    pub sha256: String,
}

/// A named, dated, versioned collection of minima with the pairs they require.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LimitSet {
    /// Id.
    pub id: SetId,
    /// Version of this file, from 1.
    pub version: u32,
    /// What people call it, for example `IEC 60364-6:2016`.
    pub title: String,
    /// Where it is meant for, in a sentence.
    pub scope: String,
    /// Date of this version of the file.
    pub date: NaiveDate,
    /// Publication the whole set rests on.
    pub source: Source,
    /// Minima; the first row that fits a circuit decides.
    pub rows: Vec<Row>,
    /// When a lower test voltage is allowed; none: never. The first rule that fits a circuit decides.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reduced: Vec<Reduced>,
    /// Pairs to be read; the first rule that fits a circuit decides.
    pub pairs: Vec<PairRule>,
}

/// Which circuits a row or rule is for; a field left out fits every circuit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, default)]
pub struct Band {
    /// Protective measures: `none`, `selv`, `pelv`, `felv`, `separation`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub measures: Option<Vec<MeasureName>>,
    /// Nominal voltage above this, V.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub above_v: Option<Volts>,
    /// Nominal voltage up to and including this, V.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub up_to_v: Option<Volts>,
    /// Voltage to earth up to and including this, V.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub to_earth_up_to_v: Option<Volts>,
    /// Kind of current.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub current: Option<Current>,
    /// Loads while testing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub loads: Option<Vec<Loads>>,
    /// A special item.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub item: Option<Item>,
    /// A special location.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub location: Option<Location>,
    /// Arrangements of conductors.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub conductors: Option<Vec<Conductors>>,
    /// Before or after equipment is connected.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub stage: Option<Stage>,
}

/// A minimum: fixed, or by the nominal voltage between the two ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Minimum {
    /// Ohms.
    Ohm(Ohms),
    /// Ohms for each volt of nominal voltage between the two ends.
    OhmPerVolt(Ohms),
}

/// One row of the set's table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Which circuits.
    pub band: Band,
    /// Test voltage d.c., V; absent where the set states none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub test_voltage_v: Option<Volts>,
    /// Minimum.
    pub minimum: Minimum,
    /// Where the row stands.
    pub source: Source,
}

/// Why a lower test voltage was used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum ReducedReason {
    /// Surge protectors cannot practicably be disconnected.
    SurgeProtector,
    /// Equipment that would influence the test or be damaged cannot practicably be disconnected.
    Equipment,
    /// The test is made after equipment was connected.
    EquipmentConnected,
}

/// When a lower test voltage is allowed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Reduced {
    /// Circuits it is for.
    pub bands: Vec<Band>,
    /// Kinds of pair it is for; none named: every kind.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kinds: Vec<PairKind>,
    /// The lower test voltage d.c., V.
    pub volts: Volts,
    /// The minimum at it.
    pub minimum: Minimum,
    /// Reasons that allow it.
    pub reasons: Vec<ReducedReason>,
    /// Where it stands.
    pub source: Source,
}

/// Pairs required of the circuits of a band.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct PairRule {
    /// Which circuits.
    pub band: Band,
    /// Which kinds of pair are required.
    pub kinds: Vec<PairKind>,
    /// Whether the live conductors may be joined for the test to earth instead of being read singly.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub lives_may_be_joined: bool,
    /// Which kinds must not be taken (electronics connected).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub forbidden: Vec<PairKind>,
    /// Where it stands.
    pub source: Source,
}
