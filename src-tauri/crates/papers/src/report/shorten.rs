//! Texts cut to what a page holds. The attached model and the tables hold them whole.

use serde_json::Value;

use super::{ModelError, Part};

/// Characters at most in a name, a reference, a pair.
const NAME_MOST: usize = 200;
/// Characters at most in a sentence, a reason, a remark.
const SENTENCE_MOST: usize = 450;
/// Characters at most in a note.
const NOTE_MOST: usize = 2_000;

/// The part with every text cut visibly to its most, or none where nothing is too long.
///
/// # Errors
/// [`ModelError::Unwritable`] if the model cannot be written as JSON and read back.
pub(crate) fn shortened(part: &Part) -> Result<Option<Part>, ModelError> {
    let mut tree = serde_json::to_value(part).map_err(ModelError::Unwritable)?;
    if !shorten(&mut tree, "") {
        return Ok(None);
    }
    serde_json::from_value(tree).map(Some).map_err(ModelError::Unwritable)
}

/// The text, or as many of its characters as there may be at most, the last of them "…".
pub(crate) fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        None => text.to_owned(),
        Some(_) => text.chars().take(most.saturating_sub(1)).chain(['…']).collect(),
    }
}

/// Every text has a most, known by the name of its field.
fn most(field: &str) -> usize {
    match field {
        "notes" => NOTE_MOST,
        // What bears a sign-off out stands on no page.
        "entries" => usize::MAX,
        "text" | "sentence" | "judgement" | "remarks" | "conditions" | "statements" | "card" | "reason"
        | "cautions_read" => SENTENCE_MOST,
        _ => NAME_MOST,
    }
}

/// Says whether anything was cut.
fn shorten(value: &mut Value, field: &str) -> bool {
    match value {
        // Bytes bound characters, so only a text that may be too long is counted.
        Value::String(text) if text.len() > most(field) => {
            let short = cut(text, most(field));
            let is_cut = short != *text;
            *text = short;
            is_cut
        }
        Value::Array(items) => items.iter_mut().fold(false, |cut, item| shorten(item, field) | cut),
        Value::Object(fields) => fields.iter_mut().fold(false, |cut, (name, item)| shorten(item, name) | cut),
        Value::String(_) | Value::Null | Value::Bool(_) | Value::Number(_) => false,
    }
}
