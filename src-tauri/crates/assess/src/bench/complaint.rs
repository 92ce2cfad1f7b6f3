//! What cannot have been measured in a run.

use super::{BenchRun, LoadReading, Measured, MeasuredWhat, Series};
use chrono::TimeDelta;
use rust_decimal::Decimal;

/// Why something cannot have been measured in a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeasuredComplaint {
    /// It names another run.
    #[error("it is of another run")]
    OtherRun,
    /// A test voltage that is not above zero.
    #[error("a test voltage that is not above zero")]
    TestVoltage,
    /// As left, in a run without an adjustment.
    #[error("as left without an adjustment")]
    NotAdjusted,
    /// A voltage or a current below zero. Which terminal is positive is recorded by itself.
    #[error("a meter reading below zero")]
    BelowZero,
    /// A temperature at which nobody works at a bench.
    #[error("a temperature beyond 100 °C either way")]
    Temperature,
    /// More than a day before the run began: clocks and offsets explain no more.
    #[error("measured before the run began")]
    BeforeTheRun,
}

impl Measured {
    /// The first reason why it cannot have been measured in this run; none: it can.
    #[must_use]
    pub fn complaint(&self, run: &BenchRun) -> Option<MeasuredComplaint> {
        let below_zero = self.item.meters().into_iter().flatten().any(|shown| shown < Decimal::ZERO);
        let hot = self.conditions.temperature_c.is_some_and(|it| !it.is_of_a_bench());
        let early = run.started.signed_duration_since(self.at) > TimeDelta::days(1);
        [
            (self.bench != run.id, MeasuredComplaint::OtherRun),
            (self.test_voltage_v.0 <= Decimal::ZERO, MeasuredComplaint::TestVoltage),
            (self.series == Series::AsLeft && !run.adjusted, MeasuredComplaint::NotAdjusted),
            (below_zero, MeasuredComplaint::BelowZero),
            (hot, MeasuredComplaint::Temperature),
            (early, MeasuredComplaint::BeforeTheRun),
        ]
        .into_iter()
        .find_map(|(wrong, complaint)| wrong.then_some(complaint))
    }
}

impl MeasuredWhat {
    /// What was read on meters, in V and A.
    fn meters(&self) -> [Option<Decimal>; 2] {
        match self {
            Self::OpenCircuit { voltage, .. } => [Some(voltage.shown.0), None],
            Self::AtLoad(LoadReading { voltage, current, .. }) => {
                [voltage.map(|it| it.shown.0), current.map(|it| it.shown.0)]
            }
            Self::ShortCircuit { current } | Self::Ripple { current } => [None, Some(current.shown.0)],
            Self::Indication { .. } | Self::LeadsOpen { .. } | Self::LeadsShorted { .. } | Self::Polarity { .. } => {
                [None, None]
            }
        }
    }
}
