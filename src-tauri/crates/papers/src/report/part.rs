//! Cutting a long schedule into parts.

use std::collections::{BTreeMap, BTreeSet};

use provenohm_assess::ids::ReadingId;
use serde::{Deserialize, Serialize};

use super::check::{self, LINES_IN_A_PART, ModelError};
use super::{Board, Circuit, Digest, Fate, Fingerprint, Line, Past, Schedule, Sign};

/// One document of a schedule: the whole of it, or one board (or a piece of a large board) of a long one.
///
/// It is what is attached to the PDF: with it and the same version of the program the same pages can be made again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Part {
    /// Version of the form of this model.
    pub model_version: u32,
    /// Number of this part, from 1.
    pub number: u32,
    /// How many parts there are.
    pub of: u32,
    /// Digest of the whole schedule's canonical bytes.
    pub whole: Digest,
    /// Number of the first current line in this part; lines are numbered through the whole job.
    pub first_line: u32,
    /// Number of the first withdrawn, replaced or not chosen reading in this part; they are numbered after all current lines.
    pub first_past: u32,
    /// Numbers of readings in other parts that this part names.
    pub elsewhere: BTreeMap<ReadingId, u32>,
    /// Counts over the whole job.
    pub totals: Totals,
    /// Names of the boards in each part, in order.
    pub contents: Vec<Vec<String>>,
    /// The content: of the whole schedule, only the boards of this part. What to look at stands in part 1 only.
    pub schedule: Schedule,
}

/// Counts over the whole job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Totals {
    /// Current readings.
    pub readings: u32,
    /// Lines marked *look* that were not accepted.
    pub look: u32,
    /// Lines marked *look* that were accepted with a reason.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub accepted: u32,
    /// Lines marked *stop*.
    pub stop: u32,
    /// Pairs not tested.
    pub not_tested: u32,
    /// Pairs missing.
    pub missing: u32,
    /// Readings withdrawn, replaced or not chosen.
    pub past: u32,
}

/// A count that says nothing is left out of the canonical bytes: what was signed before there were such keeps its digest.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes a reference")]
const fn is_zero(count: &u32) -> bool {
    *count == 0
}

/// A schedule, checked and cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parts {
    /// Digest of the whole schedule's canonical bytes.
    pub whole: Digest,
    /// The parts in order, never empty.
    pub parts: Vec<Part>,
}

/// Version of the form of the attached model.
const MODEL_VERSION: u32 = 3;

impl Part {
    /// The canonical bytes: fields in their declared order, no floats, no insignificant white space.
    ///
    /// # Errors
    /// [`ModelError::Unwritable`] if the model cannot be written as JSON.
    pub fn canonical(&self) -> Result<Vec<u8>, ModelError> {
        canonical(self)
    }

    /// What every page of it carries: the fingerprint of the record, or of the whole model where that came from a file.
    #[must_use]
    pub fn fingerprint(&self) -> Fingerprint {
        self.schedule.record.as_ref().unwrap_or(&self.whole).fingerprint()
    }

    /// The number of each reading this part holds or names.
    #[must_use]
    pub fn numbers(&self) -> BTreeMap<ReadingId, u32> {
        let mut numbers = self.elsewhere.clone();
        number(&self.schedule.boards, self.first_line, self.first_past, &mut numbers);
        numbers
    }

    /// What each reading took the place of: the earlier readings with their numbers.
    pub(crate) fn replaced(&self) -> BTreeMap<ReadingId, Vec<(u32, &Past)>> {
        let circuits = self.schedule.boards.iter().flat_map(|board| &board.circuits);
        let mut replaced: BTreeMap<ReadingId, Vec<(u32, &Past)>> = BTreeMap::new();
        for (number, past) in (self.first_past..).zip(circuits.flat_map(|circuit| &circuit.past)) {
            if let Fate::Replaced { by } = past.fate {
                replaced.entry(by).or_default().push((number, past));
            }
        }
        replaced
    }
}

