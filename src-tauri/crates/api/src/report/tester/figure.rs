//! Figures of the report in words: so many digits that a person can follow each step and come to the same next one.

use crate::ops::bench::figures::In;
use provenohm_assess::quantity::{Amps, Ohms, Percent, Volts};
use provenohm_words::Words;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

/// Significant digits of a resistance, voltage, current or error.
const OF_A_VALUE: u32 = 6;

/// Significant digits of an uncertainty and of what makes it.
const OF_AN_UNCERTAINTY: u32 = 4;

/// A value with its unit.
pub(super) fn value(words: &Words, figure: f64, unit: In) -> String {
    quantity(words, Decimal::from_f64(figure).unwrap_or_default(), unit, OF_A_VALUE)
}

/// A resistance with its unit.
pub(super) fn ohms(words: &Words, Ohms(ohms): Ohms) -> String {
    quantity(words, ohms, In::Ohms, OF_A_VALUE)
}

/// An uncertainty with its unit.
pub(super) fn uncertainty(words: &Words, figure: f64, unit: In) -> String {
    quantity(words, Decimal::from_f64(figure).unwrap_or_default(), unit, OF_AN_UNCERTAINTY)
}

/// `+1.2 %`, `−12 %`.
pub(super) fn signed(words: &Words, Percent(percent): Percent) -> String {
    let magnitude = words.percent(Percent(rounded(percent.abs(), OF_A_VALUE)));
    match percent {
        none if none.is_zero() => magnitude,
        below if below < Decimal::ZERO => format!("−{magnitude}"),
        _ => format!("+{magnitude}"),
    }
}

/// A bare number; a very small or large one with its power of ten: `−1.24E−9`.
pub(super) fn factor(words: &Words, figure: f64) -> String {
    let plain = crate::ops::bench::figures::number(words, figure);
    let power = figure.abs().log10().floor();
    if !power.is_finite() || (-4.0..6.0).contains(&power) {
        return plain;
    }
    let mantissa = crate::ops::bench::figures::number(words, figure / 10_f64.powf(power));
    let sign = if power < 0.0 { "−" } else { "" };
    format!("{mantissa}E{sign}{:.0}", power.abs())
}

/// A figure with its uncertainty: `310 V ± 1.79 V`.
pub(super) fn with_uncertainty(words: &Words, figure: &provenohm_assess::bench::Budgeted, unit: In) -> String {
    let args = [
        ("figure", value(words, figure.value, unit).into()),
        ("expanded", uncertainty(words, figure.budget.expanded, unit).into()),
    ];
    words.text_with("answer-result-with-uncertainty", &args)
}

fn quantity(words: &Words, figure: Decimal, unit: In, digits: u32) -> String {
    let magnitude = rounded(figure.abs(), digits);
    let text = match unit {
        In::Ohms => words.ohms(Ohms(magnitude)),
        In::Volts => words.volts(Volts(magnitude)),
        In::Amps => Amps(magnitude).print(words.numbers()),
    };
    if figure < Decimal::ZERO && !magnitude.is_zero() { format!("−{text}") } else { text }
}

fn rounded(figure: Decimal, digits: u32) -> Decimal {
    figure.round_sf(digits).unwrap_or(figure).normalize()
}
