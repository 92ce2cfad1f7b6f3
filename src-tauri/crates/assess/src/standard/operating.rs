//! Operating uncertainty of a tester.

use super::Edition;
use rust_decimal::prelude::ToPrimitive;
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

/// B = |A| + f·√(E1² + E2² + E3²), % of the measured value, with the factor f of the edition: 1.15 (IEC 61557-1; formula
/// memory-H, meaning of the parts seen; 1.15 ≈ 2/√3, calc).
#[must_use]
pub fn operating_uncertainty(parts: OperatingParts, edition: &Edition) -> f64 {
    let OperatingParts { intrinsic, position, supply, temperature } = parts;
    let factor = edition.variation_factor.value.to_f64().unwrap_or(f64::INFINITY);
    intrinsic.abs() + factor * (position * position + supply * supply + temperature * temperature).sqrt()
}
