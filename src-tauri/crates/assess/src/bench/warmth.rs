//! Which temperature something was, or is to be, measured at.

use crate::quantity::Celsius;
use crate::standard::Edition;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Near an end of the rated range of temperature: as near as reference conditions are kept, ± 2 K (23 ± 2 °C, seen;
/// that the ends are kept alike is common practice and asked by no edition), K.
const NEAR: Decimal = Decimal::TWO;

/// Which temperature it is, by an edition of the tester standard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Warmth {
    /// Reference conditions, or not measured.
    #[default]
    Reference,
    /// The cold end of the rated range.
    Cold,
    /// The warm end.
    Warm,
    /// None of these.
    Other,
}

impl Warmth {
    /// The one a temperature is.
    #[must_use]
    pub fn of(temperature: Option<Celsius>, edition: &Edition) -> Self {
        let Some(Celsius(t)) = temperature else { return Self::Reference };
        if (t - edition.reference_temperature_c.value.0).abs() <= edition.reference_within_k.value.0 {
            Self::Reference
        } else if t <= edition.coldest_c.value.0 + NEAR {
            Self::Cold
        } else if t >= edition.warmest_c.value.0 - NEAR {
            Self::Warm
        } else {
            Self::Other
        }
    }

    /// Reference conditions, or not measured.
    #[must_use]
    pub fn is_reference(&self) -> bool {
        *self == Self::Reference
    }
}
