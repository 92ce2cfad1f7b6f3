//! What nobody measured or stated and a budget therefore leaves out: never taken for nought unsaid.

use crate::bench::{LoadReading, Measured, MeasuredWhat, Resistor, Warmth};
use crate::ids::ReferenceId;
use crate::reference::Reference;
use crate::standard::Edition;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use ts_rs::TS;

/// Something no budget of a run could take in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "untold")]
pub enum Untold {
    /// The temperature of some measurement: taken as reference conditions.
    Temperature,
    /// How far a reference may have changed since its certificate.
    Drift {
        /// Which.
        reference: ReferenceId,
    },
    /// What temperature does to a reference, used where it was not the reference temperature or is not known.
    TemperatureCoefficient {
        /// Which.
        reference: ReferenceId,
    },
}

/// What a run leaves untold, each once.
pub(super) fn untold(measured: &[&Measured], references: &[Reference], edition: &Edition) -> Vec<Untold> {
    let mut all = BTreeSet::new();
    for one in measured {
        let unknown = one.conditions.temperature_c.is_none();
        let indicates = matches!(one.item, MeasuredWhat::Indication { .. });
        if unknown && indicates {
            all.insert(Untold::Temperature);
        }
        let Some(Resistor { reference, nominal_ohm }) = resistor(one) else { continue };
        let known = references.iter().find(|one| one.id == reference).and_then(|one| one.resistance(nominal_ohm));
        let Some(known) = known else { continue };
        if known.drift_percent.is_none() {
            all.insert(Untold::Drift { reference });
        }
        let away = unknown || Warmth::of(one.conditions.temperature_c, edition) != Warmth::Reference;
        if away && known.temperature_coefficient.is_none() {
            all.insert(Untold::TemperatureCoefficient { reference });
        }
    }
    all.into_iter().collect()
}

/// The resistor at the terminals.
const fn resistor(one: &Measured) -> Option<Resistor> {
    match one.item {
        MeasuredWhat::Indication { resistor, .. } => Some(resistor),
        MeasuredWhat::OpenCircuit { load, .. } => load,
        MeasuredWhat::AtLoad(LoadReading { load, .. }) => Some(load),
        MeasuredWhat::ShortCircuit { .. }
        | MeasuredWhat::Ripple { .. }
        | MeasuredWhat::LeadsOpen { .. }
        | MeasuredWhat::LeadsShorted { .. }
        | MeasuredWhat::Polarity { .. } => None,
    }
}
