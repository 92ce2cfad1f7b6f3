//! Testers, with everything on record that speaks for or against them.

use provenohm_assess::ids::{PersonId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::tester::{Card, Damage, LeadCheck, ProofEvent, QuickCheck, TesterHistory, Verification};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A tester.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tester {
    /// Id.
    pub id: TesterId,
    /// What people call it.
    pub name: String,
    /// Its type as marked.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub model: String,
    /// Serial number.
    pub serial: String,
    /// Its card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<RecordedCard>,
    /// Further live values of the card, where two people changed it apart.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub card_also: Vec<RecordedCard>,
    /// Something about it needs a newer version and must not be judged without.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub needs_newer_version: bool,
    /// Verifications that stand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub verifications: Vec<RecordedVerification>,
    /// Lead checks that stand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lead_checks: Vec<RecordedCheck>,
    /// Quick checks that stand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub quick_checks: Vec<RecordedQuickCheck>,
    /// Reports of damage that stand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub damages: Vec<RecordedDamage>,
}

macro_rules! recorded {
    ($($(#[$doc:meta])* $name:ident { $field:ident: $kind:ty })+) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
        #[serde(deny_unknown_fields)]
        pub struct $name {
            /// What was recorded.
            pub $field: $kind,
            /// When.
            pub recorded_at: Moment,
            /// By whom.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub recorded_by: Option<PersonId>,
        }
    )+};
}

recorded! {
    /// A card as recorded.
    RecordedCard { card: Card }
    /// A verification as recorded.
    RecordedVerification { verification: Verification }
    /// A lead check as recorded.
    RecordedCheck { check: LeadCheck }
    /// A quick check as recorded.
    RecordedQuickCheck { check: QuickCheck }
    /// Damage as recorded.
    RecordedDamage { damage: Damage }
}

impl Tester {
    /// Everything on record that speaks for or against it: one history for each live value of its card.
    #[must_use]
    pub fn histories(&self) -> Vec<TesterHistory> {
        let verifications = self.verifications.iter().map(|it| ProofEvent::Verification(it.verification.clone()));
        let checks = self.quick_checks.iter().map(|it| ProofEvent::QuickCheck(it.check.clone()));
        let damages = self.damages.iter().map(|it| ProofEvent::Damage(it.damage.clone()));
        let history = TesterHistory {
            tester: self.id,
            card: self.card.as_ref().map(|it| it.card.clone()),
            events: verifications.chain(checks).chain(damages).collect(),
            lead_checks: self.lead_checks.iter().map(|it| it.check.clone()).collect(),
        };
        let also = self.card_also.iter().map(|it| TesterHistory { card: Some(it.card.clone()), ..history.clone() });
        std::iter::once(history.clone()).chain(also).collect()
    }
}
