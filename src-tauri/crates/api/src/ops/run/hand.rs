//! What is remembered of a person's run: the tester in hand and how it is set, and where on a board the person is.
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
    /// Circuits tested together; empty: each alone.
    pub(crate) group: Vec<CircuitId>,
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
        Ok(state.setting(&state.own("hand"))?.unwrap_or_default())
    }

    pub(crate) fn keep(&self, state: &mut State) -> Result<(), Failure> {
        state.keep_setting(&state.own("hand"), self)
    }
}

impl Seat {
    pub(crate) fn of(state: &State, board: BoardId) -> Result<Self, Failure> {
        Ok(state.setting(&Self::kept(state, board))?.unwrap_or_default())
    }

    pub(crate) fn keep(&self, state: &mut State, board: BoardId) -> Result<(), Failure> {
        state.keep_setting(&Self::kept(state, board), self)
    }

    /// The name it is kept under.
    pub(crate) fn kept(state: &State, board: BoardId) -> String {
        state.own(&format!("seat:{board}"))
    }

    /// Keeps it in the same transaction as what was recorded there: moving on is part of saving.
    pub(crate) fn keep_with(&self, writer: &mut Writer<'_>, kept: &str) -> Result<(), Failure> {
        let text = serde_json::to_string(self).map_err(|error| Failure::of("unexpected").because(error))?;
        Ok(writer.choose(kept, Some(&text))?)
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
