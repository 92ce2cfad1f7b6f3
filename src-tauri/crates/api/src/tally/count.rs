//! What is done and what is to look at, counted over circuits, boards or a whole job.

use crate::judged::{Judged, JudgedBoard, JudgedCircuit};
use crate::views::Sign;
use provenohm_assess::judgement::Level;
use serde::{Deserialize, Serialize};

/// What is done and what is to look at, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Tally {
    pub(crate) circuits: u32,
    pub(crate) done: u32,
    pub(crate) of: u32,
    pub(crate) look: u32,
    pub(crate) stop: u32,
    /// Things to look at that were accepted with a reason; none of them is in `look`.
    pub(crate) accepted: u32,
    /// Slots a new reading is asked for.
    pub(crate) asked: u32,
}

impl Tally {
    /// Counts over some boards.
    pub(crate) fn of<'a>(judged: &Judged, boards: impl Iterator<Item = &'a JudgedBoard>) -> Self {
        let mut tally = Self::default();
        for board in boards {
            // What is missing on a board is one line of the list, as there.
            tally.look += u32::from(board.lacking() > 0);
            board.circuits.iter().for_each(|circuit| tally.count(judged, circuit));
        }
        tally
    }

    /// Counts over a whole job: what was taken away and still stops it, too.
    pub(crate) fn of_job(judged: &Judged) -> Self {
        let mut tally = Self::of(judged, judged.boards.iter());
        tally.stop += u32::try_from(judged.stops_taken_away().count()).unwrap_or(u32::MAX);
        tally
    }

    fn count(&mut self, judged: &Judged, circuit: &JudgedCircuit) {
        self.circuits += 1;
        for slot in &circuit.slots {
            self.of += 1;
            self.done += u32::from(!slot.is_open());
            self.asked += u32::from(!slot.requests.is_empty());
            if slot.covered_by.is_some() {
                continue;
            }
            match slot.reading(judged).map(|one| one.judgement.level) {
                Some(Level::Stop) => self.stop += 1,
                _ if slot.accepted(judged).is_some() => self.accepted += 1,
                Some(Level::Look) => self.look += 1,
                None if !slot.not_tested.is_empty() => self.look += 1,
                Some(Level::Done | Level::Remark) | None => {}
            }
        }
    }

    /// The sign of what was counted.
    pub(crate) fn sign(&self) -> Sign {
        if self.stop > 0 {
            Sign::Stop
        } else if self.look + self.accepted > 0 {
            Sign::Look
        } else if self.done == self.of && self.of > 0 {
            Sign::Done
        } else {
            Sign::Todo
        }
    }
}
