//! The lines under their circuits.

use std::collections::BTreeMap;

use provenohm_assess::ids::ReadingId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Board, Circuit, Line, Part, Past, Reading, Sign, Tester};

use super::notes::{self, Notes};
use super::sources::{Named, Sources};
use super::{Number, columns};

/// Characters the head of a circuit holds beside its name; it is repeated on every page the circuit goes on to.
const HEAD_MOST: usize = 500;
/// Characters of judgement and remarks beyond which a row may go on on the next page.
const TALL: usize = 700;

/// Rows of a circuit up to which all of them stay on one page.
const TOGETHER: usize = 4;
/// Lines of text that rows kept on one page take at most.
const KEPT_LINES: usize = 16;
/// Characters of a note in one line.
const NOTE_LINE: usize = 150;

/// One board with circuits.
#[derive(Serialize)]
pub(super) struct BoardView {
    name: String,
    place: Option<String>,
    /// What holds for the whole board or is marked on its lines; repeated on each of its pages.
    legend: Vec<String>,
    circuits: Vec<CircuitView>,
}

impl BoardView {
    pub(super) fn rows(&self) -> impl Iterator<Item = &Row> {
        self.circuits.iter().flat_map(|circuit| &circuit.rows)
    }
}

#[derive(Serialize)]
struct CircuitView {
    /// By what the template finds the page it begins on; a circuit without lines goes on on no other.
    anchor: Option<String>,
    name: String,
    /// Said beside the name, and repeated with it where the circuit goes on on another page.
    details: Vec<String>,
    /// Too long for that, and the notes: once, below the name.
    below: Vec<String>,
    /// For each of `below` and `rows`: how many of them stay on one page from this one on; 0 within such a run.
    keep: Vec<usize>,
    rows: Vec<Row>,
}

/// One line.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(super) enum Row {
    Reading(Box<ReadingRow>),
    NotTested(NotTestedRow),
    Missing(MissingRow),
    /// Nothing recorded and nothing required.
    Nothing {
        words: String,
    },
}

#[derive(Serialize)]
pub(super) struct ReadingRow {
    number: String,
    sign: Sign,
    pub(super) pair: String,
    pub(super) stage: Option<String>,
    reading: Number,
    pub(super) voltage: String,
    limit: Option<Number>,
    /// Mark of a source other than the board's usual one; or "none stated".
    pub(super) limit_mark: String,
    pub(super) judgement: String,
    /// Numbers of the notes that hold for it.
    pub(super) notes: String,
    pub(super) remarks: Vec<String>,
    tester_sign: Sign,
    pub(super) tester: String,
    pub(super) time: String,
    pub(super) person: String,
    /// With so much text that the row may go on on the next page.
    tall: bool,
    /// One line of text high, whatever stands in it.
    one_line: bool,
}

/// Pairs of a circuit, one after the other, that are required and have nothing on record: one row for all of them.
#[derive(Serialize)]
pub(super) struct MissingRow {
    number: String,
    sign: Sign,
    pairs: String,
    words: String,
}

/// A pair not tested.
#[derive(Serialize)]
pub(super) struct NotTestedRow {
    number: String,
    sign: Sign,
    pair: String,
    words: String,
    time: String,
    person: String,
}

impl Row {
    pub(super) fn reading(&self) -> Option<&Number> {
        match self {
            Self::Reading(row) => Some(&row.reading),
            _ => None,
        }
    }
    /// About how many lines of text it takes, by its narrow columns.
    fn height(&self) -> usize {
        let lines = |text: &str, most: usize| text.chars().count() / most + 1;
        match self {
            Self::Reading(row) => {
                let said = row.remarks.iter().chain([&row.judgement]).map(|text| lines(text, 35)).sum();
                let sides = [lines(&row.pair, 16), lines(&row.tester, 18), lines(&row.person, 14)];
                sides.into_iter().fold(said, usize::max)
            }
            Self::NotTested(row) => {
                [lines(&row.pair, 16), lines(&row.words, 70), lines(&row.person, 14)].into_iter().sum()
            }
            Self::Missing(row) => lines(&row.pairs, 120),
            Self::Nothing { .. } => 1,
        }
    }
    pub(super) fn limit(&self) -> Option<&Number> {
        match self {
            Self::Reading(row) => row.limit.as_ref(),
            _ => None,
        }
    }
}

