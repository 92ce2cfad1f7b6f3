//! Deciding with uncertainty: four ways.

use crate::bench::DecisionRule;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// The statement of conformity (ILAC-G8:09/2019, four-way statement seen).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Decision {
    /// Within the bound by at least the guard.
    Conforms,
    /// Within the bound, by less than the guard: a conditional pass.
    ConditionalPass,
    /// Within the bound, on the condition that its reference is as good as it was taken for: the certificate had lapsed,
    /// or simple acceptance leans on a reference whose uncertainty is large beside the bound. A conditional pass too.
    OnCondition,
    /// Outside the bound, by no more than the guard.
    ConditionalFail,
    /// Outside the bound by more than the guard.
    DoesNotConform,
}

impl DecisionRule {
    /// The guard w as a share of U: 0, 1, or 0.83.
    #[must_use]
    pub fn share_of_u(self) -> Decimal {
        match self {
            Self::Simple => Decimal::ZERO,
            Self::GuardU => Decimal::ONE,
            Self::GuardPartU => Decimal::new(83, 2),
        }
    }

    /// The guard w for an expanded uncertainty; beyond all arithmetic it is so wide that nothing is certain.
    fn guard(self, expanded: f64) -> Decimal {
        if self == Self::Simple {
            return Decimal::ZERO;
        }
        let u = Decimal::from_f64(expanded.abs());
        u.and_then(|u| u.checked_mul(self.share_of_u())).unwrap_or(Decimal::MAX)
    }

    /// Decides whether a figure is at most a bound.
    pub(super) fn at_most(self, figure: Decimal, bound: Decimal, expanded: f64) -> Decision {
        let w = self.guard(expanded);
        if figure <= bound {
            let certain = figure.checked_add(w).is_some_and(|sum| sum <= bound);
            if certain { Decision::Conforms } else { Decision::ConditionalPass }
        } else {
            let certain = bound.checked_add(w).is_some_and(|sum| figure > sum);
            if certain { Decision::DoesNotConform } else { Decision::ConditionalFail }
        }
    }

    /// Decides whether a figure is at least a bound.
    pub(super) fn at_least(self, figure: Decimal, bound: Decimal, expanded: f64) -> Decision {
        self.at_most(-figure, -bound, expanded)
    }
}

impl Decision {
    /// Whether it is within the bound, with or without a condition.
    #[must_use]
    pub const fn is_within(self) -> bool {
        matches!(self, Self::Conforms) || self.is_conditional()
    }

    /// Whether it is within the bound with a condition.
    #[must_use]
    pub const fn is_conditional(self) -> bool {
        matches!(self, Self::ConditionalPass | Self::OnCondition)
    }

    /// What is left of it where the reference does not support a decision without a condition.
    pub(super) const fn conditional(self) -> Self {
        match self {
            Self::Conforms => Self::OnCondition,
            other => other,
        }
    }
}
