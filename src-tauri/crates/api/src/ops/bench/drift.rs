//! Drift of a tester: the error at each known resistance over its runs that became verifications.

use super::figures::{In, quantity, signed_percent};
use super::plot;
use super::run::{Run, closed};
use crate::failure::Failure;
use crate::state::State;
use crate::views::*;
use chrono::Days;
use provenohm_assess::bench::plot::{Adjustment, DriftPoint, fitted};
use provenohm_assess::bench::{RelativeError, VoltageResult};
use provenohm_assess::ids::TesterId;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Ohms, Percent, Volts};
use provenohm_logbook::entry::body::VerificationMade;
use provenohm_logbook::view::Stated;
use provenohm_words::Words;
use rust_decimal::prelude::ToPrimitive;
use std::collections::BTreeMap;

pub(crate) fn drift(state: &mut State, asked: OfTester) -> Result<DriftView, Failure> {
    drift_until(state, asked.tester, None)
}

/// The drift as it was known at an instant; absent: now.
pub(crate) fn drift_until(state: &State, tester: TesterId, until: Option<Moment>) -> Result<DriftView, Failure> {
    let on_record = state.record.view().tester(tester)?;
    let identity = on_record.identity.first().cloned().ok_or_else(|| Failure::of("not_found"))?;
    let known = |one: &&Stated<VerificationMade>| until.is_none_or(|until| one.recorded <= until);
    // Wherever it was adjusted, at the bench or by a laboratory, and whatever was measured then.
    let adjusted = on_record.verifications.iter().filter(|one| one.is_live() && one.value.adjusted).filter(known);
    let adjustments: Vec<Adjustment> =
        adjusted.map(|one| Adjustment { verification: one.value.id, made: one.value.made }).collect();
    let mut all: BTreeMap<(Volts, Ohms), Vec<DriftPoint>> = BTreeMap::new();
    for bench in state.record.view().benches_of(tester)? {
        let Some(closed) = closed(&bench).filter(known) else { continue };
        for voltage in &Run::as_closed(state, bench.bench)?.result().voltages {
            for (at, RelativeError { error_percent, expanded_percent }) in errors(voltage) {
                let VerificationMade { id: verification, made, .. } = closed.value;
                let point = DriftPoint {
                    verification,
                    made,
                    series: voltage.series,
                    day: 0.0,
                    error_percent,
                    expanded_percent,
                };
                all.entry((voltage.test_voltage_v, at)).or_default().push(point);
            }
        }
    }
    let words = &state.words;
    Ok(DriftView {
        tester,
        title: super::run::tester_title(words, &identity),
        plots: all.into_iter().filter_map(|(at, found)| plot_view(words, at, found, &adjustments)).collect(),
    })
}

/// Exact errors under reference conditions, by the resistance as marked.
fn errors(voltage: &VoltageResult) -> impl Iterator<Item = (Ohms, RelativeError)> {
    let exact = voltage.points.iter().filter(|point| point.base && point.comparator == Comparator::Exact);
    exact.filter_map(|point| Some((point.resistor.nominal_ohm, point.relative_error()?)))
}

fn plot_view(
    words: &Words,
    (volts, ohms): (Volts, Ohms),
    found: Vec<DriftPoint>,
    adjustments: &[Adjustment],
) -> Option<DriftPlotView> {
    let first = found.iter().map(|one| one.made.date()).min()?;
    let geometry = fitted(found, adjustments);
    let when = |day: f64| {
        let days = Days::new(day.abs().to_u64().unwrap_or_default());
        let at = if day < 0.0 { first.checked_sub_days(days) } else { first.checked_add_days(days) };
        at.map(|at| words.date(at)).unwrap_or_default()
    };
    let args = [("volts", words.volts(volts).into()), ("known", words.ohms(ohms).into())];
    let rows = |stretch: &Vec<DriftPoint>| {
        let row = |one: &DriftPoint| DriftRow {
            when: words.date(one.made.date()),
            error: signed_percent(words, one.error_percent),
            expanded: words.percent(Percent(super::figures::rounded(one.expanded_percent))),
            adjusted: String::new(),
        };
        stretch.iter().map(row).collect::<Vec<_>>()
    };
    let mut stretches: Vec<Vec<DriftRow>> = geometry.stretches.iter().map(rows).collect();
    let beyond = stretches.len().saturating_sub(1);
    for last in stretches.iter_mut().take(beyond).filter_map(|stretch| stretch.last_mut()) {
        last.adjusted = words.text("answer-drift-adjusted");
    }
    Some(DriftPlotView {
        title: words.text_with("answer-drift-title", &args),
        said: words.text(if geometry.lines.is_empty() { "answer-drift-no-line" } else { "answer-drift-line" }),
        plot: plot::drift(words, words.text_with("answer-drift-plot-title", &args), &geometry, &when),
        rows: stretches.into_iter().flatten().collect(),
    })
}

/// A known resistance in a table.
pub(super) fn known(words: &Words, ohms: Ohms) -> String {
    quantity(words, ohms.0.to_f64().unwrap_or_default(), In::Ohms)
}
