//! The Run screen: one view holds everything it shows.

use super::{Choice, RunGroup, Sentence, Sign, SlotId};
use provenohm_assess::circuit::{Loads, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId, TesterId};
use provenohm_assess::judgement::Level;
use provenohm_assess::limits::ReducedReason;
use provenohm_assess::quantity::Comparator;
use provenohm_assess::reading::NotTestedReason;
use provenohm_assess::tester::LeadEnd;

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
    }

    /// The entry line.
    pub struct DraftView {
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
        /// The digits with the decimal sign of the language, without the comparator's sign or word: they are set apart.
        pub shown: String,
        /// Why a unit key would be refused now; absent: it would not.
        pub refused: Option<String>,
        /// The ruler's marks: one for each unit key.
        pub ruler: Vec<RulerMark>,
    }

    /// Where on the ruler the typed digits would stand with a unit.
    pub struct RulerMark {
        /// The unit key.
        pub unit: UnitKey,
        /// 0 at its left end, 1 at its right end.
        pub at: f64,
    }

    /// A notch of the ruler.
    pub struct Notch {
        /// 0 at its left end, 1 at its right end.
        pub at: f64,
        /// `1 kΩ`.
        pub label: String,
    }

    /// The one-tap key for an over-range indication.
    pub struct OverRangeKey {
        /// `> 999 MΩ`, or that the limit is not set.
        pub label: String,
        /// Whether it can save.
        pub ready: bool,
    }

    /// The tester has to be set to another voltage first.
    pub struct AskVolts {
        /// `Tester set to 250 V`.
        pub words: String,
        /// What it saves, V.
        pub volts: u32,
        /// The other test voltages.
        pub others: Vec<VoltsChoice>,
    }

    /// A test voltage to choose.
    pub struct VoltsChoice {
        /// V.
        pub volts: u32,
        /// `500 V`.
        pub words: String,
    }

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

/// A unit key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(rename_all = "snake_case")]
pub enum UnitKey {
    /// kΩ
    K,
    /// MΩ
    M,
    /// GΩ
    G,
}

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
