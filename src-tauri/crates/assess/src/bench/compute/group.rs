//! Repeats of one measurement, gathered: same resistor, same meter across it, same conditions.

use crate::bench::{Measured, MeasuredWhat, Resistor, Supply, TesterPosition, Warmth};
use crate::ids::ReferenceId;
use crate::moment::Moment;
use crate::quantity::{Celsius, Shown};
use crate::standard::Edition;
use std::collections::BTreeMap;

/// Indications of one resistor under one set of conditions.
#[derive(Clone, Debug)]
pub(super) struct Group<'a> {
    pub(super) resistor: Resistor,
    pub(super) across: Option<ReferenceId>,
    pub(super) supply: Supply,
    pub(super) position: TesterPosition,
    pub(super) warmth: Warmth,
    /// By id, never empty.
    pub(super) items: Vec<(&'a Measured, Shown)>,
}

/// Gathers indications; the order of the facts does not matter.
pub(super) fn groups<'a>(measured: &[&'a Measured], edition: &Edition) -> Vec<Group<'a>> {
    let mut groups = BTreeMap::new();
    for &one in measured {
        let MeasuredWhat::Indication { resistor, across, shown } = one.item else { continue };
        let conditions = one.conditions;
        let warmth = Warmth::of(conditions.temperature_c, edition);
        let at = (resistor.nominal_ohm, resistor.reference, across);
        let under = (conditions.supply, conditions.position, warmth);
        groups
            .entry((at, under))
            .or_insert_with(|| Group {
                resistor,
                across,
                supply: conditions.supply,
                position: conditions.position,
                warmth,
                items: Vec::new(),
            })
            .items
            .push((one, shown));
    }
    groups.into_values().collect()
}

impl Group<'_> {
    /// Nominal supply and reference position.
    pub(super) fn is_at_rest(&self) -> bool {
        self.supply == Supply::Nominal && self.position == TesterPosition::Reference
    }

    /// The temperature furthest from the reference temperature.
    pub(super) fn temperature(&self, edition: &Edition) -> Option<Celsius> {
        let reference = edition.reference_temperature_c.value.0;
        let all = self.items.iter().filter_map(|(one, _)| one.conditions.temperature_c);
        all.max_by_key(|t| ((t.0 - reference).abs(), *t))
    }

    /// The last time it was measured.
    pub(super) fn last(&self) -> Option<Moment> {
        self.items.iter().map(|(one, _)| one.at).max()
    }
}