impl Parts {
    /// Checks `schedule` and cuts it: up to 1,500 lines stay one part; beyond, each board is a part, and a board of more
    /// than 1,500 lines several, cut between circuits wherever a circuit fits.
    ///
    /// # Errors
    /// [`ModelError`] with the place of what cannot be printed as it is.
    pub fn of(schedule: &Schedule) -> Result<Self, ModelError> {
        check::check(schedule)?;
        let whole = schedule.digest()?;
        let pieces = cut(&schedule.boards);
        let current: usize =
            schedule.boards.iter().flat_map(|board| &board.circuits).map(|circuit| circuit.lines.len()).sum();
        let mut numbers = BTreeMap::new();
        let past_from = count(current)? + 1;
        number(&schedule.boards, 1, past_from, &mut numbers);

        let of = count(pieces.len())?;
        let totals = totals(schedule)?;
        let contents: Vec<Vec<String>> =
            pieces.iter().map(|boards| boards.iter().map(|board| board.name.clone()).collect()).collect();
        let (mut first_line, mut first_past) = (1, past_from);
        let mut parts = Vec::new();
        for (index, boards) in pieces.into_iter().enumerate() {
            let lines: usize = boards.iter().flat_map(|board| &board.circuits).map(|circuit| circuit.lines.len()).sum();
            let past: usize = boards.iter().flat_map(|board| &board.circuits).map(|circuit| circuit.past.len()).sum();
            let mut part = Schedule { boards, ..head(schedule) };
            if index > 0 {
                part.findings.clear();
            }
            let elsewhere = elsewhere(&part, &numbers);
            parts.push(Part {
                model_version: MODEL_VERSION,
                number: count(index)? + 1,
                of,
                whole: whole.clone(),
                first_line,
                first_past,
                elsewhere,
                totals,
                contents: contents.clone(),
                schedule: part,
            });
            first_line += count(lines)?;
            first_past += count(past)?;
        }
        Ok(Self { whole, parts })
    }
}

fn totals(schedule: &Schedule) -> Result<Totals, ModelError> {
    let circuits = || schedule.boards.iter().flat_map(|board| &board.circuits);
    let lines = |wanted: &dyn Fn(&Line) -> bool| {
        count(circuits().flat_map(|circuit| &circuit.lines).filter(|line| wanted(line)).count())
    };
    Ok(Totals {
        readings: lines(&|line| matches!(line, Line::Reading(_)))?,
        look: lines(&|line| line.sign() == Sign::Look && line.accepted().is_none())?,
        accepted: lines(&|line| line.accepted().is_some())?,
        stop: lines(&|line| line.sign() == Sign::Stop)?,
        not_tested: lines(&|line| matches!(line, Line::NotTested(_)))?,
        missing: lines(&|line| matches!(line, Line::Missing(_)))?,
        past: count(circuits().map(|circuit| circuit.past.len()).sum())?,
    })
}

/// Everything of a schedule but its boards.
fn head(schedule: &Schedule) -> Schedule {
    Schedule {
        language: schedule.language.clone(),
        demo: schedule.demo,
        as_of: schedule.as_of,
        offset_minutes: schedule.offset_minutes,
        job: schedule.job.clone(),
        limit_set: schedule.limit_set.clone(),
        policies: schedule.policies.clone(),
        rules_version: schedule.rules_version,
        findings: schedule.findings.clone(),
        testers: schedule.testers.clone(),
        cautions_read: schedule.cautions_read.clone(),
        boards: Vec::new(),
        record: schedule.record.clone(),
        signatures: schedule.signatures.clone(),
    }
}

fn cut(boards: &[Board]) -> Vec<Vec<Board>> {
    if boards.iter().map(Board::lines).sum::<usize>() <= LINES_IN_A_PART {
        return vec![boards.to_vec()];
    }
    let mut pieces: Vec<Vec<Board>> = Vec::new();
    for board in boards.iter().flat_map(cut_board) {
        match pieces.last_mut() {
            // A board without lines is one line on paper, not a document.
            Some(piece) if board.lines() == 0 => piece.push(board),
            _ => pieces.push(vec![board]),
        }
    }
    pieces
}

