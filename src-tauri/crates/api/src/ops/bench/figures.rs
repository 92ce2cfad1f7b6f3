//! Worked-out figures in words, and budgets line by line.

use super::say;
use crate::views::{BudgetRow, Line};
use provenohm_assess::bench::{Budgeted, Conditions, Influence, Warmth};
use provenohm_assess::quantity::{Amps, Ohms, Percent, Volts};
use provenohm_assess::reference::ReferenceKind;
use provenohm_assess::standard::Edition;
use provenohm_assess::uncertainty::{Budget, Shape};
use provenohm_words::{AboutBench, Words};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

/// Significant digits of a figure that was worked out.
const DIGITS: u32 = 4;

/// The unit of a budget.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum In {
    Ohms,
    Volts,
    Amps,
}

/// A computed figure to four significant digits.
pub(super) fn rounded(figure: f64) -> Decimal {
    let exact = Decimal::from_f64(figure).unwrap_or_default();
    exact.round_sf(DIGITS).unwrap_or(exact).normalize()
}

/// A figure with its unit and, below zero, its sign.
pub(super) fn quantity(words: &Words, figure: f64, unit: In) -> String {
    let magnitude = rounded(figure.abs());
    let text = match unit {
        In::Ohms => words.ohms(Ohms(magnitude)),
        In::Volts => words.volts(Volts(magnitude)),
        In::Amps => Amps(magnitude).print(words.numbers()),
    };
    if figure < 0.0 && !magnitude.is_zero() { format!("−{text}") } else { text }
}

/// `+1.2 %`, `−12 %`.
pub(super) fn signed_percent(words: &Words, percent: f64) -> String {
    let magnitude = rounded(percent.abs());
    let text = words.percent(Percent(magnitude));
    match percent {
        _ if magnitude.is_zero() => text,
        below if below < 0.0 => format!("−{text}"),
        _ => format!("+{text}"),
    }
}

/// A bare number to four significant digits.
pub(crate) fn number(words: &Words, figure: f64) -> String {
    let magnitude = words.numbers().number(&rounded(figure.abs()).to_string());
    if figure < 0.0 { format!("−{magnitude}") } else { magnitude }
}

/// `510 V ± 0.6 V`.
pub(super) fn with_uncertainty(words: &Words, figure: &Budgeted, unit: In) -> String {
    let args = [
        ("figure", quantity(words, figure.value, unit).into()),
        ("expanded", quantity(words, figure.budget.expanded, unit).into()),
    ];
    words.text_with("answer-result-with-uncertainty", &args)
}

/// A budget line by line.
pub(super) fn budget(
    words: &Words,
    budget: &Budget<Influence>,
    unit: In,
    about: &AboutBench<'_>,
) -> (Vec<BudgetRow>, Vec<Line>) {
    let dof = |dof: Option<f64>| dof.map_or_else(|| "∞".to_owned(), |dof| number(words, dof));
    let rows = budget.lines.iter().map(|line| {
        let input = &line.input;
        let of = unit_of(input.what, about);
        BudgetRow {
            input: words.bench_influence(input.what, about),
            estimate: quantity(words, input.estimate, of),
            shape: words.text(shape_key(input.shape)),
            standard: quantity(words, input.standard, of),
            sensitivity: number(words, input.sensitivity),
            contribution: quantity(words, line.contribution, unit),
            dof: dof(input.dof),
        }
    });
    let line = |key: &str, value: String| Line { label: words.text(key), value };
    let k = if budget.dominated { "answer-result-k-rectangular" } else { "answer-result-k" };
    let sum = vec![
        line("answer-result-standard", quantity(words, budget.standard, unit)),
        line("answer-result-dof", dof(budget.dof)),
        line(k, number(words, budget.k)),
        line("answer-result-expanded", quantity(words, budget.expanded, unit)),
    ];
    (rows.collect(), sum)
}

/// The unit of an input: ohms of a resistor and of the tester, what it reads of a meter.
pub(crate) fn unit_of(influence: Influence, about: &AboutBench<'_>) -> In {
    let (Influence::Meter { reference } | Influence::MeterResolution { reference } | Influence::Drift { reference }) =
        influence
    else {
        return In::Ohms;
    };
    match about.references.iter().find(|one| one.id == reference).map(|one| &one.what) {
        Some(ReferenceKind::CurrentMeter { .. }) => In::Amps,
        Some(ReferenceKind::Voltmeter { .. } | ReferenceKind::HighVoltageProbe { .. }) => In::Volts,
        _ => In::Ohms,
    }
}

/// The word for a distribution.
pub(crate) const fn shape_key(shape: Shape) -> &'static str {
    match shape {
        Shape::Normal => "answer-result-normal",
        Shape::Rectangular => "answer-result-rectangular",
        Shape::Triangular => "answer-result-triangular",
        Shape::Arcsine => "answer-result-arcsine",
    }
}

/// What the changes are multiplied with in the operating uncertainty, by the edition.
pub(crate) fn factor(words: &Words, edition: &Edition) -> String {
    words.numbers().number(&edition.variation_factor.value.normalize().to_string())
}

/// Supply, position and temperature, where they are not those of reference conditions.
pub(crate) fn detail(words: &Words, conditions: &Conditions) -> String {
    let mut parts = vec![say::conditions(words, conditions.supply, conditions.position, Warmth::Reference)];
    parts.extend(conditions.temperature_c.map(|it| it.print(words.numbers())));
    parts.retain(|part| !part.is_empty());
    parts.join(", ")
}
