//! U of a verification's budget, at each resistance.

use crate::ids::VerificationId;
use crate::quantity::{Comparator, Ohms, Percent};
use crate::tester::Point;
use rust_decimal::{Decimal, RoundingStrategy};

/// U of the good verification relied on, with its own k.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Budget<'a> {
    /// The verification.
    pub verification: VerificationId,
    /// U of the whole, % of the reading: for indications that do not lie between two of its points.
    pub whole: Percent,
    /// Its points; none: the whole counts everywhere.
    pub points: &'a [Point],
}

/// The indications above `after`, up to `upto` (none: without end), and the U that counts there, % of the reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Span {
    pub(super) after: Option<Ohms>,
    pub(super) upto: Option<Ohms>,
    pub(super) percent: Percent,
}

impl Span {
    pub(super) fn holds(&self, indicated: Ohms) -> bool {
        self.after.is_none_or(|after| indicated > after) && self.upto.is_none_or(|upto| indicated <= upto)
    }
}

impl Budget<'_> {
    /// Every indication in spans that follow one another. Between two points the larger of theirs counts, as in a recall;
    /// beyond them the whole.
    pub(super) fn spans(&self) -> Vec<Span> {
        let mut points: Vec<(Ohms, Percent)> = self.points.iter().filter_map(of_point).collect();
        points.sort();
        let whole = points.iter().map(|(_, percent)| *percent).fold(self.whole, Percent::max);
        let mut spans = vec![Span { after: None, upto: points.first().map(|(at, _)| *at), percent: whole }];
        for pair in points.windows(2) {
            let [(after, one), (upto, other)] = pair else { continue };
            match spans.last_mut().filter(|_| after == upto) {
                // Shown alike at two resistances: the worse of the two, in the span that ends there too.
                Some(before) => before.percent = before.percent.max(*other),
                None => spans.push(Span { after: Some(*after), upto: Some(*upto), percent: *one.max(other) }),
            }
        }
        if let Some((top, _)) = points.last() {
            spans.push(Span { after: Some(*top), upto: None, percent: whole });
        }
        spans
    }
}

/// What was indicated at a good point, and |error| + U of it, % of that indication: an indication is not corrected by
/// whoever reads it, so its error belongs to its uncertainty (GUM F.2.4.5, memory-M).
fn of_point(point: &Point) -> Option<(Ohms, Percent)> {
    let (indicated, known) = (point.indicated.ohms(), point.reference_ohm.0);
    let of_a_resistance = point.good && point.indicated.comparator == Comparator::Exact && indicated.0 > Decimal::ZERO;
    let expanded = point.error_uncertainty_percent.filter(|_| of_a_resistance)?;
    let off = (indicated.0 - known).abs().checked_mul(Decimal::ONE_HUNDRED)?;
    let percent = known.checked_mul(expanded.0)?.checked_add(off)?.checked_div(indicated.0)?;
    Some((indicated, Percent(percent.round_dp_with_strategy(2, RoundingStrategy::AwayFromZero).normalize())))
}
