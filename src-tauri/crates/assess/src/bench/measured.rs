//! What was measured at the bench: each one immutable fact.

use crate::ids::{BenchId, MeasuredId, ReferenceId};
use crate::moment::Moment;
use crate::quantity::{Amps, Celsius, Ohms, Shown, Volts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Before or after an adjustment. Without one, everything is as found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Series {
    /// As it came.
    #[default]
    AsFound,
    /// As it leaves.
    AsLeft,
}

/// What the tester is supplied with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Supply {
    /// The nominal voltage, or a fresh battery.
    #[default]
    Nominal,
    /// The lowest battery voltage its own test accepts.
    LowestBattery,
}

/// How the tester lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum TesterPosition {
    /// The reference position.
    #[default]
    Reference,
    /// Turned by 90° one way.
    TurnedLeft,
    /// Turned by 90° the other way.
    TurnedRight,
}

/// Under which conditions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, default)]
pub struct Conditions {
    /// Supply.
    pub supply: Supply,
    /// Position.
    pub position: TesterPosition,
    /// Temperature of tester and references, °C; absent: not measured, taken as reference conditions and said so.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub temperature_c: Option<Celsius>,
}

/// One known resistance of one reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Resistor {
    /// The reference.
    pub reference: ReferenceId,
    /// Which of its values, by what is marked on it, Ω.
    pub nominal_ohm: Ohms,
}

/// What a meter showed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct MeterReading<Q> {
    /// The meter.
    pub reference: ReferenceId,
    /// Its indication.
    pub shown: Q,
}

/// Which load it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum LoadRole {
    /// The rated load, `U_N` × 1000 Ω/V.
    Rated,
    /// Another one.
    Further,
}

/// Voltage and current at a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LoadReading {
    /// Which.
    pub role: LoadRole,
    /// The resistor at the terminals.
    pub load: Resistor,
    /// Voltage at the terminals. The meter loads the tester as well.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub voltage: Option<MeterReading<Volts>>,
    /// Current through the load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub current: Option<MeterReading<Amps>>,
}

/// Which terminal is positive; recorded, no fault by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Polarity {
    /// The line terminal.
    LinePositive,
    /// The earth terminal.
    EarthPositive,
}

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case", tag = "what")]
pub enum MeasuredWhat {
    /// What the tester showed at a known resistance.
    Indication {
        /// The resistor at the terminals.
        resistor: Resistor,
        /// A voltmeter across it, which loads the tester.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        across: Option<ReferenceId>,
        /// What was shown.
        shown: Shown,
    },
    /// Voltage with (nearly) nothing connected.
    OpenCircuit {
        /// The resistor at the terminals; absent: only the meter.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        load: Option<Resistor>,
        /// Voltage at the terminals.
        voltage: MeterReading<Volts>,
    },
    /// Voltage or current, or both, at a load.
    AtLoad(LoadReading),
    /// Current with the terminals shorted through a meter.
    ShortCircuit {
        /// The current.
        current: MeterReading<Amps>,
    },
    /// A.c. part of the measuring current, its peak.
    Ripple {
        /// The peak.
        current: MeterReading<Amps>,
    },
    /// Leads apart.
    LeadsOpen {
        /// What was shown.
        shown: Shown,
    },
    /// Leads together.
    LeadsShorted {
        /// What was shown.
        shown: Shown,
    },
    /// Polarity at the terminals.
    Polarity {
        /// Which is positive.
        positive: Polarity,
    },
}

/// One thing measured. It is never changed: a mistyped one is withdrawn, and measured again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// Its id.
    pub id: MeasuredId,
    /// The run it belongs to.
    pub bench: BenchId,
    /// As found or as left.
    #[serde(default)]
    pub series: Series,
    /// Test voltage set, V d.c.
    pub test_voltage_v: Volts,
    /// Conditions.
    #[serde(default)]
    pub conditions: Conditions,
    /// When.
    pub at: Moment,
    /// What.
    pub item: MeasuredWhat,
}
