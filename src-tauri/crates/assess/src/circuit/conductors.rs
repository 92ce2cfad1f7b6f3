//! The live conductors of each arrangement, and the nominal voltages between them.

use super::{Conductor, Conductors, Earthing, Electrical, Measure, MeasureName, Nominal};
use crate::quantity::Volts;

impl Conductors {
    /// The live conductors, in the order they are read in. N is live, PEN is not.
    #[must_use]
    pub const fn live(self) -> &'static [Conductor] {
        use Conductor::{L, L1, L2, L3, M, Minus, N, Plus};
        match self {
            Self::SinglePhase => &[L, N],
            Self::SinglePhasePen => &[L],
            Self::TwoPhase => &[L1, L2],
            Self::TwoPhaseN => &[L1, L2, N],
            Self::ThreePhase | Self::ThreePhasePen => &[L1, L2, L3],
            Self::ThreePhaseN => &[L1, L2, L3, N],
            Self::Dc => &[Plus, Minus],
            Self::DcMidpoint => &[Plus, M, Minus],
        }
    }

    /// What the earth end is called.
    #[must_use]
    pub const fn earthing(self) -> Earthing {
        match self {
            Self::SinglePhasePen | Self::ThreePhasePen => Earthing::Pen,
            _ => Earthing::Pe,
        }
    }
}

impl Measure {
    /// The measure by name alone.
    #[must_use]
    pub const fn name(&self) -> MeasureName {
        match self {
            Self::None => MeasureName::None,
            Self::Selv => MeasureName::Selv,
            Self::Pelv => MeasureName::Pelv,
            Self::Felv { .. } => MeasureName::Felv,
            Self::Separation => MeasureName::Separation,
        }
    }
}

impl Nominal {
    /// The voltage to earth; where it is not stated, the highest it can be.
    #[must_use]
    pub fn earth(&self) -> Volts {
        self.to_earth.unwrap_or(self.volts)
    }
}

impl Electrical {
    /// The nominal voltage that decides the limit: a FELV circuit is tested like the circuit that supplies it.
    #[must_use]
    pub const fn deciding(&self) -> &Nominal {
        match &self.measure {
            Measure::Felv { supply } => supply,
            _ => &self.nominal,
        }
    }

    /// The nominal voltage between two live conductors of the circuit. With three and more, one end at the neutral
    /// or midpoint stands for the voltage to earth (230 V of 400/230 V).
    #[must_use]
    pub fn between(&self, a: Conductor, b: Conductor) -> Volts {
        let middle = |conductor| matches!(conductor, Conductor::N | Conductor::M);
        let nominal = self.deciding();
        if self.conductors.live().len() > 2 && (middle(a) || middle(b)) { nominal.earth() } else { nominal.volts }
    }
}
