//! Resistances in parallel: 1/R = Σ 1/Rᵢ.

use super::figures::{rounded, significant};
use crate::quantity::{Comparator, Ohms, Percent, Shown};
use rust_decimal::{Decimal, MathematicalOps, RoundingStrategy};

/// Significant digits of a parallel resistance.
const DIGITS: u32 = 5;

/// What resistances read together, to five significant digits, with how it relates to the figure: over-range members
/// make it *more than* (rounded down), `<` members *less than* (rounded up). `None` for no members, for both kinds
/// together, which leave it open both ways, and for figures beyond all arithmetic.
#[must_use]
pub fn parallel(members: &[Shown]) -> Option<(Comparator, Ohms)> {
    let has = |comparator| members.iter().any(|m| m.comparator == comparator);
    let (comparator, strategy) = match (has(Comparator::MoreThan), has(Comparator::LessThan)) {
        (true, true) => return None,
        (true, false) => (Comparator::MoreThan, RoundingStrategy::ToZero),
        (false, true) => (Comparator::LessThan, RoundingStrategy::AwayFromZero),
        (false, false) => (Comparator::Exact, RoundingStrategy::MidpointAwayFromZero),
    };
    let lowest = members.iter().map(|m| m.ohms().0).min()?;
    if lowest.is_zero() {
        return Some((comparator, Ohms(Decimal::ZERO)));
    }
    // In shares of the lowest, so that no conductance is too small to hold.
    let shares = members.iter().map(|m| lowest.checked_div(m.ohms().0));
    let sum = shares.sum::<Option<Decimal>>()?;
    rounded(lowest.checked_div(sum)?, DIGITS, strategy).map(|ohms| (comparator, ohms))
}

/// The expanded uncertainty of what resistances read together, % of it, each known to the same percentage independently
/// of the others: p·√Σ(R/Rᵢ)² (GUM 5.1.2; calc), rounded up to two digits. `None` where [`parallel`] gives no exact
/// figure.
#[must_use]
pub fn parallel_uncertainty(members: &[Shown], each: Percent) -> Option<Percent> {
    let (Comparator::Exact, Ohms(together)) = parallel(members)? else { return None };
    let squares = members.iter().map(|m| together.checked_div(m.ohms().0)?.checked_powi(2));
    let share = squares.sum::<Option<Decimal>>()?.sqrt()?;
    significant(each.0.checked_mul(share)?, 2, RoundingStrategy::AwayFromZero).map(Percent)
}
