//! Every text of a report model, found by walking it: a field added later is tested without being named here.

use std::collections::BTreeMap;

use provenohm_papers::report::Schedule;
use serde_json::Value;

/// JSON pointers of the texts of a schedule: the strings for which any other string would do.
pub fn places(schedule: &Schedule) -> Vec<String> {
    let tree = serde_json::to_value(schedule).unwrap();
    let mut strings = Vec::new();
    walk(&tree, String::new(), &mut strings);
    // Fields of one name in one kind of thing are alike: each kind is tried once.
    let mut tried: BTreeMap<String, bool> = BTreeMap::new();
    strings.retain(|place| {
        *tried.entry(field(place)).or_insert_with(|| {
            let mut other = tree.clone();
            *other.pointer_mut(place).unwrap() = Value::from("any other text");
            serde_json::from_value::<Schedule>(other).is_ok()
        })
    });
    strings
}

/// The field a pointer leads to, whichever item of a list it is in.
pub fn field(place: &str) -> String {
    place.split('/').filter(|step| step.parse::<usize>().is_err()).collect::<Vec<_>>().join("/")
}

/// The schedule with every text replaced.
pub fn replaced(schedule: &Schedule, text: &str) -> Schedule {
    let mut tree = serde_json::to_value(schedule).unwrap();
    for place in places(schedule) {
        *tree.pointer_mut(&place).unwrap() = Value::from(text);
    }
    serde_json::from_value(tree).unwrap()
}

fn walk(value: &Value, place: String, strings: &mut Vec<String>) {
    match value {
        Value::String(_) => strings.push(place),
        Value::Array(items) => {
            (0..).zip(items).for_each(|(index, item)| walk(item, format!("{place}/{index}"), strings))
        }
        Value::Object(fields) => fields.iter().for_each(|(name, item)| walk(item, format!("{place}/{name}"), strings)),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}
