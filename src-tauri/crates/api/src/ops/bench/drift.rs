//! Drift of a tester: the error at each known resistance over its runs that became verifications.

use super::figures::{In, quantity, signed_percent};
use super::plot;
use super::run::{Run, closed};
use crate::failure::Failure;
use crate::state::State;
use crate::views::*;
use chrono::{Days, NaiveDate};
use provenohm_assess::bench::plot::{DriftPoint, fitted};
use provenohm_assess::bench::{PointResult, Series, VoltageResult};
use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Ohms, Percent, Volts};
use rust_decimal::prelude::ToPrimitive;
use std::collections::BTreeMap;

/// The error found at one resistance in one verification.
struct Found {
    verification: VerificationId,
    day: NaiveDate,
    error_percent: f64,
    expanded_percent: f64,
    adjusted_after: bool,
}

pub(crate) fn drift(state: &mut State, asked: OfTester) -> Result<DriftView, Failure> {
    drift_until(state, asked.tester, None)
}

/// The drift as it was known at an instant; absent: now.
pub(crate) fn drift_until(state: &State, tester: TesterId, until: Option<Moment>) -> Result<DriftView, Failure> {
    let identity = state.record.view().tester(tester)?.identity.first().cloned();
    let identity = identity.ok_or_else(|| Failure::of("not_found"))?;
    let mut all: BTreeMap<(Volts, Ohms), Vec<Found>> = BTreeMap::new();
    for bench in state.record.view().benches_of(tester)? {
        let run = Run::as_closed(state, bench.bench)?;
        let known = closed(&bench).filter(|one| until.is_none_or(|until| one.recorded <= until));
        let Some(closed) = known else { continue };
        let day = match closed.value.made {
            provenohm_assess::moment::When::At(at) => at.date_naive(),
            provenohm_assess::moment::When::Day { date, .. } => date,
        };
        let result = run.result();
        for voltage in &result.voltages {
            for (at, found) in errors(voltage) {
                let adjusted_after = result.adjusted && voltage.series == Series::AsFound;
                let (error_percent, expanded_percent) = found;
                let verification = closed.value.id;
                let found = Found { verification, day, error_percent, expanded_percent, adjusted_after };
                all.entry((voltage.test_voltage_v, at)).or_default().push(found);
            }
        }
    }
    let words = &state.words;
    Ok(DriftView {
        tester,
        title: super::run::tester_title(words, &identity),
        plots: all.into_iter().filter_map(|(at, found)| plot_view(words, at, found)).collect(),
    })
}

/// Exact errors under reference conditions, by the resistance as marked.
fn errors(voltage: &VoltageResult) -> impl Iterator<Item = (Ohms, (f64, f64))> {
    let error = |point: &PointResult| {
        let Percent(error) = point.error_percent?;
        let known = point.known_ohm?.0.to_f64().filter(|it| *it > 0.0)?;
        let expanded = point.budget.as_ref()?.expanded / known * 100.0;
        Some((point.resistor.nominal_ohm, (error.to_f64()?, expanded)))
    };
    let exact = voltage.points.iter().filter(|point| point.base && point.comparator == Comparator::Exact);
    exact.filter_map(error)
}

fn plot_view(
    words: &provenohm_words::Words,
    (volts, ohms): (Volts, Ohms),
    mut found: Vec<Found>,
) -> Option<DriftPlotView> {
    // As found comes before as left of the same day.
    found.sort_by_key(|one| (one.day, !one.adjusted_after));
    let first = found.first()?.day;
    let since = |day: NaiveDate| f64::from(i32::try_from((day - first).num_days()).unwrap_or(i32::MAX));
    let points = found.iter().map(|one| DriftPoint {
        verification: one.verification,
        day: since(one.day),
        error_percent: one.error_percent,
        expanded_percent: one.expanded_percent,
        adjusted_after: one.adjusted_after,
    });
    let geometry = fitted(points.collect());
    let when = |day: f64| {
        let days = Days::new(day.abs().to_u64().unwrap_or_default());
        let at = if day < 0.0 { first.checked_sub_days(days) } else { first.checked_add_days(days) };
        at.map(|at| words.date(at)).unwrap_or_default()
    };
    let args = [("volts", words.volts(volts).into()), ("known", words.ohms(ohms).into())];
    Some(DriftPlotView {
        title: words.text_with("answer-drift-title", &args),
        said: words.text(if geometry.lines.is_empty() { "answer-drift-no-line" } else { "answer-drift-line" }),
        plot: plot::drift(words, words.text_with("answer-drift-plot-title", &args), &geometry, &when),
        rows: found
            .iter()
            .map(|one| DriftRow {
                when: words.date(one.day),
                error: signed_percent(words, one.error_percent),
                expanded: words.percent(Percent(super::figures::rounded(one.expanded_percent))),
                adjusted: if one.adjusted_after { words.text("answer-drift-adjusted") } else { String::new() },
            })
            .collect(),
    })
}

/// A known resistance in a table.
pub(super) fn known(words: &provenohm_words::Words, ohms: Ohms) -> String {
    quantity(words, ohms.0.to_f64().unwrap_or_default(), In::Ohms)
}
