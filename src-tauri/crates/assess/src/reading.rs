//! One reading and what is known of how it was taken.

use crate::circuit::{Loads, Pair, Stage};
use crate::ids::{PersonId, ReadingId, TesterId};
use crate::limits::ReducedReason;
use crate::moment::Moment;
use crate::quantity::{Shown, Volts};
use chrono::TimeDelta;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Conditions a reading was taken under.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, default)]
pub struct Conditions {
    /// Loads at that moment.
    pub loads: Loads,
    /// Whether N was isolated from PE; absent: not stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub n_isolated: Option<bool>,
    /// Why a lower test voltage was used, if one was.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub reduced: Option<ReducedReason>,
}

/// A reading: what was shown between which ends, and how it was taken.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Its id.
    pub id: ReadingId,
    /// What the display showed.
    pub shown: Shown,
    /// The two ends.
    pub pair: Pair,
    /// Before or after equipment.
    pub stage: Stage,
    /// Test voltage set, V d.c.
    pub test_voltage_v: Volts,
    /// The tester; absent: none chosen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub tester: Option<TesterId>,
    /// Who took it.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// Under which conditions.
    #[serde(default)]
    pub conditions: Conditions,
}

impl Reading {
    /// Whether it was taken more than a day after it was put on record: then one of the two clocks cannot have been
    /// right.
    #[must_use]
    pub fn is_ahead_of(&self, recorded_at: Moment) -> bool {
        self.at.signed_duration_since(recorded_at) > TimeDelta::days(1)
    }
}

/// Why a pair was not tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum NotTestedReason {
    /// The circuit is live.
    Live,
    /// No access.
    NoAccess,
    /// The load is connected.
    LoadConnected,
    /// Tested joined with others.
    Joined,
    /// The circuit is not present.
    NotPresent,
    /// Another reason, in words.
    Other,
}