/// What rows are made from.
struct Lines<'a> {
    part: &'a Part,
    notes: Notes<'a>,
    /// What each reading took the place of.
    replaced: BTreeMap<ReadingId, Vec<(u32, &'a Past)>>,
    fixed: &'a Fixed<'a>,
}

/// Every board of the part that has circuits.
pub(super) fn boards(part: &Part, fixed: &Fixed<'_>) -> Vec<BoardView> {
    let lines = Lines { part, notes: Notes::of(part), replaced: part.replaced(), fixed };
    let mut number = part.first_line;
    let with_circuits = part.schedule.boards.iter().filter(|board| !board.circuits.is_empty());
    with_circuits.map(|board| lines.board(board, &mut number)).collect()
}

/// The boards without circuits, in a sentence.
pub(super) fn empty_boards(part: &Part, fixed: &Fixed<'_>) -> Option<String> {
    let empty = part.schedule.boards.iter().filter(|board| board.circuits.is_empty());
    let names: Vec<&str> = empty.map(|board| board.name.as_str()).collect();
    (!names.is_empty()).then(|| fixed.with("no-circuits", &[("boards", &names.join(", "))]))
}

impl Lines<'_> {
    fn board(&self, board: &Board, number: &mut u32) -> BoardView {
        let sources = Sources::of(&board.circuits);
        let used = |note: &str| {
            let mut own = board.circuits.iter().flat_map(notes::own);
            own.any(|remark| remark == note)
        };
        let notes = self.notes.numbered().filter(|(_, note)| used(note));
        let notes = notes.map(|(number, note)| format!("{} {note}", note_mark(&[number])));
        BoardView {
            name: board.name.clone(),
            place: board.place.clone(),
            legend: sources.legend(&board.circuits, self.fixed).into_iter().chain(notes).collect(),
            circuits: board.circuits.iter().map(|circuit| self.circuit(circuit, &sources, number)).collect(),
        }
    }

    fn circuit(&self, circuit: &Circuit, sources: &Sources<'_>, number: &mut u32) -> CircuitView {
        let shared = notes::shared(circuit);
        let facts = [circuit.nominal.clone(), self.fixed.measure(circuit), circuit.conductors.clone()];
        let facts = facts.into_iter().chain(circuit.conditions.iter().cloned()).filter(|fact| !fact.is_empty());
        let source =
            sources.of_circuit(circuit).map(|source| self.fixed.with("source-of-circuit", &[("source", source)]));
        let on_each = (!shared.is_empty()).then(|| self.fixed.with("on-each-line", &[("remarks", &shared.join("; "))]));
        let (mut details, mut below) = (Vec::new(), Vec::new());
        let mut length = 0;
        for said in facts.chain(source).chain(on_each) {
            length += said.chars().count();
            if length > HEAD_MOST { below.push(said) } else { details.push(said) }
        }
        below.extend(circuit.notes.iter().map(|note| self.fixed.with("note", &[("note", note)])));
        let anchor = (!circuit.lines.is_empty()).then(|| format!("line {number}"));
        let rows = self.rows(circuit, &shared, sources, number);
        CircuitView {
            anchor,
            name: [circuit.reference.as_str(), circuit.description.as_str()].join("  ").trim().to_owned(),
            details,
            keep: keep(&below, &rows),
            below,
            rows,
        }
    }

    fn rows(&self, circuit: &Circuit, shared: &[&str], sources: &Sources<'_>, number: &mut u32) -> Vec<Row> {
        // Where the head of the circuit names its source, its lines need no mark.
        let marked = sources.of_circuit(circuit).is_none().then_some(sources);
        let mut rows = Vec::new();
        let missing = |line: &Line| matches!(line, Line::Missing(_));
        for run in circuit.lines.chunk_by(|one, next| missing(one) && missing(next)) {
            let first = *number;
            *number += u32::try_from(run.len()).unwrap_or(u32::MAX);
            rows.extend(run.first().map(|line| {
                match line {
                    Line::Reading(reading) => Row::Reading(Box::new(self.reading(reading, first, shared, marked))),
                    Line::NotTested(said) => Row::NotTested(NotTestedRow {
                        number: first.to_string(),
                        sign: line.sign(),
                        pair: said.pair.clone(),
                        words: std::iter::once(self.fixed.with("not-tested", &[("reason", &said.reason)]))
                            .chain(said.accepted.as_ref().map(|it| self.fixed.accepted(it)))
                            .collect::<Vec<_>>()
                            .join("; "),
                        time: self.fixed.date_time(said.said_at),
                        person: said.person.clone(),
                    }),
                    Line::Missing(_) => Row::Missing(MissingRow {
                        number: first.to_string(),
                        sign: line.sign(),
                        pairs: run.iter().map(Line::pair).collect::<Vec<_>>().join(", "),
                        words: match run.len() {
                            1 => self.fixed.text("missing"),
                            _ => {
                                let numbers = self.fixed.numbers(&(first..*number).collect());
                                self.fixed.with("missing-lines", &[("numbers", &numbers)])
                            }
                        },
                    }),
                }
            }));
        }
        if rows.is_empty() {
            rows.push(Row::Nothing { words: self.fixed.text("no-lines") });
        }
        rows
    }

    fn reading(&self, reading: &Reading, number: u32, shared: &[&str], marked: Option<&Sources<'_>>) -> ReadingRow {
        let fixed = self.fixed;
        let (mut notes, mut remarks) = (Vec::new(), Vec::new());
        let limit_mark = match (&reading.limit, marked) {
            (None, _) => fixed.text("no-limit"),
            (Some(_), None) => String::new(),
            (Some(limit), Some(sources)) => match sources.named(&limit.source, fixed) {
                Named::Usual => String::new(),
                Named::Marked(mark) => mark,
                Named::InWords(source) => {
                    remarks.push(source);
                    String::new()
                }
            },
        };
        for remark in reading.remarks.iter().filter(|remark| !shared.contains(&remark.as_str())) {
            match self.notes.number(remark) {
                Some(number) => notes.push(number),
                None => remarks.push(remark.clone()),
            }
        }
        remarks.extend(self.replaced.get(&reading.id).into_iter().flatten().map(|(number, past)| {
            fixed.with("in-place-of", &[("number", &number.to_string()), ("reason", &past.reason)])
        }));
        remarks.extend(reading.accepted.as_ref().map(|said| fixed.accepted(said)));
        remarks.extend((!reading.corrections.is_empty()).then(|| fixed.text("corrected")));
        let length: usize = remarks.iter().chain([&reading.judgement]).map(|text| text.chars().count()).sum();
        let testers = &self.part.schedule.testers;
        let tester = testers.iter().find(|tester| Some(tester.id) == reading.tester);
        let row = ReadingRow {
            number: number.to_string(),
            sign: reading.sign,
            pair: reading.pair.clone(),
            stage: reading.stage.clone(),
            reading: Number::shown(&reading.shown, fixed),
            voltage: fixed.words().volts(reading.test_voltage_v),
            limit: reading.limit.as_ref().map(|limit| Number::limit(limit.minimum_ohm, fixed)),
            limit_mark,
            judgement: reading.judgement.clone(),
            notes: note_mark(&notes),
            remarks,
            tester_sign: reading.tester_sign,
            tester: tester.map_or_else(|| fixed.text("no-tester"), |tester| said_of(tester, reading)),
            time: fixed.date_time(reading.taken_at),
            person: reading.person.clone(),
            tall: length > TALL,
            one_line: false,
        };
        ReadingRow { one_line: columns::one_line(&row), ..row }
    }
}

