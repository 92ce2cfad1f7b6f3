//! What is at the terminals, as well as it is known.

use super::{Influence, PointRemark, WhyUndecided, reckonable};
use crate::bench::Resistor;
use crate::moment::Moment;
use crate::quantity::{Celsius, Ohms, Volts};
use crate::reference::{KnownResistance, Reference, Stated};
use crate::standard::Edition;
use crate::uncertainty::Input;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

/// How well the input resistance of a voltmeter is known, as a share of it (common practice: ±1 %).
const INPUT_RESISTANCE_WITHIN: f64 = 0.01;

/// Resistors from here on have a voltage coefficient worth knowing (common practice), Ω.
const HIGH_OHM: Decimal = Decimal::from_parts(100_000_000, 0, 0, false, 0);

/// Nothing smaller is a known resistance here, and dividing by it stays within exact arithmetic, Ω.
const LEAST_OHM: Decimal = Decimal::from_parts(1, 0, 0, false, 3);

/// A resistance at the terminals.
#[derive(Clone, Debug)]
pub(super) struct AtTerminals {
    /// With the meter across it, Ω.
    pub(super) ohm: Ohms,
    /// By itself, Ω; absent: only the meter.
    pub(super) alone: Option<Ohms>,
    /// What it adds to a budget, in Ω at the terminals.
    pub(super) inputs: Vec<Input<Influence>>,
    pub(super) remarks: Vec<PointRemark>,
    /// Its certificate, or that of the meter, had lapsed.
    pub(super) lapsed: bool,
}

/// Under what it was used.
#[derive(Clone, Copy, Debug)]
pub(super) struct Used<'a> {
    pub(super) references: &'a [Reference],
    pub(super) edition: &'a Edition,
    pub(super) volts: Volts,
    /// The temperature furthest from the reference temperature, if any was measured.
    pub(super) temperature: Option<Celsius>,
    pub(super) at: Moment,
}

