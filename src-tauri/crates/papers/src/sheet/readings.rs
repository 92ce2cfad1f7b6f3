//! The table of lines: current ones in their order, then readings withdrawn or replaced.

use std::collections::BTreeMap;

use provenohm_assess::ids::{ReadingId, TesterId};

use super::{Table, comparator_code};
use crate::fixed::Fixed;
use crate::report::{Board, Circuit, Fate, Line, Part, Past, Reading, Sign, Tester};

/// Columns, by the last part of their key.
const COLUMNS: [&str; 33] = [
    "number",
    "status",
    "sign",
    "board",
    "circuit",
    "description",
    "nominal",
    "measure",
    "conductors",
    "conditions",
    "pair",
    "stage",
    "comparator",
    "digits",
    "unit",
    "ohm",
    "voltage",
    "minimum",
    "minimum-unit",
    "minimum-ohm",
    "source",
    "judgement",
    "remarks",
    "tester-name",
    "tester-serial",
    "tester-state",
    "time",
    "person",
    "reason",
    "replaced-by",
    "changed-at",
    "changed-by",
    "record",
];

/// Place of the column that names the board.
pub(super) const BOARD: usize = 3;

/// One line: the columns that are filled.
type Cells = BTreeMap<&'static str, String>;

/// Every line of the parts, in the order of the paper.
pub(super) fn lines(parts: &[Part], fixed: &Fixed<'_>) -> Table {
    let mut current = Vec::new();
    let mut past = Vec::new();
    for part in parts {
        let numbers = part.numbers();
        let mut number = part.first_line;
        for (board, circuit) in circuits(part) {
            for line in &circuit.lines {
                current.push(of_line(number, line, (board, circuit), part, fixed));
                number += 1;
            }
        }
        let gone =
            circuits(part).flat_map(|(board, circuit)| circuit.past.iter().map(move |past| (board, circuit, past)));
        past.extend(
            gone.zip(part.first_past..)
                .map(|((board, circuit, past), number)| of_past(number, past, (board, circuit), part, &numbers, fixed)),
        );
    }
    let row = |cells: Cells| COLUMNS.iter().map(|column| cells.get(column).cloned().unwrap_or_default()).collect();
    Table {
        name: fixed.text("sheet-readings"),
        heads: COLUMNS.iter().map(|column| fixed.text(&format!("column-{column}"))).collect(),
        rows: current.into_iter().chain(past).map(row).collect(),
    }
}

fn circuits(part: &Part) -> impl Iterator<Item = (&Board, &Circuit)> {
    part.schedule.boards.iter().flat_map(|board| board.circuits.iter().map(move |circuit| (board, circuit)))
}

fn of_line(number: u32, line: &Line, place: (&Board, &Circuit), part: &Part, fixed: &Fixed<'_>) -> Cells {
    let mut cells = placed(number, place, line.sign(), line.pair(), fixed);
    let status = match line {
        Line::Reading(reading) => {
            of_reading(&mut cells, reading, part, fixed);
            "status-current"
        }
        Line::NotTested(said) => {
            cells.extend([
                ("reason", said.reason.clone()),
                ("time", fixed.date_time(said.said_at)),
                ("person", said.person.clone()),
            ]);
            "status-not-tested"
        }
        Line::Missing(_) => "status-missing",
    };
    cells.insert("status", fixed.text(status));
    cells
}

fn of_past(
    number: u32,
    past: &Past,
    place: (&Board, &Circuit),
    part: &Part,
    numbers: &BTreeMap<ReadingId, u32>,
    fixed: &Fixed<'_>,
) -> Cells {
    let mut cells = placed(number, place, past.reading.sign, &past.reading.pair, fixed);
    of_reading(&mut cells, &past.reading, part, fixed);
    let (status, by) = match past.fate {
        Fate::Withdrawn => ("status-withdrawn", None),
        Fate::Replaced { by } => ("status-replaced", numbers.get(&by)),
    };
    cells.extend([
        ("status", fixed.text(status)),
        ("replaced-by", by.map(u32::to_string).unwrap_or_default()),
        ("reason", past.reason.clone()),
        ("changed-at", fixed.date_time(past.at)),
        ("changed-by", past.person.clone()),
    ]);
    cells
}

fn placed(number: u32, (board, circuit): (&Board, &Circuit), sign: Sign, pair: &str, fixed: &Fixed<'_>) -> Cells {
    let conditions: Vec<&str> = circuit.conditions.iter().chain(&circuit.notes).map(String::as_str).collect();
    Cells::from([
        ("number", number.to_string()),
        ("sign", sign_words(sign, fixed)),
        ("board", board.name.clone()),
        ("circuit", circuit.reference.clone()),
        ("description", circuit.description.clone()),
        ("nominal", circuit.nominal.clone()),
        ("measure", circuit.measure.clone()),
        ("conductors", circuit.conductors.clone()),
        ("conditions", conditions.join("; ")),
        ("pair", pair.to_owned()),
    ])
}

fn of_reading(cells: &mut Cells, reading: &Reading, part: &Part, fixed: &Fixed<'_>) {
    let tester = reading.tester.and_then(|id| tester(part, id));
    let corrections = reading
        .corrections
        .iter()
        .map(|c| fixed.with("correction", &[("sentence", &c.sentence), ("reason", &c.reason)]));
    let remarks: Vec<String> = reading.remarks.iter().cloned().chain(corrections).collect();
    cells.extend([
        ("stage", reading.stage.clone().unwrap_or_default()),
        ("comparator", comparator_code(reading.shown.comparator).to_owned()),
        ("digits", reading.shown.digits.to_string()),
        ("unit", reading.shown.unit.symbol().to_owned()),
        ("ohm", reading.shown.ohms().0.normalize().to_string()),
        ("voltage", reading.test_voltage_v.0.normalize().to_string()),
        ("judgement", reading.judgement.clone()),
        ("remarks", remarks.join("; ")),
        ("tester-name", tester.map_or_else(|| fixed.text("no-tester"), |tester| tester.name.clone())),
        ("tester-serial", tester.map(|tester| tester.serial.clone()).unwrap_or_default()),
        ("tester-state", reading.tester_state.clone()),
        ("time", fixed.date_time(reading.taken_at)),
        ("person", reading.person.clone()),
        ("record", reading.id.to_string()),
    ]);
    if let Some(limit) = &reading.limit {
        let said = fixed.words().ohms(limit.minimum_ohm);
        let (minimum, unit) = said.split_once('\u{a0}').unwrap_or((&said, ""));
        cells.extend([
            ("minimum", minimum.to_owned()),
            ("minimum-unit", unit.to_owned()),
            ("minimum-ohm", limit.minimum_ohm.0.normalize().to_string()),
            ("source", limit.source.clone()),
        ]);
    }
}

fn tester(part: &Part, id: TesterId) -> Option<&Tester> {
    part.schedule.testers.iter().find(|tester| tester.id == id)
}

fn sign_words(sign: Sign, fixed: &Fixed<'_>) -> String {
    fixed.text(match sign {
        Sign::ToDo => "sign-to-do",
        Sign::Done => "sign-done",
        Sign::Look => "sign-look",
        Sign::Stop => "sign-stop",
    })
}
