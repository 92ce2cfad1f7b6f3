//! What a run comes to, in sentences, tables and plots.

use super::figures::{In, budget, detail, quantity, signed_percent, with_uncertainty};
use super::plan::decisions;
use super::run::Run;
use super::{plot, say};
use crate::failure::Failure;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::plot::{error_plot, load_plot};
use provenohm_assess::bench::{
    BenchResult, CurrentResult, Decision, DecisionPoint, LoadKind, LoadResult, OperatingAt, PointResult,
    RequirementFound, VoltageResult,
};
use provenohm_assess::ids::MeasuredId;
use provenohm_assess::interval::{USUAL_MONTHS, last_day};
use provenohm_assess::judgement::Level;
use provenohm_assess::moment::When;
use provenohm_assess::quantity::Percent;
use provenohm_assess::tester::{Conforms, RequirementResult};
use provenohm_words::{AboutBench, Words};
use rust_decimal::prelude::ToPrimitive;

/// More than a person can magnify and still see anything.
pub(super) const MOST_MAGNIFIED: u32 = 1_000;

pub(crate) fn bench_result(state: &mut State, asked: BenchResultAsk) -> Result<BenchResultView, Failure> {
    let run = Run::as_closed(state, asked.bench)?;
    let result = run.result();
    let today = Run::of(state, asked.bench)?;
    let decisions = decisions(state)?;
    let magnified = asked.magnified.unwrap_or(1).clamp(1, MOST_MAGNIFIED);
    let now = state.host.now();
    let words = &state.words;
    let seen = Seen { words, run: &run, about: run.about(), left_out: &asked.left_out, magnified };
    let mut remarks = remarks(words, &run, &result, &decisions);
    let close = if today.card == run.card {
        close_view(words, &run, &result, now)
    } else {
        remarks.push(Sentence { level: Level::Remark, words: words.text("answer-result-card-of-then") });
        close_view(words, &today, &today.result(), now)
    };
    Ok(BenchResultView {
        bench: asked.bench,
        tester: run.tester(),
        title: run.title(words),
        lines: say::lines(words, &run),
        remarks,
        voltages: result.voltages.iter().map(|voltage| seen.voltage(voltage, result.adjusted)).collect(),
        close,
    })
}

/// Lapsed references, figures left out, and what the look at the tester found.
fn remarks(words: &Words, run: &Run, result: &BenchResult, decisions: &[DecisionPoint]) -> Vec<Sentence> {
    let mut remarks = Vec::new();
    remarks.extend(say::shortcomings(words, result, &run.about(), decisions));
    if !result.unusable.is_empty() {
        let args = [("count", result.unusable.len().into())];
        remarks.push(Sentence { level: Level::Look, words: words.text_with("answer-result-unusable", &args) });
    }
    remarks.extend(say::looked(words, &result.look));
    remarks
}

/// What closing offers: the last day by the tester's interval, from when the last thing was measured, beside an empty field.
fn close_view(words: &Words, run: &Run, result: &BenchResult, now: provenohm_assess::moment::Moment) -> CloseView {
    let months = run.card.as_ref().and_then(|card| card.interval_months).unwrap_or(USUAL_MONTHS);
    let made = run.live().map(|one| one.value.measured.at).max().unwrap_or(now);
    let suggested = last_day(When::At(made), months).map(|day| words.date(day)).unwrap_or_default();
    let args = [("months", months.into()), ("until", suggested.as_str().into())];
    let about = run.about();
    let open = result.voltages.iter().flat_map(|voltage| {
        let open = voltage.requirements.iter().filter(|it| it.result == RequirementResult::NotTested);
        let volts = words.volts(voltage.test_voltage_v);
        let about = &about;
        open.map(move |it| {
            let args = [("volts", volts.as_str().into()), ("what", words.bench_requirement(it, about).into())];
            words.text_with("answer-result-at", &args)
        })
    });
    let mut not_tested: Vec<String> = open.collect();
    let on_card = run.card.iter().flat_map(|card| &card.voltages).map(|one| one.test_voltage_v);
    let untouched = on_card.filter(|volts| !result.voltages.iter().any(|it| it.test_voltage_v == *volts));
    not_tested.extend(
        untouched.map(|volts| words.text_with("answer-result-untouched", &[("volts", words.volts(volts).into())])),
    );
    CloseView {
        closed: super::view::closed(words, run),
        suggestion: words.text_with("answer-result-suggestion", &args),
        suggested,
        not_tested,
        look: say::look(words, &run.run().look),
        answers: say::answers(words),
        mark: run.run().mark.clone().unwrap_or_default(),
        mark_needed: run.needs_mark(),
    }
}

