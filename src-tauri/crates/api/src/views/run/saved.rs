//! What came of an act on Run: saved, taken back, leads checked.

use super::RunView;
use crate::views::{Sentence, SlotId};
use provenohm_assess::ids::ReadingId;

told! {
    /// What was saved, read back.
    pub struct ReadBack {
        /// The reading; absent for *not tested*.
        pub reading: Option<ReadingId>,
        /// Its slot.
        pub slot: SlotId,
        /// `L2–N`.
        pub pair: String,
        /// `487 MΩ`.
        pub shown: String,
        /// The whole, said once.
        pub announce: String,
        /// The judgement in one sentence, at its level.
        pub judgement: Sentence,
        /// Its parts: value, tester, method, the gravest first.
        pub sentences: Vec<Sentence>,
    }

    /// A reading is in the record.
    pub struct Saved {
        /// Read back.
        pub saved: ReadBack,
        /// What moving on crossed.
        pub moved: Moved,
        /// The screen now.
        pub run: RunView,
    }

    /// The last act on this board was taken back.
    pub struct Undone {
        /// In words.
        pub words: String,
        /// The screen now, with the old digits in the entry line.
        pub run: RunView,
    }

    /// The lead check is in the record.
    pub struct LeadChecked {
        /// What it says.
        pub said: Sentence,
        /// The screen now.
        pub run: RunView,
    }
}

choice! {
    /// What moving on crossed.
    pub enum Moved {
        /// Stayed on the circuit.
        Pair,
        /// Came to another circuit.
        Circuit,
        /// No slot is open.
        End,
    }
}
