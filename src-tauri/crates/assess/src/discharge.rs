//! How long a cable holds its charge: t = R·C·ln(V₀/V_f).

use crate::quantity::{Farads, Ohms, Seconds, Volts};
use rust_decimal::{Decimal, MathematicalOps, RoundingStrategy};

/// Significant digits of a time worked out.
const DIGITS: u32 = 3;

/// How long a capacitance needs to fall from one voltage to another through a resistance: t = R·C·ln(V₀/V_f), rounded up
/// to three digits so that it is never said too short. Zero where it is there already. It says nothing of whether that
/// resistance is connected: a discharge is verified, not worked out. `None` for a figure that is not above zero, and beyond
/// all arithmetic.
#[must_use]
pub fn discharge_time(through: Ohms, capacitance: Farads, from: Volts, to: Volts) -> Option<Seconds> {
    if [through.0, capacitance.0, from.0, to.0].iter().any(|figure| *figure <= Decimal::ZERO) {
        return None;
    }
    let ratio = from.0.checked_div(to.0)?;
    if ratio <= Decimal::ONE {
        return Some(Seconds(Decimal::ZERO));
    }
    let constant = through.0.checked_mul(capacitance.0)?;
    let time = constant.checked_mul(ratio.checked_ln()?)?;
    time.round_sf_with_strategy(DIGITS, RoundingStrategy::AwayFromZero).map(|time| Seconds(time.normalize()))
}
