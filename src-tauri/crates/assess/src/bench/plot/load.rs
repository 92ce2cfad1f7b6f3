//! Output voltage against load, with the standard's bounds.

use super::axis::{Tick, decades};
use crate::bench::{Conditions, LoadKind, VoltageResult};
use crate::ids::MeasuredId;
use crate::quantity::{Ohms, Volts};
use crate::standard::Edition;
use rust_decimal::prelude::ToPrimitive;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One load.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LoadPoint {
    /// The fact.
    pub measured: MeasuredId,
    /// log10 of the load in ohms, the meter included.
    pub log: f64,
    /// The load.
    pub load_ohm: Ohms,
    /// Voltage at the terminals, V.
    pub voltage_v: f64,
    /// U of it, V: the bar.
    pub expanded_v: f64,
    /// What it was measured for.
    pub kind: LoadKind,
    /// Under what.
    pub conditions: Conditions,
}

/// One panel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LoadPlot {
    /// Test voltage: the least voltage from the rated load on, since 1 mA is asked through it.
    pub test_voltage_v: Volts,
    /// Ticks of the load axis.
    pub ticks: Vec<Tick>,
    /// The voltage axis goes from 0 to this, V.
    pub top_v: f64,
    /// The rated load; the lower bound starts there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub rated_log: Option<f64>,
    /// The most open-circuit voltage, V.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub most_v: Option<f64>,
    /// Points, heaviest load first.
    pub points: Vec<LoadPoint>,
}

/// The panel of one test voltage.
#[must_use]
pub fn load_plot(voltage: &VoltageResult, edition: &Edition) -> LoadPlot {
    let volts = voltage.test_voltage_v;
    let mut points: Vec<LoadPoint> = voltage
        .loads
        .iter()
        .filter_map(|load| {
            let (load_ohm, measured) = (load.load_ohm?, load.voltage_v.as_ref()?);
            Some(LoadPoint {
                measured: load.measured,
                log: load_ohm.0.to_f64().filter(|o| *o > 0.0)?.log10(),
                load_ohm,
                voltage_v: measured.value,
                expanded_v: measured.budget.expanded,
                kind: load.kind,
                conditions: load.conditions,
            })
        })
        .collect();
    points.sort_by(|a, b| a.log.total_cmp(&b.log).then(a.measured.cmp(&b.measured)));
    let rated = edition.rated_load_ohm_per_volt.value.0.checked_mul(volts.0).map(Ohms);
    let most_v = edition.open_circuit_factor.value.checked_mul(volts.0).and_then(|v| v.to_f64());
    let highest = points.iter().map(|p| p.voltage_v + p.expanded_v).fold(most_v.unwrap_or(0.0), f64::max);
    LoadPlot {
        test_voltage_v: volts,
        ticks: decades(points.iter().map(|p| p.load_ohm).chain(rated)),
        top_v: highest * 1.1,
        rated_log: rated.and_then(|r| r.0.to_f64()).filter(|r| *r > 0.0).map(f64::log10),
        most_v,
        points,
    }
}