/// Which rows stay on one page: what is below the name with the first two rows, and the last two; few rows all of them. Rows
/// that take much of a page stay with no other.
fn keep(below: &[String], rows: &[Row]) -> Vec<usize> {
    let notes = below.iter().map(|said| said.chars().count() / NOTE_LINE + 1);
    let heights: Vec<usize> = notes.chain(rows.iter().map(Row::height)).collect();
    let (first, last) = if rows.len() <= TOGETHER { (rows.len(), 0) } else { (2, 2) };
    let (head, rest) = heights.split_at(below.len() + first);
    let (middle, foot) = rest.split_at(rest.len() - last);
    let run = |heights: &[usize]| match heights.iter().sum::<usize>() <= KEPT_LINES {
        true => (0..heights.len()).map(|at| if at == 0 { heights.len() } else { 0 }).collect(),
        false => vec![1; heights.len()],
    };
    [run(head), vec![1; middle.len()], run(foot)].concat()
}

/// "Tester A · proved".
pub(super) fn said_of(tester: &Tester, reading: &Reading) -> String {
    format!("{} · {}", tester.name, reading.tester_state)
}

/// "(1, 3)", or nothing.
fn note_mark(numbers: &[usize]) -> String {
    match numbers {
        [] => String::new(),
        _ => format!("({})", numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")),
    }
}
