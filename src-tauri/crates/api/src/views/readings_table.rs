//! Readings as a table, in and out, and as a grid of a board.

use super::{LineComplaint, Sign, SlotId, TableFormat};
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId};
use provenohm_assess::quantity::Comparator;

asked! {
    /// A table of readings as text. Its first row names the columns.
    pub struct ReadingTable {
        /// The board.
        pub board: BoardId,
        /// The text.
        pub text: String,
        /// How its fields are parted.
        pub format: TableFormat,
    }
}

asked! {
    /// A spreadsheet file.
    pub struct SpreadsheetFile {
        /// Its bytes, base64.
        pub base64: String,
    }
}

told! {
    /// The first sheet of a spreadsheet file.
    pub struct SheetText {
        /// As text parted by tabs.
        pub text: String,
    }

    /// What a table of readings would make. Lines = new + same + not taken.
    pub struct ReadingsPreview {
        /// The lines that would be new readings or are here already.
        pub rows: Vec<ReadingPreviewRow>,
        /// What is wrong, by line; a table with complaints is not taken.
        pub complaints: Vec<LineComplaint>,
        /// The sum in words.
        pub sum: String,
        /// Lines with a reading.
        pub lines: u32,
        /// Those that would be new readings.
        pub new: u32,
        /// Those that are here already as they stand.
        pub same: u32,
        /// Those that cannot be taken.
        pub not_taken: u32,
    }

    /// One line of a preview.
    pub struct ReadingPreviewRow {
        /// Line, from 1.
        pub line: u32,
        /// `DB-2 · 7 Sockets · L1–PE`.
        pub place: String,
        /// What was read.
        pub shown: String,
        /// Test voltage.
        pub volts: String,
        /// The tester, or that there was none.
        pub tester: String,
        /// When it was taken.
        pub time: String,
        /// Who took it.
        pub person: String,
        /// Whether it is new, in words.
        pub what: String,
    }

    /// A board as a grid to record in: circuits down, pairs across.
    pub struct GridView {
        /// The job.
        pub job: JobId,
        /// The board.
        pub board: BoardId,
        /// Its name.
        pub name: String,
        /// Counted in words.
        pub words: String,
        /// The stage it shows.
        pub stage: Stage,
        /// The stage in words.
        pub stage_words: String,
        /// Column heads: names of pairs.
        pub pairs: Vec<String>,
        /// One row a circuit.
        pub rows: Vec<GridRow>,
    }

    /// One circuit of a grid.
    pub struct GridRow {
        /// The circuit.
        pub circuit: CircuitId,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// Its cells, in the order of its pairs.
        pub cells: Vec<GridCell>,
    }

    /// One slot of a grid.
    pub struct GridCell {
        /// The slot.
        pub slot: SlotId,
        /// Name of the pair: the column it stands in.
        pub pair: String,
        /// Its sign.
        pub sign: Sign,
        /// What was read, or that it was not tested.
        pub shown: Option<String>,
        /// A new reading of it is asked for.
        pub asked: bool,
        /// A reading of it is waited for.
        pub open: bool,
        /// The reading that stands in it: another takes its place with a reason.
        pub holds: Option<GridHeld>,
        /// Why nothing is typed here, if it is so.
        pub closed: Option<String>,
    }

    /// A reading that stands in a cell.
    pub struct GridHeld {
        /// The reading.
        pub reading: ReadingId,
        /// Its digits, as typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
    }
}
