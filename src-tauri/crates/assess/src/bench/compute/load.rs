//! Output voltage and current at loads, and the short-circuit current.

use super::known::{AtTerminals, Used, float};
use super::meter::Read;
use super::result::CurrentResult;
use super::{Budgeted, Decision, PointRemark, WhyUndecided};
use crate::bench::{Conditions, DecisionRule, LoadRole, Measured, MeasuredWhat, MeterReading, Resistor};
use crate::ids::MeasuredId;
use crate::quantity::{Amps, Ohms, Volts};
use crate::uncertainty::{Budget, Input};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What a load is measured for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum LoadKind {
    /// (Nearly) nothing connected.
    OpenCircuit,
    /// The rated load.
    Rated,
    /// Another load.
    Further,
}

/// Voltage and current at one load.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LoadResult {
    /// The fact.
    pub measured: MeasuredId,
    /// Conditions.
    pub conditions: Conditions,
    /// What for.
    pub kind: LoadKind,
    /// The load, the meter across it included.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub load_ohm: Option<Ohms>,
    /// The resistor by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub alone_ohm: Option<Ohms>,
    /// Voltage at the terminals, V; where only the current was measured, current × load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub voltage_v: Option<Budgeted>,
    /// The voltage was measured, and not worked out from the current.
    pub voltage_measured: bool,
    /// The least that the current through the rated load can be, A: the lower of current and voltage / rated load.
    /// A tester's voltage does not fall when the load gets lighter, nor its current when it gets heavier.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub least_current_a: Option<Budgeted>,
    /// The most it can be, A.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub most_current_a: Option<f64>,
    /// The decision on the requirement, for open circuit and rated load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub decision: Option<Decision>,
    /// Why there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub undecided: Option<WhyUndecided>,
    /// Remarks.
    pub remarks: Vec<PointRemark>,
}

/// A load as measured.
struct Taken {
    resistor: Option<Resistor>,
    voltage: Option<MeterReading<Volts>>,
    current: Option<MeterReading<Amps>>,
    kind: LoadKind,
}

fn taken(item: &MeasuredWhat) -> Option<Taken> {
    match *item {
        MeasuredWhat::OpenCircuit { load, voltage } => {
            Some(Taken { resistor: load, voltage: Some(voltage), current: None, kind: LoadKind::OpenCircuit })
        }
        MeasuredWhat::AtLoad(reading) => Some(Taken {
            resistor: Some(reading.load),
            voltage: reading.voltage,
            current: reading.current,
            kind: if reading.role == LoadRole::Rated { LoadKind::Rated } else { LoadKind::Further },
        }),
        _ => None,
    }
}

/// What one load comes to; `None` for what is no load.
pub(super) fn load(one: &Measured, used: &Used<'_>, rule: DecisionRule) -> Option<LoadResult> {
    let taken = taken(&one.item)?;
    let mut result = LoadResult {
        measured: one.id,
        conditions: one.conditions,
        kind: taken.kind,
        load_ohm: None,
        alone_ohm: None,
        voltage_v: None,
        voltage_measured: taken.voltage.is_some(),
        least_current_a: None,
        most_current_a: None,
        decision: None,
        undecided: None,
        remarks: Vec::new(),
    };
    match judge_load(&mut result, &taken, used, rule) {
        Ok(decision) => result.decision = decision,
        Err(why) => result.undecided = Some(why),
    }
    let lapsed = result.remarks.iter().any(|r| matches!(r, PointRemark::LapsedReference { .. }));
    result.decision = result.decision.map(|d| if lapsed { d.conditional() } else { d });
    Some(result)
}

fn judge_load(
    result: &mut LoadResult,
    taken: &Taken,
    used: &Used<'_>,
    rule: DecisionRule,
) -> Result<Option<Decision>, WhyUndecided> {
    let meter = taken.voltage.map(|v| used.reference(v.reference)).transpose()?;
    let at = used.at_terminals(taken.resistor, meter)?;
    result.load_ohm = Some(at.ohm);
    result.alone_ohm = at.alone;
    result.remarks.clone_from(&at.remarks);
    let voltage = taken.voltage.map(|v| used.voltage(v)).transpose()?;
    let current = taken.current.map(|c| used.current(c)).transpose()?;
    result.remarks.extend([&voltage, &current].into_iter().flatten().filter_map(|read| read.lapsed));
    result.remarks.dedup();

    // Current through the load alone, and with a meter across the terminals what that takes as well.
    let of_current = current.map(|current| volts_from_current(&current, &at));
    let volts = voltage.or_else(|| of_current.clone()).ok_or(WhyUndecided::NothingRead)?;
    result.voltage_v = Some(volts.clone().budgeted());
    match taken.kind {
        LoadKind::OpenCircuit => open_circuit(&volts, &at, used, rule).map(Some),
        // Measured both ways, the less favourable one decides.
        LoadKind::Rated | LoadKind::Further => {
            let both = [Some(&volts), of_current.as_ref()].into_iter().flatten();
            let lower = both.min_by_key(|read| read.value).unwrap_or(&volts);
            let decision = rated(result, lower, &at, used, rule);
            if taken.kind == LoadKind::Rated {
                return decision.map(Some);
            }
            // Another load can show that the rated current is not reached, never that it is.
            let short = decision.ok().filter(|decision| *decision == Decision::DoesNotConform);
            if short.is_none() {
                (result.least_current_a, result.most_current_a) = (None, None);
            }
            Ok(short)
        }
    }
}

