//! What Run shows: one view holds it all.

use super::{AskVolts, DraftView, Notch, OverRangeKey, ReadBack, RunGroup, VoltsChoice};
use crate::views::{Choice, Sentence, Sign, SlotId};
use provenohm_assess::circuit::{Loads, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, TesterId};
use provenohm_assess::judgement::Level;
use provenohm_assess::limits::ReducedReason;

told! {
    /// Everything Run shows.
    pub struct RunView {
        /// The job.
        pub job: JobId,
        /// Its name.
        pub job_name: String,
        /// Whether this person has read and confirmed the cautions for this job.
        pub cautions_confirmed: bool,
        /// The board.
        pub board: BoardId,
        /// Its name.
        pub board_name: String,
        /// Before or after equipment is connected.
        pub stage: Stage,
        /// The stage in words.
        pub stage_words: String,
        /// The circuit now; absent on the end card.
        pub circuit: Option<RunCircuit>,
        /// All circuits, for the jump list.
        pub circuits: Vec<RunCircuitLine>,
        /// Test voltage in words, for the header.
        pub voltage: String,
        /// Set on the tester, V; absent: not said yet.
        pub volts: Option<u32>,
        /// What the tester in hand can be set to, for a change by hand.
        pub volts_choices: Vec<VoltsChoice>,
        /// `Now circuit 8 · Oven`, after moving on to it.
        pub announce: Option<String>,
        /// `1000 V from circuit 8 on`, while the circuit now is recorded: the next one asks for another test voltage.
        pub ahead: Option<String>,
        /// The tester and its state.
        pub tester: RunTester,
        /// Pairs of this circuit.
        pub slots: Vec<SlotView>,
        /// The slot now.
        pub slot: Option<SlotId>,
        /// `3 of 5`.
        pub progress: String,
        /// Half-typed digits.
        pub draft: DraftView,
        /// The one-tap key.
        pub over_range: OverRangeKey,
        /// The next circuit asks for another voltage: the pad shows only this until answered.
        pub ask_volts: Option<AskVolts>,
        /// Who asks for a new reading of the slot now, and why.
        pub asked: Option<String>,
        /// The smallest indication that proves the limit with this tester, under *guarded*.
        pub hint: Option<String>,
        /// The last saved reading.
        pub read_back: Option<ReadBack>,
        /// Whether undo has something to take back.
        pub can_undo: bool,
        /// Reasons for *not tested*.
        pub not_tested_reasons: Vec<Choice>,
        /// Where the lead check stands.
        pub lead_check: Sentence,
        /// Whether lives of this circuit are joined for the test to earth.
        pub joined: bool,
        /// Circuits that are tested together; absent: each alone.
        pub group: Option<RunGroup>,
        /// Under which conditions the next readings are taken.
        pub conditions: ConditionsView,
        /// The note on this circuit, if there is one.
        pub note: Option<String>,
        /// The end card, when no slot is open.
        pub ended: Option<EndCard>,
        /// Notches of the ruler, one a decade.
        pub ruler_notches: Vec<Notch>,
    }

    /// The circuit now.
    pub struct RunCircuit {
        /// The circuit.
        pub id: CircuitId,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// `7 of 12`.
        pub position: String,
        /// Notes on it.
        pub notes: String,
    }

    /// One circuit of the jump list.
    pub struct RunCircuitLine {
        /// The circuit.
        pub id: CircuitId,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// Its sign.
        pub sign: Sign,
        /// Its first open slot, or its first one.
        pub slot: Option<SlotId>,
        /// `3 of 5`.
        pub progress: String,
        /// A new reading is asked for on it.
        pub asked: bool,
    }

    /// The tester of this run.
    pub struct RunTester {
        /// The tester; absent: none chosen.
        pub id: Option<TesterId>,
        /// `Tester A · proved to 3 Mar 2027`.
        pub words: String,
        /// How much attention.
        pub level: Level,
    }

    /// One pair of the strip.
    pub struct SlotView {
        /// The slot.
        pub id: SlotId,
        /// `L1–PE`.
        pub name: String,
        /// The two ends in full, for a reader of the screen.
        pub spoken: String,
        /// Its sign.
        pub sign: Sign,
        /// What was read, or that it was not tested.
        pub shown: Option<String>,
        /// A new reading of it is asked for.
        pub asked: bool,
    }

    /// No slot is open on this board.
    pub struct EndCard {
        /// In a sentence.
        pub words: String,
        /// What was done and what is left.
        pub lines: Vec<Sentence>,
    }

    /// Conditions the next readings are taken under.
    pub struct ConditionsView {
        /// Loads: as the circuit has them, unless said otherwise here.
        pub loads: Loads,
        /// N isolated from PE; absent: not stated.
        pub n_isolated: Option<bool>,
        /// Why the reduced voltage is used.
        pub reduced: Option<ReducedReason>,
        /// In words.
        pub words: String,
        /// Reasons the set allows for a reduced voltage.
        pub reduced_reasons: Vec<Choice>,
    }
}
