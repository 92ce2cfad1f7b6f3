//! Figures that cannot be a tester's card.

use super::{Card, Range};
use crate::quantity::Volts;
use rust_decimal::Decimal;

/// Why something cannot be a tester's card.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardComplaint {
    /// A test voltage that is not above zero.
    #[error("a test voltage that is not above zero")]
    Voltage,
    /// One test voltage twice.
    #[error("{} V twice", .0.0)]
    VoltageTwice(Volts),
    /// A range that ends below its beginning, or begins below zero.
    #[error("a range that ends where it begins or before")]
    EndsTurned,
    /// Ranges that overlap.
    #[error("a range that begins below the end of the one before")]
    Overlap,
    /// A step of the display that is not above zero.
    #[error("a step of the display that is not above zero")]
    Step,
    /// A step of the display that is larger than its range.
    #[error("a step of the display that is larger than its range")]
    StepTooLarge,
    /// An accuracy or an uncertainty below zero.
    #[error("an accuracy below zero")]
    Accuracy,
}

impl Card {
    /// The first reason why this cannot be a tester's card; none: it can.
    #[must_use]
    pub fn complaint(&self) -> Option<CardComplaint> {
        self.voltages.iter().enumerate().find_map(|(index, one)| {
            if one.test_voltage_v.0 <= Decimal::ZERO {
                return Some(CardComplaint::Voltage);
            }
            if self.voltages[..index].iter().any(|before| before.test_voltage_v == one.test_voltage_v) {
                return Some(CardComplaint::VoltageTwice(one.test_voltage_v));
            }
            if one.operating_uncertainty_percent.is_some_and(|percent| percent.0 < Decimal::ZERO) {
                return Some(CardComplaint::Accuracy);
            }
            let overlap = || one.ranges.windows(2).any(|two| two[1].from_ohm < two[0].to_ohm);
            one.ranges.iter().find_map(Range::complaint).or_else(|| overlap().then_some(CardComplaint::Overlap))
        })
    }
}

impl Range {
    /// The first reason why this cannot be a range of a display; none: it can.
    #[must_use]
    pub fn complaint(&self) -> Option<CardComplaint> {
        let Self { from_ohm, to_ohm, resolution_ohm, accuracy_percent, accuracy_digits: _ } = self;
        if from_ohm.0 < Decimal::ZERO || to_ohm <= from_ohm {
            Some(CardComplaint::EndsTurned)
        } else if resolution_ohm.0 <= Decimal::ZERO {
            Some(CardComplaint::Step)
        } else if resolution_ohm > to_ohm {
            Some(CardComplaint::StepTooLarge)
        } else {
            accuracy_percent.filter(|percent| percent.0 < Decimal::ZERO).map(|_| CardComplaint::Accuracy)
        }
    }
}