fn cut_board(board: &Board) -> Vec<Board> {
    let mut pieces: Vec<Vec<Circuit>> = vec![Vec::new()];
    let mut lines = 0;
    for circuit in board.circuits.iter().flat_map(cut_circuit) {
        let more = circuit.lines_and_past();
        if lines + more > LINES_IN_A_PART && lines > 0 {
            pieces.push(Vec::new());
            lines = 0;
        }
        lines += more;
        if let Some(piece) = pieces.last_mut() {
            piece.push(circuit);
        }
    }
    pieces
        .into_iter()
        .map(|circuits| Board { id: board.id, name: board.name.clone(), place: board.place.clone(), circuits })
        .collect()
}

/// A circuit with more lines than a part holds is cut by lines; nobody has such a circuit, and it must print all the same.
fn cut_circuit(circuit: &Circuit) -> Vec<Circuit> {
    if circuit.lines_and_past() <= LINES_IN_A_PART {
        return vec![circuit.clone()];
    }
    let empty = Circuit { lines: Vec::new(), past: Vec::new(), ..circuit.clone() };
    let current = circuit.lines.chunks(LINES_IN_A_PART).map(|lines| Circuit { lines: lines.to_vec(), ..empty.clone() });
    let past = circuit.past.chunks(LINES_IN_A_PART).map(|past| Circuit { past: past.to_vec(), ..empty.clone() });
    current.chain(past).collect()
}

fn number(boards: &[Board], first_line: u32, first_past: u32, numbers: &mut BTreeMap<ReadingId, u32>) {
    let circuits = || boards.iter().flat_map(|board| &board.circuits);
    for (number, line) in (first_line..).zip(circuits().flat_map(|circuit| &circuit.lines)) {
        numbers.extend(line.reading().map(|reading| (reading.id, number)));
    }
    for (number, past) in (first_past..).zip(circuits().flat_map(|circuit| &circuit.past)) {
        numbers.insert(past.reading.id, number);
    }
}

fn elsewhere(part: &Schedule, numbers: &BTreeMap<ReadingId, u32>) -> BTreeMap<ReadingId, u32> {
    let mut here = BTreeMap::new();
    number(&part.boards, 0, 0, &mut here);
    let found = part.findings.iter().flat_map(|finding| &finding.places).filter_map(|place| place.reading);
    let replaced =
        part.boards.iter().flat_map(|board| &board.circuits).flat_map(|circuit| &circuit.past).filter_map(|past| {
            match past.fate {
                Fate::Replaced { by } => Some(by),
                Fate::Withdrawn | Fate::NotChosen => None,
            }
        });
    found
        .chain(replaced)
        .collect::<BTreeSet<_>>()
        .into_iter()
        .filter(|id| !here.contains_key(id))
        .filter_map(|id| numbers.get(&id).map(|number| (id, *number)))
        .collect()
}

impl Schedule {
    /// The digest that is signed: of the canonical bytes without what they say of sign-offs.
    ///
    /// # Errors
    /// [`ModelError::Unwritable`] if the model cannot be written as JSON.
    pub fn digest(&self) -> Result<Digest, ModelError> {
        if self.signatures.is_empty() {
            return Ok(Digest::of(&canonical(self)?));
        }
        Ok(Digest::of(&canonical(&Self { signatures: Vec::new(), ..self.clone() })?))
    }
}

fn canonical<T: Serialize>(value: &T) -> Result<Vec<u8>, ModelError> {
    serde_json::to_vec(value).map_err(ModelError::Unwritable)
}

fn count(lines: usize) -> Result<u32, ModelError> {
    u32::try_from(lines).map_err(|_| ModelError::TooMany)
}
