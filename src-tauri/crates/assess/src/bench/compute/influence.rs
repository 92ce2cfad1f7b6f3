//! What may add to an uncertainty at the bench, and what is to be remarked of a measurement.

use crate::bench::Resistor;
use crate::ids::ReferenceId;
use crate::quantity::{Celsius, Ohms, Volts};
use crate::uncertainty::Budget;
use chrono::NaiveDate;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// A line of a bench budget.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "influence")]
pub enum Influence {
    /// A known resistance, by its certificate.
    Reference {
        /// Which.
        resistor: Resistor,
    },
    /// Change of a reference since its certificate.
    Drift {
        /// Which.
        reference: ReferenceId,
    },
    /// Change of a resistance with the voltage across it.
    VoltageCoefficient {
        /// Which.
        resistor: Resistor,
    },
    /// Change of a resistance with temperature.
    TemperatureCoefficient {
        /// Which.
        resistor: Resistor,
    },
    /// Input resistance of the meter across the terminals.
    MeterLoading {
        /// Which.
        reference: ReferenceId,
    },
    /// A meter, by its certificate or accuracy.
    Meter {
        /// Which.
        reference: ReferenceId,
    },
    /// Half a step of a meter's display.
    MeterResolution {
        /// Which.
        reference: ReferenceId,
    },
    /// Half a step of the tester's display, once.
    Resolution,
    /// Scatter of repeats: of this point, or taken over from the points that were repeated.
    Repeatability {
        /// Taken over from other points.
        pooled: bool,
    },
}

/// A computed figure with its budget.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Budgeted {
    /// The figure.
    pub value: f64,
    /// Its uncertainty, in the same unit.
    pub budget: Budget<Influence>,
}

/// Why something measured decides nothing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum WhyUndecided {
    /// The reference is not among those of the run.
    UnknownReference {
        /// Which.
        reference: ReferenceId,
    },
    /// The reference has no such value, or none that can be reckoned with.
    UnknownResistance {
        /// Which.
        resistor: Resistor,
    },
    /// Its certificate states neither an uncertainty nor a tolerance.
    NoUncertainty {
        /// Which.
        reference: ReferenceId,
    },
    /// The resistor is not rated for the test voltage.
    AboveRating {
        /// Which.
        resistor: Resistor,
        /// Its rating.
        rated_v: Volts,
    },
    /// Not a voltmeter, or one whose input resistance is not known.
    NotAVoltmeter {
        /// Which.
        reference: ReferenceId,
    },
    /// Not a current meter.
    NotACurrentMeter {
        /// Which.
        reference: ReferenceId,
    },
    /// The indication lies above all ranges of the meter.
    AboveMeter {
        /// Which.
        reference: ReferenceId,
    },
    /// Neither a known resistor nor a meter was at the terminals.
    NothingKnown,
    /// Nothing was read at this load.
    NothingRead,
    /// The card states no accuracy there.
    NoStatedAccuracy,
    /// Resistance and indication lie outside every range of the card.
    OutsideCard,
    /// Some repeats were exact and some were not.
    MixedRepeats,
    /// The open-circuit voltage was measured at a load heavier than the standard asks; lighter, it may be higher.
    LoadTooHeavy {
        /// The load, the meter included.
        load_ohm: Ohms,
        /// The least it should be.
        least_ohm: Ohms,
    },
    /// The load was too far from the rated one to tell what the current is there.
    LoadNotRated {
        /// The load, the meter included.
        load_ohm: Ohms,
        /// The rated load.
        rated_ohm: Ohms,
    },
    /// Figures beyond all arithmetic.
    BeyondArithmetic,
}

/// What is to be remarked of a decision.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "remark")]
pub enum PointRemark {
    /// The certificate of a reference had lapsed: its uncertainty is no longer vouched for, and what conforms does so
    /// only with that condition.
    LapsedReference {
        /// Which.
        reference: ReferenceId,
        /// Its last day, if it had one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        valid_until: Option<NaiveDate>,
    },
    /// Permitted error over U of the reference (k = 2) is below 4.
    LowRatio {
        /// The ratio.
        ratio: f64,
        /// How sure it is that the error is within the permitted one, 0 to 1.
        probability: f64,
    },
    /// The resistor is high and its voltage coefficient is not stated.
    VoltageCoefficientNotStated {
        /// Which.
        resistor: Resistor,
    },
    /// Nothing was repeated at this test voltage: the budget has no repeatability.
    RepeatabilityNotTested,
    /// Read less often than the run's plan asks.
    FewerThanPlanned {
        /// Times read.
        taken: u32,
        /// Times planned.
        planned: u32,
    },
    /// One of the repeats lies outside what is permitted, though their mean does not.
    RepeatOutside,
    /// Taken outside the reference temperature, for want of a point at it.
    OutsideReferenceTemperature {
        /// The temperature.
        temperature_c: Celsius,
    },
}

/// Quantities up to here can be multiplied with each other without leaving exact arithmetic (10¹⁴; a display of five
/// digits in GΩ stays below).
pub(super) fn reckonable(figure: Decimal) -> bool {
    figure.abs() <= Decimal::from_parts(276_447_232, 23_283, 0, false, 0)
}
