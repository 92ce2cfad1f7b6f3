//! Error against known resistance, one panel a test voltage.

use super::axis::{Tick, decades};
use super::{SAMPLES, log_spaced};
use crate::bench::{Decision, PointResult, RelativeError, VoltageResult};
use crate::ids::MeasuredId;
use crate::quantity::{Comparator, Ohms, Volts};
use crate::tester::{Range, VoltageCard};
use rust_decimal::prelude::ToPrimitive;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// No band is drawn higher: an accuracy of 100 % and more permits any indication above, %.
const HIGHEST_PERCENT: f64 = 1_000.0;

/// What is permitted at one resistance R: the indications I with |I − R| ≤ p·I + n·d, since the percentage is of the
/// reading. What lies in the band is what is decided to be within.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct PermittedAt {
    /// log10 of the resistance in ohms.
    pub log: f64,
    /// Its lower edge, % of the resistance: −(p + n·d/R)/(1 + p).
    pub low_percent: f64,
    /// Its upper edge, % of the resistance: (p + n·d/R)/(1 − p).
    pub high_percent: f64,
}

/// A point of the plot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct ErrorPoint {
    /// The facts, to leave it out of the view by.
    pub measured: Vec<MeasuredId>,
    /// log10 of the known resistance in ohms.
    pub log: f64,
    /// The known resistance.
    pub known_ohm: Ohms,
    /// Error, % of it; over-range, at least that.
    pub error_percent: f64,
    /// U, % of it: the bar.
    pub expanded_percent: f64,
    /// Over-range or under-range: an arrow at the edge, with the word.
    pub comparator: Comparator,
    /// The decision; absent: undecided.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub decision: Option<Decision>,
}

/// One panel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct ErrorPlot {
    /// Test voltage.
    pub test_voltage_v: Volts,
    /// Ticks of the resistance axis.
    pub ticks: Vec<Tick>,
    /// The error axis goes from − to + this, %: twice the largest half-width of the band at a point, and never less than
    /// what is needed for every exact point in sight with its bar.
    pub span_percent: f64,
    /// The band of each range of the card, lowest first, each with at least 64 samples.
    pub bands: Vec<Vec<PermittedAt>>,
    /// Points.
    pub points: Vec<ErrorPoint>,
}

/// The panel of one test voltage. `left_out` are points left out of the view, named by any of their facts; the
/// judgement knows nothing of it.
#[must_use]
pub fn error_plot(voltage: &VoltageResult, card: Option<&VoltageCard>, left_out: &[MeasuredId]) -> ErrorPlot {
    let hidden = |p: &PointResult| p.measured.iter().any(|id| left_out.contains(id));
    let base = voltage.points.iter().filter(|p| p.base && !hidden(p));
    let points: Vec<ErrorPoint> = base.filter_map(point).collect();
    let ticks = decades(points.iter().map(|p| p.known_ohm));
    let ends = ticks.first().zip(ticks.last()).map(|(a, b)| (10_f64.powf(a.log), 10_f64.powf(b.log)));
    let ranges = card.map(|card| card.ranges.as_slice()).unwrap_or_default();
    let bands: Vec<Vec<PermittedAt>> = ranges.iter().filter_map(|range| band(range, ends?)).collect();
    let at_points = points.iter().filter_map(|p| {
        let at = |band: &Vec<PermittedAt>| {
            let (first, last) = (band.first()?.log, band.last()?.log);
            (first <= p.log && p.log <= last).then(|| nearest(band, p.log))
        };
        bands.iter().find_map(at)
    });
    let twice = 2.0 * at_points.fold(0.0, f64::max);
    let exact = points.iter().filter(|p| p.comparator == Comparator::Exact);
    let needed = exact.map(|p| p.error_percent.abs() + p.expanded_percent).fold(0.0, f64::max);
    ErrorPlot {
        test_voltage_v: voltage.test_voltage_v,
        ticks,
        // Something to draw even where nothing is known.
        span_percent: twice.max(needed).max(1.0),
        bands,
        points,
    }
}

fn point(p: &PointResult) -> Option<ErrorPoint> {
    let known_ohm = p.known_ohm?;
    let RelativeError { error_percent, expanded_percent } = p.relative_error()?;
    Some(ErrorPoint {
        measured: p.measured.clone(),
        log: known_ohm.0.to_f64()?.log10(),
        known_ohm,
        error_percent,
        expanded_percent,
        comparator: p.comparator,
        decision: p.decision,
    })
}

/// The band of a range as far as it is in sight.
fn band(range: &Range, (low, high): (f64, f64)) -> Option<Vec<PermittedAt>> {
    let p = range.accuracy_percent?.0.to_f64()?;
    let digits = f64::from(range.accuracy_digits.unwrap_or(0));
    let steps = digits * range.resolution_ohm.0.to_f64()?;
    let (from, to) = (range.from_ohm.0.to_f64()?.max(low), range.to_ohm.0.to_f64()?.min(high));
    (from > 0.0 && from < to).then(|| {
        log_spaced(from, to, SAMPLES)
            .map(|ohm| {
                let within = p + steps / ohm * 100.0;
                let high = if p < 100.0 { within / (1.0 - p / 100.0) } else { f64::INFINITY };
                let low_percent = -within / (1.0 + p / 100.0);
                PermittedAt { log: ohm.log10(), low_percent, high_percent: high.min(HIGHEST_PERCENT) }
            })
            .collect()
    })
}

fn nearest(band: &[PermittedAt], log: f64) -> f64 {
    let by_distance = |a: &&PermittedAt, b: &&PermittedAt| (a.log - log).abs().total_cmp(&(b.log - log).abs());
    band.iter().min_by(by_distance).map_or(0.0, |at| at.high_percent.max(-at.low_percent))
}
