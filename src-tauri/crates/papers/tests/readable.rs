//! What an electrician looks for on the pages: what decides a limit, why, when in which offset, where a circuit goes on.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;
mod told;

use std::collections::BTreeSet;
use std::io::Cursor;

use calamine::{Reader as _, Xlsx};
use invented::{at, large, small};
use provenohm_papers::Pages;
use provenohm_papers::report::{Accepted, Circuit, Line, Parts, Schedule, Sign};
use provenohm_words::{Locale, Words};
use told::{spaced, text_of, told};

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn pdf(schedule: &Schedule) -> Vec<u8> {
    Pages::typeset(&Parts::of(schedule).unwrap().parts[0], &words()).unwrap().pdf().unwrap()
}

/// The text of each page, laid out.
fn pages(schedule: &Schedule) -> Vec<String> {
    let text = text_of(&pdf(schedule));
    text.split('\u{c}').filter(|page| !page.trim().is_empty()).map(str::to_owned).collect()
}

/// The text of the pages in the order it was set.
fn in_order(schedule: &Schedule) -> String {
    spaced(&told("pdftotext", &["-raw", "{}", "-"], &pdf(schedule)))
}

/// One column of the CSV.
fn column(schedule: &Schedule, name: &str) -> Vec<String> {
    let bytes = Parts::of(schedule).unwrap().csv(&words()).unwrap();
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    let at = reader.headers().unwrap().iter().position(|head| head == name).unwrap();
    reader.records().map(|row| row.unwrap()[at].to_owned()).collect()
}

/// Every cell of the workbook.
fn cells(schedule: &Schedule) -> BTreeSet<String> {
    let bytes = Parts::of(schedule).unwrap().xlsx(&words()).unwrap();
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let sheets = book.sheet_names();
    let cells =
        |sheet: String| book.worksheet_range(&sheet).unwrap().rows().flatten().map(ToString::to_string).collect();
    sheets.into_iter().map(cells).collect::<Vec<Vec<String>>>().into_iter().flatten().collect()
}

/// A FELV circuit is tested like the circuit that supplies it: 24 V alone does not say why 500 V was asked for.
#[test]
fn a_felv_circuit_names_the_supply_that_decides_its_limit() {
    let mut schedule = small();
    let circuit = &mut schedule.boards[0].circuits[0];
    circuit.nominal = "24 V a.c.".to_owned();
    circuit.measure = "FELV".to_owned();
    circuit.supply = Some("230 V a.c.".to_owned());
    assert!(in_order(&schedule).contains("24 V a.c. · FELV, supply 230 V a.c."));
    assert_eq!(column(&schedule, "protective_measure_text")[0], "FELV");
    assert_eq!(column(&schedule, "supply_voltage_text")[0], "230 V a.c.");
    assert_eq!(column(&schedule, "supply_voltage_text")[3], "", "the next circuit is none");
    assert!(cells(&schedule).contains("FELV, supply 230 V a.c."));
}

#[test]
fn page_one_says_where_and_why() {
    let mut schedule = small();
    let text = in_order(&schedule);
    let why = "surge protectors cannot practicably be disconnected";
    assert!(text.contains(&format!("DB-1 · 8 · L1–L2 (No. 4; {why})")), "{text}");
    assert!(cells(&schedule).contains(&format!("DB-1 · 8 · L1–L2: {why}")));
    // Of many places each circuit is named once for each reason.
    let place = schedule.findings[2].places[0].clone();
    let of = |circuit: &str, reason: &str| {
        let (circuit, reason) = (circuit.to_owned(), Some(reason.to_owned()));
        provenohm_papers::report::FindingPlace { circuit, reason, reading: None, ..place.clone() }
    };
    schedule.findings[2].places =
        vec![place.clone(), of("9", why), of("9", why), of("9", "equipment"), of("10", "equipment")];
    let text = in_order(&schedule);
    let said = format!("DB-1, circuits 8 (No. 4; {why}), 9 ({why}), 9 (equipment), 10 (equipment)");
    assert!(text.contains(&said), "{text}");
}

/// N–PE of circuit 7 was repaired and tested again: both lines say so.
#[test]
fn a_reading_in_place_of_another_says_why() {
    let schedule = small();
    assert!(in_order(&schedule).contains("in place of No. 9: repaired, tested again"));
    let rows = column(&schedule, "status").into_iter().zip(column(&schedule, "reason_text"));
    let with_reason: Vec<(String, String)> = rows.filter(|(_, reason)| !reason.is_empty()).collect();
    let expected = [
        ("current", "repaired, tested again"),
        ("not_tested", "no access"),
        ("replaced", "repaired, tested again"),
        ("withdrawn", "taken on the wrong circuit"),
    ];
    assert_eq!(with_reason, expected.map(|(status, reason)| (status.to_owned(), reason.to_owned())));
}

