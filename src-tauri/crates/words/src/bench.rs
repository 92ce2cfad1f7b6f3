//! Sentences about a bench run: the two answers, and every reason.

use crate::tester::selector;
use crate::words::Words;
use fluent_bundle::FluentValue;
use provenohm_assess::bench::{
    Decision, HeldInterval, Influence, IntervalEnd, NoInterval, OperatingPart, PointRemark, PointResult,
    RequirementFound, Resistor, VoltageResult, WhyNotTested, WhyUndecided,
};
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::quantity::{Amps, Ohms, Percent, Volts};
use provenohm_assess::reference::Reference;
use provenohm_assess::tester::{Conforms, RequirementName, RequirementResult};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

/// Digits of a figure that was worked out at the bench.
const DIGITS: u32 = 4;

/// What the sentences need beside the result.
#[derive(Clone, Copy, Debug)]
pub struct AboutBench<'a> {
    /// The references, for their names.
    pub references: &'a [Reference],
    /// The edition of the tester standard, as people call it.
    pub edition: &'a str,
}

impl AboutBench<'_> {
    /// The name of a reference, or its id where it is not among those of the run.
    #[must_use]
    pub fn name(&self, id: ReferenceId) -> String {
        self.references.iter().find(|r| r.id == id).map_or_else(|| id.to_string(), |r| r.name.clone())
    }
}

impl Words {
    /// Where indications hold: `500 V: indications hold from 10 MΩ to 1.0 GΩ`.
    #[must_use]
    pub fn bench_holds(&self, voltage: &VoltageResult) -> String {
        let volts = ("volts", self.volts(voltage.test_voltage_v).into());
        if voltage.intervals.is_empty() {
            return self.text_with("said-bench-holds-nowhere", &[volts]);
        }
        let each = voltage.intervals.iter().map(|i| {
            self.text_with(
                if i.conditional { "said-bench-interval-on-condition" } else { "said-bench-interval" },
                &[("from", self.rounded_ohms(i.from_ohm).into()), ("to", self.rounded_ohms(i.to_ohm).into())],
            )
        });
        let intervals = each.collect::<Vec<_>>().join(", ");
        self.text_with("said-bench-holds", &[volts, ("intervals", intervals.into())])
    }

    /// Whether it conforms to the tester standard, with what is not met or how much is open.
    #[must_use]
    pub fn bench_conforms(&self, voltage: &VoltageResult, about: &AboutBench<'_>) -> String {
        let edition = ("edition", about.edition.into());
        let of = |result| voltage.requirements.iter().filter(move |r| r.result == result);
        match voltage.conforms {
            Conforms::Yes => self.text_with("said-bench-conforms", &[edition]),
            Conforms::No => {
                let names: Vec<String> = of(RequirementResult::NotMet).map(|r| self.requirement(r.name)).collect();
                self.text_with("said-bench-conforms-not", &[edition, ("requirements", names.join(", ").into())])
            }
            Conforms::NotAllTested | Conforms::NotStated => {
                let count = of(RequirementResult::NotTested).count();
                self.text_with("said-bench-conforms-open", &[edition, ("count", count.into())])
            }
        }
    }

    /// A requirement by name: `rated current`.
    #[must_use]
    pub fn requirement(&self, name: RequirementName) -> String {
        self.text_with("said-bench-requirement", &[("requirement", selector(name).into())])
    }

    /// A requirement with what was found and what is asked, or why it is not tested.
    #[must_use]
    pub fn bench_requirement(&self, found: &RequirementFound, about: &AboutBench<'_>) -> String {
        let requirement = ("requirement", self.requirement(found.name).into());
        if found.result == RequirementResult::NotTested {
            let why: Vec<String> = found.why.iter().map(|why| self.bench_why_not(why, about)).collect();
            return self.text_with("said-bench-open", &[requirement, ("why", why.join(", ").into())]);
        }
        let quantity = |figure: Decimal| match found.name {
            RequirementName::OperatingUncertainty => self.percent(Percent(figure)),
            RequirementName::OpenCircuitVoltage => self.volts(Volts(figure)),
            RequirementName::RatedCurrent | RequirementName::ShortCircuitCurrent => Amps(figure).print(self.numbers()),
        };
        let key =
            if found.name == RequirementName::RatedCurrent { "said-bench-at-least" } else { "said-bench-at-most" };
        let figure = quantity(worked_out(found.found.unwrap_or_default()));
        self.text_with(key, &[requirement, ("found", figure.into()), ("asked", quantity(found.asked).into())])
    }

