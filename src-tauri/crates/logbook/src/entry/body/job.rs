//! Bodies about jobs, boards and circuits: one facet each, amended alone.

use crate::entry::Hash;
use crate::entry::body::CutEnd;
use crate::entry::coded::{coded_choice, coded_map};
use crate::entry::primitive::Bytes;
use provenohm_assess::circuit::Electrical;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId};
use provenohm_assess::limits::SetName;
use provenohm_assess::policy::Policies;

/// How a job came into the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Started by a person.
    Started,
    /// Invented, to try the program with. Every paper says so.
    Invented,
    /// Read from a job file.
    FromFile {
        /// SHA-256 of the file.
        sha256: Hash,
        /// Whether the file said the job is invented.
        invented: bool,
    },
}

coded_choice!(Origin {
    0 = Started {},
    1 = Invented {},
    2 = FromFile { 0: sha256, 1: invented },
});

/// A job begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobOpened {
    /// The job.
    pub job: JobId,
    /// How it came.
    pub origin: Origin,
}

coded_map!(JobOpened { 0: job, 1: origin });

/// Facet: what a job is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobNames {
    /// The job.
    pub job: JobId,
    /// Its name.
    pub name: String,
    /// Where it is; may be empty.
    pub place: String,
}

coded_map!(JobNames { 0: job, 1: name, 2: place });

/// Facet: what a job is judged by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobRules {
    /// The job.
    pub job: JobId,
    /// The limit set, by id, version and SHA-256.
    pub set: SetName,
    /// The set's bytes, which travel with the job.
    pub bytes: Bytes,
    /// The policies.
    pub policies: Policies,
}

coded_map!(JobRules { 0: job, 1: set, 2: bytes, 3: policies });

/// One person's part in a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobPerson {
    /// Who.
    pub person: PersonId,
    /// Their part, in words; may be empty.
    pub part: String,
}

coded_map!(JobPerson { 0: person, 1: part });

/// Facet: the people of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobPeople {
    /// The job.
    pub job: JobId,
    /// Its people.
    pub people: Vec<JobPerson>,
}

coded_map!(JobPeople { 0: job, 1: people });

/// A person has read the cautions and confirms it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CautionsRead {
    /// For which job.
    pub job: JobId,
    /// Who.
    pub person: PersonId,
    /// Version of the cautions they read.
    pub version: u32,
}

coded_map!(CautionsRead { 0: job, 1: person, 2: version });

/// Facet: the boards of a job in order. Boards not listed come after, by their ids.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoardOrder {
    /// The job.
    pub job: JobId,
    /// Boards in order.
    pub boards: Vec<BoardId>,
}

coded_map!(BoardOrder { 0: job, 1: boards });

/// Facet: what a board is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoardNames {
    /// Its job.
    pub job: JobId,
    /// The board.
    pub board: BoardId,
    /// Its name.
    pub name: String,
    /// Where it is; may be empty.
    pub place: String,
}

coded_map!(BoardNames { 0: job, 1: board, 2: name, 3: place });

/// Facet: whether a board is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoardPresent {
    /// Its job.
    pub job: JobId,
    /// The board.
    pub board: BoardId,
    /// There, or removed.
    pub present: bool,
    /// Of a removal: what was here of the job, so that a change it did not know of keeps the board. Empty: all is taken
    /// to be known.
    pub known: Vec<CutEnd>,
}

coded_map!(BoardPresent { 0: job, 1: board, 2: present, 3 * known });

/// Facet: the circuits of a board in the order one walks. Circuits not listed come after, by their ids.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CircuitOrder {
    /// The job.
    pub job: JobId,
    /// The board.
    pub board: BoardId,
    /// Circuits in order.
    pub circuits: Vec<CircuitId>,
}

coded_map!(CircuitOrder { 0: job, 1: board, 2: circuits });

/// Facet: who does a board. A note, not a lock: anybody may record on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoardPeople {
    /// Its job.
    pub job: JobId,
    /// The board.
    pub board: BoardId,
    /// People of the job; nobody where it is left open.
    pub people: Vec<PersonId>,
}

coded_map!(BoardPeople { 0: job, 1: board, 2: people });

/// Facet: what a circuit is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CircuitLabel {
    /// Its job.
    pub job: JobId,
    /// The circuit.
    pub circuit: CircuitId,
    /// Its reference at the board, `7` or `2/L3`.
    pub reference: String,
    /// What it feeds; may be empty.
    pub description: String,
}

coded_map!(CircuitLabel { 0: job, 1: circuit, 2: reference, 3: description });

/// Facet: what decides a circuit's limit and pairs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CircuitElectrical {
    /// Its job.
    pub job: JobId,
    /// The circuit.
    pub circuit: CircuitId,
    /// Nominal voltage, measure, conductors, loads.
    pub electrical: Electrical,
}

coded_map!(CircuitElectrical { 0: job, 1: circuit, 2: electrical });

/// Facet: the board a circuit belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CircuitPlace {
    /// Its job.
    pub job: JobId,
    /// The circuit.
    pub circuit: CircuitId,
    /// Its board.
    pub board: BoardId,
}

coded_map!(CircuitPlace { 0: job, 1: circuit, 2: board });

/// Facet: whether a circuit is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CircuitPresent {
    /// Its job.
    pub job: JobId,
    /// The circuit.
    pub circuit: CircuitId,
    /// There, or removed.
    pub present: bool,
    /// Of a removal: what was here of the job, so that a change it did not know of keeps the circuit. Empty: all is
    /// taken to be known.
    pub known: Vec<CutEnd>,
}

coded_map!(CircuitPresent { 0: job, 1: circuit, 2: present, 3 * known });
