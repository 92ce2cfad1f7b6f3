//! One test voltage in one series: the two answers, and what they rest on.

use super::{Telling, figure, plot};
use crate::ops::bench::figures::{In, detail, factor, number};
use crate::ops::bench::plot::level;
use crate::ops::bench::say;
use provenohm_assess::bench::{
    BenchResult, CurrentResult, Decision, LoadKind, LoadResult, OperatingAt, PointResult, VoltageResult,
};
use provenohm_assess::quantity::Percent;
use provenohm_assess::tester::{Conforms, RequirementResult};
use provenohm_papers::report::Sign;
use provenohm_papers::tester_report::{LoadLine, PointLine, Said, VoltagePart};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

impl Telling<'_> {
    /// Every test voltage; points, voltages and currents are numbered through the whole report.
    pub(super) fn voltages(&self, result: &BenchResult) -> Vec<VoltagePart> {
        let mut number = 0;
        result.voltages.iter().map(|voltage| self.voltage(voltage, result.adjusted, &mut number)).collect()
    }

    fn voltage(&self, voltage: &VoltageResult, adjusted: bool, number: &mut u32) -> VoltagePart {
        let (words, about) = (self.words, &self.about);
        let said = |look: bool, text: String| Said { sign: if look { Sign::Look } else { Sign::Done }, text };
        let mut next = || {
            *number += 1;
            *number
        };
        let points = voltage.points.iter().map(|it| self.point(it, next())).collect();
        let mut loads: Vec<LoadLine> = voltage.loads.iter().map(|it| self.load(it, next())).collect();
        loads.extend(voltage.currents.iter().map(|it| self.current(it, next())));
        let none = voltage.no_intervals.iter().map(|why| words.bench_no_interval(why));
        VoltagePart {
            title: self.volts_title(voltage.test_voltage_v, voltage.series, adjusted),
            holds: Said { sign: Sign::from(say::holds_level(voltage)), text: words.bench_holds(voltage) },
            intervals: voltage.intervals.iter().map(|it| words.bench_interval(it)).chain(none).collect(),
            conforms: said(voltage.conforms != Conforms::Yes, words.bench_conforms(voltage, about)),
            requirements: voltage
                .requirements
                .iter()
                .map(|found| {
                    let met = found.result == RequirementResult::Met;
                    said(!met, say::requirement(words, found, about))
                })
                .collect(),
            points,
            loads,
            leads: self.leads(voltage),
            operating: voltage.operating.iter().map(|at| self.operating(at)).collect(),
            error_plot: plot::errors(words, &self.name(), voltage, self.made.card),
            load_plot: plot::loads(words, voltage, self.made.edition),
        }
    }

    /// `500 V`, with the series where the tester was adjusted.
    pub(super) fn volts_title(
        &self,
        volts: provenohm_assess::quantity::Volts,
        series: provenohm_assess::bench::Series,
        adjusted: bool,
    ) -> String {
        let volts = self.words.volts(volts);
        if adjusted { format!("{volts} · {}", say::series(self.words, series, true)) } else { volts }
    }

    fn point(&self, point: &PointResult, number_of: u32) -> PointLine {
        let words = self.words;
        let known = point.known_ohm.map(|ohms| figure::ohms(words, ohms)).unwrap_or_default();
        let title = [("number", number_of.to_string().into()), ("known", known.as_str().into())];
        let budget = point.budget.as_ref();
        let undecided = || point.undecided.map(|why| words.bench_undecided(&why, &self.about));
        let decision = point.decision.map(|it| words.bench_decision(it)).or_else(undecided).unwrap_or_default();
        PointLine {
            number: number_of,
            resistor: self.resistor(point),
            conditions: detail(words, &point.conditions),
            known: known.clone(),
            shown: point.shown.iter().map(|shown| words.reading(shown)).collect(),
            mean: match point.comparator.sign() {
                "" => figure::ohms(words, point.indicated_ohm),
                sign => format!("{sign}\u{a0}{}", figure::ohms(words, point.indicated_ohm)),
            },
            error: point.error_ohm.map(|ohms| figure::ohms(words, ohms)).unwrap_or_default(),
            error_percent: point.error_percent.map(|it| figure::signed(words, it)).unwrap_or_default(),
            expanded: budget.map(|it| figure::uncertainty(words, it.expanded, In::Ohms)).unwrap_or_default(),
            permitted: point.permitted.map(|it| figure::ohms(words, it.within_ohm)).unwrap_or_default(),
            permitted_from: point
                .permitted
                .map(|it| {
                    let args = [
                        ("percent", words.percent(it.percent).into()),
                        ("indicated", figure::ohms(words, point.indicated_ohm).into()),
                        ("digits", it.digits.to_string().into()),
                        ("resolution", words.step_alone(it.resolution_ohm).into()),
                    ];
                    words.text_with("answer-tester-report-permitted-from", &args)
                })
                .unwrap_or_default(),
            ratio: point.ratio.map(|ratio| number(words, ratio)).unwrap_or_default(),
            decision: Said { sign: Sign::from(level(point.decision)), text: decision },
            remarks: point.remarks.iter().map(|remark| words.bench_remark(remark, &self.about)).collect(),
            budget: budget
                .map(|it| self.budget(words.text_with("answer-tester-report-budget-point", &title), it, In::Ohms)),
        }
    }

    /// The resistor, and with a meter across it what that makes of it.
    fn resistor(&self, point: &PointResult) -> String {
        let words = self.words;
        let resistor = say::resistor(words, &point.resistor, self.about.references);
        let meter = point.across.and_then(|id| self.about.references.iter().find(|one| one.id == id));
        let (Some(meter), Some(alone), Some(known)) = (meter, point.alone_ohm, point.known_ohm) else {
            return resistor;
        };
        let input = meter.input_resistance().unwrap_or_default();
        let loaded = words.text_with(
            "said-reference-loaded",
            &[
                ("nominal", figure::ohms(words, alone).into()),
                ("input", words.ohms(input).into()),
                ("meter", meter.name.as_str().into()),
                ("known", figure::ohms(words, known).into()),
            ],
        );
        let args = [("resistor", resistor.into()), ("loaded", loaded.into())];
        words.text_with("answer-tester-report-loaded", &args)
    }

    fn load(&self, load: &LoadResult, number_of: u32) -> LoadLine {
        let words = self.words;
        let title = words.text(match load.kind {
            LoadKind::OpenCircuit => "answer-bench-open-circuit",
            LoadKind::Rated => "answer-bench-what-rated-load",
            LoadKind::Further => "answer-bench-what-further-load",
        });
        let decides = match load.kind {
            LoadKind::Rated => load.least_current_a.as_ref().map(|it| (it, In::Amps)),
            _ => load.voltage_v.as_ref().map(|it| (it, In::Volts)),
        };
        let figure_of = |it: Option<&provenohm_assess::bench::Budgeted>, unit| {
            it.map(|it| figure::with_uncertainty(words, it, unit)).unwrap_or_default()
        };
        let undecided =
            load.undecided.map(|why| Said { sign: Sign::Look, text: words.bench_undecided(&why, &self.about) });
        LoadLine {
            number: number_of,
            conditions: detail(words, &load.conditions),
            load: load.load_ohm.map(|ohms| figure::ohms(words, ohms)).unwrap_or_default(),
            voltage: figure_of(load.voltage_v.as_ref(), In::Volts),
            current: figure_of(load.least_current_a.as_ref(), In::Amps),
            decision: load.decision.map(|it| self.decision(it)).or(undecided),
            remarks: load.remarks.iter().map(|remark| words.bench_remark(remark, &self.about)).collect(),
            budget: decides.map(|(it, unit)| self.budget(self.load_title(number_of, &title, unit), &it.budget, unit)),
            title,
        }
    }

    fn current(&self, current: &CurrentResult, number_of: u32) -> LoadLine {
        let words = self.words;
        let title = words.text(if current.ripple { "answer-bench-ripple" } else { "answer-bench-short-circuit" });
        let budget = self.budget(self.load_title(number_of, &title, In::Amps), &current.current_a.budget, In::Amps);
        LoadLine {
            number: number_of,
            title,
            conditions: String::new(),
            load: String::new(),
            voltage: String::new(),
            current: figure::with_uncertainty(words, &current.current_a, In::Amps),
            decision: Some(self.decision(current.decision)),
            remarks: Vec::new(),
            budget: Some(budget),
        }
    }

    fn load_title(&self, number: u32, title: &str, unit: In) -> String {
        let unit = if unit == In::Volts { "volts" } else { "amps" };
        let args = [("number", number.to_string().into()), ("title", title.into()), ("unit", unit.into())];
        self.words.text_with("answer-tester-report-budget-load", &args)
    }

    fn decision(&self, decision: Decision) -> Said {
        Said { sign: Sign::from(level(Some(decision))), text: self.words.bench_decision(decision) }
    }

    /// Leads, and the polarity as it was found.
    fn leads(&self, voltage: &VoltageResult) -> Vec<Said> {
        let said = say::leads(self.words, voltage).into_iter();
        said.map(|one| Said { sign: Sign::from(one.level), text: one.words }).collect()
    }

    /// B part by part; what was not tested is named.
    fn operating(&self, at: &OperatingAt) -> String {
        let words = self.words;
        let percent = |it: f64| Percent(Decimal::from_f64(it).unwrap_or_default().round_dp(4));
        let part = |part: Option<f64>| {
            part.map_or_else(|| words.text("answer-result-part-not-tested"), |it| figure::signed(words, percent(it)))
        };
        let whole = at.position.is_some() && at.supply.is_some() && at.temperature.is_some() && !at.at_least;
        words.text_with(
            if whole { "answer-result-operating" } else { "answer-result-operating-at-least" },
            &[
                ("known", figure::ohms(words, at.known_ohm).into()),
                ("intrinsic", figure::signed(words, percent(at.intrinsic)).into()),
                ("position", part(at.position).into()),
                ("supply", part(at.supply).into()),
                ("temperature", part(at.temperature).into()),
                ("factor", factor(words, self.made.edition).into()),
                ("operating", words.percent(percent(at.operating)).into()),
            ],
        )
    }
}
