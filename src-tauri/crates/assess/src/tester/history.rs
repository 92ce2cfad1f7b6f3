//! Everything on record that speaks for or against one tester.

use super::{Card, Damage, LeadCheck, QuickCheck, Verification};
use crate::ids::TesterId;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One event that bears on the tester's state.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum ProofEvent {
    /// A verification.
    Verification(Verification),
    /// A quick check.
    QuickCheck(QuickCheck),
    /// Damage.
    Damage(Damage),
}

/// A tester with all that is known of it; withdrawn events are already left out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct TesterHistory {
    /// The tester.
    pub tester: TesterId,
    /// Its card, if there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub card: Option<Card>,
    /// Verifications, quick checks and damage, in no particular order.
    pub events: Vec<ProofEvent>,
    /// Lead checks, in no particular order.
    pub lead_checks: Vec<LeadCheck>,
}

impl TesterHistory {
    /// Whether a quick check stands for something between verifications: it was good, and so were the leads it was made
    /// with. Leads that were not as expected leave open what the box was read through.
    #[must_use]
    pub fn is_good(&self, check: &QuickCheck) -> bool {
        check.good && !self.lead_checks.iter().any(|leads| !leads.good && leads.at == check.at)
    }
}
