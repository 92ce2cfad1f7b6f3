//! What a statement says of the requirements of the tester standard.

use super::{Conforms, RequirementName, RequirementResult, Statement};
use crate::limits::Tag;
use rust_decimal::Decimal;

/// Most operating uncertainty inside the marked measuring range, % of the measured value
/// (IEC 61557-2:2019, 6.2; seen).
const MOST_OPERATING_UNCERTAINTY: Decimal = Decimal::from_parts(30, 0, 0, false, 0);

impl RequirementName {
    /// All of them.
    pub const ALL: [Self; 4] =
        [Self::OperatingUncertainty, Self::OpenCircuitVoltage, Self::RatedCurrent, Self::ShortCircuitCurrent];
}

impl Tag {
    /// A figure recalled and not read: what is judged by it is a remark, never a failure.
    #[must_use]
    pub const fn is_memory(self) -> bool {
        matches!(self, Self::MemoryHigh | Self::MemoryMedium | Self::MemoryLow)
    }
}

impl Statement {
    /// What it says of one requirement, with the tag of the figure it was judged by. Listed twice, the worse counts.
    /// An operating uncertainty that is given and not listed is compared with the standard's 30 %.
    pub(crate) fn says_of(&self, name: RequirementName) -> Option<(RequirementResult, Tag)> {
        let listed = self.requirements.iter().filter(|r| r.name == name).max_by_key(|r| match r.result {
            RequirementResult::NotMet => 2,
            RequirementResult::NotTested => 1,
            RequirementResult::Met => 0,
        });
        listed.map(|r| (r.result, r.tag)).or_else(|| {
            let percent =
                self.operating_uncertainty_percent.filter(|_| name == RequirementName::OperatingUncertainty)?;
            let met = percent.0 <= MOST_OPERATING_UNCERTAINTY;
            Some((if met { RequirementResult::Met } else { RequirementResult::NotMet }, Tag::Seen))
        })
    }

    /// The requirements it found not met, with the tag of the figure each was judged by.
    pub(crate) fn not_met(&self) -> impl Iterator<Item = (RequirementName, Tag)> + '_ {
        RequirementName::ALL.into_iter().filter_map(|name| match self.says_of(name) {
            Some((RequirementResult::NotMet, tag)) => Some((name, tag)),
            _ => None,
        })
    }

    /// The requirements it says were not tested.
    pub(crate) fn not_tested(&self) -> impl Iterator<Item = RequirementName> + '_ {
        RequirementName::ALL
            .into_iter()
            .filter(|name| matches!(self.says_of(*name), Some((RequirementResult::NotTested, _))))
    }

    /// Whether it tested this requirement and found it met. "Conforms" says so of every one it does not list.
    pub(crate) fn finds_met(&self, name: RequirementName) -> bool {
        match self.says_of(name) {
            Some((result, _)) => result == RequirementResult::Met,
            None => self.conforms == Conforms::Yes,
        }
    }

    /// Every requirement tested and met.
    pub(crate) fn meets_all(&self) -> bool {
        RequirementName::ALL.into_iter().all(|name| self.finds_met(name))
    }

    /// "Does not conform", and nothing listed that says in what.
    pub(crate) fn conforms_not_at_all(&self) -> bool {
        self.conforms == Conforms::No && self.not_met().next().is_none()
    }
}