    /// Why a requirement is not tested.
    #[must_use]
    pub fn bench_why_not(&self, why: &WhyNotTested, about: &AboutBench<'_>) -> String {
        match why {
            WhyNotTested::NotMeasured => self.text("said-bench-why-not-measured"),
            WhyNotTested::TooCloseToCall => self.text("said-bench-why-too-close"),
            WhyNotTested::Undecided { reason } => self.bench_undecided(reason, about),
            WhyNotTested::PartNotTested { part } => {
                let part = match part {
                    OperatingPart::Intrinsic => "intrinsic",
                    OperatingPart::Position => "position",
                    OperatingPart::Supply => "supply",
                    OperatingPart::Temperature => "temperature",
                };
                self.text_with("said-bench-part", &[("part", part.into())])
            }
        }
    }

    /// A decision in words.
    #[must_use]
    pub fn bench_decision(&self, decision: Decision) -> String {
        let decision = match decision {
            Decision::Conforms => "conforms",
            Decision::ConditionalPass => "conditional-pass",
            Decision::OnCondition => "on-condition",
            Decision::ConditionalFail => "conditional-fail",
            Decision::DoesNotConform => "does-not-conform",
        };
        self.text_with("said-bench-outcome", &[("decision", decision.into())])
    }

    /// A point: `1.0 MΩ: 0.88 MΩ shown, −12 %, permitted ±5.273 %`.
    #[must_use]
    pub fn bench_point(&self, point: &PointResult, about: &AboutBench<'_>) -> String {
        let shown: Vec<String> = point.shown.iter().map(|shown| self.reading(shown)).collect();
        let known = self.rounded_ohms(point.known_ohm.unwrap_or(point.resistor.nominal_ohm));
        let head = [("known", known.into()), ("shown", shown.join(", ").into())];
        let of_known = |within: Ohms| {
            let share = within.0.checked_div(point.known_ohm?.0)?.checked_mul(Decimal::ONE_HUNDRED)?;
            Some(Percent(share.round_sf(DIGITS)?))
        };
        let permitted = point.permitted.and_then(|p| of_known(p.within_ohm));
        match (point.error_percent, permitted, point.undecided) {
            (Some(error), Some(permitted), None) => {
                let [known, shown] = head;
                let args =
                    [known, shown, ("error", self.signed(error).into()), ("permitted", self.percent(permitted).into())];
                self.text_with("said-bench-point", &args)
            }
            (_, _, why) => {
                let [known, shown] = head;
                let why = self.bench_undecided(&why.unwrap_or(WhyUndecided::BeyondArithmetic), about);
                self.text_with("said-bench-point-undecided", &[known, shown, ("why", why.into())])
            }
        }
    }

    /// Why something measured decides nothing.
    #[must_use]
    pub fn bench_undecided(&self, why: &WhyUndecided, about: &AboutBench<'_>) -> String {
        let of =
            |key: &str, reference: &ReferenceId| self.text_with(key, &[("reference", about.name(*reference).into())]);
        match why {
            WhyUndecided::UnknownReference { .. } => self.text("said-bench-unknown-reference"),
            WhyUndecided::UnknownResistance { resistor } => {
                self.text_with("said-bench-unknown-resistance", &self.resistor(resistor, about))
            }
            WhyUndecided::NoUncertainty { reference } => of("said-bench-no-uncertainty", reference),
            WhyUndecided::AboveRating { resistor, rated_v } => {
                let [reference, nominal] = self.resistor(resistor, about);
                let rated = ("rated", self.volts(*rated_v).into());
                self.text_with("said-bench-above-rating", &[reference, nominal, rated])
            }
            WhyUndecided::NotAVoltmeter { reference } => of("said-bench-not-a-voltmeter", reference),
            WhyUndecided::NotACurrentMeter { reference } => of("said-bench-not-a-current-meter", reference),
            WhyUndecided::AboveMeter { reference } => of("said-bench-above-meter", reference),
            WhyUndecided::NothingKnown => self.text("said-bench-nothing-known"),
            WhyUndecided::NothingRead => self.text("said-bench-nothing-read"),
            WhyUndecided::NoStatedAccuracy => self.text("said-bench-no-stated-accuracy"),
            WhyUndecided::OutsideCard => self.text("said-bench-outside-card"),
            WhyUndecided::MixedRepeats => self.text("said-bench-mixed-repeats"),
            WhyUndecided::LoadTooHeavy { load_ohm, least_ohm } => {
                let (load, least) = (self.rounded_ohms(*load_ohm), self.rounded_ohms(*least_ohm));
                self.text_with("said-bench-load-too-heavy", &[("load", load.into()), ("least", least.into())])
            }
            WhyUndecided::LoadNotRated { load_ohm, rated_ohm } => {
                let (load, rated) = (self.rounded_ohms(*load_ohm), self.rounded_ohms(*rated_ohm));
                self.text_with("said-bench-load-not-rated", &[("load", load.into()), ("rated", rated.into())])
            }
            WhyUndecided::BeyondArithmetic => self.text("said-bench-beyond-arithmetic"),
        }
    }

