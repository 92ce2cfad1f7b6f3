//! Exact quantities: decimals, never floating point.

use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

macro_rules! exact {
    ($($(#[$doc:meta])* $name:ident),+ $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
        #[serde(transparent)]
        pub struct $name(#[ts(type = "string")] pub Decimal);

        impl From<Decimal> for $name {
            fn from(value: Decimal) -> Self {
                Self(value)
            }
        }
    )+};
}

exact! {
    /// A resistance in ohms, an exact decimal string in files.
    Ohms,
    /// A voltage in volts, an exact decimal string in files.
    Volts,
    /// A current in amperes, an exact decimal string in files.
    Amps,
    /// A capacitance in farads, an exact decimal string in files.
    Farads,
    /// A time in seconds, an exact decimal string in files.
    Seconds,
    /// A share in per cent of the measured value, an exact decimal string in files.
    Percent,
    /// A temperature in degrees Celsius, an exact decimal string in files.
    Celsius,
    /// Relative change of a resistance with the voltage across it, parts per million for each volt, an exact decimal
    /// string in files.
    PpmPerVolt,
    /// Relative change with temperature, parts per million for each kelvin, an exact decimal string in files.
    PpmPerKelvin,
    /// What a standard uncertainty is multiplied by for the stated one (k), an exact decimal string in files.
    CoverageFactor,
}

impl Celsius {
    /// Whether it can be the temperature at a bench: within 100 °C of zero (common practice).
    #[must_use]
    pub fn is_of_a_bench(self) -> bool {
        self.0.abs() <= Decimal::ONE_HUNDRED
    }
}
