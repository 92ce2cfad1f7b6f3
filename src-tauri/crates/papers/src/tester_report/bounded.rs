//! Texts as long as a page can take: what is longer ends in a visible sign, the attached report holds it whole.

use serde_json::Value;

/// Characters of the longest sentence of our own, and a good deal more.
const MOST: usize = 600;

/// Cuts every longer text of a tree. Says whether there was one.
pub(super) fn bound(tree: &mut Value) -> bool {
    match tree {
        Value::String(text) => {
            let Some((end, _)) = text.char_indices().nth(MOST) else { return false };
            text.truncate(end);
            text.push('…');
            true
        }
        Value::Array(items) => items.iter_mut().fold(false, |cut, item| bound(item) | cut),
        Value::Object(fields) => fields.iter_mut().fold(false, |cut, (_, item)| bound(item) | cut),
        Value::Null | Value::Bool(_) | Value::Number(_) => false,
    }
}
