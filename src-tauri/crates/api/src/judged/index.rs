//! Where readings stand: found by slot, by circuit, and by what a joined reading proves.

use super::JudgedReading;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::CircuitId;
use std::collections::BTreeMap;

/// The readings that stand, by where they belong.
#[derive(Default)]
pub(super) struct Index {
    at: BTreeMap<(Stage, Pair), Vec<usize>>,
    covered: BTreeMap<(Stage, Pair), usize>,
    of: BTreeMap<CircuitId, Vec<usize>>,
}

impl Index {
    /// Sorts the readings that stand.
    pub(super) fn of(readings: &[JudgedReading]) -> Self {
        let mut index = Self::default();
        for (place, one) in readings.iter().enumerate().filter(|(_, one)| one.taken.stands()) {
            let (stage, pair) = (one.reading.stage, &one.reading.pair);
            index.at.entry((stage, pair.clone())).or_default().push(place);
            // The slot stands in the list of the first of its circuits.
            if let Some(circuit) = pair.circuits().first() {
                index.of.entry(*circuit).or_default().push(place);
            }
            for single in one.judgement.members_proved(pair) {
                index.covered.entry((stage, single)).or_insert(place);
            }
        }
        index
    }

    /// The readings in a slot.
    pub(super) fn at(&self, stage: Stage, pair: &Pair) -> &[usize] {
        self.at.get(&(stage, pair.clone())).map_or(&[], Vec::as_slice)
    }

    /// The joined reading that gives its judgement to a pair.
    pub(super) fn covering(&self, stage: Stage, pair: &Pair) -> Option<usize> {
        self.covered.get(&(stage, pair.clone())).copied()
    }

    /// The readings of a circuit.
    pub(super) fn of_circuit(&self, circuit: CircuitId) -> &[usize] {
        self.of.get(&circuit).map_or(&[], Vec::as_slice)
    }
}
