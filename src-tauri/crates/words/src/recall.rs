//! Sentences about readings that a failed tester put in doubt.

use crate::words::Words;
use provenohm_assess::moment::When;
use provenohm_assess::quantity::Ohms;
use provenohm_assess::recall::{Again, Class, Unknown};

impl Words {
    /// What is left of a reading: `still clears 1.0 MΩ: at least 1.05 MΩ with the error found`.
    #[must_use]
    pub fn recall_class(&self, class: &Class, limit: Option<Ohms>) -> String {
        let limit = limit.map(|limit| self.ohms(limit)).unwrap_or_default();
        let lowest = |ohms: Ohms| ("lowest", self.ohms_at_least(ohms).into());
        match class {
            Class::StillClears { lowest_ohm, error_percent } => {
                let key = match error_percent {
                    Some(_) => "said-recall-still-clears-with-error",
                    None => "said-recall-still-clears",
                };
                self.text_with(key, &[("limit", limit.into()), lowest(*lowest_ohm)])
            }
            Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, .. } } => {
                self.text_with("said-recall-may-be-below", &[lowest(*lowest_ohm)])
            }
            Class::TestAgain { because: Again::VoltageFell { held_from_ohm } } => {
                self.text_with("said-recall-voltage-fell", &[("load", self.ohms(*held_from_ohm).into())])
            }
            Class::TestAgain { because: Again::DidNotMeet } => self.text("said-recall-did-not-meet"),
            Class::CannotBeJudged { because } => self.text(match because {
                Unknown::NothingMeasured => "said-recall-nothing-measured",
                Unknown::BelowLowestPoint => "said-recall-below-lowest-point",
                Unknown::UncertaintyNotKnown => "said-recall-uncertainty-not-known",
                Unknown::LoadNotKnown => "said-recall-load-not-known",
                Unknown::NotSaidInWhat => "said-recall-not-said-in-what",
                Unknown::NoLimit => "said-recall-no-limit",
                Unknown::NotJudgedBefore => "said-recall-not-judged-before",
            }),
        }
    }

    /// The class in a word or two: `test again`.
    #[must_use]
    pub fn recall_class_name(&self, class: &Class) -> String {
        self.text(match class {
            Class::StillClears { .. } => "said-recall-class-still-clears",
            Class::CannotBeJudged { .. } => "said-recall-class-cannot-be-judged",
            Class::TestAgain { .. } => "said-recall-class-test-again",
        })
    }

    /// What is said beside every figure that rests on an error found later.
    #[must_use]
    pub fn recall_remark(&self, found: When) -> String {
        self.text_with("said-recall-found-on", &[("found", self.day(found).into())])
    }
}
