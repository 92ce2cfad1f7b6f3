//! The readings a failed tester puts in doubt, and what became of each.

use super::{Sentence, SlotId, TesterLine, UndoToken};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId, TesterId};

asked! {
    /// A tester by its id or its serial number.
    pub struct RecallAsk {
        /// Id or serial number.
        pub tester: String,
    }

    /// The recall list as a file.
    pub struct MakeRecall {
        /// The tester.
        pub tester: TesterId,
        /// Of which kind.
        pub format: RecallFormat,
    }

    /// That nothing more has to be done about a reading put in doubt.
    pub struct ResolveRecall {
        /// Its tester.
        pub tester: TesterId,
        /// Its job.
        pub job: JobId,
        /// The reading.
        pub reading: ReadingId,
        /// Why.
        pub reason: String,
    }
}

told! {
    /// Everything a failed tester puts in doubt.
    #[derive(schemars::JsonSchema)]
    pub struct RecallView {
        /// The tester; absent where more than one has that serial number.
        pub tester: Option<TesterId>,
        /// What people call it.
        pub name: String,
        /// Its serial number.
        pub serial: String,
        /// The testers of that serial number, where there is more than one: choose.
        pub candidates: Vec<TesterLine>,
        /// In a sentence.
        pub words: String,
        /// How many readings, sorted and resolved.
        pub counts: RecallCounts,
        /// What found it failed, or its damage, the earliest first.
        pub causes: Vec<RecallCause>,
        /// By job, the one with the most urgent line first.
        pub jobs: Vec<RecallJob>,
        /// What the last act did, in words.
        pub said: Option<String>,
        /// Takes the last act back.
        pub undo: Option<UndoToken>,
    }

    /// How many readings put in doubt.
    #[derive(Copy, Default, schemars::JsonSchema)]
    pub struct RecallCounts {
        /// All.
        pub all: u32,
        /// Resolved: tested again, or by a reasoned statement.
        pub resolved: u32,
        /// To be tested again.
        pub test_again: u32,
        /// Cannot be judged.
        pub cannot_be_judged: u32,
        /// Still clear the limit.
        pub still_clears: u32,
    }

    /// A failed verification or quick check, or damage.
    #[derive(schemars::JsonSchema)]
    pub struct RecallCause {
        /// `Bench verification of 3 Mar 2026 by …`.
        pub title: String,
        /// What it says.
        pub lines: Vec<String>,
        /// How many readings it puts in doubt.
        pub readings: u32,
    }

    /// A job with readings in doubt.
    #[derive(schemars::JsonSchema)]
    pub struct RecallJob {
        /// The job.
        pub job: JobId,
        /// Its name.
        pub name: String,
        /// Its place.
        pub place: String,
        /// Invented, and says so.
        pub invented: bool,
        /// Who to call: name and part, as the job has them.
        pub people: Vec<String>,
        /// Each sign-off of it that stands, and how many of its readings are here.
        pub signed: Vec<String>,
        /// How many of its readings.
        pub counts: RecallCounts,
        /// By board, the one with the most urgent line first.
        pub boards: Vec<RecallBoard>,
    }

    /// A board with readings in doubt.
    #[derive(schemars::JsonSchema)]
    pub struct RecallBoard {
        /// The board; absent where the circuit is on none.
        pub board: Option<BoardId>,
        /// Its name.
        pub name: String,
        /// By circuit, the one with the most urgent line first; of a circuit, the most urgent first.
        pub lines: Vec<RecallLine>,
    }

    /// A reading put in doubt.
    #[derive(schemars::JsonSchema)]
    pub struct RecallLine {
        /// The reading.
        pub reading: ReadingId,
        /// Its circuit.
        pub circuit: Option<CircuitId>,
        /// Its slot.
        pub slot: SlotId,
        /// `7 Sockets`.
        pub circuit_name: String,
        /// `L1–PE`.
        pub pair: String,
        /// `487 MΩ`.
        pub shown: String,
        /// Test voltage.
        pub volts: String,
        /// When it was taken.
        pub time: String,
        /// How it is sorted.
        pub class: RecallClass,
        /// That in a word or two.
        pub class_words: String,
        /// What is left of it, and with which figure.
        pub words: String,
        /// What is said beside a figure that rests on an error found later.
        pub remark: Option<String>,
        /// What put it in doubt.
        pub because: Sentence,
        /// What became of it; absent: nothing yet.
        pub resolved: Option<String>,
    }
}

choice! {
    /// A kind of file for a recall list.
    pub enum RecallFormat {
        /// Pages.
        Pdf,
        /// A table.
        Csv,
    }


    /// How a reading put in doubt is sorted.
    #[derive(schemars::JsonSchema)]
    pub enum RecallClass {
        /// No longer certain: test again.
        TestAgain,
        /// Cannot be judged.
        CannotBeJudged,
        /// Still clears the limit even with the error found.
        StillClears,
    }
}
