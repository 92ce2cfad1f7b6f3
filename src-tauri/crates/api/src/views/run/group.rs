//! One reading over several circuits: all their live conductors joined, against earth.

use crate::views::SlotId;
use provenohm_assess::ids::{BoardId, CircuitId};

told! {
    /// Which circuits of a board one reading can serve.
    pub struct GroupForm {
        /// The board.
        pub board: BoardId,
        /// Its circuits, in their order.
        pub circuits: Vec<GroupMember>,
        /// Whether the chosen ones can be tested together.
        pub ready: bool,
        /// The pair and what is asked of it, or what is missing.
        pub words: String,
        /// What circuits have by themselves, from groups read with them and without them.
        pub own: Vec<String>,
    }

    /// A circuit that is chosen or could be.
    pub struct GroupMember {
        /// The circuit.
        pub id: CircuitId,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// Chosen.
        pub chosen: bool,
        /// Why it cannot be tested together with the first one chosen, or with any; absent: it can.
        pub why_not: Option<String>,
    }

    /// The circuits that are tested together now.
    pub struct RunGroup {
        /// The circuits.
        pub circuits: Vec<CircuitId>,
        /// The slot of their reading.
        pub slot: SlotId,
        /// `all lives of 3, 4, 5 – PE`.
        pub words: String,
    }
}

asked! {
    /// Circuits of one board to be tested together.
    pub struct GroupAsk {
        /// The board.
        pub board: BoardId,
        /// The circuits chosen so far.
        pub circuits: Vec<CircuitId>,
    }
}
