//! The usual points of a tester, chosen from the references at hand. Nothing is filled in: a plan only asks.

use super::{BenchResult, PlannedPoint, PlannedWhat, Resistor, Supply, TesterPosition, Warmth};
use crate::limits::{LimitSet, Minimum, Row};
use crate::quantity::{Ohms, Volts};
use crate::reference::Reference;
use crate::standard::Edition;
use crate::tester::{Card, Range, VoltageCard};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use std::collections::BTreeMap;

/// At least this often at the decision point, so that repeatability is part of the budget (common practice).
const REPEATS: u32 = 3;

/// The limit that readings are judged by at one test voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DecisionPoint {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// The limit, Ω.
    pub limit_ohm: Ohms,
}

/// The decision points of a limit set: each fixed minimum at the test voltage it asks for. A minimum by the nominal
/// voltage depends on the circuit and gives none.
#[must_use]
pub fn decision_points(set: &LimitSet) -> Vec<DecisionPoint> {
    let point = |row: &Row| match (row.test_voltage_v, row.minimum) {
        (Some(test_voltage_v), Minimum::Ohm(limit_ohm)) => Some(DecisionPoint { test_voltage_v, limit_ohm }),
        _ => None,
    };
    let mut points: Vec<DecisionPoint> = set.rows.iter().filter_map(point).collect();
    points.sort_unstable();
    points.dedup();
    points
}

/// The usual points for a card: near both ends of each range and once a decade between, at and below the decision points with repeats, the decision
/// point again at the lowest battery voltage; open circuit, rated load at both supplies, further loads, short circuit,
/// ripple, leads and polarity. A resistor is asked for only where its rating allows the test voltage.
#[must_use]
pub fn usual_points(
    card: &Card,
    references: &[Reference],
    decisions: &[DecisionPoint],
    edition: &Edition,
) -> Vec<PlannedPoint> {
    card.voltages.iter().flat_map(|voltage| at_voltage(voltage, references, decisions, edition)).collect()
}

fn at_voltage(
    card: &VoltageCard,
    references: &[Reference],
    decisions: &[DecisionPoint],
    edition: &Edition,
) -> Vec<PlannedPoint> {
    let volts = card.test_voltage_v;
    let hand = at_hand(references, volts);
    let limits = decisions.iter().filter(|d| d.test_voltage_v == volts).map(|d| d.limit_ohm);
    let decisive: Vec<Ohms> = limits.flat_map(|limit| around(&hand, limit)).collect();
    let mut repeats: BTreeMap<Ohms, u32> = card.ranges.iter().flat_map(|r| inside(&hand, r)).map(|r| (r, 1)).collect();
    repeats.extend(decisive.iter().map(|ohms| (*ohms, REPEATS)));

    let rated = edition.rated_load_ohm_per_volt.value.0.checked_mul(volts.0).map(Ohms);
    let rated_load = rated.and_then(|rated| hand.get(&rated).copied());
    let point = |item, repeats, supply| PlannedPoint {
        test_voltage_v: volts,
        item,
        repeats,
        supply,
        position: TesterPosition::Reference,
        warmth: Warmth::Reference,
    };
    let once = |item| point(item, 1, Supply::Nominal);
    let indication = |ohms: &Ohms| hand.get(ohms).map(|&resistor| PlannedWhat::Indication { resistor });

    let mut plan = vec![once(PlannedWhat::LeadsShorted), once(PlannedWhat::LeadsOpen)];
    plan.extend(repeats.iter().filter_map(|(ohms, times)| Some(point(indication(ohms)?, *times, Supply::Nominal))));
    plan.push(once(PlannedWhat::OpenCircuit { load: None }));
    plan.extend(
        open_circuit_load(&hand, references, volts, edition)
            .map(|load| once(PlannedWhat::OpenCircuit { load: Some(load) })),
    );
    plan.push(once(PlannedWhat::RatedLoad { load: rated_load }));
    let further = rated.map(|rated| further_loads(&hand, rated)).unwrap_or_default();
    plan.extend(further.into_iter().map(|load| once(PlannedWhat::FurtherLoad { load })));
    plan.extend([PlannedWhat::ShortCircuit, PlannedWhat::Ripple, PlannedWhat::Polarity].map(once));
    let weak = decisive.iter().filter_map(indication).chain([PlannedWhat::RatedLoad { load: rated_load }]);
    plan.extend(weak.map(|item| point(item, 1, Supply::LowestBattery)));
    plan
}

/// The least load the open-circuit voltage is checked at, Ω: U_N × 100 kΩ/V (IEC 61557-2:2019, 6.3, seen).
#[must_use]
pub fn least_open_circuit_load(volts: Volts, edition: &Edition) -> Option<Ohms> {
    edition.open_circuit_load_ohm_per_volt.value.0.checked_mul(volts.0).map(Ohms)
}

