//! What a meter showed, corrected, as well as it is known.

use super::known::{Used, float, input};
use super::{Budgeted, Influence, PointRemark, WhyUndecided, reckonable};
use crate::bench::MeterReading;
use crate::ids::ReferenceId;
use crate::quantity::{Amps, Volts};
use crate::reference::{CurrentRange, Reference, ReferenceKind, Stated, VoltageRange};
use crate::uncertainty::{Budget, Input};
use rust_decimal::Decimal;

/// A meter's reading: the true value, exact, and what adds to its uncertainty, in V or A.
#[derive(Clone, Debug)]
pub(super) struct Read {
    pub(super) value: Decimal,
    pub(super) inputs: Vec<Input<Influence>>,
    pub(super) lapsed: Option<PointRemark>,
}

/// A range, whatever it measures.
struct Range {
    nominal: Decimal,
    stated: Decimal,
    percent: Option<Decimal>,
    fixed: Option<Decimal>,
    form: Stated,
    resolution: Option<Decimal>,
    drift: Option<Decimal>,
}

impl Used<'_> {
    pub(super) fn voltage(&self, reading: MeterReading<Volts>) -> Result<Read, WhyUndecided> {
        let reference = self.reference(reading.reference)?;
        let ranges = match &reference.what {
            ReferenceKind::Voltmeter { ranges, .. } | ReferenceKind::HighVoltageProbe { ranges, .. } => ranges,
            _ => return Err(WhyUndecided::NotAVoltmeter { reference: reading.reference }),
        };
        self.read(reference, reading.shown.0, ranges.iter().map(Range::of_voltage))
    }

    pub(super) fn current(&self, reading: MeterReading<Amps>) -> Result<Read, WhyUndecided> {
        let reference = self.reference(reading.reference)?;
        let ReferenceKind::CurrentMeter { ranges } = &reference.what else {
            return Err(WhyUndecided::NotACurrentMeter { reference: reading.reference });
        };
        self.read(reference, reading.shown.0, ranges.iter().map(Range::of_current))
    }

    /// The lowest range that reaches the indication speaks for it: true = indication × stated / nominal.
    fn read(
        &self,
        reference: &Reference,
        shown: Decimal,
        ranges: impl Iterator<Item = Range>,
    ) -> Result<Read, WhyUndecided> {
        let id = reference.id;
        let range = ranges
            .filter(|r| r.is_usable() && shown.abs() <= r.nominal)
            .min_by_key(|r| r.nominal)
            .ok_or(WhyUndecided::AboveMeter { reference: id })?;
        let value = shown.abs() * (range.stated / range.nominal);
        Ok(Read { value, inputs: range.inputs(id, shown)?, lapsed: self.lapsed(reference) })
    }
}

impl Read {
    pub(super) fn budgeted(self) -> Budgeted {
        Budgeted { value: float(self.value), budget: Budget::combine(self.inputs) }
    }
}

impl Range {
    fn of_voltage(r: &VoltageRange) -> Self {
        Self {
            nominal: r.nominal_v.0,
            stated: r.stated_v.0,
            percent: r.within_percent.map(|p| p.0),
            fixed: r.within_v.map(|v| v.0),
            form: r.stated,
            resolution: r.resolution_v.map(|v| v.0),
            drift: r.drift_percent.map(|p| p.0),
        }
    }

    fn of_current(r: &CurrentRange) -> Self {
        Self {
            nominal: r.nominal_a.0,
            stated: r.stated_a.0,
            percent: r.within_percent.map(|p| p.0),
            fixed: r.within_a.map(|v| v.0),
            form: r.stated,
            resolution: r.resolution_a.map(|v| v.0),
            drift: r.drift_percent.map(|p| p.0),
        }
    }

    fn is_usable(&self) -> bool {
        let optional = [self.percent, self.fixed, self.resolution, self.drift];
        let figures = [self.nominal, self.stated].into_iter().chain(optional.into_iter().flatten());
        // A correction by half or by double is no correction.
        figures.into_iter().all(reckonable) && self.nominal > Decimal::ZERO && {
            let twice = Decimal::TWO;
            self.stated <= self.nominal * twice && self.stated * twice >= self.nominal
        }
    }

    /// Its certificate or accuracy, its drift, and half a step of its display unless the accuracy contains it
    /// (IEC 61557-1:2019, note, seen).
    fn inputs(&self, id: ReferenceId, shown: Decimal) -> Result<Vec<Input<Influence>>, WhyUndecided> {
        let indication = float(shown).abs();
        let share = |percent: Decimal| float(percent) / 100.0 * indication;
        let within = match (self.percent, self.fixed) {
            (None, None) => return Err(WhyUndecided::NoUncertainty { reference: id }),
            (percent, fixed) => percent.map_or(0.0, share) + fixed.map_or(0.0, float),
        };
        let mut inputs = vec![input(Influence::Meter { reference: id }, indication, within, self.form)];
        if let Some(step) = self.resolution.filter(|_| self.form != Stated::Tolerance) {
            inputs.push(Input::rectangular(Influence::MeterResolution { reference: id }, 0.0, float(step) / 2.0));
        }
        if let Some(drift) = self.drift {
            inputs.push(Input::rectangular(Influence::Drift { reference: id }, 0.0, share(drift)));
        }
        Ok(inputs)
    }
}
