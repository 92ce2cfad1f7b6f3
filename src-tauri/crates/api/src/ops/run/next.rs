//! Which slot is next: in the circuit, then on the board, in the order one walks. A slot a new reading is asked for is as
//! good as open.

use super::group;
use super::hand::Seat;
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, Slot, slot_of};
use crate::views::SlotId;
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::CircuitId;
use std::borrow::Cow;

/// The slots of a board at a stage, circuit by circuit.
pub(crate) struct Walk<'a> {
    pub(crate) circuits: Vec<(&'a JudgedCircuit, Vec<Cow<'a, Slot>>)>,
}

impl<'a> Walk<'a> {
    /// The slots of a board at a stage.
    pub(crate) fn of(judged: &Judged, board: &'a JudgedBoard, stage: Stage) -> Self {
        let slots = |one: &'a JudgedCircuit| match stage {
            Stage::Before => one.slots.iter().filter(|slot| slot.stage == stage).map(Cow::Borrowed).collect(),
            Stage::After => judged.slots_at(&one.circuit, stage).into_iter().map(Cow::Owned).collect(),
        };
        Self { circuits: board.circuits.iter().map(|one| (one, slots(one))).collect() }
    }

    /// The slots of a board as a person sits before it: at their stage, with the slot of the circuits they test together
    /// ahead of the others in the row of the first one.
    pub(crate) fn at(judged: &Judged, board: &'a JudgedBoard, seat: &Seat) -> Self {
        let mut walk = Self::of(judged, board, seat.stage);
        if let Some((first, slot)) = group::slot_of(judged, board, seat)
            && walk.find(&slot.id()).is_none()
            && let Some((_, slots)) = walk.circuits.iter_mut().find(|(one, _)| one.circuit.id == first)
        {
            slots.insert(0, Cow::Owned(slot));
        }
        walk
    }

    /// A slot by its id, with its circuit.
    pub(crate) fn find(&self, id: &SlotId) -> Option<(&'a JudgedCircuit, &Slot)> {
        let (stage, pair) = slot_of(id)?;
        self.all().find(|(_, slot)| slot.stage == stage && slot.pair == pair)
    }

    /// The first open slot of a circuit, or its first one.
    pub(crate) fn first_of(&self, circuit: CircuitId) -> Option<SlotId> {
        let (_, slots) = self.circuits.iter().find(|(one, _)| one.circuit.id == circuit)?;
        first_open(slots)
    }

    /// The first open slot after this one, round the board; none when no slot is open.
    pub(crate) fn open_after(&self, id: Option<&SlotId>) -> Option<SlotId> {
        let last = id.and_then(slot_of);
        let at = last.and_then(|(stage, pair)| self.all().position(|(_, it)| it.stage == stage && it.pair == pair));
        let from = at.map_or(0, |at| at + 1);
        let mut open = self.all().skip(from).chain(self.all().take(from)).filter(|(_, slot)| slot.awaits());
        open.next().map(|(_, slot)| slot.id())
    }

    /// The first open slot beyond a circuit, round the board: where its last reading leads.
    pub(crate) fn next_circuit(&self, circuit: CircuitId) -> Option<(&'a JudgedCircuit, &Slot)> {
        let last = self.circuits.iter().find(|(one, _)| one.circuit.id == circuit)?.1.last()?.id();
        let at = self.all().position(|(_, slot)| slot.id() == last)?;
        let mut beyond = self.all().skip(at + 1).chain(self.all().take(at));
        beyond.find(|(one, slot)| one.circuit.id != circuit && slot.awaits())
    }

    /// Every slot with its circuit.
    pub(crate) fn all(&self) -> impl Iterator<Item = (&'a JudgedCircuit, &Slot)> {
        self.circuits.iter().flat_map(|(circuit, slots)| slots.iter().map(move |slot| (*circuit, slot.as_ref())))
    }
}

/// The first open one of a circuit's slots, or the first one.
pub(crate) fn first_open(slots: &[Cow<'_, Slot>]) -> Option<SlotId> {
    slots.iter().find(|slot| slot.awaits()).or(slots.first()).map(|slot| slot.id())
}
