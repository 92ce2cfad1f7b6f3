//! The table for people: one row a line, every word in the language of the paper.

use super::entries::{Entry, Status};
use super::{Table, corrections};
use crate::fixed::Fixed;
use crate::report::Sign;

type Cell = fn(&Entry<'_>, &Fixed<'_>) -> String;

/// Each column by the last part of its head's key, and what stands in it.
const COLUMNS: [(&str, Cell); 28] = [
    ("number", |it, _| it.number.to_string()),
    ("status", |it, fixed| fixed.text(status(it.status()))),
    ("sign", |it, fixed| fixed.text(sign(it.sign()))),
    ("board", |it, _| it.board.name.clone()),
    ("circuit", |it, _| it.circuit.reference.clone()),
    ("description", |it, _| it.circuit.description.clone()),
    ("nominal", |it, _| it.circuit.nominal.clone()),
    ("measure", |it, fixed| fixed.measure(it.circuit)),
    ("conductors", |it, _| it.circuit.conductors.clone()),
    ("conditions", |it, _| {
        it.circuit.conditions.iter().chain(&it.circuit.notes).cloned().collect::<Vec<_>>().join("; ")
    }),
    ("pair", |it, _| it.pair().to_owned()),
    ("stage", |it, _| it.reading().and_then(|reading| reading.stage.clone()).unwrap_or_default()),
    ("comparator", |it, _| it.said(|reading| reading.shown.comparator.sign().to_owned())),
    ("digits", |it, fixed| it.said(|reading| fixed.words().digits(reading.shown.digits))),
    ("unit", |it, _| it.said(|reading| reading.shown.unit.symbol().to_owned())),
    ("voltage", |it, fixed| it.said(|reading| fixed.words().volts(reading.test_voltage_v))),
    ("limit", |it, fixed| it.limit().map(|limit| fixed.words().ohms(limit.minimum_ohm)).unwrap_or_default()),
    ("source", |it, _| it.limit().map(|limit| limit.source.clone()).unwrap_or_default()),
    ("judgement", |it, _| it.said(|reading| reading.judgement.clone())),
    ("remarks", |it, fixed| {
        let own = it
            .reading()
            .into_iter()
            .flat_map(|reading| reading.remarks.iter().cloned().chain(corrections(reading, fixed)).collect::<Vec<_>>());
        own.chain(it.accepted().map(|said| fixed.accepted(said))).collect::<Vec<_>>().join("; ")
    }),
    ("tester", |it, fixed| {
        it.said(|reading| match it.tester() {
            Some(tester) => format!("{} · {}", tester.name, reading.tester_state),
            None => fixed.text("no-tester"),
        })
    }),
    ("tester-serial", |it, _| it.tester().map(|tester| tester.serial.clone()).unwrap_or_default()),
    ("time", |it, fixed| it.at().map(|at| fixed.date_time(at)).unwrap_or_default()),
    ("person", |it, _| it.person().to_owned()),
    ("reason", |it, _| it.reason()),
    ("replaced-by", |it, _| it.replaced_by.map(|number| number.to_string()).unwrap_or_default()),
    ("changed-at", |it, fixed| it.past().map(|past| fixed.date_time(past.at)).unwrap_or_default()),
    ("changed-by", |it, _| it.past().map(|past| past.person.clone()).unwrap_or_default()),
];

/// The rows of `entries` for people.
pub(super) fn table(entries: &[Entry<'_>], fixed: &Fixed<'_>) -> Table {
    Table {
        name: fixed.text("sheet-readings"),
        heads: COLUMNS.iter().map(|(key, _)| fixed.text(&format!("column-{key}"))).collect(),
        rows: entries.iter().map(|entry| COLUMNS.iter().map(|(_, cell)| cell(entry, fixed)).collect()).collect(),
    }
}

const fn status(status: Status) -> &'static str {
    match status {
        Status::Current => "status-current",
        Status::NotTested => "status-not-tested",
        Status::Missing => "status-missing",
        Status::Withdrawn => "status-withdrawn",
        Status::Replaced => "status-replaced",
        Status::NotChosen => "status-not-chosen",
    }
}

const fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::ToDo => "sign-to-do",
        Sign::Done => "sign-done",
        Sign::Look => "sign-look",
        Sign::Stop => "sign-stop",
    }
}
