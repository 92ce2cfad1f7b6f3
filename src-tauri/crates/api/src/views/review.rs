//! Reviewing: asking for a new reading, and accepting what asks for a look.

use super::{OfSlot, SlotId};
use provenohm_assess::ids::{BoardId, JobId};

told! {
    /// What a reviewer said of a slot.
    pub struct ReviewLine {
        /// Sent back to withdraw it.
        pub entry: String,
        /// Asked for, or accepted.
        pub what: ReviewWhat,
        /// Who, when and why.
        pub words: String,
        /// A request that is open, an acceptance that holds.
        pub holds: bool,
    }
}

choice! {
    /// What a reviewer said.
    pub enum ReviewWhat {
        /// A new reading is asked for.
        Request,
        /// What asks for a look is accepted.
        Accepted,
    }
}

asked! {
    /// What a reviewer says of a slot, and why.
    pub struct ReviewAsk {
        /// The board.
        pub board: BoardId,
        /// The slot.
        pub slot: SlotId,
        /// Why.
        pub reason: String,
    }

    /// Something a reviewer said, to take back.
    pub struct WithdrawReview {
        /// The job.
        pub job: JobId,
        /// Which.
        pub entry: String,
        /// Why.
        pub reason: String,
    }
}

impl ReviewAsk {
    /// The slot.
    #[must_use]
    pub fn slot(&self) -> OfSlot {
        OfSlot { board: self.board, slot: self.slot.clone() }
    }
}