/// Whether the voltmeter or probe alone is light enough a load for the open-circuit voltage at a test voltage.
#[must_use]
pub fn reads_open_circuit(meter: &Reference, volts: Volts, edition: &Edition) -> bool {
    meter.input_resistance().zip(least_open_circuit_load(volts, edition)).is_some_and(|(input, least)| input >= least)
}

/// The heaviest resistor at hand that, with a voltmeter or probe across it, is still as light a load as is asked.
fn open_circuit_load(
    hand: &BTreeMap<Ohms, Resistor>,
    references: &[Reference],
    volts: Volts,
    edition: &Edition,
) -> Option<Resistor> {
    let least = least_open_circuit_load(volts, edition)?;
    let meter = references.iter().max_by_key(|one| one.input_resistance())?;
    let light = |ohms: &Ohms| meter.across(*ohms).is_some_and(|load| load >= least);
    hand.iter().find(|(ohms, _)| light(ohms)).map(|(_, resistor)| *resistor)
}

/// The known resistances that may be used at a test voltage, one a nominal value, lowest first.
fn at_hand(references: &[Reference], volts: Volts) -> BTreeMap<Ohms, Resistor> {
    let mut hand = BTreeMap::new();
    for reference in references {
        for value in reference.resistances() {
            if value.nominal_ohm.0 > Decimal::ZERO && value.rated_voltage_v.is_none_or(|rated| rated >= volts) {
                let resistor = Resistor { reference: reference.id, nominal_ohm: value.nominal_ohm };
                hand.entry(value.nominal_ohm).or_insert(resistor);
            }
        }
    }
    hand
}

/// The lowest and the highest resistance inside a range, and the lowest of each decade between: an interval spans what
/// lies between its points, so they lie no further apart than what is at hand allows (usual points are 0.5, 1, 2, 10,
/// 100 MΩ and up; memory-M).
fn inside(hand: &BTreeMap<Ohms, Resistor>, range: &Range) -> Vec<Ohms> {
    if range.from_ohm > range.to_ohm {
        return Vec::new();
    }
    let all: Vec<Ohms> = hand.range(range.from_ohm..=range.to_ohm).map(|(ohms, _)| *ohms).collect();
    let decade = |ohms: &Ohms| ohms.0.trunc().to_u64().and_then(u64::checked_ilog10);
    let lowest_of_each = all.chunk_by(|one, next| decade(one) == decade(next)).filter_map(|same| same.first());
    lowest_of_each.chain(all.last()).copied().collect()
}

/// At the limit, or the next above it; and the next below.
fn around(hand: &BTreeMap<Ohms, Resistor>, limit: Ohms) -> Vec<Ohms> {
    let below = hand.range(..limit).next_back();
    let at = hand.range(limit..).next();
    below.into_iter().chain(at).map(|(ohms, _)| *ohms).collect()
}

/// One load heavier and two lighter than the rated one, within a decade of it.
fn further_loads(hand: &BTreeMap<Ohms, Resistor>, rated: Ohms) -> Vec<Resistor> {
    let near = |ohms: &Ohms| ohms.0 * Decimal::TEN >= rated.0 && ohms.0 <= rated.0 * Decimal::TEN;
    let heavier = hand.range(..rated).next_back();
    let lighter = hand.range(rated..).filter(|(ohms, _)| **ohms != rated).take(2);
    heavier.into_iter().chain(lighter).filter(|(ohms, _)| near(ohms)).map(|(_, resistor)| *resistor).collect()
}

/// A resistance beside a limit that was read less often than repeatability asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReadTooSeldom {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// The limit, Ω.
    pub limit_ohm: Ohms,
    /// What is marked on the resistor next to it, Ω.
    pub nominal_ohm: Ohms,
    /// Times read.
    pub taken: u32,
    /// Times asked for.
    pub asked: u32,
}

/// Where a run decides and was read too seldom: at or above each limit, and next below it, whatever its plan asked.
#[must_use]
pub fn read_too_seldom(result: &BenchResult, decisions: &[DecisionPoint]) -> Vec<ReadTooSeldom> {
    let mut all = Vec::new();
    for voltage in &result.voltages {
        let bases = || voltage.points.iter().filter(|point| point.base);
        for decision in decisions.iter().filter(|one| one.test_voltage_v == voltage.test_voltage_v) {
            let below = bases().filter(|it| it.resistor.nominal_ohm < decision.limit_ohm);
            let above = bases().filter(|it| it.resistor.nominal_ohm >= decision.limit_ohm);
            let beside =
                [below.max_by_key(|it| it.resistor.nominal_ohm), above.min_by_key(|it| it.resistor.nominal_ohm)];
            all.extend(beside.into_iter().flatten().filter_map(|point| {
                let taken = u32::try_from(point.shown.len()).unwrap_or(u32::MAX);
                (taken < REPEATS).then_some(ReadTooSeldom {
                    test_voltage_v: voltage.test_voltage_v,
                    limit_ohm: decision.limit_ohm,
                    nominal_ohm: point.resistor.nominal_ohm,
                    taken,
                    asked: REPEATS,
                })
            }));
        }
    }
    all
}
