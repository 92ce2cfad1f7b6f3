//! References in words.

use crate::words::Words;
use provenohm_assess::quantity::{Amps, Ohms, Percent, Volts};
use provenohm_assess::reference::{Reference, ReferenceKind, Stated};
use rust_decimal::Decimal;

impl Words {
    /// What kind of reference it is: `resistor`.
    #[must_use]
    pub fn reference_kind(&self, kind: &ReferenceKind) -> String {
        let kind = match kind {
            ReferenceKind::Resistor { .. } => "resistor",
            ReferenceKind::DecadeBox { .. } => "decade-box",
            ReferenceKind::Voltmeter { .. } => "voltmeter",
            ReferenceKind::HighVoltageProbe { .. } => "high-voltage-probe",
            ReferenceKind::CurrentMeter { .. } => "current-meter",
        };
        self.text_with("said-reference-kind", &[("kind", kind.into())])
    }

    /// Its certificate, then what it loads the tester with, then each value with its uncertainty.
    #[must_use]
    pub fn reference_lines(&self, reference: &Reference) -> Vec<String> {
        let certificate = reference.certificate.as_deref().unwrap_or("none");
        let mut lines = vec![self.text_with("said-reference-certificate", &[("certificate", certificate.into())])];
        match &reference.what {
            ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values } => {
                for value in values {
                    let within = value.within_ohm.map(|ohms| self.ohms(ohms));
                    let mut parts =
                        vec![self.stated(self.ohms(value.stated_ohm), value.within_percent, within, value.stated)];
                    let drift = value.drift_percent.map(|percent| self.percent(percent));
                    parts.extend(
                        drift.map(|drift| self.text_with("said-reference-drift", &[("percent", drift.into())])),
                    );
                    let ppm = |key: &str, figure: Decimal| {
                        self.text_with(key, &[("ppm", self.numbers().number(&figure.normalize().to_string()).into())])
                    };
                    parts.extend(value.voltage_coefficient.map(|it| ppm("said-reference-per-volt", it.0)));
                    parts.extend(value.temperature_coefficient.map(|it| ppm("said-reference-per-kelvin", it.0)));
                    let rated = value.rated_voltage_v.map(|volts| self.volts(volts));
                    parts.extend(rated.map(|volts| self.text_with("said-reference-rated", &[("volts", volts.into())])));
                    lines.push(self.valued(self.ohms(value.nominal_ohm), &parts));
                }
            }
            ReferenceKind::Voltmeter { ranges, input_resistance_ohm }
            | ReferenceKind::HighVoltageProbe { ranges, input_resistance_ohm } => {
                let input = self.ohms(*input_resistance_ohm);
                lines.push(self.text_with("said-reference-input", &[("input", input.into())]));
                for range in ranges {
                    let volts = |volts: Volts| self.volts(volts);
                    let within = range.within_v.map(volts);
                    let stated = self.stated(volts(range.stated_v), range.within_percent, within, range.stated);
                    let step = range.resolution_v.map(volts);
                    lines.push(self.ranged(volts(range.nominal_v), stated, step, range.drift_percent));
                }
            }
            ReferenceKind::CurrentMeter { ranges } => {
                for range in ranges {
                    let amps = |amps: Amps| amps.print(self.numbers());
                    let within = range.within_a.map(amps);
                    let stated = self.stated(amps(range.stated_a), range.within_percent, within, range.stated);
                    let step = range.resolution_a.map(amps);
                    lines.push(self.ranged(amps(range.nominal_a), stated, step, range.drift_percent));
                }
            }
        }
        lines
    }

    /// `1.0002 MΩ, U = 0.02 % (k = 2)`, or with a tolerance, or that none is stated.
    fn stated(&self, value: String, percent: Option<Percent>, absolute: Option<String>, stated: Stated) -> String {
        let parts: Vec<String> = percent.map(|it| self.percent(it)).into_iter().chain(absolute).collect();
        let value = ("value", value.into());
        if parts.is_empty() {
            return self.text_with("said-reference-no-uncertainty", &[value]);
        }
        let within = ("within", parts.join(" + ").into());
        match stated {
            Stated::Expanded { k } => {
                let k = self.numbers().number(&k.0.normalize().to_string());
                self.text_with("said-reference-expanded", &[value, within, ("k", k.into())])
            }
            Stated::Tolerance => self.text_with("said-reference-tolerance", &[value, within]),
        }
    }

    fn ranged(&self, nominal: String, stated: String, step: Option<String>, drift: Option<Percent>) -> String {
        let mut parts = vec![stated];
        parts.extend(step.map(|step| self.text_with("said-reference-step", &[("step", step.into())])));
        let drift = drift.map(|percent| self.percent(percent));
        parts.extend(drift.map(|drift| self.text_with("said-reference-drift", &[("percent", drift.into())])));
        self.valued(nominal, &parts)
    }

    fn valued(&self, nominal: String, parts: &[String]) -> String {
        self.text_with("said-reference-value", &[("nominal", nominal.into()), ("says", parts.join(", ").into())])
    }

    /// A known resistance with a meter across it: `1.0 MΩ with the 10 MΩ of Meter 1 across it is 0.9091 MΩ`.
    #[must_use]
    pub fn loaded(&self, nominal: Ohms, meter: &Reference, at_terminals: Ohms) -> String {
        let input = meter.input_resistance().map(|ohms| self.ohms(ohms)).unwrap_or_default();
        let known = Ohms(at_terminals.0.round_sf(4).unwrap_or(at_terminals.0));
        self.text_with(
            "said-reference-loaded",
            &[
                ("nominal", self.ohms(nominal).into()),
                ("input", input.into()),
                ("meter", meter.name.as_str().into()),
                ("known", self.ohms(known).into()),
            ],
        )
    }
}
