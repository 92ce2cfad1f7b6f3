//! Sentences about how a reading was taken, or about why there is none.

use crate::words::Words;
use provenohm_assess::judgement::MethodReason;
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::reading::{Conditions, NotTestedReason};

impl Words {
    /// What is said of how the reading was taken, one sentence a reason.
    #[must_use]
    pub fn method_sentence(&self, reason: &MethodReason) -> String {
        match reason {
            MethodReason::LowerVoltage { taken_v, asked_v } => self.text_with(
                "said-method-lower-voltage",
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::HigherVoltage { taken_v, asked_v } => self.text_with(
                "said-method-higher-voltage",
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::ReducedVoltage { taken_v, asked_v, reason } => self.text_with(
                match reason {
                    ReducedReason::SurgeProtector => "said-method-reduced-surge-protector",
                    ReducedReason::Equipment => "said-method-reduced-equipment",
                    ReducedReason::EquipmentConnected => "said-method-reduced-equipment-connected",
                },
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::ForbiddenPair => self.text("said-method-forbidden-pair"),
            MethodReason::LeadsNotChecked => self.text("said-method-leads-not-checked"),
            MethodReason::LeadsInDoubt { at, .. } => {
                self.text_with("said-method-leads-in-doubt", &[("at", self.time(*at).into())])
            }
            MethodReason::LeadsMayReadLow { at, .. } => {
                self.text_with("said-method-leads-may-read-low", &[("at", self.time(*at).into())])
            }
            MethodReason::NoQuickCheck { days } => {
                self.text_with("said-method-no-quick-check", &[("days", (*days).into())])
            }
            MethodReason::NeutralNotIsolated => self.text("said-method-neutral-not-isolated"),
            MethodReason::LoadsConnected => self.text("said-method-loads-connected"),
            MethodReason::FewerDigits { resolution_ohm } => {
                self.text_with("said-method-fewer-digits", &[("resolution", self.step_alone(*resolution_ohm).into())])
            }
            MethodReason::MoreDigits { resolution_ohm } => {
                self.text_with("said-method-more-digits", &[("resolution", self.step_alone(*resolution_ohm).into())])
            }
            MethodReason::NoSuchConductor => self.text("said-method-no-such-conductor"),
            MethodReason::AboveTesterLimit { limit } => {
                self.text_with("said-method-above-tester-limit", &[("limit", self.reading(limit).into())])
            }
            MethodReason::FarBelowOthers { median_ohm, comparator, readings } => self.text_with(
                "said-method-far-below-others",
                &[("median", self.ohms_open(*comparator, *median_ohm).into()), ("readings", (*readings).into())],
            ),
            MethodReason::DoubtfulClock => self.text("said-method-doubtful-clock"),
            MethodReason::TwoLiveValues => self.text("said-method-two-live-values"),
            MethodReason::AtReferenceConditions => self.text("said-method-at-reference-conditions"),
            MethodReason::NeedsNewerVersion => self.text("said-method-needs-newer-version"),
        }
    }

    /// The conditions of a reading, one phrase each; what was not stated is left out.
    #[must_use]
    pub fn conditions(&self, conditions: &Conditions) -> Vec<String> {
        let isolated = match conditions.n_isolated {
            Some(true) => Some(self.text("said-n-isolated")),
            Some(false) => Some(self.text("said-n-not-isolated")),
            None => None,
        };
        let reduced = conditions.reduced.map(|reason| self.reduced_reason(reason));
        [Some(self.loads(conditions.loads)), isolated, reduced].into_iter().flatten().collect()
    }

    /// Why a pair was not tested: `no access`.
    #[must_use]
    pub fn not_tested_reason(&self, reason: NotTestedReason) -> String {
        self.text(match reason {
            NotTestedReason::Live => "said-not-tested-live",
            NotTestedReason::NoAccess => "said-not-tested-no-access",
            NotTestedReason::LoadConnected => "said-not-tested-load-connected",
            NotTestedReason::Joined => "said-not-tested-joined",
            NotTestedReason::NotPresent => "said-not-tested-not-present",
            NotTestedReason::Other => "said-not-tested-other",
        })
    }

    /// That a pair was not tested, and why; the person's own words where they gave some.
    #[must_use]
    pub fn not_tested(&self, reason: NotTestedReason, own_words: Option<&str>) -> String {
        let reason = own_words.map_or_else(|| self.not_tested_reason(reason), ToOwned::to_owned);
        self.text_with("said-not-tested", &[("reason", reason.into())])
    }
}
