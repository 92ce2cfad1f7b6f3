//! Things to look at, where a reading comes from, and correcting many at once.

use super::{Choice, Line, ReviewLine, Sentence, Sign, SlotId, UnitKey, VoltsChoice};
use provenohm_assess::circuit::Loads;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId, TesterId};
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::Comparator;

told! {
    /// Things to look at, worst first, and the boards at a glance.
    pub struct LookView {
        /// The job.
        pub job: JobId,
        /// In a sentence.
        pub words: String,
        /// As of when the record says so, and its fingerprint: equal on every device that holds the same.
        pub as_of: String,
        /// What of the job is not here or cannot be read, a line each.
        pub lacking: Vec<String>,
        /// Things that block a sign-off.
        pub stop: u32,
        /// Things to look at.
        pub look: u32,
        /// Things to look at that were accepted with a reason; none of them is counted as one to look at.
        pub accepted: u32,
        /// New readings that are asked for.
        pub asked: u32,
        /// Slots marked *not tested*.
        pub not_tested: u32,
        /// Readings that stand.
        pub all: u32,
        /// The things, worst first, those accepted among them.
        pub items: Vec<LookItem>,
        /// Boards at a glance.
        pub boards: Vec<BoardTable>,
    }

    /// One thing to look at.
    pub struct LookItem {
        /// Unlike every other item's.
        pub key: String,
        /// The board; absent for what concerns the whole job.
        pub board: Option<BoardId>,
        /// The circuit.
        pub circuit: Option<CircuitId>,
        /// The slot.
        pub slot: Option<SlotId>,
        /// The reading.
        pub reading: Option<ReadingId>,
        /// `DB-2 · 7 Sockets · L1–PE`.
        pub place: String,
        /// What was read, if something was.
        pub shown: Option<String>,
        /// How much attention.
        pub level: Level,
        /// Why, the gravest first.
        pub sentences: Vec<Sentence>,
        /// Who accepted it, when and why, as long as that holds.
        pub accepted: Option<String>,
        /// What was accepted of it before something graver was found.
        pub accepted_before: Option<String>,
        /// Who asks for a new reading, and why, as long as it is not there.
        pub asked: Option<String>,
    }

    /// A board at a glance.
    pub struct BoardTable {
        /// The board.
        pub id: BoardId,
        /// Its name.
        pub name: String,
        /// What is to look at, counted in words.
        pub words: String,
        /// Column heads: names of pairs.
        pub pairs: Vec<String>,
        /// One row a circuit.
        pub rows: Vec<BoardRow>,
    }

    /// One circuit of a board at a glance.
    pub struct BoardRow {
        /// The circuit.
        pub circuit: CircuitId,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// Its cells, in the order of its pairs.
        pub cells: Vec<BoardCell>,
    }

    /// One slot of a board at a glance.
    pub struct BoardCell {
        /// The slot.
        pub slot: SlotId,
        /// Name of the pair: the column it stands in.
        pub pair: String,
        /// Its sign.
        pub sign: Sign,
        /// What was read, or that it was not tested.
        pub shown: Option<String>,
        /// It asks for a look and was accepted with a reason.
        pub accepted: bool,
        /// A new reading of it is asked for.
        pub asked: bool,
    }

    /// Where a slot's readings come from.
    pub struct OriginView {
        /// `DB-2 · 7 Sockets · L1–PE`.
        pub place: String,
        /// Readings that stand: one, or several to settle.
        pub current: Vec<OriginReading>,
        /// Readings that were replaced or withdrawn, newest first.
        pub earlier: Vec<OriginReading>,
        /// Why it was not tested, if that stands.
        pub not_tested: Option<String>,
        /// Something here asks for a look and nothing stops a sign-off: it can be accepted.
        pub acceptable: bool,
        /// What reviewers said of it and did not withdraw.
        pub review: Vec<ReviewLine>,
        /// The limit.
        pub limit: String,
        /// Where the limit stands and how sure it is.
        pub source: String,
        /// This visit beside each earlier one at the same place, the latest first.
        pub visits: Vec<String>,
        /// The note on it.
        pub note: Option<String>,
    }

    /// One reading with all that is known of it.
    pub struct OriginReading {
        /// The reading.
        pub id: ReadingId,
        /// `487 MΩ`.
        pub shown: String,
        /// What became of it, if it no longer stands.
        pub what: Option<String>,
        /// Value, tester, method.
        pub judgement: Vec<Sentence>,
        /// Who, device, tester, when, test voltage, conditions; old values of what was corrected.
        pub lines: Vec<Line>,
        /// It stands, and the person at this device may replace or withdraw it: theirs, or another asked for it anew.
        pub changeable: bool,
    }

    /// Readings to choose from for a correction.
    pub struct ReadingsView {
        /// One row a reading that stands.
        pub rows: Vec<ReadingRow>,
        /// Testers to choose from.
        pub testers: Vec<Choice>,
        /// Test voltages to choose from.
        pub volts: Vec<VoltsChoice>,
    }

    /// One reading in a list.
    pub struct ReadingRow {
        /// The reading.
        pub reading: ReadingId,
        /// Its board.
        pub board: BoardId,
        /// Its slot.
        pub slot: SlotId,
        /// `DB-2 · 7 Sockets · L1–PE`.
        pub place: String,
        /// `487 MΩ`.
        pub shown: String,
        /// Its tester.
        pub tester: String,
        /// Its test voltage.
        pub volts: String,
        /// When.
        pub time: String,
        /// Its level.
        pub level: Level,
    }
}

choice! {
    /// Why a reading replaces another.
    pub enum ReplaceReason {
        /// The digits were typed wrongly.
        Mistyped,
        /// The circuit was repaired and tested again; the old reading stays on paper.
        Repaired,
        /// The test was repeated.
        Repeated,
    }
}

asked! {
    /// Readings of a job, or of one board.
    pub struct ReadingsAsk {
        /// The job.
        pub job: JobId,
        /// The board; absent: all.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub board: Option<BoardId>,
    }

    /// One correction for many readings; what is absent stays.
    pub struct CorrectReadings {
        /// The job.
        pub job: JobId,
        /// The readings.
        pub readings: Vec<ReadingId>,
        /// The tester that took them.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub tester: Option<TesterId>,
        /// The test voltage they were taken at, V.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub volts: Option<u32>,
        /// The day they were taken, as typed; times of day stay.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub date: Option<String>,
        /// Minutes the device clock was ahead; taken off every time.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub clock_ahead_minutes: Option<i32>,
        /// Loads while they were taken.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub loads: Option<Loads>,
        /// Why.
        pub reason: String,
    }

    /// A reading in place of another.
    pub struct ReplaceReading {
        /// The job.
        pub job: JobId,
        /// The reading replaced.
        pub reading: ReadingId,
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
        /// The unit key.
        pub unit: UnitKey,
        /// Why.
        pub why: ReplaceReason,
    }

    /// A reading to withdraw.
    pub struct WithdrawReading {
        /// The job.
        pub job: JobId,
        /// The reading.
        pub reading: ReadingId,
        /// Why.
        pub reason: String,
    }
}
