//! Operating uncertainty from points under reference conditions and the changes against them.

use super::PointResult;
use super::known::float;
use super::result::{OperatingAt, OperatingPart};
use crate::bench::{Resistor, Supply, TesterPosition, Warmth};
use crate::ids::ReferenceId;
use crate::quantity::{Comparator, Ohms};
use crate::standard::{Edition, OperatingParts, operating_uncertainty};
use std::collections::BTreeSet;

/// What was found, and which parts were tested nowhere.
pub(super) struct Operating {
    pub(super) at: Vec<OperatingAt>,
    pub(super) untested: Vec<OperatingPart>,
}

/// Changes at one resistance, % of the indication, each the largest of its kind with its sign.
struct Changes {
    known: Ohms,
    intrinsic: f64,
    expanded: f64,
    parts: [Option<f64>; 3],
    at_least: bool,
}

/// Asked within the marked measuring range alone (IEC 61557-2:2019, 6.2; seen): where the card has ranges, of points in
/// one of them.
pub(super) fn operating(points: &[PointResult], edition: &Edition, ranges: bool) -> Operating {
    let at_same = |base: &PointResult| {
        let key = (base.resistor, base.across);
        points.iter().filter(move |p| !p.base && (p.resistor, p.across) == key)
    };
    let exact = |p: &PointResult| p.shown.iter().all(|shown| shown.comparator == Comparator::Exact);
    let bases = points.iter().filter(|p| p.base && exact(p) && (p.range.is_some() || !ranges));
    let all: Vec<Changes> =
        bases.filter_map(|base| changes(base, at_same(base).collect::<Vec<_>>().as_slice(), edition)).collect();
    let largest: [Option<f64>; 3] =
        std::array::from_fn(|i| all.iter().filter_map(|c| c.parts[i]).max_by(|a, b| a.abs().total_cmp(&b.abs())));
    let at = all.iter().map(|changes| at(changes, largest, edition)).collect();
    Operating { at, untested: untested(points, edition, all.is_empty(), largest) }
}

fn at(changes: &Changes, largest: [Option<f64>; 3], edition: &Edition) -> OperatingAt {
    let [position, supply, temperature] = std::array::from_fn(|i| changes.parts[i].or(largest[i]));
    let parts = OperatingParts {
        intrinsic: changes.intrinsic,
        position: position.unwrap_or(0.0),
        supply: supply.unwrap_or(0.0),
        temperature: temperature.unwrap_or(0.0),
    };
    let operating = operating_uncertainty(parts, edition);
    OperatingAt {
        known_ohm: changes.known,
        intrinsic: changes.intrinsic,
        position,
        supply,
        temperature,
        operating,
        expanded: changes.expanded,
        at_least: changes.at_least,
    }
}

/// A = (I − R)/I, E = (I' − I)/I, % (changes signed, against the reference point). `None` where nothing was indicated.
fn changes(base: &PointResult, others: &[&PointResult], edition: &Edition) -> Option<Changes> {
    let known = base.known_ohm?;
    let shown = float(base.indicated_ohm.0);
    let budget = base.budget.as_ref()?;
    if shown <= 0.0 {
        return None;
    }
    let mut parts = [None::<f64>; 3];
    let mut at_least = false;
    for other in others {
        let Some(part) = part(other, edition) else { continue };
        let change = (float(other.indicated_ohm.0) - shown) / shown * 100.0;
        at_least |= other.comparator != Comparator::Exact;
        let slot = &mut parts[part];
        *slot = Some(slot.filter(|before| before.abs() >= change.abs()).unwrap_or(change));
    }
    let intrinsic = (shown - float(known.0)) / shown * 100.0;
    let expanded = budget.expanded / shown * 100.0;
    Some(Changes { known, intrinsic, expanded, parts, at_least })
}

/// Which single condition differs: 0 position, 1 supply, 2 temperature. Several at once tell nothing of any one.
fn part(point: &PointResult, edition: &Edition) -> Option<usize> {
    let conditions = point.conditions;
    let turned = conditions.position != TesterPosition::Reference;
    let weak = conditions.supply != Supply::Nominal;
    let warmth = Warmth::of(conditions.temperature_c, edition);
    match (turned, weak, warmth) {
        (true, false, Warmth::Reference) => Some(0),
        (false, true, Warmth::Reference) => Some(1),
        (false, false, Warmth::Cold | Warmth::Warm) => Some(2),
        _ => None,
    }
}

fn untested(
    points: &[PointResult],
    edition: &Edition,
    no_reference_point: bool,
    largest: [Option<f64>; 3],
) -> Vec<OperatingPart> {
    let bases: Vec<(Resistor, Option<ReferenceId>)> =
        points.iter().filter(|p| p.base).map(|p| (p.resistor, p.across)).collect();
    let counted = || points.iter().filter(|p| part(p, edition).is_some() && bases.contains(&(p.resistor, p.across)));
    let positions: BTreeSet<TesterPosition> =
        counted().map(|p| p.conditions.position).filter(|p| *p != TesterPosition::Reference).collect();
    let warmths: BTreeSet<Warmth> = counted()
        .map(|p| Warmth::of(p.conditions.temperature_c, edition))
        .filter(|w| *w != Warmth::Reference)
        .collect();
    // At reference conditions means at a temperature that somebody read.
    let at_known_temperature = points.iter().any(|p| p.base && p.conditions.temperature_c.is_some());
    let tested = [
        (OperatingPart::Intrinsic, !no_reference_point && at_known_temperature),
        (OperatingPart::Position, largest[0].is_some() && positions.len() == 2),
        (OperatingPart::Supply, largest[1].is_some()),
        (OperatingPart::Temperature, largest[2].is_some() && warmths.len() == 2),
    ];
    tested.into_iter().filter(|(_, tested)| !tested).map(|(part, _)| part).collect()
}
