//! A board's readings as the table that is read back in.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, JudgedReading, Slot};
use crate::read::{NONE, Written, WrittenReading, write_readings};
use crate::tell;
use chrono::NaiveDate;
use provenohm_words::Words;

/// Every reading that stands on a board, a line each, and the pairs without one: those can be filled in.
pub(crate) fn copied(
    words: &Words,
    judged: &Judged,
    board: &JudgedBoard,
    today: NaiveDate,
) -> Result<Vec<u8>, Failure> {
    let slots = board.circuits.iter().flat_map(|circuit| circuit.slots.iter().map(move |slot| (circuit, slot)));
    let lines = slots.flat_map(|(circuit, slot)| {
        let readings: Vec<&JudgedReading> =
            slot.readings.iter().filter_map(|index| judged.readings.get(*index)).collect();
        let read: Vec<Option<&JudgedReading>> =
            if readings.is_empty() { vec![None] } else { readings.into_iter().map(Some).collect() };
        read.into_iter().map(move |one| line(words, judged, (board, circuit, slot), one, today))
    });
    write_readings(lines).map_err(|error| Failure::of("unexpected").because(error))
}

fn line<'a>(
    words: &Words,
    judged: &'a Judged,
    (board, circuit, slot): (&'a JudgedBoard, &'a JudgedCircuit, &Slot),
    read: Option<&'a JudgedReading>,
    today: NaiveDate,
) -> Written<'a> {
    let status = match read {
        Some(_) => "read",
        None if slot.covered_by.is_some() => "covered",
        None if !slot.not_tested.is_empty() => "not_tested",
        None => "open",
    };
    let read = read.map(|one| {
        let tester = one.reading.tester.and_then(|id| judged.tester(id));
        WrittenReading {
            reading: &one.reading,
            tester: tester.map_or(NONE, |it| &it.name).to_owned(),
            serial: tester.map(|it| it.serial.clone()).unwrap_or_default(),
            person: judged.person(one.reading.person),
            judgement: tell::sentences(words, judged, one, Some(today))
                .into_iter()
                .next()
                .map(|sentence| sentence.words)
                .unwrap_or_default(),
        }
    });
    Written {
        board: &board.name,
        circuit: &circuit.circuit.reference,
        description: &circuit.circuit.description,
        pair: tell::pair_name(words, judged, circuit.circuit.id, &slot.pair),
        stage: slot.stage,
        status,
        read,
    }
}