/// V = I·R, R the resistor the current flows through.
fn volts_from_current(current: &Read, at: &AtTerminals) -> Read {
    let ohm = at.alone.unwrap_or(at.ohm).0;
    let (amps, r) = (float(current.value), float(ohm));
    let scaled = current.inputs.iter().cloned().map(|i| scale(i, r));
    // The resistor by itself: what a meter across it adds does not carry this current.
    let ratio = float(at.ohm.0) / r;
    let of_load = at.inputs.iter().filter(|i| !matches!(i.what, super::Influence::MeterLoading { .. }));
    let of_load = of_load.cloned().map(|i| scale(i, amps / (ratio * ratio)));
    Read { value: current.value * ohm, inputs: scaled.chain(of_load).collect(), lapsed: current.lapsed }
}

fn scale<N>(input: Input<N>, by: f64) -> Input<N> {
    let sensitivity = input.sensitivity * by;
    input.with_sensitivity(sensitivity)
}

/// At most factor × `U_N`, at a load of at least 100 kΩ/V. A heavier load shows what is too high, never that it is not.
fn open_circuit(volts: &Read, at: &AtTerminals, used: &Used<'_>, rule: DecisionRule) -> Result<Decision, WhyUndecided> {
    let bound = most_open_circuit(used).ok_or(WhyUndecided::BeyondArithmetic)?;
    let least = used.edition.open_circuit_load_ohm_per_volt.value.0.checked_mul(used.volts.0);
    let least_ohm = Ohms(least.ok_or(WhyUndecided::BeyondArithmetic)?);
    let decision = rule.at_most(volts.value, bound, Budget::combine(volts.inputs.clone()).expanded);
    if at.ohm < least_ohm && decision.is_within() {
        return Err(WhyUndecided::LoadTooHeavy { load_ohm: at.ohm, least_ohm });
    }
    Ok(decision)
}

/// The most open-circuit voltage, V.
pub(super) fn most_open_circuit(used: &Used<'_>) -> Option<Decimal> {
    used.edition.open_circuit_factor.value.checked_mul(used.volts.0).map(|v| v.normalize())
}

/// At least 1 mA through `U_N` × 1000 Ω/V. The load that was there, the meter included, is hardly ever exactly that: the
/// current at the rated load lies between I = V/R and V/`R_rated`, since a tester's voltage does not fall when the load
/// gets lighter, nor its current when it gets heavier (calc).
fn rated(
    result: &mut LoadResult,
    volts: &Read,
    at: &AtTerminals,
    used: &Used<'_>,
    rule: DecisionRule,
) -> Result<Decision, WhyUndecided> {
    let rated = used.edition.rated_load_ohm_per_volt.value.0.checked_mul(used.volts.0);
    let rated = rated.filter(|r| *r >= Decimal::ONE).ok_or(WhyUndecided::BeyondArithmetic)?;
    let least_asked = used.edition.rated_current_a.value.0;
    let by_load = volts.value / at.ohm.0;
    let by_rated = volts.value / rated;
    let (low, high) = (by_load.min(by_rated), by_load.max(by_rated));
    // Through the load itself its uncertainty counts; through the rated load only the voltage's.
    let through = if by_load <= by_rated { at.ohm.0 } else { rated };
    let mut inputs: Vec<_> = volts.inputs.iter().cloned().map(|i| scale(i, 1.0 / float(through))).collect();
    inputs.extend(at.inputs.iter().cloned().map(|i| scale(i, -float(by_load) / float(at.ohm.0))));
    let budget = Budget::combine(inputs);
    let expanded = budget.expanded;
    result.least_current_a = Some(Budgeted { value: float(low), budget });
    result.most_current_a = Some(float(high));
    let at_worst = rule.at_least(low, least_asked, expanded);
    let at_best = rule.at_least(high, least_asked, expanded);
    match (at_worst.is_within(), at_best.is_within()) {
        (true, _) => Ok(at_worst),
        (false, false) => Ok(at_best),
        (false, true) => Err(WhyUndecided::LoadNotRated { load_ohm: at.ohm, rated_ohm: Ohms(rated) }),
    }
}

/// Short-circuit current or ripple, at most what is allowed; `None` for anything else, an error where it decides nothing.
pub(super) fn current(
    one: &Measured,
    used: &Used<'_>,
    rule: DecisionRule,
) -> Option<Result<CurrentResult, WhyUndecided>> {
    let (reading, ripple) = match one.item {
        MeasuredWhat::ShortCircuit { current } => (current, false),
        MeasuredWhat::Ripple { current } => (current, true),
        _ => return None,
    };
    let bound = if ripple { &used.edition.most_ripple_a } else { &used.edition.most_current_a };
    Some(used.current(reading).map(|read| {
        let (value, lapsed) = (read.value, read.lapsed);
        let current_a = read.budgeted();
        let decision = rule.at_most(value, bound.value.0, current_a.budget.expanded);
        let decision = if lapsed.is_some() { decision.conditional() } else { decision };
        CurrentResult { measured: one.id, ripple, current_a, decision, remarks: lapsed.into_iter().collect() }
    }))
}