/// What every row needs.
struct Seen<'a> {
    words: &'a Words,
    run: &'a Run,
    about: AboutBench<'a>,
    left_out: &'a [MeasuredId],
    magnified: u32,
}

impl Seen<'_> {
    fn voltage(&self, voltage: &VoltageResult, adjusted: bool) -> VoltageResultView {
        let (words, about) = (self.words, &self.about);
        let volts = words.volts(voltage.test_voltage_v);
        let card = self
            .run
            .card
            .as_ref()
            .and_then(|card| card.voltages.iter().find(|one| one.test_voltage_v == voltage.test_voltage_v));
        let errors = error_plot(voltage, card, self.left_out);
        let loads = load_plot(voltage, self.run.edition);
        let intervals = voltage.intervals.iter().map(|it| words.bench_interval(it));
        let none = voltage.no_intervals.iter().map(|why| words.bench_no_interval(why));
        VoltageResultView {
            volts: voltage.test_voltage_v,
            series: voltage.series,
            title: if adjusted {
                format!("{volts} · {}", say::series(words, voltage.series, true))
            } else {
                volts.clone()
            },
            holds: Sentence { level: say::holds_level(voltage), words: words.bench_holds(voltage) },
            intervals: intervals.chain(none).collect(),
            conforms: Sentence {
                level: match voltage.conforms {
                    Conforms::Yes => Level::Done,
                    Conforms::No => Level::Look,
                    Conforms::NotAllTested | Conforms::NotStated => Level::Remark,
                },
                words: words.bench_conforms(voltage, about),
            },
            requirements: voltage.requirements.iter().map(|it| self.requirement(it)).collect(),
            points: voltage.points.iter().map(|point| self.point(point)).collect(),
            loads: voltage
                .loads
                .iter()
                .map(|load| self.load(load))
                .chain(voltage.currents.iter().map(|current| self.current(current)))
                .collect(),
            leads: say::leads(self.words, voltage),
            operating: voltage.operating.iter().map(|at| self.operating(at)).collect(),
            error_plot: if errors.points.is_empty() {
                None
            } else {
                let title = plot::title(words, "answer-plot-error-title", voltage.test_voltage_v);
                plot::errors(words, title, &[(self.run.title(words), errors)], self.magnified)
            },
            load_plot: plot::loads(
                words,
                plot::title(words, "answer-plot-load-title", voltage.test_voltage_v),
                &[(words.volts(voltage.test_voltage_v), loads)],
            ),
        }
    }

    /// A requirement with what was found and asked, and where it stands.
    fn requirement(&self, found: &RequirementFound) -> Sentence {
        Sentence {
            level: match found.result {
                RequirementResult::Met => Level::Done,
                RequirementResult::NotMet => Level::Look,
                RequirementResult::NotTested => Level::Remark,
            },
            words: say::requirement(self.words, found, &self.about),
        }
    }

    fn point(&self, point: &PointResult) -> PointRow {
        let words = self.words;
        let ohms =
            |ohms: provenohm_assess::quantity::Ohms| quantity(words, ohms.0.to_f64().unwrap_or_default(), In::Ohms);
        let (rows, sum) =
            point.budget.as_ref().map_or_else(Default::default, |it| budget(words, it, In::Ohms, &self.about));
        let undecided = || point.undecided.map(|why| words.bench_undecided(&why, &self.about));
        PointRow {
            measured: point.measured.clone(),
            known: ohms(point.known_ohm.unwrap_or(point.resistor.nominal_ohm)),
            detail: detail(words, &point.conditions),
            shown: point.shown.iter().map(|shown| words.reading(shown)).collect(),
            error: point.error_ohm.map(ohms).unwrap_or_default(),
            error_percent: point
                .error_percent
                .map(|Percent(percent)| signed_percent(words, percent.to_f64().unwrap_or_default()))
                .unwrap_or_default(),
            expanded: point.budget.as_ref().map(|it| quantity(words, it.expanded, In::Ohms)).unwrap_or_default(),
            permitted: point.permitted.map(|it| format!("±{}", ohms(it.within_ohm))).unwrap_or_default(),
            decision: Sentence {
                level: plot::level(point.decision),
                words: point.decision.map(|it| words.bench_decision(it)).or_else(undecided).unwrap_or_default(),
            },
            remarks: point.remarks.iter().map(|remark| words.bench_remark(remark, &self.about)).collect(),
            budget: rows,
            sum,
            in_view: point.base.then(|| !point.measured.iter().any(|id| self.left_out.contains(id))),
        }
    }

    fn load(&self, load: &LoadResult) -> LoadRow {
        let words = self.words;
        let figure = |figure: Option<&provenohm_assess::bench::Budgeted>, unit| {
            figure.map(|it| with_uncertainty(words, it, unit)).unwrap_or_default()
        };
        let decides = match load.kind {
            LoadKind::Rated => load.least_current_a.as_ref().map(|it| (it, In::Amps)),
            _ => load.voltage_v.as_ref().map(|it| (it, In::Volts)),
        };
        let (rows, sum) =
            decides.map_or_else(Default::default, |(it, unit)| budget(words, &it.budget, unit, &self.about));
        let undecided =
            load.undecided.map(|why| Sentence { level: Level::Look, words: words.bench_undecided(&why, &self.about) });
        LoadRow {
            title: words.text(match load.kind {
                LoadKind::OpenCircuit => "answer-bench-open-circuit",
                LoadKind::Rated => "answer-bench-what-rated-load",
                LoadKind::Further => "answer-bench-what-further-load",
            }),
            detail: detail(words, &load.conditions),
            load: load
                .load_ohm
                .map(|it| quantity(words, it.0.to_f64().unwrap_or_default(), In::Ohms))
                .unwrap_or_default(),
            voltage: figure(load.voltage_v.as_ref(), In::Volts),
            current: figure(load.least_current_a.as_ref(), In::Amps),
            decision: load.decision.map(|it| self.decision(it)).or(undecided),
            remarks: load.remarks.iter().map(|remark| words.bench_remark(remark, &self.about)).collect(),
            budget: rows,
            sum,
        }
    }

    fn current(&self, current: &CurrentResult) -> LoadRow {
        let words = self.words;
        let (rows, sum) = budget(words, &current.current_a.budget, In::Amps, &self.about);
        LoadRow {
            title: words.text(if current.ripple { "answer-bench-ripple" } else { "answer-bench-short-circuit" }),
            detail: String::new(),
            load: String::new(),
            voltage: String::new(),
            current: with_uncertainty(words, &current.current_a, In::Amps),
            decision: Some(self.decision(current.decision)),
            remarks: current.remarks.iter().map(|remark| words.bench_remark(remark, &self.about)).collect(),
            budget: rows,
            sum,
        }
    }

    fn decision(&self, decision: Decision) -> Sentence {
        Sentence { level: plot::level(Some(decision)), words: self.words.bench_decision(decision) }
    }

    /// B = |A| + f·√(E1² + E2² + E3²), part by part; what was not tested is named.
    fn operating(&self, at: &OperatingAt) -> String {
        let words = self.words;
        let part = |part: Option<f64>| {
            part.map_or_else(|| words.text("answer-result-part-not-tested"), |it| signed_percent(words, it))
        };
        let known = quantity(words, at.known_ohm.0.to_f64().unwrap_or_default(), In::Ohms);
        let whole = at.position.is_some() && at.supply.is_some() && at.temperature.is_some() && !at.at_least;
        words.text_with(
            if whole { "answer-result-operating" } else { "answer-result-operating-at-least" },
            &[
                ("known", known.into()),
                ("intrinsic", signed_percent(words, at.intrinsic).into()),
                ("position", part(at.position).into()),
                ("supply", part(at.supply).into()),
                ("temperature", part(at.temperature).into()),
                ("factor", super::figures::factor(words, self.run.edition).into()),
                ("operating", words.percent(Percent(super::figures::rounded(at.operating))).into()),
            ],
        )
    }
}
