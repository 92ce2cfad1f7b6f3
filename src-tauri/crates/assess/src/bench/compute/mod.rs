//! What follows from a bench run: pure, the same whatever the order of the facts.

mod decide;
mod group;
mod influence;
mod interval;
mod known;
mod load;
mod meter;
mod operating;
mod point;
mod require;
mod result;
mod statement;
mod untold;
mod verification;
mod voltage;

pub use decide::Decision;
use influence::reckonable;
pub use influence::{Budgeted, Influence, PointRemark, WhyUndecided};
pub use load::{LoadKind, LoadResult};
pub use point::{Permitted, PointResult, RelativeError};
pub use result::{
    BenchResult, CurrentResult, HeldInterval, IntervalEnd, LeadsFound, NoInterval, OperatingAt, OperatingPart,
    RequirementFound, VoltageResult, WhyNotTested,
};

pub use untold::Untold;
pub use verification::Issued;

use super::{BenchRun, LoadReading, Measured, MeasuredWhat};
use crate::RULES_VERSION;
use crate::ids::ReferenceId;
use crate::reference::Reference;
use crate::standard::Edition;
use crate::tester::Card;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// Everything a bench result is computed from.
#[derive(Clone, Copy, Debug)]
pub struct BenchFacts<'a> {
    /// The run.
    pub run: &'a BenchRun,
    /// What was measured, in any order, withdrawn facts already left out. Facts of other runs are passed over.
    pub measured: &'a [Measured],
    /// The tester's card.
    pub card: Option<&'a Card>,
    /// References; only those the run names are used.
    pub references: &'a [Reference],
    /// The edition of the tester standard.
    pub edition: &'a Edition,
}

/// Computes a bench run.
#[must_use]
pub fn compute(facts: &BenchFacts<'_>) -> BenchResult {
    let run = facts.run;
    let references: Vec<Reference> =
        facts.references.iter().filter(|r| run.references.contains(&r.id)).cloned().collect();
    // By id, so that neither order nor a fact given twice matters.
    let ours: BTreeMap<_, &Measured> = facts.measured.iter().filter(|m| m.bench == run.id).map(|m| (m.id, m)).collect();
    let (usable, unusable): (Vec<&Measured>, Vec<&Measured>) = ours.into_values().partition(|m| is_usable(m));
    let untold = untold::untold(&usable, &references, facts.edition);
    let mut by_voltage: BTreeMap<_, Vec<&Measured>> = BTreeMap::new();
    for one in usable {
        by_voltage.entry((one.test_voltage_v, one.series)).or_default().push(one);
    }
    let voltages: Vec<VoltageResult> =
        by_voltage.iter().map(|(at, measured)| voltage::result(facts, &references, *at, measured)).collect();
    BenchResult {
        bench: run.id,
        tester: run.tester,
        edition: facts.edition.id.clone(),
        edition_title: facts.edition.title.clone(),
        rule: run.rule,
        adjusted: run.adjusted,
        look: run.look,
        rules_version: RULES_VERSION,
        lapsed: lapsed(&voltages).into_iter().collect(),
        untold,
        unusable: unusable.into_iter().map(|m| m.id).collect(),
        voltages,
    }
}

/// References whose certificates had lapsed where they were used.
fn lapsed(voltages: &[VoltageResult]) -> BTreeSet<ReferenceId> {
    let points = voltages.iter().flat_map(|v| &v.points).flat_map(|p| &p.remarks);
    let loads = voltages.iter().flat_map(|v| &v.loads).flat_map(|l| &l.remarks);
    let currents = voltages.iter().flat_map(|v| &v.currents).flat_map(|c| &c.remarks);
    let lapsed = |remark: &PointRemark| match remark {
        PointRemark::LapsedReference { reference, .. } => Some(*reference),
        _ => None,
    };
    points.chain(loads).chain(currents).filter_map(lapsed).collect()
}

/// Figures that can be reckoned with, and a test voltage above zero.
fn is_usable(one: &Measured) -> bool {
    let figures = match one.item {
        MeasuredWhat::Indication { resistor, shown, .. } => vec![resistor.nominal_ohm.0, shown.ohms().0],
        MeasuredWhat::OpenCircuit { voltage, .. } => vec![voltage.shown.0],
        MeasuredWhat::AtLoad(LoadReading { voltage, current, .. }) => {
            voltage.map(|v| v.shown.0).into_iter().chain(current.map(|c| c.shown.0)).collect()
        }
        MeasuredWhat::ShortCircuit { current } | MeasuredWhat::Ripple { current } => vec![current.shown.0],
        MeasuredWhat::LeadsOpen { shown } | MeasuredWhat::LeadsShorted { shown } => vec![shown.ohms().0],
        MeasuredWhat::Polarity { .. } => Vec::new(),
    };
    let temperature = one.conditions.temperature_c.map(|t| t.0);
    let volts = one.test_voltage_v.0;
    volts > Decimal::ZERO && figures.into_iter().chain(temperature).chain([volts]).all(reckonable)
}
