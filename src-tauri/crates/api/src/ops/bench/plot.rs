//! Plots of the bench with every label ready, from their geometry in data units.

use super::figures::{In, detail, quantity, signed_percent};
use crate::views::{BandAt, PlotAxis, PlotBand, PlotCorner, PlotLine, PlotPoint, PlotSeries, PlotTick, PlotView};
use provenohm_assess::bench::plot::{DriftPlot, ErrorPlot, LoadPlot, LoadPoint, Tick};
use provenohm_assess::bench::{Decision, LoadKind};
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::{Comparator, Volts};
use provenohm_words::Words;

/// Ticks an axis has at most.
const MOST_TICKS: f64 = 8.0;

/// `A`, `B` … for the series of a plot.
pub(super) fn letter(index: usize) -> String {
    u8::try_from(index)
        .ok()
        .filter(|at| *at < 26)
        .map_or_else(|| (index + 1).to_string(), |at| char::from(b'A' + at).to_string())
}

/// Errors of one test voltage of one tester or several, each with its name.
pub(crate) fn errors(words: &Words, title: String, plots: &[(String, ErrorPlot)], magnified: u32) -> Option<PlotView> {
    let ticks = widest(plots.iter().map(|(_, plot)| &plot.ticks))?;
    let span = plots.iter().map(|(_, plot)| plot.span_percent).fold(0.0, f64::max) / f64::from(magnified.max(1));
    let bands = plots.iter().enumerate().flat_map(|(index, (_, plot))| {
        plot.bands.iter().map(move |band| PlotBand {
            series: u32::try_from(index).unwrap_or(u32::MAX),
            samples: band.iter().map(|at| BandAt { x: at.log, low: at.low_percent, high: at.high_percent }).collect(),
        })
    });
    let series = plots.iter().enumerate().map(|(index, (name, plot))| PlotSeries {
        letter: letter(index),
        words: name.clone(),
        points: plot.points.iter().map(|point| error_point(words, point)).collect(),
    });
    let zero = PlotLine { words: String::new(), corners: vec![] };
    let percent = |at: f64| signed_percent(words, at);
    Some(PlotView {
        title,
        x: logarithmic(words, "answer-plot-known", &ticks),
        y: linear(words.text("answer-plot-error"), -span, span, &percent),
        bands: bands.collect(),
        lines: vec![PlotLine { corners: across(&ticks, 0.0), ..zero }],
        series: series.collect(),
    })
}

fn error_point(words: &Words, point: &provenohm_assess::bench::plot::ErrorPoint) -> PlotPoint {
    let known = quantity(words, 10_f64.powf(point.log), In::Ohms);
    let error = signed_percent(words, point.error_percent);
    let args = [
        ("known", known.into()),
        ("error", error.into()),
        ("expanded", quantity_percent(words, point.expanded_percent).into()),
    ];
    PlotPoint {
        measured: point.measured.clone(),
        x: point.log,
        y: point.error_percent,
        half: point.expanded_percent,
        beyond: match point.comparator {
            Comparator::Exact => None,
            Comparator::MoreThan => Some(words.text("answer-plot-over-range")),
            Comparator::LessThan => Some(words.text("answer-plot-under-range")),
        },
        level: level(point.decision),
        words: words.text_with("answer-plot-error-point", &args),
    }
}

fn quantity_percent(words: &Words, percent: f64) -> String {
    words.percent(provenohm_assess::quantity::Percent(super::figures::rounded(percent)))
}

/// What a decision asks for: nothing, or a look.
pub(crate) fn level(decision: Option<Decision>) -> Level {
    match decision {
        Some(Decision::Conforms) => Level::Done,
        Some(Decision::ConditionalPass | Decision::OnCondition) => Level::Remark,
        _ => Level::Look,
    }
}

