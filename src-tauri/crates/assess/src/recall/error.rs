//! The least resistance an indication can stand for, from the errors found at known resistances.
//!
//! With e = indication / resistance − 1 found at a point and its expanded uncertainty U_e (both of the known
//! resistance), an indication R there stands for no less than R / (1 + e + U_e). Between two points the larger
//! e + U_e of the two is taken, above the topmost that point's own indication and error. Points are placed by what was
//! *indicated*, since that is all a reading has. Common practice; the error may have differed before.

use super::class::Unknown;
use crate::quantity::{Comparator, Ohms, Percent, Shown};
use crate::tester::Point;
use rust_decimal::Decimal;

/// The least resistance, and the e + U_e it was reckoned with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lowest {
    pub(super) ohms: Ohms,
    pub(super) error_percent: Option<Percent>,
}

/// One point: what it indicated, and 1 + e + U_e where that is known.
#[derive(Clone, Copy)]
struct Factor {
    known: Decimal,
    indicated: Decimal,
    factor: Option<Decimal>,
}

/// The least resistance an indication can stand for. `fallback` is the U of the whole budget, for points that have
/// none of their own.
///
/// # Errors
/// Why it cannot be judged: nothing measured, below the lowest point, or the uncertainty of an error needed is unknown.
pub(super) fn lowest(shown: Shown, points: &[Point], fallback: Option<Percent>) -> Result<Lowest, Unknown> {
    let over_range = points.iter().filter(|p| p.indicated.comparator == Comparator::MoreThan);
    let shown_over_range = over_range.map(|p| p.reference_ohm).min();
    // What shows a resistance as over-range may show anything above it for that resistance.
    let may_be_it = |ohms: &Ohms| match shown.comparator {
        Comparator::MoreThan => true,
        Comparator::Exact => shown.ohms() >= *ohms,
        Comparator::LessThan => false,
    };
    if let Some(ohms) = shown_over_range.filter(may_be_it) {
        return Ok(Lowest { ohms, error_percent: None });
    }
    let exact =
        points.iter().filter(|p| p.indicated.comparator == Comparator::Exact && p.reference_ohm.0 > Decimal::ZERO);
    let mut factors: Vec<Factor> = exact.map(|p| factor(p, fallback)).collect();
    factors.sort_by_key(|f| (f.indicated, f.factor));
    let (Some(bottom), Some(top)) = (factors.first(), factors.last()) else { return Err(Unknown::NothingMeasured) };
    let indicated = shown.ohms().0;
    if indicated < bottom.indicated || shown.comparator == Comparator::LessThan {
        return Err(Unknown::BelowLowestPoint);
    }
    let from = indicated.min(top.indicated);
    let mut least = at(from, &factors)?;
    if shown.comparator == Comparator::MoreThan {
        // Open above: the least over every place it may lie in, which is reached at the lower end of a gap.
        for next in factors.iter().filter(|f| f.indicated > from) {
            let (lower, upper) = (just_above(next.indicated, &factors)?, at(next.indicated, &factors)?);
            least = [least, lower, upper].into_iter().min_by_key(|l| l.ohms).unwrap_or(least);
        }
    }
    Ok(least)
}

/// 1 + e + U_e at a point.
fn factor(point: &Point, fallback: Option<Percent>) -> Factor {
    let indicated = point.indicated.ohms().0;
    let factor = point.error_uncertainty_percent.or(fallback).and_then(|uncertainty| {
        let ratio = indicated.checked_div(point.reference_ohm.0)?;
        let factor = ratio.checked_add(uncertainty.0.checked_div(Decimal::ONE_HUNDRED)?)?;
        (factor > Decimal::ZERO).then_some(factor)
    });
    Factor { known: point.reference_ohm.0, indicated, factor }
}

/// At an indication between the lowest and the topmost point: by the larger factor of its two neighbours, which are
/// the same where it was indicated at a point.
fn at(indicated: Decimal, factors: &[Factor]) -> Result<Lowest, Unknown> {
    let below = factors.iter().filter(|f| f.indicated <= indicated).map(|f| f.indicated).max();
    let above = factors.iter().filter(|f| f.indicated >= indicated).map(|f| f.indicated).min();
    of(indicated, factors, below, above)
}

/// Just above a point: by the larger factor of it and of the next one up.
fn just_above(indicated: Decimal, factors: &[Factor]) -> Result<Lowest, Unknown> {
    let above = factors.iter().filter(|f| f.indicated > indicated).map(|f| f.indicated).min();
    of(indicated, factors, Some(indicated), above)
}

fn of(
    indicated: Decimal,
    factors: &[Factor],
    below: Option<Decimal>,
    above: Option<Decimal>,
) -> Result<Lowest, Unknown> {
    // A point that was shown far too high bears on everything from itself up to what it was shown as.
    let spans = |f: &Factor| f.known <= indicated && indicated <= f.indicated;
    let near = |f: &&Factor| Some(f.indicated) == below || Some(f.indicated) == above || spans(f);
    let known: Option<Vec<Decimal>> = factors.iter().filter(near).map(|f| f.factor).collect();
    let worst = known.and_then(|all| all.into_iter().max()).ok_or(Unknown::UncertaintyNotKnown)?;
    let ohms = indicated.checked_div(worst).ok_or(Unknown::UncertaintyNotKnown)?;
    let percent = (worst - Decimal::ONE).checked_mul(Decimal::ONE_HUNDRED).map(|p| Percent(p.normalize()));
    Ok(Lowest { ohms: Ohms(ohms.normalize()), error_percent: percent })
}
