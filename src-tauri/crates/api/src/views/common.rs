//! What several views share.

use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, TesterId};
use provenohm_assess::judgement::Level;

told! {
    /// A ready sentence and how much attention it asks for.
    #[derive(schemars::JsonSchema)]
    pub struct Sentence {
        /// How much attention.
        pub level: Level,
        /// The sentence.
        pub words: String,
    }

    /// A line with a label, for example `Tester · Tester A, serial 1001`.
    pub struct Line {
        /// What it is.
        pub label: String,
        /// Its value, ready to show.
        pub value: String,
    }

    /// One of a list to choose from: what is sent back, and what is shown.
    pub struct Choice {
        /// Sent back.
        pub id: String,
        /// Shown.
        pub words: String,
    }

    /// Something was done; `undo`, where there is one, takes it back.
    pub struct Done {
        /// What was done, in words.
        pub words: String,
        /// Hand it to `undo` to take the act back.
        pub undo: Option<UndoToken>,
    }

    /// Nothing to tell.
    pub struct Nothing {}
}

asked! {
    /// Nothing is asked.
    pub struct NoInput {}

    /// One job.
    pub struct OfJob {
        /// The job.
        pub job: JobId,
    }

    /// One board.
    pub struct OfBoard {
        /// The board.
        pub board: BoardId,
    }

    /// One circuit.
    pub struct OfCircuit {
        /// The circuit.
        pub circuit: CircuitId,
    }

    /// One tester.
    pub struct OfTester {
        /// The tester.
        pub tester: TesterId,
    }

    /// One slot.
    pub struct OfSlot {
        /// The board it is on.
        pub board: BoardId,
        /// The slot.
        pub slot: SlotId,
    }

    /// An act to take back.
    pub struct UndoAsk {
        /// As told by the act.
        pub token: UndoToken,
    }
}

choice! {
    /// The sign of a slot, circuit or board: drawn as a shape with a word.
    pub enum Sign {
        /// Open ring: to do.
        Todo,
        /// Solid disc: done. It never means safe.
        Done,
        /// Triangle: look.
        Look,
        /// Square: stop.
        Stop,
    }
}

/// Where a reading belongs: the stage and the two ends, written out. Opaque outside.
#[derive(
    Clone,
    Debug,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
    schemars::JsonSchema,
    ts_rs::TS,
)]
#[serde(transparent)]
pub struct SlotId(pub String);

/// An act that can be taken back. Opaque outside.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema, ts_rs::TS)]
#[serde(transparent)]
pub struct UndoToken(pub String);

told! {
    /// A person of a job.
    pub struct PersonView {
        /// Their id.
        pub id: PersonId,
        /// Name.
        pub name: String,
        /// Role in the job, in their own words.
        pub role: String,
    }
}
