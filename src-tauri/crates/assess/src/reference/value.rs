//! What the certificate of a reference states, value by value.

use crate::quantity::{Amps, CoverageFactor, Ohms, Percent, PpmPerKelvin, PpmPerVolt, Volts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How an uncertainty was stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
pub enum Stated {
    /// An expanded uncertainty U with its k (a calibration certificate): normal, u = U / k.
    Expanded {
        /// k.
        k: CoverageFactor,
    },
    /// A tolerance or an accuracy without a distribution: rectangular, u = half-width / √3.
    Tolerance,
}

/// One known resistance of a resistor or of a box.
///
/// Its uncertainty at the value is `within_percent` of the stated value plus `within_ohm`; a certificate gives one or
/// both. Neither given: the value is not known well enough to judge by.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct KnownResistance {
    /// What is marked on it, Ω. Names the value within its reference.
    pub nominal_ohm: Ohms,
    /// What the certificate states, Ω.
    pub stated_ohm: Ohms,
    /// Half-width or U, % of the stated value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_percent: Option<Percent>,
    /// Half-width or U, Ω, added to the per cent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_ohm: Option<Ohms>,
    /// How it was stated.
    pub stated: Stated,
    /// Most change since the certificate (drift), % of the value; rectangular. Absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub drift_percent: Option<Percent>,
    /// Voltage coefficient, its magnitude. Absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub voltage_coefficient: Option<PpmPerVolt>,
    /// The voltage its value was stated at, V d.c. Absent: as good as none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub stated_at_v: Option<Volts>,
    /// Temperature coefficient, its magnitude. Absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub temperature_coefficient: Option<PpmPerKelvin>,
    /// The most voltage it may be used at, V d.c. Absent: not stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub rated_voltage_v: Option<Volts>,
}

/// What a voltmeter or probe shows, up to an indication.
///
/// A range speaks for the indications above the next lower range and up to its own nominal one. The true voltage is
/// indication × stated / nominal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct VoltageRange {
    /// The indication the range goes up to, V.
    pub nominal_v: Volts,
    /// The true voltage at that indication, V; as nominal where no correction is stated.
    pub stated_v: Volts,
    /// Half-width or U, % of the indication.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_percent: Option<Percent>,
    /// Half-width or U, V, added to the per cent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_v: Option<Volts>,
    /// How it was stated. An accuracy of ±(p % + n digits) already contains the step of the display.
    pub stated: Stated,
    /// Step of the display, V.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub resolution_v: Option<Volts>,
    /// Most change since the certificate (drift), % of the indication; rectangular. Absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub drift_percent: Option<Percent>,
}

/// What a current meter shows, up to an indication; as [`VoltageRange`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct CurrentRange {
    /// The indication the range goes up to, A.
    pub nominal_a: Amps,
    /// The true current at that indication, A; as nominal where no correction is stated.
    pub stated_a: Amps,
    /// Half-width or U, % of the indication.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_percent: Option<Percent>,
    /// Half-width or U, A, added to the per cent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub within_a: Option<Amps>,
    /// How it was stated. An accuracy of ±(p % + n digits) already contains the step of the display.
    pub stated: Stated,
    /// Step of the display, A.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub resolution_a: Option<Amps>,
    /// Most change since the certificate (drift), % of the indication; rectangular. Absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub drift_percent: Option<Percent>,
}
