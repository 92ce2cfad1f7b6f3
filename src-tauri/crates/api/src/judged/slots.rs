//! The slots of a circuit: what the set requires, what a joined reading leaves open, and what was read beside that.

use super::{Judged, Slot};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::judgement::Value;
use provenohm_assess::limits::{Limit, Under};
use provenohm_exchange::job_file::{Circuit, NotTested};

/// The slots of a circuit at a stage; before equipment is connected, also those after it that hold something.
pub(super) fn of_circuit(judged: &Judged, circuit: &Circuit, stage: Stage) -> Vec<Slot> {
    let mut slots = Slots { judged, circuit, slots: Vec::new() };
    let of_circuit = judged.index.of_circuit(circuit.id).iter().filter_map(|at| judged.readings.get(*at));
    let of_circuit = || of_circuit.clone().filter(|one| one.reading.stage == stage || stage == Stage::Before);
    // A reading over several circuits stands ahead of the singles it may prove.
    for one in of_circuit().filter(|one| one.reading.pair.circuits().len() > 1) {
        slots.put(one.reading.stage, &one.reading.pair, false, slots.limit(one.reading.stage, &one.reading.pair));
    }
    let demand = judged.set().demand(circuit.id, &circuit.electrical, stage);
    for required in demand.iter().flat_map(|demand| &demand.pairs) {
        slots.put(stage, &required.pair, true, Some(required.limit.clone()));
        // A joined reading that does not meet leaves each of its members to be read alone.
        if slots.slots.last().is_some_and(|slot| !slot.readings.is_empty() && !slots.meets(slot)) {
            for single in slots.left_open(stage, &required.pair) {
                slots.put(stage, &single, true, slots.limit(stage, &single));
            }
        }
    }
    for one in of_circuit() {
        slots.put(one.reading.stage, &one.reading.pair, false, slots.limit(one.reading.stage, &one.reading.pair));
    }
    // A pair that is asked for stays one to go to, though its reading was withdrawn and the set does not require it.
    for asked in judged.file.requested.iter().filter(|asked| asked.stage == stage || stage == Stage::Before) {
        if asked.pair.circuits().first() == Some(&circuit.id) && judged.is_waiting(asked) {
            slots.put(asked.stage, &asked.pair, false, slots.limit(asked.stage, &asked.pair));
        }
    }
    slots.slots
}

struct Slots<'a> {
    judged: &'a Judged,
    circuit: &'a Circuit,
    slots: Vec<Slot>,
}

impl Slots<'_> {
    fn put(&mut self, stage: Stage, pair: &Pair, required: bool, limit: Option<Limit>) {
        if self.slots.iter().any(|slot| slot.stage == stage && slot.pair == *pair) {
            return;
        }
        let readings = self.judged.index.at(stage, pair).to_vec();
        let covered_by = if readings.is_empty() { self.judged.index.covering(stage, pair) } else { None };
        let mut not_tested: Vec<NotTested> = Vec::new();
        for said in self.judged.said_not_tested(stage, pair).filter(|_| readings.is_empty()) {
            // Of two that say the same the last is told.
            not_tested.retain(|other| !other.says_the_same(said));
            not_tested.push(said.clone());
        }
        let requests = self.judged.waiting(stage, pair);
        self.slots.push(Slot {
            stage,
            pair: pair.clone(),
            required,
            limit,
            readings,
            not_tested,
            covered_by,
            requests,
        });
    }

    fn meets(&self, slot: &Slot) -> bool {
        slot.readings
            .iter()
            .all(|at| self.judged.readings.get(*at).is_some_and(|one| one.judgement.value.value == Value::Meets))
    }

    fn left_open(&self, stage: Stage, joined: &Pair) -> Vec<Pair> {
        self.judged.set().left_open(joined, self.under(stage), |id| self.judged.electrical(id))
    }

    fn limit(&self, stage: Stage, pair: &Pair) -> Option<Limit> {
        let limit = self.judged.set().limit_for(pair, self.under(stage), |id| self.judged.electrical(id)).ok()?;
        Some(limit.to_limit())
    }

    const fn under(&self, stage: Stage) -> Under {
        Under { stage, loads: self.circuit.electrical.loads }
    }
}
