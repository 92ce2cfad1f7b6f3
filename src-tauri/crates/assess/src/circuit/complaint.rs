//! Combinations that cannot be a circuit.

use super::{Conductors, Current, Earthing, Electrical, Measure, MeasureName, Nominal};
use crate::quantity::Volts;
use rust_decimal::Decimal;

/// Why something cannot be a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CircuitComplaint {
    /// A nominal voltage that is not above zero.
    #[error("a nominal voltage that is not above zero")]
    NotAboveZero,
    /// A protective measure above the nominal voltage it is possible up to.
    #[error("{measure:?} above its bound of {} V", bound.0)]
    AboveBound {
        /// The measure.
        measure: MeasureName,
        /// The bound, V.
        bound: Volts,
    },
    /// Above low voltage, which the limit sets are for.
    #[error("above low voltage, {} V", bound.0)]
    AboveLowVoltage {
        /// The bound, V.
        bound: Volts,
    },
    /// A voltage to earth above the voltage between the live conductors.
    #[error("a voltage to earth above the nominal voltage")]
    ToEarthAbove,
    /// Conductors of a d.c. circuit on an a.c. one, or the other way round.
    #[error("conductors of the other kind of current")]
    OtherCurrent,
    /// A PEN, which belongs to the supply system, on a circuit kept apart from it.
    #[error("a PEN on a circuit by {measure:?}")]
    Pen {
        /// The measure.
        measure: MeasureName,
    },
}

impl Electrical {
    /// Every reason why this cannot be a circuit; none: it can.
    #[must_use]
    pub fn complaints(&self) -> Vec<CircuitComplaint> {
        let measure = self.measure.name();
        let mut complaints: Vec<_> = nominal_complaints(&self.nominal).collect();
        if let Measure::Felv { supply } = &self.measure {
            complaints.extend(nominal_complaints(supply));
        }
        if let Some(bound) = bound(measure, self.nominal.current)
            && self.nominal.volts > bound
        {
            complaints.push(CircuitComplaint::AboveBound { measure, bound });
        }
        let direct = matches!(self.conductors, Conductors::Dc | Conductors::DcMidpoint);
        // d.c. also runs on two wires named L and N; phases and L+/L− belong to one kind of current alone.
        let either = matches!(self.conductors, Conductors::SinglePhase | Conductors::SinglePhasePen);
        if !either && direct != (self.nominal.current == Current::Dc) {
            complaints.push(CircuitComplaint::OtherCurrent);
        }
        let apart = matches!(measure, MeasureName::Selv | MeasureName::Pelv | MeasureName::Separation);
        if apart && self.conductors.earthing() == Earthing::Pen {
            complaints.push(CircuitComplaint::Pen { measure });
        }
        complaints
    }
}

fn nominal_complaints(nominal: &Nominal) -> impl Iterator<Item = CircuitComplaint> + use<> {
    // IEC 60364-1: low voltage is up to 1000 V a.c. or 1500 V d.c. (memory-H).
    let low_voltage = Volts(Decimal::from(if nominal.current == Current::Ac { 1000 } else { 1500 }));
    let zero = Volts(Decimal::ZERO);
    let not_above_zero = nominal.volts <= zero || nominal.to_earth.is_some_and(|volts| volts <= zero);
    let above = nominal.volts > low_voltage;
    let to_earth_above = nominal.to_earth.is_some_and(|volts| volts > nominal.volts);
    [
        not_above_zero.then_some(CircuitComplaint::NotAboveZero),
        above.then_some(CircuitComplaint::AboveLowVoltage { bound: low_voltage }),
        to_earth_above.then_some(CircuitComplaint::ToEarthAbove),
    ]
    .into_iter()
    .flatten()
}

/// Up to which nominal voltage a measure is possible. Extra-low voltage: 50 V a.c., 120 V ripple-free d.c. (seen);
/// electrical separation: 500 V (IEC 60364-4-41 clause 413, memory-H).
fn bound(measure: MeasureName, current: Current) -> Option<Volts> {
    let volts = match (measure, current) {
        (MeasureName::None, _) => return None,
        (MeasureName::Selv | MeasureName::Pelv | MeasureName::Felv, Current::Ac) => 50,
        (MeasureName::Selv | MeasureName::Pelv | MeasureName::Felv, Current::Dc) => 120,
        (MeasureName::Separation, _) => 500,
    };
    Some(Volts(Decimal::from(volts)))
}
