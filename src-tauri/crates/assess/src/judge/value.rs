//! What may be said of the value: below, too close to call, cannot be judged, meets.

use crate::judgement::{Guard, Value, ValueReason};
use crate::quantity::{Comparator, Ohms, Shown};

/// The guard a policy asks for.
pub(super) enum Guarding<'a> {
    /// *Simple*: w = 0.
    Simple,
    /// *Guarded*: w at a resistance, from the first figure there is; none: nothing is known of the tester.
    Guarded(&'a dyn Fn(Ohms) -> Option<Guard>),
}

/// What is said of an indication, and why.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Weighed {
    pub(super) value: Value,
    pub(super) reason: ValueReason,
    pub(super) guard: Option<Guard>,
}

/// Weighs an indication against a minimum L.
///
/// R < L is *below* under every policy and before any guard is asked for; L ≤ R < L + w is *too close to call*;
/// R ≥ L + w *meets*. `> x` below L cannot be judged, `< x` is *below* only up to L. An indication above the top of
/// what was proved is weighed as `> top`.
pub(super) fn weigh(shown: Shown, minimum: Ohms, top: Option<Ohms>, guarding: &Guarding<'_>) -> Weighed {
    let indicated = shown.ohms();
    let said = |value, reason| Weighed { value, reason, guard: None };
    match shown.comparator {
        Comparator::LessThan if indicated <= minimum => return said(Value::Below, ValueReason::Compared),
        Comparator::LessThan => return said(Value::CannotBeJudged, ValueReason::OpenTowardsLimit),
        Comparator::Exact if indicated < minimum => return said(Value::Below, ValueReason::Compared),
        Comparator::MoreThan if indicated < minimum => {
            return said(Value::CannotBeJudged, ValueReason::OpenTowardsLimit);
        }
        Comparator::Exact | Comparator::MoreThan => {}
    }
    let cut = top.filter(|top| *top < indicated);
    let claimed = cut.unwrap_or(indicated);
    let short = || cut.map_or(ValueReason::Compared, |top_ohm| ValueReason::ClaimCut { top_ohm });
    if claimed < minimum {
        return said(Value::CannotBeJudged, short());
    }
    let guard = match guarding {
        Guarding::Simple => return said(Value::Meets, ValueReason::Compared),
        Guarding::Guarded(guard) => guard(claimed),
    };
    let Some(guard) = guard else {
        return said(Value::CannotBeJudged, ValueReason::NoUncertainty);
    };
    let (value, reason) = if claimed >= guard.acceptance_ohm {
        (Value::Meets, ValueReason::Compared)
    } else {
        (Value::TooClose, short())
    };
    Weighed { value, reason, guard: Some(guard) }
}
