//! Cutting a schedule into parts, and refusing what cannot be printed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;

use invented::{board_id, id, large, reading, shown, small, tester_id};
use provenohm_assess::ids::ReadingId;
use provenohm_assess::quantity::{Comparator, Unit};
use provenohm_papers::report::{
    Board, Circuit, Digest, LINES_IN_A_PART, Line, ModelError, Part, Parts, Schedule, whole_of,
};

fn readings(schedule: &Schedule) -> Vec<ReadingId> {
    let circuits = schedule.boards.iter().flat_map(|board| &board.circuits);
    circuits.flat_map(|circuit| circuit.readings()).map(|reading| reading.id).collect()
}

fn one_circuit_of(lines: usize) -> Schedule {
    let mut schedule = large(1);
    let circuit = &mut schedule.boards[0].circuits[0];
    circuit.past.clear();
    circuit.lines = (0..lines)
        .map(|line| Line::Reading(Box::new(reading(line, "L–N", shown(Comparator::Exact, "10", Unit::MegaOhm), 0))))
        .collect();
    schedule
}

#[test]
fn a_schedule_up_to_the_bound_is_one_part() {
    let parts = Parts::of(&one_circuit_of(LINES_IN_A_PART)).unwrap();
    assert_eq!(parts.parts.len(), 1);
    assert_eq!((parts.parts[0].number, parts.parts[0].of), (1, 1));
}

#[test]
fn one_line_more_than_the_bound_makes_parts() {
    let parts = Parts::of(&one_circuit_of(LINES_IN_A_PART + 1)).unwrap();
    assert_eq!(parts.parts.len(), 2);
}

#[test]
fn a_long_schedule_has_a_part_a_board_and_every_reading_once() {
    let whole = large(500);
    let parts = Parts::of(&whole).unwrap();
    assert_eq!(parts.parts.len(), whole.boards.len());
    let read: Vec<ReadingId> = parts.parts.iter().flat_map(|part| readings(&part.schedule)).collect();
    assert_eq!(read, readings(&whole));
    assert!(parts.parts.iter().all(|part| part.whole == parts.whole && part.schedule.boards.len() == 1));
}

#[test]
fn lines_are_numbered_through_all_parts_without_a_gap() {
    let whole = large(500);
    let parts = Parts::of(&whole).unwrap();
    let numbers: Vec<u32> = parts
        .parts
        .iter()
        .flat_map(|part| {
            let numbers = part.numbers();
            readings(&part.schedule).into_iter().map(move |key| numbers[&key])
        })
        .collect();
    let mut sorted = numbers.clone();
    sorted.sort_unstable();
    assert_eq!(sorted, (1..=u32::try_from(readings(&whole).len()).unwrap()).collect::<Vec<_>>());
}

#[test]
fn a_board_over_the_bound_is_cut_between_circuits() {
    let mut whole = large(500);
    let circuits: Vec<Circuit> = whole.boards.drain(..).flat_map(|board| board.circuits).collect();
    whole.boards = vec![Board { id: board_id(1), name: "Main".to_owned(), place: None, circuits: circuits.clone() }];
    let parts = Parts::of(&whole).unwrap();
    let cut: Vec<&Circuit> = parts.parts.iter().flat_map(|part| &part.schedule.boards[0].circuits).collect();
    assert!(parts.parts.len() > 1);
    assert_eq!(cut, circuits.iter().collect::<Vec<_>>());
    assert!(parts.parts.iter().all(|part| part.schedule.boards[0].lines() <= LINES_IN_A_PART));
}

#[test]
fn findings_stand_in_part_one_with_the_numbers_of_readings_elsewhere() {
    let mut whole = large(500);
    let last_circuit = whole.boards.last().unwrap().circuits.last().unwrap();
    let last = last_circuit.lines.last().and_then(Line::reading).unwrap().id;
    whole.findings = small().findings;
    whole.findings[0].places[0].reading = Some(last);
    let parts = Parts::of(&whole).unwrap();
    let lines: usize = whole.boards.iter().flat_map(|board| &board.circuits).map(|circuit| circuit.lines.len()).sum();
    assert_eq!(parts.parts[0].numbers()[&last], u32::try_from(lines).unwrap());
    assert!(parts.parts[1..].iter().all(|part| part.schedule.findings.is_empty()));
}

