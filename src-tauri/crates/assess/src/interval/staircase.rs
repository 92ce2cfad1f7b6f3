//! The staircase: a longer interval while the as-found error stays well within what is permitted, a shorter one when
//! it does not (ILAC-G24 / OIML D 10, method 1; the way seen, its text memory-H). Advice, never applied by itself.

use super::due::USUAL_MONTHS;
use super::found::AsFound;
use crate::ids::VerificationId;
use crate::moment::When;
use crate::quantity::Percent;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How the staircase is walked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Staircase {
    /// Where it starts, months.
    pub start_months: u32,
    /// Up to this share of the permitted error the interval becomes longer, % (80 is the guide's example; memory-H).
    pub share_percent: Percent,
    /// By how much it changes, months. The guide prescribes no size.
    pub step_months: u32,
    /// Never shorter than this, months.
    pub least_months: u32,
    /// Never longer than this, months (2 years for rare use; seen in a handbook).
    pub most_months: u32,
}

impl Default for Staircase {
    fn default() -> Self {
        Self {
            start_months: USUAL_MONTHS,
            share_percent: Percent(Decimal::from_parts(80, 0, 0, false, 0)),
            step_months: 3,
            least_months: 3,
            most_months: 24,
        }
    }
}

/// What a step does to the interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// Within the share.
    Longer,
    /// Beyond the share and within what is permitted, or found good without figures.
    Kept,
    /// Beyond what is permitted.
    Shorter,
}

/// One verification's step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// The verification.
    pub verification: VerificationId,
    /// When made.
    pub made: When,
    /// Its largest share of the permitted error, %, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub share_percent: Option<Percent>,
    /// What it does.
    pub change: Change,
    /// The interval after it, months.
    pub months: u32,
}

/// A proposed interval with every figure it was made from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Proposal {
    /// The proposed interval, months.
    pub months: u32,
    /// How the staircase was walked.
    pub staircase: Staircase,
    /// The steps, the earliest first; none: nothing was found yet.
    pub steps: Vec<Step>,
}

impl Staircase {
    /// Walks the verifications in the order given, which [`as_found`](super::as_found) returns.
    #[must_use]
    pub fn propose(self, found: &[AsFound]) -> Proposal {
        let mut months = self.start_months;
        let step = |one: &AsFound| {
            let change = self.change(one);
            months = match change {
                Change::Longer => months.saturating_add(self.step_months).min(self.most_months.max(months)),
                Change::Kept => months,
                Change::Shorter => months.saturating_sub(self.step_months).max(self.least_months.min(months)),
            };
            let AsFound { verification, made, worst_share_percent: share_percent, .. } = *one;
            Step { verification, made, share_percent, change, months }
        };
        let steps: Vec<Step> = found.iter().map(step).collect();
        Proposal { months, staircase: self, steps }
    }

    fn change(&self, one: &AsFound) -> Change {
        match one.worst_share_percent {
            _ if one.failed => Change::Shorter,
            Some(share) if share.0 > Decimal::ONE_HUNDRED => Change::Shorter,
            Some(share) if share <= self.share_percent => Change::Longer,
            Some(_) | None => Change::Kept,
        }
    }
}