/// Output voltage against load of one tester or several, each with its name, with the most open-circuit voltage and the
/// least from the rated load on.
pub(crate) fn loads(words: &Words, title: String, plots: &[(String, LoadPlot)]) -> Option<PlotView> {
    let ticks = widest(plots.iter().map(|(_, plot)| &plot.ticks))?;
    let (first, last) = ticks.first().zip(ticks.last())?;
    if plots.iter().all(|(_, plot)| plot.points.is_empty()) {
        return None;
    }
    let mut lines = Vec::new();
    for (_, plot) in plots {
        let nominal = f64::try_from(plot.test_voltage_v.0).unwrap_or_default();
        if let Some(most) = plot.most_v {
            lines.push(PlotLine { words: words.text("answer-plot-most"), corners: across(&ticks, most) });
        }
        if let Some(rated) = plot.rated_log {
            let corners = vec![
                PlotCorner { x: rated.max(first.log), y: 0.0 },
                PlotCorner { x: rated.max(first.log), y: nominal },
                PlotCorner { x: last.log, y: nominal },
            ];
            lines.push(PlotLine { words: words.text("answer-plot-least"), corners });
        }
    }
    // Testers judged by one edition have the same bounds.
    let mut bounds: Vec<PlotLine> = Vec::new();
    for line in lines {
        if !bounds.contains(&line) {
            bounds.push(line);
        }
    }
    let volts = |at: f64| quantity(words, at, In::Volts);
    let series = plots.iter().enumerate().map(|(index, (name, plot))| PlotSeries {
        letter: letter(index),
        words: name.clone(),
        points: plot.points.iter().map(|point| load_point(words, point)).collect(),
    });
    Some(PlotView {
        title,
        x: logarithmic(words, "answer-plot-load", &ticks),
        y: linear(
            words.text("answer-plot-voltage"),
            0.0,
            plots.iter().map(|(_, plot)| plot.top_v).fold(0.0, f64::max),
            &volts,
        ),
        bands: Vec::new(),
        lines: bounds,
        series: series.collect(),
    })
}

fn load_point(words: &Words, point: &LoadPoint) -> PlotPoint {
    let kind = match point.kind {
        LoadKind::OpenCircuit => "answer-plot-open-circuit",
        LoadKind::Rated => "answer-plot-rated",
        LoadKind::Further => "answer-plot-further",
    };
    let volts = |at: f64| quantity(words, at, In::Volts);
    let args = [
        ("load", quantity(words, 10_f64.powf(point.log), In::Ohms).into()),
        ("voltage", volts(point.voltage_v).into()),
        ("expanded", volts(point.expanded_v).into()),
    ];
    let said = words.text_with(kind, &args);
    let under = detail(words, &point.conditions);
    PlotPoint {
        measured: vec![point.measured],
        x: point.log,
        y: point.voltage_v,
        half: point.expanded_v,
        beyond: None,
        level: Level::Done,
        words: if under.is_empty() { said } else { format!("{said} · {under}") },
    }
}

