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
            Level::Done => "said-level-done",
            Level::Remark => "said-level-remark",
            Level::Look => "said-level-look",
            Level::Stop => "said-level-stop",
        })
    }

    /// A comparator, in words beside its sign.
    #[must_use]
    pub fn comparator(&self, comparator: Comparator) -> String {
        self.text(match comparator {
            Comparator::Exact => "said-comparator-exact",
            Comparator::MoreThan => "said-comparator-more-than",
            Comparator::LessThan => "said-comparator-less-than",
        })
    }

    /// What a value policy does.
    #[must_use]
    pub fn value_policy(&self, policy: ValuePolicy) -> String {
        self.text(match policy {
            ValuePolicy::Simple => "said-policy-value-simple",
            ValuePolicy::Guarded => "said-policy-value-guarded",
        })
    }

    /// What a tester policy asks.
    #[must_use]
    pub fn tester_policy(&self, policy: TesterPolicy) -> String {
        self.text(match policy {
            TesterPolicy::Full => "said-policy-tester-full",
            TesterPolicy::Usual => "said-policy-tester-usual",
            TesterPolicy::IndicationsOnly => "said-policy-tester-indications-only",
        })
    }
}
