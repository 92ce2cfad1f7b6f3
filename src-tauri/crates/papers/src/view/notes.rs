//! Remarks that several lines share: said once, and marked where they hold, so that a reading keeps to its one line.

use std::collections::BTreeMap;

use crate::report::{Circuit, Line, Part, Reading};

/// Lines a remark is found on before it becomes a note; rarer ones are read more easily beside their line.
const LINES_LEAST: usize = 3;
/// Longest remark that becomes a note, in characters: the notes stand at the head of every page.
const NOTE_MOST: usize = 160;
/// Notes at most, for the same reason; further remarks stand under their line.
const NOTES_MOST: usize = 12;

/// The notes of a document, numbered from 1 in the order they are met.
pub(super) struct Notes<'a>(Vec<&'a str>);

impl<'a> Notes<'a> {
    /// Every short remark found on several lines, beside those that hold for a whole circuit.
    pub(super) fn of(part: &'a Part) -> Self {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        let mut met = Vec::new();
        for circuit in part.schedule.boards.iter().flat_map(|board| &board.circuits) {
            for remark in own(circuit) {
                let count = counts.entry(remark).or_default();
                *count += 1;
                if *count == LINES_LEAST && remark.chars().count() <= NOTE_MOST {
                    met.push(remark);
                }
            }
        }
        met.truncate(NOTES_MOST);
        Self(met)
    }

    /// The number of a remark that is a note.
    pub(super) fn number(&self, remark: &str) -> Option<usize> {
        self.0.iter().position(|note| *note == remark).map(|index| index + 1)
    }

    /// Every note with its number.
    pub(super) fn numbered(&self) -> impl Iterator<Item = (usize, &'a str)> {
        (1..).zip(self.0.iter().copied())
    }
}

/// Remarks that hold for every reading of a circuit that has more than one: its head says them.
pub(super) fn shared(circuit: &Circuit) -> Vec<&str> {
    let mut readings = readings(circuit);
    let Some(first) = readings.next() else { return Vec::new() };
    let others: Vec<&Reading> = readings.collect();
    let holds = |remark: &&str| others.iter().all(|other| other.remarks.iter().any(|it| it == remark));
    first.remarks.iter().map(String::as_str).filter(|_| !others.is_empty()).filter(holds).collect()
}

/// Remarks of a circuit's lines that its head does not say.
pub(super) fn own(circuit: &Circuit) -> impl Iterator<Item = &str> {
    let shared = shared(circuit);
    let remarks = readings(circuit).flat_map(|reading| &reading.remarks).map(String::as_str);
    remarks.filter(move |remark| !shared.contains(remark))
}

fn readings(circuit: &Circuit) -> impl Iterator<Item = &Reading> {
    circuit.lines.iter().filter_map(Line::reading)
}
