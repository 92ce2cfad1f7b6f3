//! The policies a job is judged by.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How the measured value is compared with the limit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum ValuePolicy {
    /// Guard w = 0: the reading as shown is compared with the limit (simple acceptance, ILAC-G8:09/2019).
    #[default]
    Simple,
    /// Guard w = the tester's uncertainty at the reading (guard band, ILAC-G8:09/2019).
    Guarded,
}

/// What a verification has to show before a tester counts as proved.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum TesterPolicy {
    /// Every requirement of the tester standard tested and met.
    Full,
    /// Indications hold and no requirement is known to fail; what was not tested is a remark.
    #[default]
    Usual,
    /// Indications hold; a known failure of another requirement is a remark.
    IndicationsOnly,
}

/// The policies of a job, together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Policies {
    /// How values are compared with the limit.
    pub value: ValuePolicy,
    /// What proves a tester.
    pub tester: TesterPolicy,
    /// A good quick check, or a verification, of the tester at that voltage is asked for within so many days before a
    /// reading; absent: none is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub quick_check_days: Option<u32>,
}
