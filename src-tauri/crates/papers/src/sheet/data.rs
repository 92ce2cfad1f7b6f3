//! The table for other software: column names, codes, times and numbers are the same in every language.
//!
//! What people read stands in columns ending in `_text`, in the language of the paper.

use super::entries::Entry;
use super::{Table, codes, corrections};
use crate::fixed::Fixed;

type Cell = fn(&Entry<'_>, &Fixed<'_>) -> String;

/// Each column and what stands in it. A column that says nothing of a row is empty there.
const COLUMNS: [(&str, Cell); 54] = [
    ("line_number", |it, _| it.number.to_string()),
    ("status", |it, _| codes::status(it.status()).to_owned()),
    ("sign", |it, _| codes::sign(it.sign()).to_owned()),
    ("board", |it, _| it.board.name.clone()),
    ("circuit", |it, _| it.circuit.reference.clone()),
    ("circuit_description", |it, _| it.circuit.description.clone()),
    ("nominal_voltage_text", |it, _| it.circuit.nominal.clone()),
    ("protective_measure_text", |it, _| it.circuit.measure.clone()),
    ("supply_voltage_text", |it, _| it.circuit.supply.clone().unwrap_or_default()),
    ("conductors_text", |it, _| it.circuit.conductors.clone()),
    ("conditions_text", |it, _| it.circuit.conditions.join("; ")),
    ("notes_text", |it, _| it.circuit.notes.join("; ")),
    ("pair_text", |it, _| it.pair().to_owned()),
    ("stage_text", |it, _| it.reading().and_then(|reading| reading.stage.clone()).unwrap_or_default()),
    ("comparator", |it, _| it.said(|reading| codes::comparator(reading.shown.comparator).to_owned())),
    ("resistance_ohm", |it, _| it.said(|reading| reading.shown.ohms().0.normalize().to_string())),
    ("shown_digits", |it, _| it.said(|reading| reading.shown.digits.to_string())),
    ("shown_unit", |it, _| it.said(|reading| reading.shown.unit.symbol().to_owned())),
    ("test_voltage_v", |it, _| it.said(|reading| reading.test_voltage_v.0.normalize().to_string())),
    ("minimum_ohm", |it, _| it.limit().map(|limit| limit.minimum_ohm.0.normalize().to_string()).unwrap_or_default()),
    ("minimum_source_text", |it, _| it.limit().map(|limit| limit.source.clone()).unwrap_or_default()),
    ("minimum_source_tag", |it, _| it.limit().map(|limit| codes::tag(limit.tag).to_owned()).unwrap_or_default()),
    ("value", |it, _| it.said(|reading| codes::value(reading.value).to_owned())),
    ("judgement_text", |it, _| it.said(|reading| reading.judgement.clone())),
    ("remarks_text", |it, _| it.said(|reading| reading.remarks.join("; "))),
    ("tester", |it, _| it.tester().map(|tester| tester.name.clone()).unwrap_or_default()),
    ("tester_serial", |it, _| it.tester().map(|tester| tester.serial.clone()).unwrap_or_default()),
    ("tester_state", |it, _| it.said(|reading| codes::tester_state(reading.state).to_owned())),
    ("tester_state_text", |it, _| it.said(|reading| reading.tester_state.clone())),
    ("time", |it, _| it.at().map(codes::time).unwrap_or_default()),
    ("person", |it, _| it.person().to_owned()),
    ("reason_text", |it, _| it.reason()),
    ("corrections_text", |it, fixed| it.said(|reading| corrections(reading, fixed).join("; "))),
    ("replaced_by_line_number", |it, _| it.replaced_by.map(|number| number.to_string()).unwrap_or_default()),
    ("changed_time", |it, _| it.past().map(|past| codes::time(past.at)).unwrap_or_default()),
    ("changed_by", |it, _| it.past().map(|past| past.person.clone()).unwrap_or_default()),
    ("reading_id", |it, _| it.said(|reading| reading.id.to_string())),
    ("tester_id", |it, _| it.tester().map(|tester| tester.id.to_string()).unwrap_or_default()),
    ("circuit_ids", |it, _| it.circuit.ids.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")),
    ("board_id", |it, _| it.board.id.to_string()),
    ("job", |it, _| it.part.schedule.job.name.clone()),
    ("job_id", |it, _| it.part.schedule.job.id.to_string()),
    ("invented_demonstration_data", |it, _| it.part.schedule.demo.to_string()),
    ("as_of_time", |it, _| codes::time(it.part.schedule.as_of)),
    ("limit_set", |it, _| it.part.schedule.limit_set.id.clone()),
    ("limit_set_version", |it, _| it.part.schedule.limit_set.version.clone()),
    ("limit_set_sha256", |it, _| it.part.schedule.limit_set.sha256.clone()),
    ("rules_version", |it, _| it.part.schedule.rules_version.to_string()),
    ("language", |it, _| it.part.schedule.language.clone()),
    ("schedule_sha256", |it, _| it.part.whole.as_str().to_owned()),
    ("accepted_reason_text", |it, _| it.accepted().map(|said| said.reason.clone()).unwrap_or_default()),
    ("accepted_by", |it, _| it.accepted().map(|said| said.person.clone()).unwrap_or_default()),
    ("accepted_time", |it, _| it.accepted().map(|said| codes::time(said.at)).unwrap_or_default()),
    ("fingerprint", |it, _| it.part.fingerprint().to_string()),
];

/// The rows of `entries` for software.
pub(super) fn table(entries: &[Entry<'_>], fixed: &Fixed<'_>) -> Table {
    Table {
        name: fixed.text("sheet-data"),
        heads: COLUMNS.iter().map(|(name, _)| (*name).to_owned()).collect(),
        rows: entries.iter().map(|entry| COLUMNS.iter().map(|(_, cell)| cell(entry, fixed)).collect()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::COLUMNS;

    #[test]
    fn every_column_is_described_in_its_order() {
        let described = include_str!("../../../../../schemas/schedule-csv.md");
        let described: Vec<&str> = described
            .lines()
            .filter_map(|line| line.strip_prefix("| `")?.split_once('`'))
            .map(|(name, _)| name)
            .collect();
        assert_eq!(described, COLUMNS.map(|(name, _)| name));
    }
}