    /// A remark on a point or load.
    #[must_use]
    pub fn bench_remark(&self, remark: &PointRemark, about: &AboutBench<'_>) -> String {
        match remark {
            PointRemark::LapsedReference { reference, valid_until } => {
                let reference = ("reference", about.name(*reference).into());
                match valid_until {
                    Some(until) => {
                        self.text_with("said-bench-lapsed", &[reference, ("until", self.date(*until).into())])
                    }
                    None => self.text_with("said-bench-lapsed-no-date", &[reference]),
                }
            }
            PointRemark::LowRatio { ratio, probability } => {
                let ratio = self.numbers().number(&worked_out(*ratio).round_dp(1).normalize().to_string());
                let probability = Percent(worked_out(*probability * 100.0).round_dp(1)).print(self.numbers());
                self.text_with("said-bench-low-ratio", &[("ratio", ratio.into()), ("probability", probability.into())])
            }
            PointRemark::VoltageCoefficientNotStated { resistor } => {
                self.text_with("said-bench-no-voltage-coefficient", &self.resistor(resistor, about))
            }
            PointRemark::RepeatabilityNotTested => self.text("said-bench-no-repeats"),
            PointRemark::FewerThanPlanned { taken, planned } => {
                let args = [("taken", (*taken).into()), ("planned", (*planned).into())];
                self.text_with("said-bench-fewer-than-planned", &args)
            }
            PointRemark::RepeatOutside => self.text("said-bench-repeat-outside"),
            PointRemark::OutsideReferenceTemperature { temperature_c } => {
                let temperature = temperature_c.print(self.numbers());
                self.text_with("said-bench-temperature", &[("temperature", temperature.into())])
            }
        }
    }

    /// Why an interval ends on either side, and that it rests on a conditional pass: sentences in one line.
    #[must_use]
    pub fn bench_interval(&self, interval: &HeldInterval) -> String {
        let args = [
            ("from", self.rounded_ohms(interval.from_ohm).into()),
            ("to", self.rounded_ohms(interval.to_ohm).into()),
            ("below", self.bench_end(&interval.below).into()),
            ("above", self.bench_end(&interval.above).into()),
        ];
        let key = if interval.conditional { "said-bench-ends-on-condition" } else { "said-bench-ends" };
        self.text_with(key, &args)
    }

    /// Why an interval ends there.
    #[must_use]
    pub fn bench_end(&self, end: &IntervalEnd) -> String {
        let at = |key: &str, known: &Ohms| self.text_with(key, &[("known", self.rounded_ohms(*known).into())]);
        match end {
            IntervalEnd::NothingTested => self.text("said-bench-end-nothing-tested"),
            IntervalEnd::NotConforming { known_ohm } => at("said-bench-end-not-conforming", known_ohm),
            IntervalEnd::ConditionalFail { known_ohm } => at("said-bench-end-outcome-conditional", known_ohm),
            IntervalEnd::Undecided { known_ohm } => at("said-bench-end-undecided", known_ohm),
            IntervalEnd::RangeNotTested { from_ohm, to_ohm } => {
                let (from, to) = (self.rounded_ohms(*from_ohm), self.rounded_ohms(*to_ohm));
                self.text_with("said-bench-end-range", &[("from", from.into()), ("to", to.into())])
            }
            IntervalEnd::ShownLow { known_ohm, shown } => self.text_with(
                "said-bench-end-shown-low",
                &[("known", self.rounded_ohms(*known_ohm).into()), ("shown", self.reading(shown).into())],
            ),
        }
    }

