//! Two or more testers side by side: on the same axes, and in one table.

use super::drift::known;
use super::figures::{rounded, signed_percent};
use super::run::Run;
use super::{plot, say};
use crate::failure::Failure;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::plot::{ErrorPlot, error_plot};
use provenohm_assess::bench::{BenchResult, PointResult, Series, VoltageResult};
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::{Ohms, Percent, Volts};
use provenohm_words::Words;
use rust_decimal::prelude::ToPrimitive;
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
            let run = Run::of(state, bench.bench)?;
            runs.push((run.run().started, Choice { id: bench.bench.to_string(), words: name(&state.words, &run) }));
        }
    }
    runs.sort_by_key(|(started, _)| std::cmp::Reverse(*started));
    let mut all = Vec::new();
    for bench in &asked.benches {
        let run = Run::of(state, *bench)?;
        all.push(Compared { name: name(&state.words, &run), result: run.result(), run });
    }
    let words = &state.words;
    let volts: BTreeSet<Volts> =
        all.iter().flat_map(|one| &one.result.voltages).map(|voltage| voltage.test_voltage_v).collect();
    let letters =
        all.iter().enumerate().map(|(index, one)| Choice { id: plot::letter(index), words: one.name.clone() });
    Ok(CompareView {
        runs: runs.into_iter().map(|(_, choice)| choice).collect(),
        chosen: letters.collect(),
        voltages: volts.into_iter().filter_map(|volts| voltage(words, volts, &all)).collect(),
    })
}

fn name(words: &Words, run: &Run) -> String {
    let args = [("tester", run.title(words).into()), ("when", words.date(run.run().started.date_naive()).into())];
    words.text_with("answer-compare-run", &args)
}

fn voltage(words: &Words, volts: Volts, all: &[Compared]) -> Option<ComparedVoltage> {
    let plots: Vec<_> = all
        .iter()
        .map(|one| {
            let card = one.run.card.as_ref();
            let card = card.and_then(|card| card.voltages.iter().find(|it| it.test_voltage_v == volts));
            let nothing = || ErrorPlot {
                test_voltage_v: volts,
                ticks: Vec::new(),
                span_percent: 0.0,
                bands: Vec::new(),
                points: Vec::new(),
            };
            (one.name.clone(), one.at(volts).map_or_else(nothing, |voltage| error_plot(voltage, card, &[])))
        })
        .collect();
    let title = plot::title(words, "answer-plot-error-title", volts);
    let nominal: BTreeSet<Ohms> = all
        .iter()
        .filter_map(|one| one.at(volts))
        .flat_map(|voltage| voltage.points.iter().filter(|point| point.base))
        .map(|point| point.resistor.nominal_ohm)
        .collect();
    let rows = nominal.into_iter().map(|ohms| ComparedRow {
        known: known(words, ohms),
        cells: all.iter().map(|one| cell(words, one.at(volts), ohms)).collect(),
    });
    let answers = all.iter().enumerate().flat_map(|(index, one)| {
        let letter = plot::letter(index);
        let said = |level: Level, said: String| Sentence {
            level,
            words: words
                .text_with("answer-compare-answer", &[("letter", letter.as_str().into()), ("said", said.into())]),
        };
        match one.at(volts) {
            None => {
                let args = [("volts", words.volts(volts).into())];
                vec![said(Level::Remark, words.text_with("answer-result-untouched", &args))]
            }
            Some(voltage) => {
                let no = voltage.conforms == provenohm_assess::tester::Conforms::No;
                vec![
                    said(say::holds_level(voltage), words.bench_holds(voltage)),
                    said(if no { Level::Look } else { Level::Done }, words.bench_conforms(voltage, &one.run.about())),
                ]
            }
        }
    });
    Some(ComparedVoltage {
        title: words.volts(volts),
        plot: plot::errors(words, title, &plots, 1)?,
        rows: rows.collect(),
        answers: answers.collect(),
    })
}

fn cell(words: &Words, voltage: Option<&VoltageResult>, ohms: Ohms) -> ComparedCell {
    let point = voltage
        .and_then(|voltage| voltage.points.iter().find(|point| point.base && point.resistor.nominal_ohm == ohms));
    let Some(point) = point else { return ComparedCell { words: String::new(), level: None } };
    ComparedCell { words: point_words(words, point).unwrap_or_default(), level: Some(plot::level(point.decision)) }
}

fn point_words(words: &Words, point: &PointResult) -> Option<String> {
    let Percent(error) = point.error_percent?;
    let known = point.known_ohm?.0.to_f64().filter(|it| *it > 0.0)?;
    let expanded = point.budget.as_ref()?.expanded / known * 100.0;
    let decision = point.decision.map(|it| words.bench_decision(it)).unwrap_or_default();
    let args = [
        ("error", signed_percent(words, error.to_f64()?).into()),
        ("expanded", words.percent(Percent(rounded(expanded))).into()),
        ("decision", decision.into()),
    ];
    Some(words.text_with("answer-compare-cell", &args))
}
