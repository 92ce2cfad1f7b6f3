//! The one table from judgements to levels, and the order of "worst first".

use crate::judgement::{
    Judgement, Level, MethodReason, TesterJudgement, TesterReason, TesterState, Value, ValueJudgement,
};

impl Value {
    /// Its level.
    #[must_use]
    pub const fn level(self) -> Level {
        match self {
            Self::Meets => Level::Done,
            Self::Below | Self::TooClose | Self::CannotBeJudged => Level::Look,
        }
    }
}

impl TesterState {
    /// Its level.
    #[must_use]
    pub const fn level(self) -> Level {
        match self {
            Self::NotChosen | Self::Barred => Level::Stop,
            Self::InDoubt | Self::FoundGoodAfterwards | Self::NotProved | Self::Lapsed => Level::Look,
            Self::Proved => Level::Done,
        }
    }
}

impl TesterJudgement {
    /// The level of the state, raised by "not confirmable" and by remarks.
    #[must_use]
    pub fn level(&self) -> Level {
        let not_confirmable = self.reasons.iter().any(|r| matches!(r, TesterReason::NotConfirmable { .. }));
        let look = if not_confirmable { Level::Look } else { Level::Done };
        let remark = if self.remarks.is_empty() { Level::Done } else { Level::Remark };
        self.state.level().max(look).max(remark)
    }
}

impl MethodReason {
    /// Its level.
    #[must_use]
    pub const fn level(&self) -> Level {
        match self {
            Self::ForbiddenPair | Self::TwoLiveValues | Self::NeedsNewerVersion => Level::Stop,
            Self::LowerVoltage { .. }
            | Self::HigherVoltage { .. }
            | Self::LeadsInDoubt { .. }
            | Self::NoQuickCheck { .. }
            | Self::NeutralNotIsolated
            | Self::FewerDigits { .. }
            | Self::MoreDigits { .. }
            | Self::NoSuchConductor
            | Self::AboveTesterLimit { .. }
            | Self::FarBelowOthers { .. }
            | Self::DoubtfulClock => Level::Look,
            Self::ReducedVoltage { .. }
            | Self::LeadsNotChecked
            | Self::LeadsMayReadLow { .. }
            | Self::LoadsConnected
            | Self::AtReferenceConditions => Level::Remark,
        }
    }

    /// Whether the reading was taken otherwise than it should have been. A value far below the others is looked at,
    /// and may be just what is there.
    #[must_use]
    pub fn is_fault(&self) -> bool {
        self.level() >= Level::Look && !matches!(self, Self::FarBelowOthers { .. })
    }
}

/// The highest level of the three parts.
pub(super) fn highest(value: &ValueJudgement, tester: &TesterJudgement, method: &[MethodReason]) -> Level {
    let method = method.iter().map(MethodReason::level).max().unwrap_or(Level::Done);
    value.value.level().max(tester.level()).max(method)
}

/// How bad a judgement is: by level, then value (below, cannot be judged, too close, meets), then tester (barred, in
/// doubt, found good afterwards, not proved, lapsed, proved). The greater, the worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Severity(Level, Value, TesterState);

impl Judgement {
    /// For showing the least favourable of several, and for listing the worst first.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        Severity(self.level, self.value.value, self.tester.state)
    }
}
