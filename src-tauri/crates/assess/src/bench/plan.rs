//! What is to be measured: the usual points of a tester, or own ones.

use super::{Resistor, Supply, TesterPosition, Warmth};
use crate::quantity::Volts;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What a planned point asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case", tag = "what")]
pub enum PlannedWhat {
    /// The indication at a known resistance.
    Indication {
        /// The resistor.
        resistor: Resistor,
    },
    /// Voltage with (nearly) nothing connected: at least 100 kΩ/V.
    OpenCircuit {
        /// The resistor; absent: only the meter.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        load: Option<Resistor>,
    },
    /// Voltage and current at the rated load.
    RatedLoad {
        /// The resistor; absent: none at hand has that value.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        load: Option<Resistor>,
    },
    /// Voltage and current at another load.
    FurtherLoad {
        /// The resistor.
        load: Resistor,
    },
    /// Current with the terminals shorted.
    ShortCircuit,
    /// Leads apart.
    LeadsOpen,
    /// Leads together.
    LeadsShorted,
    /// A.c. part of the measuring current.
    Ripple,
    /// Polarity at the terminals.
    Polarity,
}

/// One point of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct PlannedPoint {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// What.
    pub item: PlannedWhat,
    /// How many times.
    pub repeats: u32,
    /// Supply.
    #[serde(default)]
    pub supply: Supply,
    /// Position.
    #[serde(default)]
    pub position: TesterPosition,
    /// Temperature.
    #[serde(default, skip_serializing_if = "Warmth::is_reference")]
    #[ts(optional, as = "Option<Warmth>")]
    pub warmth: Warmth,
}