#[test]
fn a_circuit_that_goes_on_on_the_next_page_says_so_and_no_heading_stands_alone() {
    // Circuits of fifteen lines, so that some go on.
    let mut schedule = large(120);
    for board in &mut schedule.boards {
        let circuits = board.circuits.chunks(4).map(|four| {
            let lines = four.iter().flat_map(|circuit| circuit.lines.clone()).collect();
            Circuit { lines, ..four[0].clone() }
        });
        board.circuits = circuits.collect();
    }
    let (mut first, mut again) = (BTreeSet::new(), 0);
    for page in pages(&schedule) {
        let lines: Vec<String> = page.lines().map(spaced).filter(|line| !line.is_empty()).collect();
        for (at, line) in lines.iter().enumerate() {
            let Some((_, load)) = line.split_once(" Invented load ") else { continue };
            let circuit = load.split(' ').next().unwrap().to_owned();
            let begun = !first.insert(circuit);
            assert_eq!(line.contains(" continued "), begun, "{line}");
            again += usize::from(begun);
            // A line of the circuit stands below its heading: its number, and what was read at which voltage.
            let below = lines.get(at + 1).unwrap();
            assert!(below.contains(" 500 V "), "below {line} stands {below}");
        }
    }
    assert!(first.len() == 30 && again > 3, "{} circuits, {again} of them on two pages", first.len());
}

#[test]
fn a_note_keeps_to_its_circuit_and_a_heading_to_its_lines() {
    // Notes of some lines, so that headings come to stand at every height of a page.
    let mut schedule = large(120);
    for (index, circuit) in schedule.boards.iter_mut().flat_map(|board| &mut board.circuits).enumerate() {
        circuit.notes = vec![format!("note {index} ") + &"and so on ".repeat(index % 40)];
    }
    for page in pages(&schedule) {
        let lines: Vec<String> = page.lines().map(spaced).filter(|line| !line.is_empty()).collect();
        let last = lines.iter().rposition(|line| line.contains(" 500 V ")).map_or(0, |at| at + 1);
        let heading = lines[last..].iter().find(|line| line.contains(" Invented load "));
        assert_eq!(heading, None, "alone at the foot of a page: {page}");
    }
}

#[test]
fn every_page_says_which_offset_its_times_are_in_and_another_one_says_so_itself() {
    let mut schedule = small();
    assert!(pages(&schedule).iter().all(|page| page.contains("Times in UTC+01:00")));
    assert!(!in_order(&schedule).contains("UTC+02:00"));
    let Line::Reading(reading) = &mut schedule.boards[0].circuits[0].lines[0] else { panic!("a reading") };
    reading.taken_at = at(12).with_timezone(&chrono::FixedOffset::east_opt(7_200).unwrap());
    assert!(in_order(&schedule).contains("25 Nov 2026 09:12 UTC+02:00"));
    assert!(cells(&schedule).contains("25 Nov 2026 09:12 UTC+02:00"));
    assert!(cells(&schedule).contains("Times in UTC+01:00"));
}

#[test]
fn a_name_too_long_for_the_foot_is_cut_visibly_and_the_tables_hold_it_whole() {
    let mut schedule = small();
    schedule.job.name = "The long name of an invented works, ".repeat(5);
    schedule.boards[0].name = "DB-1 in the long corridor behind the invented plant room, ".repeat(3);
    for page in pages(&schedule) {
        let foot = page.lines().rfind(|line| line.contains("Page ")).unwrap();
        assert!(foot.matches('…').count() == 2 && foot.contains("· DB-1 in the"), "{foot}");
    }
    assert!(column(&schedule, "job").iter().all(|name| *name == schedule.job.name));
    assert!(cells(&schedule).contains(&schedule.job.name));
}

#[test]
fn the_end_has_a_place_to_sign_that_says_what_signing_covers() {
    let schedule = small();
    let last = spaced(pages(&schedule).last().unwrap());
    for said in ["Signing by hand", "Recorder", "Reviewer", "Name", "Date", "Signature", "Nobody has signed this paper"]
    {
        assert!(last.contains(said), "{said}: {last}");
    }
    let fingerprint = Parts::of(&schedule).unwrap().whole.fingerprint().to_string();
    assert!(last.contains(&format!("fingerprint {fingerprint}")), "{last}");
}

/// Who accepted a marked line and why stands beside it, on every form of the schedule; its sign stays.
#[test]
fn a_marked_line_says_who_accepted_it_and_why() {
    let mut schedule = small();
    let accepted =
        |reason: &str| Some(Accepted { reason: reason.to_owned(), person: "R. Reviewer".to_owned(), at: at(40) });
    let (mut read, mut left) = (0, 0);
    for line in schedule.boards.iter_mut().flat_map(|board| &mut board.circuits).flat_map(|circuit| &mut circuit.lines)
    {
        match line {
            Line::Reading(reading) if reading.sign == Sign::Look => {
                reading.accepted = accepted("an old heating cable");
                read += 1;
            }
            Line::NotTested(said) => {
                said.accepted = accepted("the landlord has it tested");
                left += 1;
            }
            _ => {}
        }
    }
    assert!(read > 0 && left > 0);
    let pages = in_order(&schedule);
    assert!(pages.contains("accepted by R. Reviewer, ") && pages.contains("an old heating cable"), "{pages}");
    assert!(pages.contains("the landlord has it tested"), "{pages}");
    assert!(pages.contains(&format!("{} lines accepted with a reason", read + left)), "{pages}");
    let reasons = column(&schedule, "accepted_reason_text");
    assert_eq!(reasons.iter().filter(|reason| !reason.is_empty()).count(), read + left);
    let signs = column(&schedule, "sign");
    assert!(reasons.iter().zip(&signs).all(|(reason, sign)| reason.is_empty() || sign == "look"));
    assert!(cells(&schedule).iter().any(|cell| cell.contains("an old heating cable")));
}
