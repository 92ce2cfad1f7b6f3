//! Words that stand alone: levels, comparators, policies.

use crate::words::Words;
use provenohm_assess::judgement::Level;
use provenohm_assess::policy::{TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::Comparator;

impl Words {
    /// A level: `done`, `remark`, `look`, `stop`.
    #[must_use]
    pub fn level(&self, level: Level) -> String {
        self.text(match level {
            Level::Done => "level-done",
            Level::Remark => "level-remark",
            Level::Look => "level-look",
            Level::Stop => "level-stop",
        })
    }

    /// A comparator, in words beside its sign.
    #[must_use]
    pub fn comparator(&self, comparator: Comparator) -> String {
        self.text(match comparator {
            Comparator::Exact => "comparator-exact",
            Comparator::MoreThan => "comparator-more-than",
            Comparator::LessThan => "comparator-less-than",
        })
    }

    /// What a value policy does.
    #[must_use]
    pub fn value_policy(&self, policy: ValuePolicy) -> String {
        self.text(match policy {
            ValuePolicy::Simple => "policy-value-simple",
            ValuePolicy::Guarded => "policy-value-guarded",
        })
    }

    /// What a tester policy asks.
    #[must_use]
    pub fn tester_policy(&self, policy: TesterPolicy) -> String {
        self.text(match policy {
            TesterPolicy::Full => "policy-tester-full",
            TesterPolicy::Usual => "policy-tester-usual",
            TesterPolicy::IndicationsOnly => "policy-tester-indications-only",
        })
    }
}
