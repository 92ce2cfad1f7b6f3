//! A bench run: what is verified, by what, and how it is decided.

use super::PlannedPoint;
use crate::ids::{BenchId, ReferenceId, TesterId};
use crate::moment::Moment;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Id of an edition of the tester standard, for example `iec-61557-2-2019`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(transparent)]
pub struct EditionId(pub String);

/// How an error is compared with the permitted one, U the expanded uncertainty (ILAC-G8:09/2019, seen): acceptance
/// within permitted − w.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum DecisionRule {
    /// w = 0: half of what lies at the bound may be falsely accepted.
    #[default]
    Simple,
    /// w = U: at most 2.3 %.
    GuardU,
    /// w = 0.83 U: at most 4.9 %.
    GuardPartU,
}

/// What a look at the tester found; never assumed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum LookedAt {
    /// As it should be.
    Yes,
    /// Not as it should be.
    No,
    /// Nobody looked.
    #[default]
    NotLooked,
}

/// A look at the tester itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, default)]
pub struct TesterLook {
    /// The case is whole.
    pub case: LookedAt,
    /// Leads and probes are whole.
    pub leads: LookedAt,
    /// The measurement category is marked.
    pub marked_category: LookedAt,
    /// The standard is marked.
    pub marked_standard: LookedAt,
    /// The battery is good by the tester's own test.
    pub battery: LookedAt,
}

/// One bench run. What was measured in it are facts of their own.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct BenchRun {
    /// Its id.
    pub id: BenchId,
    /// The tester.
    pub tester: TesterId,
    /// The references at hand; only these are used.
    pub references: Vec<ReferenceId>,
    /// Edition of the tester standard it is judged by.
    pub edition: EditionId,
    /// How it is decided.
    pub rule: DecisionRule,
    /// Whether the tester was adjusted in this run: then what was measured before is as found, after it as left.
    pub adjusted: bool,
    /// The mark put on a tester without a serial number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub mark: Option<String>,
    /// The look at it.
    #[serde(default)]
    pub look: TesterLook,
    /// Who makes it, as written on the paper.
    pub by: String,
    /// When it was begun.
    pub started: Moment,
    /// What is to be measured.
    #[serde(default)]
    pub plan: Vec<PlannedPoint>,
}
