//! Circuits and what follows from them.

use super::{Choice, Sign};
use provenohm_assess::circuit::{Conductors, Current, Item, Loads, Location};
use provenohm_assess::ids::{BoardId, CircuitId, JobId};
use provenohm_assess::limits::MeasureName;

told! {
    /// A board's circuits.
    pub struct CircuitsView {
        /// The job.
        pub job: JobId,
        /// The board.
        pub board: BoardId,
        /// Its name.
        pub name: String,
        /// For example `54 readings for 12 circuits`.
        pub sum: String,
        /// Circuits in the order they are read in.
        pub circuits: Vec<CircuitView>,
        /// Circuits taken away, which can be brought back.
        pub removed: Vec<RemovedCircuit>,
        /// What a form offers.
        pub choices: CircuitChoices,
        /// A form with what the last circuit has, for the next one.
        pub next: CircuitForm,
    }

    /// One circuit.
    pub struct CircuitView {
        /// The circuit.
        pub id: CircuitId,
        /// Its reference on the board.
        pub reference: String,
        /// What it feeds.
        pub description: String,
        /// What can be edited, as typed.
        pub form: CircuitForm,
        /// Its electrical facet in one line.
        pub electrical: String,
        /// What the set asks of it.
        pub follows: Follows,
        /// Slots with a reading or a reason.
        pub done: u32,
        /// Slots in all.
        pub of: u32,
        /// Its sign.
        pub sign: Sign,
        /// Two live values, in words.
        pub conflict: Option<String>,
    }

    /// A circuit taken away.
    pub struct RemovedCircuit {
        /// The circuit.
        pub id: CircuitId,
        /// Reference and description.
        pub words: String,
    }

    /// What the set asks of a circuit.
    pub struct Follows {
        /// For example `500 V`, or that the set states none.
        pub test_voltage: String,
        /// For example `1.0 MΩ`.
        pub minimum: String,
        /// Where the figure stands and how sure it is.
        pub source: String,
        /// Names of the required pairs, for example `L1–PE`.
        pub pairs: Vec<String>,
        /// How many readings.
        pub readings: u32,
        /// All of it in a sentence.
        pub words: String,
    }

    /// What a circuit form offers, with words.
    pub struct CircuitChoices {
        /// Protective measures.
        pub measures: Vec<Choice>,
        /// Arrangements of conductors.
        pub conductors: Vec<Choice>,
        /// Kinds of current.
        pub currents: Vec<Choice>,
        /// Loads.
        pub loads: Vec<Choice>,
        /// Special items.
        pub items: Vec<Choice>,
        /// Special locations.
        pub locations: Vec<Choice>,
    }

    /// What follows, or what is wrong; asked while the person types.
    pub struct CircuitChecked {
        /// What is wrong.
        pub complaints: Vec<super::Complaint>,
        /// What follows, when nothing is wrong.
        pub follows: Option<Follows>,
    }

    /// The circuits after a change, with what was done.
    pub struct CircuitsChanged {
        /// The board's circuits now.
        pub view: CircuitsView,
        /// What was done, in words.
        pub words: String,
        /// Takes it back.
        pub undo: Option<super::UndoToken>,
    }

    /// A table as text, parted by tabs.
    pub struct CopiedOut {
        /// The text.
        pub text: String,
    }

    /// What a pasted or imported table would make.
    pub struct CircuitsPreview {
        /// Its rows.
        pub rows: Vec<PreviewRow>,
        /// What is wrong, by line; a table with complaints is not taken.
        pub complaints: Vec<super::LineComplaint>,
        /// The sum in words.
        pub sum: String,
    }

    /// One row of a preview.
    pub struct PreviewRow {
        /// Line, from 1.
        pub line: u32,
        /// Reference.
        pub reference: String,
        /// Description.
        pub description: String,
        /// Electrical facet in one line.
        pub electrical: String,
        /// What follows.
        pub follows: String,
    }
}

asked! {
    /// A circuit as typed.
    pub struct CircuitForm {
        /// Reference on the board.
        #[serde(default)]
        pub reference: String,
        /// What it feeds.
        #[serde(default)]
        pub description: String,
        /// Nominal voltage as typed, V.
        pub nominal: String,
        /// Kind of current.
        #[serde(default)]
        pub current: Current,
        /// Voltage to earth as typed, V; empty: not stated.
        #[serde(default)]
        pub to_earth: String,
        /// Protective measure.
        pub measure: MeasureName,
        /// FELV: the supply's nominal voltage as typed, V.
        #[serde(default)]
        pub felv_supply: String,
        /// Live conductors.
        pub conductors: Conductors,
        /// Loads while testing.
        #[serde(default)]
        pub loads: Loads,
        /// Lives joined for the test to earth.
        #[serde(default)]
        pub joined_to_earth: bool,
        /// A surge protector that cannot be disconnected.
        #[serde(default)]
        pub spd_stays: bool,
        /// Special item.
        #[serde(default)]
        pub item: Option<Item>,
        /// Special location.
        #[serde(default)]
        pub location: Option<Location>,
        /// Notes.
        #[serde(default)]
        pub notes: String,
    }

    /// A form to be checked.
    pub struct CheckCircuit {
        /// The board.
        pub board: BoardId,
        /// The form.
        pub form: CircuitForm,
    }

    /// A new circuit, or a change to one.
    pub struct SaveCircuit {
        /// The board.
        pub board: BoardId,
        /// The circuit; absent: a new one.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub circuit: Option<CircuitId>,
        /// The form.
        pub form: CircuitForm,
    }

    /// Many circuits of one kind, numbered on from the last.
    pub struct AddManyCircuits {
        /// The board.
        pub board: BoardId,
        /// How many, as typed.
        pub count: String,
        /// Their kind; reference and description are left out.
        pub form: CircuitForm,
    }

    /// A table of circuits as text.
    pub struct CircuitTable {
        /// The board.
        pub board: BoardId,
        /// The text.
        pub text: String,
        /// How its fields are parted.
        pub format: TableFormat,
    }

    /// Up or down.
    pub struct MoveCircuit {
        /// The circuit.
        pub circuit: CircuitId,
        /// By how many places: less than 0 up, more than 0 down; at an end it stops.
        pub by: i32,
    }

    /// A board as a table to paste elsewhere.
    pub struct CopyOut {
        /// The board.
        pub board: BoardId,
        /// What of it.
        pub what: CopiedWhat,
    }
}

choice! {
    /// What of a board is copied out.
    pub enum CopiedWhat {
        /// Its circuits, in the columns a pasted table is read by.
        Circuits,
        /// Its readings, in the columns a pasted table is read by: comparator, digits and unit each in its own.
        Readings,
    }
}

choice! {
    /// How fields are parted.
    pub enum TableFormat {
        /// By tabs, as a spreadsheet copies.
        Tsv,
        /// By commas or semicolons.
        Csv,
    }
}
