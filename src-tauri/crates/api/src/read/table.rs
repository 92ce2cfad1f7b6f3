//! A table of circuits, pasted from a spreadsheet or read from a file.

use super::{Fields, delimited, read_circuit};
use crate::views::{CircuitForm, LineComplaint, TableFormat};
use provenohm_assess::circuit::{Conductors, Current, Electrical, Loads};
use provenohm_assess::limits::MeasureName;
use provenohm_papers::{defused, plain};
use provenohm_words::Words;
use serde::de::DeserializeOwned;
use serde::de::value::{Error, StrDeserializer};
use std::collections::BTreeSet;

/// One line that can be a circuit.
pub(crate) struct Row {
    pub(crate) line: u32,
    pub(crate) form: CircuitForm,
    pub(crate) electrical: Electrical,
}

/// The columns in the order they stand in without a head.
const COLUMNS: [&str; 14] = [
    "reference",
    "description",
    "nominal_v",
    "current",
    "to_earth_v",
    "measure",
    "felv_supply_v",
    "conductors",
    "loads",
    "notes",
    "lives_joined",
    "spd_stays",
    "item",
    "location",
];

/// More lines than a board has.
const MOST_LINES: usize = 2_000;

/// The circuits of a table and the complaints about its lines. `taken` are references already on the board.
pub(crate) fn read_table(
    words: &Words,
    text: &str,
    format: TableFormat,
    taken: &BTreeSet<String>,
) -> (Vec<Row>, Vec<LineComplaint>) {
    let mut complaints = Vec::new();
    let mut rows = Vec::new();
    let mut taken = taken.clone();
    let mut reader = delimited::reader(text, format);
    let mut columns: Vec<&str> = COLUMNS.to_vec();
    for (index, record) in reader.records().enumerate() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                complaints.push(LineComplaint {
                    line: u32::try_from(line).unwrap_or(0),
                    words: words.text("complaint-line-unreadable"),
                });
                break;
            }
        };
        let line = delimited::line_of(&record);
        if delimited::is_blank(&record) {
            continue;
        }
        if rows.len() >= MOST_LINES {
            complaints.push(LineComplaint {
                line,
                words: words.text_with("complaint-count", &[("most", MOST_LINES.into())]),
            });
            break;
        }
        let head = record.get(0).is_some_and(|first| first.trim().eq_ignore_ascii_case("reference"));
        if index == 0 && head {
            match head_of(words, &record) {
                Ok(named) => columns = named,
                Err(complaint) => {
                    complaints.push(LineComplaint { line, words: complaint });
                    break;
                }
            }
            continue;
        }
        match row(words, &columns, &record, &mut taken) {
            Ok((form, electrical)) => rows.push(Row { line, form, electrical }),
            Err(all) => complaints.extend(all.into_iter().map(|words| LineComplaint { line, words })),
        }
    }
    if rows.is_empty() && complaints.is_empty() {
        complaints.push(LineComplaint { line: 1, words: words.text("complaint-empty-table") });
    }
    (rows, complaints)
}

fn head_of(words: &Words, record: &csv::StringRecord) -> Result<Vec<&'static str>, String> {
    record
        .iter()
        .map(|name| {
            let name = name.trim().to_lowercase();
            let known = COLUMNS.into_iter().find(|column| *column == name);
            known.ok_or_else(|| words.text_with("complaint-unknown-column", &[("column", name.into())]))
        })
        .collect()
}