impl<'a> Used<'a> {
    pub(super) fn reference(&self, id: crate::ids::ReferenceId) -> Result<&'a Reference, WhyUndecided> {
        self.references.iter().find(|r| r.id == id).ok_or(WhyUndecided::UnknownReference { reference: id })
    }

    /// The certificate had lapsed, or never had a last day.
    pub(super) fn lapsed(&self, reference: &Reference) -> Option<PointRemark> {
        let lapsed = reference.valid_until.is_none_or(|last| self.at.date_naive() > last);
        lapsed.then_some(PointRemark::LapsedReference { reference: reference.id, valid_until: reference.valid_until })
    }

    /// A resistor, a meter across it, or both. R and R_m in parallel: R·R_m / (R + R_m).
    pub(super) fn at_terminals(
        &self,
        resistor: Option<Resistor>,
        meter: Option<&Reference>,
    ) -> Result<AtTerminals, WhyUndecided> {
        let meter_ohm = match meter {
            Some(meter) => Some((meter, input_resistance(meter)?)),
            None => None,
        };
        let mut remarks: Vec<PointRemark> = meter.and_then(|m| self.lapsed(m)).into_iter().collect();
        let Some(resistor) = resistor else {
            let (meter, ohm) = meter_ohm.ok_or(WhyUndecided::NothingKnown)?;
            let inputs = vec![Input::rectangular(
                Influence::MeterLoading { reference: meter.id },
                float(ohm),
                INPUT_RESISTANCE_WITHIN * float(ohm),
            )];
            return Ok(AtTerminals { ohm: Ohms(ohm), alone: None, inputs, lapsed: !remarks.is_empty(), remarks });
        };
        let reference = self.reference(resistor.reference)?;
        let known = reference
            .resistance(resistor.nominal_ohm)
            .filter(|k| usable(k))
            .ok_or(WhyUndecided::UnknownResistance { resistor })?;
        remarks.extend(self.lapsed(reference));
        let lapsed = !remarks.is_empty();
        if let Some(rated_v) = known.rated_voltage_v.filter(|rated| *rated < self.volts) {
            return Err(WhyUndecided::AboveRating { resistor, rated_v });
        }
        if known.voltage_coefficient.is_none() && known.stated_ohm.0 >= HIGH_OHM {
            remarks.push(PointRemark::VoltageCoefficientNotStated { resistor });
        }
        let alone = known.stated_ohm.0;
        let mut inputs = self.inputs(resistor, known)?;
        let mut ohm = alone;
        if let Some((meter, across)) = meter_ohm {
            let sum = alone + across;
            ohm = (alone * across / sum).round_sf(12).unwrap_or(alone * across / sum).normalize();
            let (share, rest) = (float(across / sum), float(alone / sum));
            inputs = inputs.into_iter().map(|i| i.with_sensitivity(share * share)).collect();
            let loading = Influence::MeterLoading { reference: meter.id };
            inputs.push(
                Input::rectangular(loading, float(across), INPUT_RESISTANCE_WITHIN * float(across))
                    .with_sensitivity(rest * rest),
            );
        }
        Ok(AtTerminals { ohm: Ohms(ohm), alone: Some(Ohms(alone)), inputs, remarks, lapsed })
    }

    /// What is known of a resistor: its certificate, its drift, and what voltage and temperature do to it.
    fn inputs(&self, resistor: Resistor, known: &KnownResistance) -> Result<Vec<Input<Influence>>, WhyUndecided> {
        let ohm = float(known.stated_ohm.0);
        let within = known.within_percent.map(|p| float(p.0) / 100.0 * ohm);
        let fixed = known.within_ohm.map(|o| float(o.0));
        let stated = match (within, fixed) {
            (None, None) => return Err(WhyUndecided::NoUncertainty { reference: resistor.reference }),
            (a, b) => a.unwrap_or(0.0) + b.unwrap_or(0.0),
        };
        let mut inputs = vec![input(Influence::Reference { resistor }, ohm, stated, known.stated)];
        let mut adds = |what, half_width: f64| inputs.push(Input::rectangular(what, 0.0, half_width));
        if let Some(drift) = known.drift_percent {
            adds(Influence::Drift { reference: resistor.reference }, float(drift.0) / 100.0 * ohm);
        }
        if let Some(coefficient) = known.voltage_coefficient {
            let away = float(self.volts.0 - known.stated_at_v.map_or(Decimal::ZERO, |v| v.0));
            adds(Influence::VoltageCoefficient { resistor }, float(coefficient.0) * 1e-6 * away * ohm);
        }
        if let (Some(coefficient), Some(temperature)) = (known.temperature_coefficient, self.temperature) {
            let away = float(temperature.0 - self.edition.reference_temperature_c.value.0);
            adds(Influence::TemperatureCoefficient { resistor }, float(coefficient.0) * 1e-6 * away * ohm);
        }
        Ok(inputs)
    }
}

/// A stated half-width or U as an input.
pub(super) fn input(what: Influence, estimate: f64, within: f64, stated: Stated) -> Input<Influence> {
    match stated {
        Stated::Expanded { k } => Input::normal(what, estimate, within, float(k.0)),
        Stated::Tolerance => Input::rectangular(what, estimate, within),
    }
}

/// An exact figure for the floating-point part.
pub(super) fn float(exact: Decimal) -> f64 {
    exact.to_f64().unwrap_or(f64::NAN)
}

fn input_resistance(meter: &Reference) -> Result<Decimal, WhyUndecided> {
    let ohm = meter.input_resistance().map(|o| o.0).filter(|o| *o >= LEAST_OHM && reckonable(*o));
    ohm.ok_or(WhyUndecided::NotAVoltmeter { reference: meter.id })
}

fn usable(known: &KnownResistance) -> bool {
    let optional = [
        known.within_percent.map(|q| q.0),
        known.within_ohm.map(|q| q.0),
        known.drift_percent.map(|q| q.0),
        known.voltage_coefficient.map(|q| q.0),
        known.stated_at_v.map(|q| q.0),
        known.temperature_coefficient.map(|q| q.0),
    ];
    known.stated_ohm.0 >= LEAST_OHM && reckonable(known.stated_ohm.0) && optional.into_iter().flatten().all(reckonable)
}
