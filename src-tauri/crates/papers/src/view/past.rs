//! What changed: readings withdrawn, replaced and corrected. Nothing measured disappears from paper.

use std::collections::BTreeMap;

use provenohm_assess::ids::ReadingId;
use serde::Serialize;

use crate::fixed::Fixed;
use crate::report::{Board, Circuit, Correction, Fate, Part, Past, Reading, Sign};

use super::Number;
use super::rows::said_of;

/// Characters of a judgement or a reason beyond which a row may go on on the next page.
const TALL: usize = 300;

/// A reading withdrawn, replaced or not chosen.
#[derive(Serialize)]
pub(super) struct PastRow {
    number: String,
    place: String,
    reading: Number,
    voltage: String,
    judgement: String,
    tester_sign: Sign,
    tester: String,
    taken: [String; 2],
    what: String,
    by: [String; 2],
    /// With so much text that the row may go on on the next page.
    tall: bool,
}

impl PastRow {
    pub(super) fn reading(&self) -> &Number {
        &self.reading
    }
}

/// A correction of a reading's circumstances. The digits are not printed again: the number names the line.
#[derive(Serialize)]
pub(super) struct CorrectionRow {
    number: String,
    place: String,
    correction: String,
    by: [String; 2],
}

pub(super) fn past(part: &Part, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> Vec<PastRow> {
    circuits(part)
        .flat_map(|(board, circuit)| circuit.past.iter().map(move |past| (board, circuit, past)))
        .zip(part.first_past..)
        .map(|((board, circuit, past), number)| {
            let what = fate(past, numbers, fixed);
            let tester = part.schedule.testers.iter().find(|known| Some(known.id) == past.reading.tester);
            PastRow {
                number: number.to_string(),
                place: fixed.place(&board.name, &circuit.reference, &past.reading.pair),
                reading: Number::shown(&past.reading.shown, fixed),
                voltage: fixed.words().volts(past.reading.test_voltage_v),
                judgement: past.reading.judgement.clone(),
                tester_sign: past.reading.tester_sign,
                tester: tester.map_or_else(|| fixed.text("no-tester"), |tester| said_of(tester, &past.reading)),
                taken: fixed.by(past.reading.taken_at, &past.reading.person),
                tall: [&past.reading.judgement, &what].iter().any(|text| text.chars().count() > TALL),
                what,
                by: fixed.by(past.at, &past.person),
            }
        })
        .collect()
}

fn fate(past: &Past, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> String {
    let reason = ("reason", past.reason.as_str());
    match past.fate {
        Fate::Withdrawn => fixed.with("withdrawn", &[reason]),
        Fate::NotChosen => fixed.with("not-chosen", &[reason]),
        Fate::Replaced { by } => match numbers.get(&by) {
            Some(number) => fixed.with("replaced-by", &[("number", &number.to_string()), reason]),
            None => fixed.with("replaced", &[reason]),
        },
    }
}

pub(super) fn corrections(part: &Part, numbers: &BTreeMap<ReadingId, u32>, fixed: &Fixed<'_>) -> Vec<CorrectionRow> {
    let row = |board: &Board, circuit: &Circuit, reading: &Reading, correction: &Correction| CorrectionRow {
        number: numbers.get(&reading.id).map(u32::to_string).unwrap_or_default(),
        place: fixed.place(&board.name, &circuit.reference, &reading.pair),
        correction: fixed.with("correction", &[("sentence", &correction.sentence), ("reason", &correction.reason)]),
        by: fixed.by(correction.at, &correction.person),
    };
    let mut rows = Vec::new();
    for (board, circuit) in circuits(part) {
        for reading in circuit.readings() {
            rows.extend(reading.corrections.iter().map(|correction| row(board, circuit, reading, correction)));
        }
    }
    rows
}

fn circuits(part: &Part) -> impl Iterator<Item = (&Board, &Circuit)> {
    part.schedule.boards.iter().flat_map(|board| board.circuits.iter().map(move |circuit| (board, circuit)))
}
