//! What a model must keep to before it is put on paper.

use std::collections::BTreeSet;

use provenohm_assess::ids::{ReadingId, TesterId};
use serde_json::Value;
use thiserror::Error;

use super::Schedule;

/// Lines of one document; beyond it a schedule is cut into parts.
pub const LINES_IN_A_PART: usize = 1_500;
/// Characters at most in a name, a reference, a pair.
pub const NAME_MOST: usize = 200;
/// Characters at most in a sentence, a reason, a remark.
pub const SENTENCE_MOST: usize = 600;
/// Characters at most in a note.
pub const NOTE_MOST: usize = 2_000;

/// Why a model cannot be put on paper.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum ModelError {
    /// A text is longer than a page can hold with the rest.
    #[error("{place} has {characters} characters; a schedule holds {most}")]
    TooLong {
        /// Path of the field in the model, lists counted from 1.
        place: String,
        /// Its length.
        characters: usize,
        /// The most that fits.
        most: usize,
    },
    /// The same reading twice.
    #[error("reading {0} stands in the schedule twice")]
    Twice(ReadingId),
    /// A reading names a tester the schedule does not describe.
    #[error("reading {reading} names tester {tester}, which the schedule does not describe")]
    UnknownTester {
        /// The reading.
        reading: ReadingId,
        /// The tester.
        tester: TesterId,
    },
    /// More lines than can be numbered.
    #[error("more lines than a schedule can number")]
    TooMany,
    /// The model could not be written as JSON.
    #[error("the report model could not be written: {0}")]
    Unwritable(serde_json::Error),
}

/// Checks lengths, and that every reading is there once and its tester is described.
pub(super) fn check(schedule: &Schedule) -> Result<(), ModelError> {
    let tree = serde_json::to_value(schedule).map_err(ModelError::Unwritable)?;
    lengths(&tree, "", &mut String::from("schedule"))?;
    let testers: BTreeSet<TesterId> = schedule.testers.iter().map(|tester| tester.id).collect();
    let mut seen = BTreeSet::new();
    for reading in schedule.boards.iter().flat_map(|board| &board.circuits).flat_map(|circuit| circuit.readings()) {
        if !seen.insert(reading.id) {
            return Err(ModelError::Twice(reading.id));
        }
        if let Some(tester) = reading.tester.filter(|tester| !testers.contains(tester)) {
            return Err(ModelError::UnknownTester { reading: reading.id, tester });
        }
    }
    Ok(())
}

/// Every text of the model has a bound, known by the name of its field, so that no row is taller than a page.
fn most(field: &str) -> usize {
    match field {
        "notes" => NOTE_MOST,
        "text" | "sentence" | "judgement" | "remarks" | "conditions" | "statements" | "card" | "reason"
        | "cautions_read" => SENTENCE_MOST,
        _ => NAME_MOST,
    }
}

fn lengths(value: &Value, field: &str, place: &mut String) -> Result<(), ModelError> {
    let length = place.len();
    match value {
        // Bytes bound characters, so only a text that may be too long is counted.
        Value::String(text) if text.len() > most(field) => {
            let characters = text.chars().count();
            if characters > most(field) {
                return Err(ModelError::TooLong { place: place.clone(), characters, most: most(field) });
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                place.push_str(&format!("[{}]", index + 1));
                lengths(item, field, place)?;
                place.truncate(length);
            }
        }
        Value::Object(fields) => {
            for (name, item) in fields {
                place.push('.');
                place.push_str(name);
                lengths(item, name, place)?;
                place.truncate(length);
            }
        }
        Value::String(_) | Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
    Ok(())
}
