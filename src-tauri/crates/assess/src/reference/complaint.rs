//! Figures that cannot be those of a reference.

use super::{CurrentRange, KnownResistance, Reference, ReferenceKind, Stated, VoltageRange};
use crate::quantity::Percent;
use rust_decimal::Decimal;

/// Why something cannot be a reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReferenceComplaint {
    /// A value, a range or an input resistance that is not above zero.
    #[error("a figure that is not above zero")]
    NotAboveZero,
    /// An uncertainty, a drift or a step below zero.
    #[error("an uncertainty below zero")]
    BelowZero,
    /// A coverage factor below 1.
    #[error("a coverage factor below 1")]
    CoverageFactor,
    /// A stated value more than twice, or less than half, of what is marked: a slip of a power of ten.
    #[error("a stated value far from the marked one")]
    FarFromMarked,
    /// One nominal value twice.
    #[error("a nominal value that stands there twice")]
    ValueTwice,
}

impl Reference {
    /// The first reason why this cannot be a reference; none: it can.
    #[must_use]
    pub fn complaint(&self) -> Option<ReferenceComplaint> {
        match &self.what {
            ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values } => {
                all(values, KnownResistance::complaint, |one| one.nominal_ohm.0)
            }
            ReferenceKind::Voltmeter { ranges, input_resistance_ohm }
            | ReferenceKind::HighVoltageProbe { ranges, input_resistance_ohm } => {
                let loads = (input_resistance_ohm.0 <= Decimal::ZERO).then_some(ReferenceComplaint::NotAboveZero);
                loads.or_else(|| all(ranges, VoltageRange::complaint, |one| one.nominal_v.0))
            }
            ReferenceKind::CurrentMeter { ranges } => all(ranges, CurrentRange::complaint, |one| one.nominal_a.0),
        }
    }
}

/// The first complaint of its values; then one that stands there twice.
fn all<T>(
    values: &[T],
    complaint: fn(&T) -> Option<ReferenceComplaint>,
    nominal: fn(&T) -> Decimal,
) -> Option<ReferenceComplaint> {
    let twice = |(at, one): (usize, &T)| values[..at].iter().any(|before| nominal(before) == nominal(one));
    let twice = || values.iter().enumerate().any(twice).then_some(ReferenceComplaint::ValueTwice);
    values.iter().find_map(complaint).or_else(twice)
}

impl KnownResistance {
    fn complaint(&self) -> Option<ReferenceComplaint> {
        let spread = [self.within_percent.map(|it| it.0), self.within_ohm.map(|it| it.0)];
        figures([self.nominal_ohm.0, self.stated_ohm.0], spread, self.drift_percent, None, self.stated)
    }
}

impl VoltageRange {
    fn complaint(&self) -> Option<ReferenceComplaint> {
        let spread = [self.within_percent.map(|it| it.0), self.within_v.map(|it| it.0)];
        let step = self.resolution_v.map(|it| it.0);
        figures([self.nominal_v.0, self.stated_v.0], spread, self.drift_percent, step, self.stated)
    }
}

impl CurrentRange {
    fn complaint(&self) -> Option<ReferenceComplaint> {
        let spread = [self.within_percent.map(|it| it.0), self.within_a.map(|it| it.0)];
        let step = self.resolution_a.map(|it| it.0);
        figures([self.nominal_a.0, self.stated_a.0], spread, self.drift_percent, step, self.stated)
    }
}

/// Whether a stated value can be that of what is marked so: within a factor of two (common practice; no reference is
/// made that far off, a slip of a power of ten is).
#[must_use]
pub fn is_near(marked: Decimal, stated: Decimal) -> bool {
    let twice = |one: Decimal| one.checked_mul(Decimal::TWO).unwrap_or(Decimal::MAX);
    stated <= twice(marked) && marked <= twice(stated)
}

fn figures(
    sizes: [Decimal; 2],
    spread: [Option<Decimal>; 2],
    drift: Option<Percent>,
    step: Option<Decimal>,
    stated: Stated,
) -> Option<ReferenceComplaint> {
    let mut others = spread.into_iter().chain([drift.map(|it| it.0), step]).flatten();
    if sizes.iter().any(|size| *size <= Decimal::ZERO) {
        Some(ReferenceComplaint::NotAboveZero)
    } else if !is_near(sizes[0], sizes[1]) {
        Some(ReferenceComplaint::FarFromMarked)
    } else if others.any(|one| one < Decimal::ZERO) {
        Some(ReferenceComplaint::BelowZero)
    } else {
        let below_one = |k: Decimal| (k < Decimal::ONE).then_some(ReferenceComplaint::CoverageFactor);
        if let Stated::Expanded { k } = stated { below_one(k.0) } else { None }
    }
}
