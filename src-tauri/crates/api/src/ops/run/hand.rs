//! What this device remembers of a run: the tester in hand and how it is set, and where on a board the person is.
//! None of it is in the record; each reading carries its own circumstances.

use super::next::Walk;
use crate::failure::Failure;
use crate::state::State;
use crate::views::SlotId;
use provenohm_assess::circuit::{Loads, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, TesterId};
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::quantity::Comparator;
use provenohm_logbook::record::Writer;
use serde::{Deserialize, Serialize};

/// The tester in hand and how it is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Hand {
    /// The tester; absent: none chosen.
    pub(crate) tester: Option<TesterId>,
    /// The test voltage it is set to, V; absent: not said yet.
    pub(crate) volts: Option<u32>,
    /// What the set asked for when that was said, V: another one asks again.
    pub(crate) asked: Option<u32>,
}

/// Where on a board the person is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Seat {
    /// Before or after equipment is connected.
    pub(crate) stage: Stage,
    /// The slot gone to, or the last one done; absent: none yet.
    pub(crate) slot: Option<SlotId>,
    /// That slot is done: the next open one is meant.
    pub(crate) done: bool,
    /// Loads on one circuit, where they are not as the circuit has them.
    pub(crate) loads: Option<(CircuitId, Loads)>,
    /// N isolated from PE.
    pub(crate) n_isolated: Option<bool>,
    /// Why the reduced test voltage is used.
    pub(crate) reduced: Option<ReducedReason>,
}

/// Half-typed digits of a slot.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Kept {
    /// As typed.
    pub(crate) text: String,
    /// Exact, more than, less than.
    pub(crate) comparator: Comparator,
}

impl Hand {
    pub(crate) fn of(state: &State) -> Result<Self, Failure> {
        Ok(state.setting("hand")?.unwrap_or_default())
    }

    pub(crate) fn keep(&self, state: &mut State) -> Result<(), Failure> {
        state.keep_setting("hand", self)
    }
}

impl Seat {
    pub(crate) fn of(state: &State, board: BoardId) -> Result<Self, Failure> {
        Ok(state.setting(&format!("seat:{board}"))?.unwrap_or_default())
    }

    pub(crate) fn keep(&self, state: &mut State, board: BoardId) -> Result<(), Failure> {
        state.keep_setting(&format!("seat:{board}"), self)
    }

    /// Keeps it in the same transaction as what was recorded there: moving on is part of saving.
    pub(crate) fn keep_with(&self, writer: &mut Writer<'_>, board: BoardId) -> Result<(), Failure> {
        let text = serde_json::to_string(self).map_err(|error| Failure::of("unexpected").because(error))?;
        Ok(writer.choose(&format!("seat:{board}"), Some(&text))?)
    }

    /// Goes to a slot.
    pub(crate) fn go(&mut self, slot: Option<SlotId>) {
        (self.slot, self.done) = (slot, false);
    }

    /// The slot now: the one gone to, or the next open one after what is done. A slot that is gone (its circuit was
    /// removed, its pair is no longer asked for) gives way to the first open one.
    pub(crate) fn here(&self, walk: &Walk<'_>) -> Option<SlotId> {
        match self.slot.as_ref().filter(|slot| walk.find(slot).is_some()) {
            Some(slot) if !self.done => Some(slot.clone()),
            last => walk.open_after(last),
        }
    }
}
