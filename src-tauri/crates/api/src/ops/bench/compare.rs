//! Two or more testers side by side: on the same axes, and in one table.

use super::drift::known;
use super::figures::{rounded, signed_percent};
use super::result::MOST_MAGNIFIED;
use super::run::Run;
use super::{plot, say};
use crate::failure::Failure;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::plot::{ErrorPlot, error_plot, load_plot};
use provenohm_assess::bench::{BenchResult, PointResult, RelativeError, Series, VoltageResult};
use provenohm_assess::ids::MeasuredId;
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::{Ohms, Percent, Volts};
use provenohm_assess::tester::Conforms;
use provenohm_words::Words;
use std::collections::BTreeSet;

/// More cannot be told apart.
const MOST_RUNS: usize = 6;

/// One of the runs to compare.
struct Compared {
    name: String,
    run: Run,
    result: BenchResult,
}

impl Compared {
    /// A test voltage as it was found.
    fn at(&self, volts: Volts) -> Option<&VoltageResult> {
        self.result.voltages.iter().find(|one| one.test_voltage_v == volts && one.series == Series::AsFound)
    }
}

pub(crate) fn compare(state: &mut State, asked: CompareAsk) -> Result<CompareView, Failure> {
    if asked.benches.len() > MOST_RUNS {
        return Err(Failure::of("too_many_runs"));
    }
    let mut runs = Vec::new();
    let testers = state.record.view().testers()?;
    for tester in testers {
        for bench in state.record.view().benches_of(tester.tester)? {
            let run = Run::as_closed(state, bench.bench)?;
            runs.push((run.run().started, Choice { id: bench.bench.to_string(), words: name(&state.words, &run) }));
        }
    }
    runs.sort_by_key(|(started, _)| std::cmp::Reverse(*started));
    let mut all = Vec::new();
    for bench in &asked.benches {
        let run = Run::as_closed(state, *bench)?;
        all.push(Compared { name: name(&state.words, &run), result: run.result(), run });
    }
    let words = &state.words;
    let magnified = asked.magnified.unwrap_or(1).clamp(1, MOST_MAGNIFIED);
    let seen = Seen { words, left_out: &asked.left_out, magnified };
    let volts: BTreeSet<Volts> =
        all.iter().flat_map(|one| &one.result.voltages).map(|voltage| voltage.test_voltage_v).collect();
    let letters =
        all.iter().enumerate().map(|(index, one)| Choice { id: plot::letter(index), words: one.name.clone() });
    Ok(CompareView {
        runs: runs.into_iter().map(|(_, choice)| choice).collect(),
        chosen: letters.collect(),
        voltages: volts.into_iter().map(|volts| seen.voltage(volts, &all)).collect(),
    })
}

fn name(words: &Words, run: &Run) -> String {
    let args = [("tester", run.title(words).into()), ("when", words.date(run.run().started.date_naive()).into())];
    words.text_with("answer-compare-run", &args)
}

/// How the plots are looked at.
struct Seen<'a> {
    words: &'a Words,
    left_out: &'a [MeasuredId],
    magnified: u32,
}

impl Seen<'_> {
    fn voltage(&self, volts: Volts, all: &[Compared]) -> ComparedVoltage {
        let words = self.words;
        let title = |key| plot::title(words, key, volts);
        let errors: Vec<_> = all.iter().map(|one| (one.name.clone(), self.errors(one, volts))).collect();
        let loads: Vec<_> = all
            .iter()
            .filter_map(|one| Some((one.name.clone(), load_plot(one.at(volts)?, one.run.edition))))
            .filter(|(_, plot)| !plot.points.is_empty())
            .collect();
        let nominal: BTreeSet<Ohms> = points(all, volts).map(|point| point.resistor.nominal_ohm).collect();
        ComparedVoltage {
            title: words.volts(volts),
            plot: plot::errors(words, title("answer-plot-error-title"), &errors, self.magnified),
            load_plot: plot::loads(words, title("answer-plot-load-title"), &loads),
            rows: nominal.into_iter().map(|ohms| self.row(volts, ohms, all)).collect(),
            answers: all.iter().enumerate().flat_map(|(index, one)| answers(words, volts, index, one)).collect(),
        }
    }

    fn errors(&self, one: &Compared, volts: Volts) -> ErrorPlot {
        let card = one.run.card.as_ref().and_then(|card| card.voltages.iter().find(|it| it.test_voltage_v == volts));
        let nothing = || ErrorPlot {
            test_voltage_v: volts,
            ticks: Vec::new(),
            span_percent: 0.0,
            bands: Vec::new(),
            points: Vec::new(),
        };
        one.at(volts).map_or_else(nothing, |voltage| error_plot(voltage, card, self.left_out))
    }

    fn row(&self, volts: Volts, ohms: Ohms, all: &[Compared]) -> ComparedRow {
        let here = points(all, volts).filter(|point| point.resistor.nominal_ohm == ohms);
        let measured: Vec<MeasuredId> = here.flat_map(|point| point.measured.clone()).collect();
        ComparedRow {
            known: known(self.words, ohms),
            in_view: !measured.iter().any(|id| self.left_out.contains(id)),
            measured,
            cells: all.iter().map(|one| cell(self.words, one.at(volts), ohms)).collect(),
        }
    }
}

/// The reference points of all runs at a test voltage.
fn points(all: &[Compared], volts: Volts) -> impl Iterator<Item = &PointResult> {
    let found = all.iter().filter_map(move |one| one.at(volts));
    found.flat_map(|voltage| voltage.points.iter().filter(|point| point.base))
}

/// The two answers of one, with its letter.
fn answers(words: &Words, volts: Volts, index: usize, one: &Compared) -> Vec<Sentence> {
    let letter = plot::letter(index);
    let said = |level: Level, said: String| Sentence {
        level,
        words: words.text_with("answer-compare-answer", &[("letter", letter.as_str().into()), ("said", said.into())]),
    };
    let Some(voltage) = one.at(volts) else {
        let args = [("volts", words.volts(volts).into())];
        return vec![said(Level::Remark, words.text_with("answer-result-untouched", &args))];
    };
    let no = voltage.conforms == Conforms::No;
    vec![
        said(say::holds_level(voltage), words.bench_holds(voltage)),
        said(if no { Level::Look } else { Level::Done }, words.bench_conforms(voltage, &one.run.about())),
    ]
}

fn cell(words: &Words, voltage: Option<&VoltageResult>, ohms: Ohms) -> ComparedCell {
    let point = voltage
        .and_then(|voltage| voltage.points.iter().find(|point| point.base && point.resistor.nominal_ohm == ohms));
    let Some(point) = point else { return ComparedCell { words: String::new(), level: None } };
    ComparedCell { words: point_words(words, point).unwrap_or_default(), level: Some(plot::level(point.decision)) }
}

fn point_words(words: &Words, point: &PointResult) -> Option<String> {
    let RelativeError { error_percent, expanded_percent } = point.relative_error()?;
    let decision = point.decision.map(|it| words.bench_decision(it)).unwrap_or_default();
    let args = [
        ("error", signed_percent(words, error_percent).into()),
        ("expanded", words.percent(Percent(rounded(expanded_percent))).into()),
        ("decision", decision.into()),
    ];
    Some(words.text_with("answer-compare-cell", &args))
}
