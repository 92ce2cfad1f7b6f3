//! Where readings stand: found by slot, by circuit, by id, and by what a joined reading proves.

use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{CircuitId, ReadingId};
use provenohm_assess::judgement::Judgement;
use provenohm_assess::reading::Reading;
use std::collections::{BTreeMap, BTreeSet};

/// The readings that stand, by where they belong; places in rising order.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    places: BTreeMap<ReadingId, usize>,
    at: BTreeMap<(Stage, Pair), Vec<usize>>,
    covered: BTreeMap<(Stage, Pair), BTreeSet<usize>>,
    of: BTreeMap<CircuitId, Vec<usize>>,
}

impl Index {
    /// Gives a reading its place. The first of two with one id keeps it.
    pub(super) fn name(&mut self, reading: ReadingId, place: usize) {
        self.places.entry(reading).or_insert(place);
    }

    /// A reading that stands.
    pub(super) fn put(&mut self, place: usize, reading: &Reading) {
        insert(self.at.entry((reading.stage, reading.pair.clone())).or_default(), place);
        // The slot stands in the list of the first of its circuits.
        if let Some(circuit) = reading.pair.circuits().first() {
            insert(self.of.entry(*circuit).or_default(), place);
        }
    }

    /// A reading that no longer stands.
    pub(super) fn take(&mut self, place: usize, reading: &Reading) {
        remove(&mut self.at, &(reading.stage, reading.pair.clone()), place);
        if let Some(circuit) = reading.pair.circuits().first() {
            remove(&mut self.of, circuit, place);
        }
    }

    /// What a reading that stands proves beside its own pair.
    pub(super) fn cover(&mut self, place: usize, reading: &Reading, judgement: &Judgement) {
        for single in judgement.members_proved(&reading.pair) {
            self.covered.entry((reading.stage, single)).or_default().insert(place);
        }
    }

    /// What it no longer proves.
    pub(super) fn uncover(&mut self, place: usize, reading: &Reading, judgement: &Judgement) {
        for single in judgement.members_proved(&reading.pair) {
            let slot = (reading.stage, single);
            if let Some(covering) = self.covered.get_mut(&slot) {
                covering.remove(&place);
                if covering.is_empty() {
                    self.covered.remove(&slot);
                }
            }
        }
    }

    /// The place of a reading.
    pub(super) fn place(&self, reading: ReadingId) -> Option<usize> {
        self.places.get(&reading).copied()
    }

    /// The readings in a slot.
    pub(super) fn at(&self, stage: Stage, pair: &Pair) -> &[usize] {
        self.at.get(&(stage, pair.clone())).map_or(&[], Vec::as_slice)
    }

    /// The joined reading that gives its judgement to a pair.
    pub(super) fn covering(&self, stage: Stage, pair: &Pair) -> Option<usize> {
        self.covered.get(&(stage, pair.clone()))?.first().copied()
    }

    /// The readings of a circuit.
    pub(super) fn of_circuit(&self, circuit: CircuitId) -> &[usize] {
        self.of.get(&circuit).map_or(&[], Vec::as_slice)
    }
}

fn insert(places: &mut Vec<usize>, place: usize) {
    if let Err(at) = places.binary_search(&place) {
        places.insert(at, place);
    }
}

fn remove<K: Ord>(all: &mut BTreeMap<K, Vec<usize>>, key: &K, place: usize) {
    if let Some(places) = all.get_mut(key) {
        places.retain(|one| *one != place);
        if places.is_empty() {
            all.remove(key);
        }
    }
}