fn row(
    words: &Words,
    columns: &[&str],
    record: &csv::StringRecord,
    taken: &mut BTreeSet<String>,
) -> Result<(CircuitForm, Electrical), Vec<String>> {
    if record.len() > columns.len() {
        let args = [("found", record.len().into()), ("expected", columns.len().into())];
        return Err(vec![words.text_with("complaint-columns", &args)]);
    }
    let field = |name: &str| {
        let place = columns.iter().position(|column| *column == name);
        let text = place.and_then(|place| record.get(place)).unwrap_or_default();
        plain(text.trim()).to_owned()
    };
    let mut wrong = Vec::new();
    let form = CircuitForm {
        reference: field("reference"),
        description: field("description"),
        nominal: field("nominal_v"),
        current: choice(words, &field("current"), &["ac", "dc"], &mut wrong).unwrap_or(Current::Ac),
        to_earth: field("to_earth_v"),
        measure: choice(words, &field("measure"), &["none", "selv", "pelv", "felv", "separation"], &mut wrong)
            .unwrap_or(MeasureName::None),
        felv_supply: field("felv_supply_v"),
        conductors: choice(words, &field("conductors"), &CONDUCTORS, &mut wrong).unwrap_or(Conductors::SinglePhase),
        loads: choice(words, &field("loads"), &["out", "connected", "electronics"], &mut wrong).unwrap_or(Loads::Out),
        joined_to_earth: yes(words, &field("lives_joined"), &mut wrong),
        spd_stays: yes(words, &field("spd_stays"), &mut wrong),
        item: choice(words, &field("item"), &["heating_element", "functional_earth"], &mut wrong),
        location: choice(words, &field("location"), &["wet", "fire_risk"], &mut wrong),
        notes: field("notes"),
    };
    let mut fields = Fields::new(words);
    fields.needed("reference", &form.reference, "complaint-reference-needed");
    let electrical = read_circuit(&mut fields, &form);
    wrong.extend(fields.complaints().into_iter().map(|complaint| complaint.words));
    if !form.reference.is_empty() && !taken.insert(form.reference.clone()) {
        wrong.push(words.text_with("complaint-reference-taken", &[("reference", form.reference.as_str().into())]));
    }
    match electrical {
        Some(electrical) if wrong.is_empty() => Ok((form, electrical)),
        _ => Err(wrong),
    }
}

/// Circuits as a table that [`read_table`] reads, parted by tabs, with its head.
pub(crate) fn write_table(forms: impl IntoIterator<Item = CircuitForm>) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::WriterBuilder::new().delimiter(b'\t').from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for form in forms {
        let cells = [
            form.reference,
            form.description,
            form.nominal,
            code(form.current),
            form.to_earth,
            code(form.measure),
            form.felv_supply,
            code(form.conductors),
            code(form.loads),
            form.notes,
            yes_or_no(form.joined_to_earth),
            yes_or_no(form.spd_stays),
            code(form.item),
            code(form.location),
        ];
        writer.write_record(cells.map(|cell| defused(&cell)))?;
    }
    writer.into_inner().map_err(|error| error.into_error().into())
}

/// A choice as the word that is read for it.
pub(super) fn code<T: serde::Serialize>(choice: T) -> String {
    let word = serde_json::to_value(choice).ok();
    word.and_then(|word| word.as_str().map(str::to_owned)).unwrap_or_default()
}

pub(super) const YES: &str = "yes";
pub(super) const NO: &str = "no";

pub(super) fn yes_or_no(whether: bool) -> String {
    if whether { YES } else { NO }.to_owned()
}

/// `yes` or `no`; empty means no.
fn yes(words: &Words, text: &str, wrong: &mut Vec<String>) -> bool {
    match text.to_lowercase().as_str() {
        YES => true,
        NO | "" => false,
        _ => {
            wrong.push(unknown(words, text, &[YES, NO]));
            false
        }
    }
}

const CONDUCTORS: [&str; 9] = [
    "single_phase",
    "single_phase_pen",
    "two_phase",
    "two_phase_n",
    "three_phase",
    "three_phase_n",
    "three_phase_pen",
    "dc",
    "dc_midpoint",
];

/// A choice written as a word. Empty: none was made; unknown: none, and a complaint.
pub(super) fn choice<T: DeserializeOwned>(
    words: &Words,
    text: &str,
    choices: &[&str],
    wrong: &mut Vec<String>,
) -> Option<T> {
    if text.is_empty() {
        return None;
    }
    let read = T::deserialize(StrDeserializer::<Error>::new(&text.to_lowercase())).ok();
    if read.is_none() {
        wrong.push(unknown(words, text, choices));
    }
    read
}

fn unknown(words: &Words, text: &str, choices: &[&str]) -> String {
    words.text_with("complaint-unknown-word", &[("word", text.into()), ("choices", choices.join(", ").into())])
}
