//! A circuit's own resistance from its group read with and without it.
//!
//! 1/X = 1/R_with − 1/R_without. With d = 1 − R_with/R_without, X = R_with / d, and the expanded uncertainties p of the
//! two readings, taken as independent: U_d = √(p_with² + (p_without·R_with/R_without)²) (GUM 5.1.2; calc). Two readings
//! of one tester err alike to some extent, which only makes the truth narrower than this. The circuit has at least
//! R_with / (d + U_d); at most R_with / (d − U_d), and no upper figure where d does not exceed its uncertainty.

use super::figures::rounded;
use crate::circuit::Stage;
use crate::ids::TesterId;
use crate::quantity::{Comparator, Ohms, Percent, Shown, Volts};
use crate::reading::Reading;
use rust_decimal::{Decimal, MathematicalOps, RoundingStrategy};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Significant digits of what is worked out: a difference of two readings is worth no more.
const DIGITS: u32 = 2;

/// What two readings must share for one to be taken from the other: the stage, the test voltage and the tester.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Alike(Stage, Volts, Option<TesterId>);

impl Alike {
    /// Those of a reading.
    #[must_use]
    pub const fn of(reading: &Reading) -> Self {
        Self(reading.stage, reading.test_voltage_v, reading.tester)
    }
}

/// What a circuit has by itself, rounded outwards to two significant digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct OwnResistance {
    /// At least this, Ω.
    pub at_least_ohm: Ohms,
    /// At most this, Ω; absent where the two readings do not differ by more than their uncertainty.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub at_most_ohm: Option<Ohms>,
}

/// Why nothing can be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotWorkedOut {
    /// A reading is `<` or zero.
    #[error("a reading has no lower end")]
    NoLowerEnd,
    /// With the circuit the group reads more than without it, beyond the uncertainty.
    #[error("the group reads more with the circuit than without it")]
    Contradictory,
    /// Beyond all arithmetic.
    #[error("the figures are beyond all arithmetic")]
    BeyondArithmetic,
}

/// A circuit's own resistance from its group read with it and without it, each with its expanded uncertainty (95 %).
///
/// # Errors
/// [`NotWorkedOut`].
pub fn own_resistance(with: (Shown, Percent), without: (Shown, Percent)) -> Result<OwnResistance, NotWorkedOut> {
    let open_below = |shown: Shown| shown.comparator == Comparator::LessThan || shown.ohms().0.is_zero();
    if open_below(with.0) || open_below(without.0) {
        return Err(NotWorkedOut::NoLowerEnd);
    }
    worked_out(with, without).ok_or(NotWorkedOut::BeyondArithmetic)?
}

fn worked_out(with: (Shown, Percent), without: (Shown, Percent)) -> Option<Result<OwnResistance, NotWorkedOut>> {
    let (all, rest) = (with.0.ohms().0, without.0.ohms().0);
    let (p_all, p_rest) = (share(with.1)?, share(without.1)?);
    let down = |ohms| rounded(ohms, DIGITS, RoundingStrategy::ToZero);
    if with.0.comparator == Comparator::MoreThan {
        // Each member has at least what the group has.
        let at_least_ohm = down(all.checked_div(Decimal::ONE.checked_add(p_all)?)?)?;
        return Some(Ok(OwnResistance { at_least_ohm, at_most_ohm: None }));
    }
    let ratio = all.checked_div(rest)?;
    let difference = Decimal::ONE.checked_sub(ratio)?;
    let squares = p_all.checked_mul(p_all)?.checked_add(p_rest.checked_mul(ratio)?.powi(2))?;
    let uncertainty = squares.sqrt()?;
    // Over-range without it, the rest may be anything up to infinite: then the group's reading is its own.
    let most = match without.0.comparator {
        Comparator::MoreThan => Decimal::ONE.checked_add(p_all)?,
        Comparator::Exact | Comparator::LessThan => difference.checked_add(uncertainty)?,
    };
    if most <= Decimal::ZERO {
        return Some(Err(NotWorkedOut::Contradictory));
    }
    let least = difference.checked_sub(uncertainty)?;
    let at_most_ohm = if least > Decimal::ZERO {
        Some(rounded(all.checked_div(least)?, DIGITS, RoundingStrategy::AwayFromZero)?)
    } else {
        None
    };
    Some(Ok(OwnResistance { at_least_ohm: down(all.checked_div(most)?)?, at_most_ohm }))
}

fn share(percent: Percent) -> Option<Decimal> {
    percent.0.checked_div(Decimal::ONE_HUNDRED)
}