#[test]
fn totals_count_the_whole_job_in_each_part() {
    let totals = Parts::of(&small()).unwrap().parts[0].totals;
    assert_eq!(
        (totals.readings, totals.look, totals.stop, totals.not_tested, totals.missing, totals.past),
        (6, 3, 1, 1, 1, 2)
    );
}

#[test]
fn the_digest_follows_the_content_and_nothing_else() {
    let schedule = small();
    let mut other = schedule.clone();
    other.job.name.push('x');
    let digest = |schedule: &Schedule| Parts::of(schedule).unwrap().whole;
    assert_eq!(digest(&schedule), digest(&schedule.clone()));
    assert_ne!(digest(&schedule), digest(&other));
}

#[test]
fn a_part_reads_back_from_its_canonical_bytes() {
    let part = Parts::of(&small()).unwrap().parts.remove(0);
    let bytes = part.canonical().unwrap();
    let back: Part = serde_json::from_slice(&bytes).unwrap();
    assert_eq!(back, part);
    assert_eq!(back.canonical().unwrap(), bytes);
}

#[test]
fn the_fingerprint_is_the_start_of_the_digest() {
    let digest = Digest::of(b"abc");
    assert_eq!(digest.as_str(), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assert_eq!(digest.fingerprint().to_string(), "ba78 16bf 8f01 cfea");
}

#[test]
fn boards_without_lines_make_no_parts_of_their_own() {
    let mut whole = large(500);
    let parts = Parts::of(&whole).unwrap().parts.len();
    whole.boards.extend((900..910).map(|number| Board {
        id: board_id(number),
        name: format!("Empty {number}"),
        place: None,
        circuits: Vec::new(),
    }));
    let cut = Parts::of(&whole).unwrap().parts;
    assert_eq!(cut.len(), parts);
    assert_eq!(cut.iter().map(|part| part.schedule.boards.len()).sum::<usize>(), whole.boards.len());
}

#[test]
fn a_reading_twice_or_with_an_unknown_tester_is_refused() {
    let change = |number: usize, tester: u128| {
        let mut schedule = small();
        let Line::Reading(reading) = &mut schedule.boards[0].circuits[0].lines[0] else { panic!("a reading") };
        reading.id = id(number);
        reading.tester = Some(tester_id(tester));
        Parts::of(&schedule)
    };
    assert!(matches!(change(2, 1), Err(ModelError::Twice(_))));
    assert!(matches!(change(1, 9), Err(ModelError::UnknownTester { .. })));
    assert!(change(1, 1).is_ok());
}

#[test]
fn a_schedule_is_put_together_again_from_all_its_parts_and_from_nothing_less() {
    for schedule in [small(), large(400), large(4_000), one_circuit_of(4_000)] {
        let parts = Parts::of(&schedule).unwrap().parts;
        assert_eq!(whole_of(&parts), Some(schedule));
        if parts.len() > 1 {
            assert_eq!(whole_of(&parts[1..]), None);
            assert_eq!(whole_of(&parts[..parts.len() - 1]), None);
        }
        let mut counted = parts;
        counted[0].totals.readings += 1;
        assert_eq!(whole_of(&counted), None, "what stands on page 1 is worked out again");
    }
    assert_eq!(whole_of(&[]), None);
}

#[test]
fn parts_are_made_as_long_as_nobody_stops_it() {
    let parts = Parts::of(&one_circuit_of(LINES_IN_A_PART + 1)).unwrap();
    let words = provenohm_words::Words::new(provenohm_words::Locale::ENGLISH);
    let stopped = parts.pdfs_watched(&words, &|_| std::ops::ControlFlow::Break(()));
    assert!(matches!(stopped, Err(provenohm_papers::PaperError::Stopped)));
}
