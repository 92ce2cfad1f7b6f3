//! What decides a circuit's limit and its pairs.

use crate::quantity::Volts;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Kind of current.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Current {
    /// Alternating.
    #[default]
    Ac,
    /// Direct, ripple-free.
    Dc,
}

/// Nominal voltage of a circuit: between its live conductors, and to earth where a set asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Nominal {
    /// The highest between two live conductors, in volts (400 for 400/230 V).
    pub volts: Volts,
    /// Alternating or direct.
    pub current: Current,
    /// The highest from a live conductor to earth, in volts (230 for 400/230 V).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub to_earth: Option<Volts>,
}

/// Protective measure of a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case", tag = "kind")]
pub enum Measure {
    /// None that changes the limit: automatic disconnection of supply.
    None,
    /// Safety extra-low voltage.
    Selv,
    /// Protective extra-low voltage.
    Pelv,
    /// Functional extra-low voltage: tested like the circuit that supplies it.
    Felv {
        /// The supply's nominal voltage.
        supply: Nominal,
    },
    /// Electrical separation.
    Separation,
}

/// A protective measure by name alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum MeasureName {
    /// None.
    None,
    /// SELV.
    Selv,
    /// PELV.
    Pelv,
    /// FELV.
    Felv,
    /// Electrical separation.
    Separation,
}

/// A conductor's name. N is a live conductor, PEN is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
pub enum Conductor {
    /// The one line conductor.
    L,
    /// Line conductor 1.
    L1,
    /// Line conductor 2.
    L2,
    /// Line conductor 3.
    L3,
    /// Neutral.
    N,
    /// d.c. positive.
    #[serde(rename = "L+")]
    Plus,
    /// d.c. midpoint.
    M,
    /// d.c. negative.
    #[serde(rename = "L-")]
    Minus,
}

/// The live conductors of a circuit; the trade's usual arrangements.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Conductors {
    /// L, N.
    SinglePhase,
    /// L with PEN.
    SinglePhasePen,
    /// L1, L2.
    TwoPhase,
    /// L1, L2, N.
    TwoPhaseN,
    /// L1, L2, L3.
    ThreePhase,
    /// L1, L2, L3, N.
    ThreePhaseN,
    /// L1, L2, L3 with PEN.
    ThreePhasePen,
    /// L+, L−.
    Dc,
    /// L+, M, L−.
    DcMidpoint,
}

/// What the earth end is called on this circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Earthing {
    /// A protective conductor connected to earth.
    Pe,
    /// A combined protective and neutral conductor.
    Pen,
}

/// Whether the loads hang on the circuit while it is tested.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Loads {
    /// Disconnected, lamps out, switches closed.
    #[default]
    Out,
    /// Connected.
    Connected,
    /// Connected, with electronics among them: lives are joined and tested to earth only.
    Electronics,
}

/// An item for which some sets give a row of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Item {
    /// Sheathed heating elements.
    HeatingElement,
    /// A functional-earth connection.
    FunctionalEarth,
}

/// A location for which some sets give a row of its own or further pairs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Location {
    /// Wet rooms and outdoors.
    Wet,
    /// Fire risk.
    FireRisk,
}

/// The electrical facet of a circuit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Electrical {
    /// Nominal voltage.
    pub nominal: Nominal,
    /// Protective measure.
    pub measure: Measure,
    /// Live conductors and the earth's kind.
    pub conductors: Conductors,
    /// Loads while testing.
    #[serde(default)]
    pub loads: Loads,
    /// Whether lives are joined for the test to earth.
    #[serde(default)]
    pub joined_to_earth: bool,
    /// A surge protector that cannot be disconnected.
    #[serde(default)]
    pub spd_stays: bool,
    /// A special item, if it is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub item: Option<Item>,
    /// A special location, if it is in one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub location: Option<Location>,
}

impl Electrical {
    /// A circuit with its loads out and nothing special about it.
    #[must_use]
    pub const fn new(nominal: Nominal, measure: Measure, conductors: Conductors) -> Self {
        Self {
            nominal,
            measure,
            conductors,
            loads: Loads::Out,
            joined_to_earth: false,
            spd_stays: false,
            item: None,
            location: None,
        }
    }
}