    /// Why conforming points make no interval.
    #[must_use]
    pub fn bench_no_interval(&self, why: &NoInterval) -> String {
        match why {
            NoInterval::ShownHigh { from_ohm, known_ohm, shown, .. } => {
                let from = ("from", self.rounded_ohms(*from_ohm).into());
                let shown = ("shown", self.reading(shown).into());
                if known_ohm.0 == Decimal::ZERO {
                    return self.text_with("said-bench-leads-shown-high", &[from, shown]);
                }
                let known = ("known", self.rounded_ohms(*known_ohm).into());
                self.text_with("said-bench-shown-high", &[from, known, shown])
            }
            NoInterval::SinglePoint { known_ohm } => {
                self.text_with("said-bench-single-point", &[("known", self.rounded_ohms(*known_ohm).into())])
            }
            NoInterval::EndsCross { from_ohm, to_ohm } => {
                let (from, to) = (self.rounded_ohms(*from_ohm), self.rounded_ohms(*to_ohm));
                self.text_with("said-bench-ends-cross", &[("from", from.into()), ("to", to.into())])
            }
            NoInterval::NoPointConforms => self.text("said-bench-no-point"),
            NoInterval::NothingTested => self.text("said-bench-no-indication"),
        }
    }

    /// A line of a budget by name.
    #[must_use]
    pub fn bench_influence(&self, influence: Influence, about: &AboutBench<'_>) -> String {
        let of =
            |key: &str, reference: ReferenceId| self.text_with(key, &[("reference", about.name(reference).into())]);
        let with = |key: &str, resistor: Resistor| self.text_with(key, &self.resistor(&resistor, about));
        match influence {
            Influence::Reference { resistor } => with("said-bench-line-reference", resistor),
            Influence::Drift { reference } => of("said-bench-line-drift", reference),
            Influence::VoltageCoefficient { resistor } => with("said-bench-line-voltage", resistor),
            Influence::TemperatureCoefficient { resistor } => with("said-bench-line-temperature", resistor),
            Influence::MeterLoading { reference } => of("said-bench-line-loading", reference),
            Influence::Meter { reference } => of("said-bench-line-meter", reference),
            Influence::MeterResolution { reference } => of("said-bench-line-meter-resolution", reference),
            Influence::Resolution => self.text("said-bench-line-resolution"),
            Influence::Repeatability { pooled: false } => self.text("said-bench-line-repeatability"),
            Influence::Repeatability { pooled: true } => self.text("said-bench-line-pooled"),
        }
    }

    fn resistor<'a>(&self, resistor: &Resistor, about: &AboutBench<'_>) -> [(&'a str, FluentValue<'a>); 2] {
        [("reference", about.name(resistor.reference).into()), ("nominal", self.ohms(resistor.nominal_ohm).into())]
    }

    /// A resistance that was worked out, to the digits a bench gives.
    fn rounded_ohms(&self, ohms: Ohms) -> String {
        self.ohms(Ohms(ohms.0.round_sf(DIGITS).unwrap_or(ohms.0)))
    }

    /// `+1.2 %`, `−12 %`.
    fn signed(&self, percent: Percent) -> String {
        let rounded = percent.0.round_sf(DIGITS).unwrap_or(percent.0);
        let figure = Percent(rounded.abs()).print(self.numbers());
        if rounded.is_zero() {
            figure
        } else {
            format!("{}{figure}", if rounded.is_sign_negative() { '−' } else { '+' })
        }
    }
}

/// A computed figure to the digits a bench gives.
fn worked_out(figure: f64) -> Decimal {
    let exact = Decimal::from_f64(figure).unwrap_or_default();
    exact.round_sf(DIGITS).unwrap_or(exact).normalize()
}
