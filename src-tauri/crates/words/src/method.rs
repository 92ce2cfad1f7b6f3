//! Sentences about how a reading was taken, or about why there is none.

use crate::words::Words;
use provenohm_assess::judgement::MethodReason;
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::reading::NotTestedReason;

impl Words {
    /// What is said of how the reading was taken, one sentence a reason.
    #[must_use]
    pub fn method_sentence(&self, reason: &MethodReason) -> String {
        match reason {
            MethodReason::LowerVoltage { taken_v, asked_v } => self.text_with(
                "method-lower-voltage",
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::HigherVoltage { taken_v, asked_v } => self.text_with(
                "method-higher-voltage",
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::ReducedVoltage { taken_v, asked_v, reason } => self.text_with(
                match reason {
                    ReducedReason::SurgeProtector => "method-reduced-surge-protector",
                    ReducedReason::Equipment => "method-reduced-equipment",
                    ReducedReason::EquipmentConnected => "method-reduced-equipment-connected",
                },
                &[("taken", self.volts(*taken_v).into()), ("asked", self.volts(*asked_v).into())],
            ),
            MethodReason::ForbiddenPair => self.text("method-forbidden-pair"),
            MethodReason::LeadsNotChecked => self.text("method-leads-not-checked"),
            MethodReason::LeadsInDoubt { at, .. } => {
                self.text_with("method-leads-in-doubt", &[("at", self.time(*at).into())])
            }
            MethodReason::LeadsMayReadLow { at, .. } => {
                self.text_with("method-leads-may-read-low", &[("at", self.time(*at).into())])
            }
            MethodReason::NeutralNotIsolated => self.text("method-neutral-not-isolated"),
            MethodReason::LoadsConnected => self.text("method-loads-connected"),
            MethodReason::FewerDigits { resolution_ohm } => {
                self.text_with("method-fewer-digits", &[("resolution", self.ohms(*resolution_ohm).into())])
            }
            MethodReason::AboveTesterLimit { limit } => {
                self.text_with("method-above-tester-limit", &[("limit", self.reading(limit).into())])
            }
            MethodReason::FarBelowOthers { median_ohm, readings } => self.text_with(
                "method-far-below-others",
                &[("median", self.ohms(*median_ohm).into()), ("readings", (*readings).into())],
            ),
            MethodReason::DoubtfulClock => self.text("method-doubtful-clock"),
            MethodReason::TwoLiveValues => self.text("method-two-live-values"),
            MethodReason::AtReferenceConditions => self.text("method-at-reference-conditions"),
            MethodReason::NeedsNewerVersion => self.text("method-needs-newer-version"),
        }
    }

    /// Why a pair was not tested: `no access`.
    #[must_use]
    pub fn not_tested_reason(&self, reason: NotTestedReason) -> String {
        self.text(match reason {
            NotTestedReason::Live => "not-tested-live",
            NotTestedReason::NoAccess => "not-tested-no-access",
            NotTestedReason::LoadConnected => "not-tested-load-connected",
            NotTestedReason::Joined => "not-tested-joined",
            NotTestedReason::NotPresent => "not-tested-not-present",
            NotTestedReason::Other => "not-tested-other",
        })
    }

    /// That a pair was not tested, and why; the person's own words where they gave some.
    #[must_use]
    pub fn not_tested(&self, reason: NotTestedReason, own_words: Option<&str>) -> String {
        let reason = own_words.map_or_else(|| self.not_tested_reason(reason), ToOwned::to_owned);
        self.text_with("not-tested", &[("reason", reason.into())])
    }
}
