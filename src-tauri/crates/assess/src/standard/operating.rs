//! Operating uncertainty of a tester.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// The parts of an operating uncertainty, signed, % of the measured value.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct OperatingParts {
    /// A: intrinsic uncertainty under reference conditions.
    pub intrinsic: f64,
    /// E1: change by position.
    pub position: f64,
    /// E2: change by supply voltage.
    pub supply: f64,
    /// E3: change by temperature.
    pub temperature: f64,
}

/// B = |A| + 1.15·√(E1² + E2² + E3²), % of the measured value (IEC 61557-1; formula memory-H, meaning of the parts
/// seen; 1.15 ≈ 2/√3, calc).
#[must_use]
pub fn operating_uncertainty(parts: OperatingParts) -> f64 {
    let OperatingParts { intrinsic, position, supply, temperature } = parts;
    intrinsic.abs() + 1.15 * (position * position + supply * supply + temperature * temperature).sqrt()
}
