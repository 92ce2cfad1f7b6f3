//! One edition as it stands in its data file.

use crate::bench::EditionId;
use crate::limits::Source;
use crate::quantity::{Amps, Celsius, Ohms, Percent};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// A figure with its source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Figure<Q> {
    /// The figure.
    pub value: Q,
    /// Where it stands, and how sure it is.
    pub source: Source,
}

/// An edition of the tester standard.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Edition {
    /// Id.
    pub id: EditionId,
    /// What people call it, for example `IEC 61557-2:2019`.
    pub title: String,
    /// Most open-circuit voltage, as a multiple of the nominal output voltage.
    #[ts(type = "Figure<string>")]
    pub open_circuit_factor: Figure<Decimal>,
    /// The load at which the open-circuit voltage is checked, at least this for each volt, Ω/V.
    pub open_circuit_load_ohm_per_volt: Figure<Ohms>,
    /// Least current through the rated load.
    pub rated_current_a: Figure<Amps>,
    /// The rated load for each volt of nominal output voltage, Ω/V.
    pub rated_load_ohm_per_volt: Figure<Ohms>,
    /// Most measuring current, peak.
    pub most_current_a: Figure<Amps>,
    /// Most a.c. part of it, peak.
    pub most_ripple_a: Figure<Amps>,
    /// Most operating uncertainty, % of the measured value.
    pub operating_uncertainty_percent: Figure<Percent>,
    /// What the variations are multiplied with in the operating uncertainty: B = |A| + f·√(E1² + E2² + E3²).
    #[ts(type = "Figure<string>")]
    pub variation_factor: Figure<Decimal>,
    /// Reference temperature.
    pub reference_temperature_c: Figure<Celsius>,
    /// How far from it still are reference conditions, K.
    pub reference_within_k: Figure<Celsius>,
    /// Lowest rated operating temperature.
    pub coldest_c: Figure<Celsius>,
    /// Highest rated operating temperature.
    pub warmest_c: Figure<Celsius>,
}

/// Why the file of an edition is refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditionComplaint {
    /// Not JSON, or not the fields of an edition.
    #[error("{0}")]
    Unreadable(String),
    /// A figure that has to be above zero and is not.
    #[error("the figures of an edition are above zero")]
    NotAboveZero,
}

impl Edition {
    /// Reads an edition from the bytes of its file.
    ///
    /// # Errors
    /// An [`EditionComplaint`] for what cannot be read or judged by.
    pub fn load(bytes: &[u8]) -> Result<Self, EditionComplaint> {
        let edition: Self =
            serde_json::from_slice(bytes).map_err(|error| EditionComplaint::Unreadable(error.to_string()))?;
        let figures = [
            edition.open_circuit_factor.value,
            edition.open_circuit_load_ohm_per_volt.value.0,
            edition.rated_current_a.value.0,
            edition.rated_load_ohm_per_volt.value.0,
            edition.most_current_a.value.0,
            edition.most_ripple_a.value.0,
            edition.operating_uncertainty_percent.value.0,
            edition.variation_factor.value,
            edition.reference_within_k.value.0,
        ];
        let above_zero = figures.iter().all(|figure| *figure > Decimal::ZERO);
        if above_zero { Ok(edition) } else { Err(EditionComplaint::NotAboveZero) }
    }
}
