//! The smallest indication that proves a limit, in the steps a display can show.

use crate::quantity::{Accuracy, Ohms};
use crate::tester::Range;
use rust_decimal::Decimal;

/// The indications of one range, and what proves a limit there.
pub(super) struct Steps {
    step: Decimal,
    first: Decimal,
    last: Option<Decimal>,
    /// p as a share of one and n·resolution; none: nothing is known there, and nothing proves a limit.
    guard: Option<(Decimal, Decimal)>,
}

impl Steps {
    /// The indications of a range above `below`, the top of the ranges before it: those hold what both could.
    pub(super) fn of(range: &Range, below: Option<Ohms>, guard: Option<(Decimal, Decimal)>) -> Option<Self> {
        let step = range.resolution_ohm.0;
        let first = match below.filter(|below| *below >= range.from_ohm) {
            Some(below) => below.0.checked_add(step).and_then(|above| round_down(above, step)),
            None => round_up(range.from_ohm.0, step),
        }?;
        Some(Self { step, first, last: Some(range.to_ohm.0), guard })
    }

    /// A display of which only the step is known.
    pub(super) fn without_end(step: Ohms, guard: Option<(Decimal, Decimal)>) -> Option<Self> {
        (step.0 > Decimal::ZERO).then_some(Self { step: step.0, first: Decimal::ZERO, last: None, guard })
    }

    /// Only those of its indications that lie above `after` and not above `upto`.
    pub(super) fn within(mut self, after: Option<Ohms>, upto: Option<Ohms>) -> Option<Self> {
        if let Some(Ohms(after)) = after {
            self.first = self.first.max(round_down(after, self.step)?.checked_add(self.step)?);
        }
        self.last = [self.last, upto.map(|upto| upto.0)].into_iter().flatten().min();
        Some(self)
    }

    fn proves(&self, minimum: Decimal, indicated: Decimal) -> bool {
        let acceptance = self
            .guard
            .and_then(|(share, fixed)| indicated.checked_mul(share)?.checked_add(fixed)?.checked_add(minimum));
        acceptance.is_some_and(|acceptance| indicated >= acceptance)
    }

    /// The smallest of its indications that proves the minimum.
    fn smallest(&self, minimum: Decimal) -> Option<Decimal> {
        let (share, fixed) = self.guard?;
        let strict = minimum.checked_add(fixed)?.checked_div(Decimal::ONE.checked_sub(share)?)?;
        let mut smallest = round_up(strict, self.step)?.max(self.first);
        // The division was rounded in its last decimal: the comparison itself decides.
        if !self.proves(minimum, smallest) {
            smallest = smallest.checked_add(self.step)?;
        } else if smallest > self.first && self.proves(minimum, smallest - self.step) {
            smallest -= self.step;
        }
        let shown = self.last.is_none_or(|last| smallest <= last);
        (shown && self.proves(minimum, smallest)).then_some(smallest)
    }
}

/// From the highest range down: the smallest indication from which every larger one proves the minimum.
pub(super) fn smallest(minimum: Ohms, ranges: impl Iterator<Item = Option<Steps>>) -> Option<Ohms> {
    let mut found = None;
    for steps in ranges {
        let steps = steps?;
        if steps.last.is_some_and(|last| steps.first > last) {
            continue;
        }
        let Some(here) = steps.smallest(minimum.0) else { break };
        found = Some(Ohms(here.normalize()));
        if here > steps.first {
            break;
        }
    }
    found
}

/// The figure that makers print in their tables: L·(1 + p) + n·resolution, the percentage taken of the limit. Rounded
/// up to a step and not to the nearest one, which can land below the proof. Never above the strict form that readings
/// are judged by; to be shown beside it for comparison with the tester's own manual. `None` for a step that is not
/// above zero, and for figures beyond all arithmetic.
#[must_use]
pub fn makers_smallest(minimum: Ohms, accuracy: Accuracy, resolution: Ohms) -> Option<Ohms> {
    let share = minimum.0.checked_mul(accuracy.percent.0)?.checked_div(Decimal::ONE_HUNDRED)?;
    let steps = resolution.0.checked_mul(Decimal::from(accuracy.digits))?;
    let acceptance = minimum.0.checked_add(share)?.checked_add(steps)?;
    round_up(acceptance, resolution.0).map(|smallest| Ohms(smallest.normalize()))
}

fn round_up(figure: Decimal, step: Decimal) -> Option<Decimal> {
    let down = round_down(figure, step)?;
    if down == figure { Some(down) } else { down.checked_add(step) }
}

fn round_down(figure: Decimal, step: Decimal) -> Option<Decimal> {
    if step <= Decimal::ZERO {
        return None;
    }
    figure.checked_sub(figure.checked_rem(step)?)
}
