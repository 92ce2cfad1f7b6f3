//! The stable codes of what asks for a look: what a person names who accepts a reading all the same.

use crate::judgement::{Judgement, Level, MethodReason, TesterJudgement, TesterReason, TesterState, Value};
use std::collections::BTreeSet;

impl Value {
    /// Its stable code, as in JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Meets => "meets",
            Self::TooClose => "too_close",
            Self::CannotBeJudged => "cannot_be_judged",
            Self::Below => "below",
        }
    }
}

impl TesterState {
    /// Its stable code, as in JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Proved => "proved",
            Self::Lapsed => "lapsed",
            Self::NotProved => "not_proved",
            Self::FoundGoodAfterwards => "found_good_afterwards",
            Self::InDoubt => "in_doubt",
            Self::Barred => "barred",
            Self::NotChosen => "not_chosen",
        }
    }
}

impl MethodReason {
    /// Its stable code, as its kind in JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::LowerVoltage { .. } => "lower_voltage",
            Self::HigherVoltage { .. } => "higher_voltage",
            Self::ReducedVoltage { .. } => "reduced_voltage",
            Self::ForbiddenPair => "forbidden_pair",
            Self::LeadsNotChecked => "leads_not_checked",
            Self::LeadsInDoubt { .. } => "leads_in_doubt",
            Self::LeadsMayReadLow { .. } => "leads_may_read_low",
            Self::NoQuickCheck { .. } => "no_quick_check",
            Self::NeutralNotIsolated => "neutral_not_isolated",
            Self::LoadsConnected => "loads_connected",
            Self::FewerDigits { .. } => "fewer_digits",
            Self::MoreDigits { .. } => "more_digits",
            Self::NoSuchConductor => "no_such_conductor",
            Self::AboveTesterLimit { .. } => "above_tester_limit",
            Self::FarBelowOthers { .. } => "far_below_others",
            Self::DoubtfulClock => "doubtful_clock",
            Self::TwoLiveValues => "two_live_values",
            Self::AtReferenceConditions => "at_reference_conditions",
            Self::NeedsNewerVersion => "needs_newer_version",
        }
    }
}

impl TesterJudgement {
    fn look_codes(&self) -> impl Iterator<Item = &'static str> {
        let own = (self.state.level() == Level::Look).then(|| self.state.code());
        let not_confirmable = self.reasons.iter().any(|it| matches!(it, TesterReason::NotConfirmable { .. }));
        own.into_iter().chain(not_confirmable.then_some("not_confirmable"))
    }
}

impl Judgement {
    /// The codes of every reason at the level *Look*. What is a *Stop* is not among them: nobody can accept it.
    #[must_use]
    pub fn look_codes(&self) -> BTreeSet<&'static str> {
        let value = (self.value.value.level() == Level::Look).then(|| self.value.value.code());
        let method = self.method.iter().filter(|reason| reason.level() == Level::Look).map(MethodReason::code);
        value.into_iter().chain(self.tester.look_codes()).chain(method).collect()
    }
}