/// Error over the days of a tester's runs, with the fitted lines and their uncertainty. `when` says a day.
pub(super) fn drift(words: &Words, title: String, plot: &DriftPlot, when: &dyn Fn(f64) -> String) -> PlotView {
    let all = || plot.stretches.iter().flatten();
    let days = || all().map(|point| point.day);
    let (from, to) = (days().fold(f64::INFINITY, f64::min), days().fold(f64::NEG_INFINITY, f64::max));
    // A year around a single day: something to draw on.
    let (from, to) = if to > from { (from, to) } else { (from - 180.0, from + 180.0) };
    let reach = |percent: f64, expanded: f64| percent.abs() + expanded;
    let points = all().map(|point| reach(point.error_percent, point.expanded_percent));
    let fitted = plot.lines.iter().flatten().map(|at| reach(at.percent, at.expanded_percent));
    let span = points.chain(fitted).fold(1.0, f64::max) * 1.1;
    let percent = |at: f64| signed_percent(words, at);
    let line = |words: String, corners: Vec<PlotCorner>| PlotLine { words, corners };
    PlotView {
        title,
        x: PlotAxis {
            words: words.text("answer-plot-day"),
            from,
            to,
            ticks: days_shown(from, to).into_iter().map(|at| PlotTick { at, words: when(at) }).collect(),
        },
        y: linear(words.text("answer-plot-error"), -span, span, &percent),
        bands: plot
            .lines
            .iter()
            .map(|line| PlotBand {
                series: 0,
                samples: line
                    .iter()
                    .map(|at| BandAt {
                        x: at.day,
                        low: at.percent - at.expanded_percent,
                        high: at.percent + at.expanded_percent,
                    })
                    .collect(),
            })
            .collect(),
        lines: plot
            .lines
            .iter()
            .map(|fitted| {
                let corners = fitted.iter().map(|at| PlotCorner { x: at.day, y: at.percent }).collect();
                line(words.text("answer-plot-fitted"), corners)
            })
            .collect(),
        series: vec![PlotSeries {
            letter: letter(0),
            words: String::new(),
            points: all()
                .map(|point| PlotPoint {
                    measured: Vec::new(),
                    x: point.day,
                    y: point.error_percent,
                    half: point.expanded_percent,
                    beyond: None,
                    level: Level::Done,
                    words: words.text_with(
                        "answer-plot-drift-point",
                        &[
                            ("when", when(point.day).into()),
                            ("error", percent(point.error_percent).into()),
                            ("expanded", quantity_percent(words, point.expanded_percent).into()),
                        ],
                    ),
                })
                .collect(),
        }],
    }
}

/// The first day, the last, and two between.
fn days_shown(from: f64, to: f64) -> Vec<f64> {
    let third = (to - from) / 3.0;
    [from, from + third, to - third, to].map(f64::round).into()
}

/// The ticks that reach from the lowest to the highest of all.
fn widest<'t>(all: impl Iterator<Item = &'t Vec<Tick>>) -> Option<Vec<Tick>> {
    let mut ticks: Vec<Tick> = all.flatten().copied().collect();
    ticks.sort_by(|one, other| one.log.total_cmp(&other.log));
    ticks.dedup_by(|one, other| one.log.total_cmp(&other.log).is_eq());
    (!ticks.is_empty()).then_some(ticks)
}

fn across(ticks: &[Tick], y: f64) -> Vec<PlotCorner> {
    [ticks.first(), ticks.last()].into_iter().flatten().map(|tick| PlotCorner { x: tick.log, y }).collect()
}

fn logarithmic(words: &Words, key: &str, ticks: &[Tick]) -> PlotAxis {
    PlotAxis {
        words: words.text(key),
        from: ticks.first().map_or(0.0, |tick| tick.log),
        to: ticks.last().map_or(1.0, |tick| tick.log),
        ticks: ticks.iter().map(|tick| PlotTick { at: tick.log, words: words.ohms(tick.ohm) }).collect(),
    }
}

/// An axis with round ticks: steps of 1, 2 or 5 times a power of ten.
fn linear(name: String, from: f64, to: f64, label: &dyn Fn(f64) -> String) -> PlotAxis {
    let rough = ((to - from) / MOST_TICKS).max(f64::MIN_POSITIVE);
    let power = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|it| it * power).into_iter().find(|step| *step >= rough).unwrap_or(power);
    let (first, last) = ((from / step).ceil(), (to / step).floor());
    let mut ticks = Vec::new();
    let mut at = first;
    while at <= last {
        ticks.push(PlotTick { at: at * step, words: label(at * step) });
        at += 1.0;
    }
    PlotAxis { words: name, from, to, ticks }
}

/// A test voltage as the title of a plot.
pub(crate) fn title(words: &Words, key: &str, volts: Volts) -> String {
    words.text_with(key, &[("volts", words.volts(volts).into())])
}
