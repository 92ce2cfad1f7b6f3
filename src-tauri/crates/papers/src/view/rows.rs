//! The lines under their circuits.

use std::collections::BTreeMap;

use provenohm_assess::ids::TesterId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Board, Circuit, Line, Part, Reading, Sign, Tester};

use super::Number;

/// One board.
#[derive(Serialize)]
pub(super) struct BoardView {
    name: String,
    place: Option<String>,
    circuits: Vec<CircuitView>,
    /// Said where the board has no circuit.
    empty: String,
}

impl BoardView {
    pub(super) fn rows(&self) -> impl Iterator<Item = &Row> {
        self.circuits.iter().flat_map(|circuit| &circuit.rows)
    }
}

#[derive(Serialize)]
struct CircuitView {
    name: String,
    details: Vec<String>,
    conditions: Vec<String>,
    rows: Vec<Row>,
    /// Said where the circuit has no line.
    empty: String,
}

/// One line.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(super) enum Row {
    Reading(Box<ReadingRow>),
    Words(WordsRow),
}

#[derive(Serialize)]
pub(super) struct ReadingRow {
    number: String,
    sign: Sign,
    pair: String,
    stage: Option<String>,
    reading: Number,
    voltage: String,
    limit: Option<Number>,
    /// Letter of the source among those of the circuit, where there are several; or "none stated".
    limit_mark: String,
    judgement: String,
    remarks: Vec<String>,
    tester_sign: Sign,
    tester: String,
    tester_state: String,
    time: String,
    person: String,
}

/// A pair not tested or missing.
#[derive(Serialize)]
pub(super) struct WordsRow {
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
            Self::Words(_) => None,
        }
    }
    pub(super) fn limit(&self) -> Option<&Number> {
        match self {
            Self::Reading(row) => row.limit.as_ref(),
            Self::Words(_) => None,
        }
    }
}

pub(super) fn boards(part: &Part, fixed: &Fixed<'_>) -> Vec<BoardView> {
    let testers = part.schedule.testers.iter().map(|tester| (tester.id, tester)).collect();
    let mut number = part.first_line;
    part.schedule.boards.iter().map(|board| board_view(board, &testers, &mut number, fixed)).collect()
}

fn board_view(board: &Board, testers: &BTreeMap<TesterId, &Tester>, number: &mut u32, fixed: &Fixed<'_>) -> BoardView {
    BoardView {
        name: board.name.clone(),
        place: board.place.clone(),
        circuits: board.circuits.iter().map(|circuit| circuit_view(circuit, testers, number, fixed)).collect(),
        empty: fixed.text("no-circuits"),
    }
}

fn circuit_view(
    circuit: &Circuit,
    testers: &BTreeMap<TesterId, &Tester>,
    number: &mut u32,
    fixed: &Fixed<'_>,
) -> CircuitView {
    let sources = sources(circuit);
    let mut rows = Vec::new();
    for line in &circuit.lines {
        rows.push(row(line, *number, &sources, testers, fixed));
        *number += 1;
    }
    let facts = [&circuit.nominal, &circuit.measure, &circuit.conductors];
    let sourced = sources.iter().enumerate().map(|(index, source)| match sources.len() {
        1 => fixed.with("source", &[("source", source)]),
        _ => fixed.with("source-marked", &[("mark", &mark(index)), ("source", source)]),
    });
    CircuitView {
        name: [circuit.reference.as_str(), circuit.description.as_str()].join("  ").trim().to_owned(),
        details: facts.into_iter().filter(|fact| !fact.is_empty()).cloned().chain(sourced).collect(),
        conditions: circuit
            .conditions
            .iter()
            .cloned()
            .chain(circuit.notes.iter().map(|note| fixed.with("note", &[("note", note)])))
            .collect(),
        rows,
        empty: fixed.text("no-lines"),
    }
}

/// The sources of a circuit's limits, in the order of its lines; nearly always one.
fn sources(circuit: &Circuit) -> Vec<&str> {
    let mut sources = Vec::new();
    for line in &circuit.lines {
        if let Line::Reading(reading) = line
            && let Some(limit) = &reading.limit
            && !sources.contains(&limit.source.as_str())
        {
            sources.push(limit.source.as_str());
        }
    }
    sources
}

/// a, b, … z, then numbers.
fn mark(index: usize) -> String {
    match u8::try_from(index) {
        Ok(small) if small < 26 => char::from(b'a' + small).to_string(),
        _ => (index + 1).to_string(),
    }
}

fn row(line: &Line, number: u32, sources: &[&str], testers: &BTreeMap<TesterId, &Tester>, fixed: &Fixed<'_>) -> Row {
    let words = |words: String, time: String, person: String| {
        let pair = line.pair().to_owned();
        Row::Words(WordsRow { number: number.to_string(), sign: line.sign(), pair, words, time, person })
    };
    match line {
        Line::Reading(reading) => Row::Reading(Box::new(reading_row(reading, number, sources, testers, fixed))),
        Line::NotTested(said) => words(
            fixed.with("not-tested", &[("reason", &said.reason)]),
            fixed.date_time(said.said_at),
            said.person.clone(),
        ),
        Line::Missing(_) => words(fixed.text("missing"), String::new(), String::new()),
    }
}

fn reading_row(
    reading: &Reading,
    number: u32,
    sources: &[&str],
    testers: &BTreeMap<TesterId, &Tester>,
    fixed: &Fixed<'_>,
) -> ReadingRow {
    let limit_mark = match &reading.limit {
        None => fixed.text("no-limit"),
        Some(limit) if sources.len() > 1 => {
            sources.iter().position(|source| *source == limit.source).map(mark).unwrap_or_default()
        }
        Some(_) => String::new(),
    };
    let corrected = (!reading.corrections.is_empty()).then(|| fixed.text("corrected"));
    ReadingRow {
        number: number.to_string(),
        sign: reading.sign,
        pair: reading.pair.clone(),
        stage: reading.stage.clone(),
        reading: Number::shown(&reading.shown, fixed),
        voltage: fixed.words().volts(reading.test_voltage_v),
        limit: reading.limit.as_ref().map(|limit| Number::limit(limit.minimum_ohm, fixed)),
        limit_mark,
        judgement: reading.judgement.clone(),
        remarks: reading.remarks.iter().cloned().chain(corrected).collect(),
        tester_sign: reading.tester_sign,
        tester: tester_name(reading, testers, fixed),
        tester_state: reading.tester_state.clone(),
        time: fixed.date_time(reading.taken_at),
        person: reading.person.clone(),
    }
}

fn tester_name(reading: &Reading, testers: &BTreeMap<TesterId, &Tester>, fixed: &Fixed<'_>) -> String {
    match reading.tester.and_then(|id| testers.get(&id)) {
        Some(tester) => tester.name.clone(),
        None => fixed.text("no-tester"),
    }
}
