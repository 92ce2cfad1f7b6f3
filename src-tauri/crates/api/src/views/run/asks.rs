//! What Run is asked.

use super::UnitKey;
use crate::views::SlotId;
use provenohm_assess::circuit::{Loads, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, TesterId};
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::quantity::Comparator;
use provenohm_assess::reading::NotTestedReason;
use provenohm_assess::tester::LeadEnd;

asked! {
    /// Opens Run, or jumps in it.
    pub struct RunAsk {
        /// The board.
        pub board: BoardId,
        /// Jump to this slot.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub slot: Option<SlotId>,
        /// Jump to this circuit's first open slot.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub circuit: Option<CircuitId>,
    }

    /// Digits so far; told at each key and kept.
    pub struct Draft {
        /// The board.
        pub board: BoardId,
        /// The slot they are for.
        pub slot: SlotId,
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
    }

    /// A reading to save.
    pub struct SaveReading {
        /// The board.
        pub board: BoardId,
        /// The slot.
        pub slot: SlotId,
        /// What the tester shows.
        pub indication: Indication,
    }

    /// Typed digits with the unit key that ends them.
    pub struct Typed {
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
        /// The unit key.
        pub unit: UnitKey,
    }

    /// A pair that cannot be tested.
    pub struct MarkNotTested {
        /// The board.
        pub board: BoardId,
        /// The slot.
        pub slot: SlotId,
        /// Why.
        pub reason: NotTestedReason,
        /// In words, for *other*.
        #[serde(default)]
        pub words: String,
    }

    /// A note on the circuit of a slot; empty takes it away.
    pub struct SetNote {
        /// The board.
        pub board: BoardId,
        /// The slot.
        pub slot: SlotId,
        /// The note.
        pub text: String,
    }

    /// The tester in hand.
    pub struct ChooseTester {
        /// The board of the run.
        pub board: BoardId,
        /// The tester.
        pub tester: TesterId,
    }

    /// The tester is set to this test voltage.
    pub struct SetVolts {
        /// The board of the run.
        pub board: BoardId,
        /// V d.c.
        pub volts: u32,
    }

    /// Before or after equipment is connected.
    pub struct SetStage {
        /// The board of the run.
        pub board: BoardId,
        /// The stage.
        pub stage: Stage,
    }

    /// Conditions from now on.
    pub struct SetConditions {
        /// The board of the run.
        pub board: BoardId,
        /// Loads on the circuit now.
        pub loads: Loads,
        /// N isolated from PE.
        #[serde(default)]
        pub n_isolated: Option<bool>,
        /// Why the reduced voltage is used.
        #[serde(default)]
        pub reduced: Option<ReducedReason>,
    }

    /// Lives joined for the test to earth, or singly.
    pub struct SetJoined {
        /// The circuit.
        pub circuit: CircuitId,
        /// Joined.
        pub joined: bool,
    }

    /// What the tester shows with its leads held so.
    pub struct LeadCheckAsk {
        /// The board of the run.
        pub board: BoardId,
        /// Shorted or open.
        pub leads: LeadEnd,
        /// What it shows.
        pub indication: LeadIndication,
    }
}

/// What the tester shows.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(rename_all = "snake_case")]
pub enum Indication {
    /// Digits and a unit key.
    Typed(Typed),
    /// Above the limit on the tester's card.
    OverRange,
}

/// What the tester shows at a lead check.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(rename_all = "snake_case")]
pub enum LeadIndication {
    /// Near zero as its card says: `0.00 MΩ`.
    NearZero,
    /// Above the limit on its card.
    OverRange,
    /// Digits and a unit key.
    Typed(Typed),
}
