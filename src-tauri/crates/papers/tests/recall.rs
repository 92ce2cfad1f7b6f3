//! The recall list on paper and as a table.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod told;

use provenohm_assess::ids::{JobId, ReadingId, TesterId};
use provenohm_assess::quantity::{Shown, Volts};
use provenohm_papers::recall::{
    LINES_ON_PAPER, RecallBoard, RecallCause, RecallJob, RecallLine, RecallList, RecallSort,
};
use provenohm_papers::report::Digest;
use provenohm_papers::{Pages, PaperError, Scale};
use provenohm_words::{Locale, Words};
use told::{spaced, text_of, told};
use uuid::Uuid;

fn line(shown: &str, sort: RecallSort, resolved: Option<&str>) -> RecallLine {
    RecallLine {
        reading: ReadingId(Uuid::from_u128(7)),
        circuit: "7 Sockets".into(),
        pair: "L–PE".into(),
        shown: Shown::parse(shown).unwrap(),
        test_voltage_v: Volts(500.into()),
        taken_at: "2026-06-01T12:00:00+02:00".parse().unwrap(),
        sort,
        sentence: "=no longer certain, test again".into(),
        remark: Some("with the error found on 1 Aug 2026; it may have differed before".into()),
        because: "Tester A: in doubt".into(),
        resolved: resolved.map(Into::into),
    }
}

fn list(lines: Vec<RecallLine>) -> RecallList {
    RecallList {
        language: "en".into(),
        as_of: "2026-11-25T10:00:00+01:00".parse().unwrap(),
        offset_minutes: 120,
        rules_version: 2,
        tester: TesterId(Uuid::from_u128(1)),
        name: "Tester A".into(),
        serial: "1001".into(),
        demo: false,
        sum: "2 readings in doubt, 1 resolved".into(),
        causes: vec![RecallCause { title: "Bench verification of 1 Aug 2026".into(), lines: vec!["500 V".into()] }],
        jobs: vec![RecallJob {
            id: JobId(Uuid::from_u128(2)),
            name: "Invented workshop".into(),
            place: "Hall 2".into(),
            demo: true,
            people: vec!["Recorder Ä, recorder".into()],
            signed: vec!["Signed: number 1".into()],
            boards: vec![RecallBoard { name: "DB-1".into(), lines }],
        }],
        record: Digest::named(&"3f".repeat(32)),
    }
}

fn two() -> RecallList {
    list(vec![
        line("1.12 MΩ", RecallSort::TestAgain, None),
        line("> 999 MΩ", RecallSort::StillClears, Some("Tested again on 2 Aug 2026: 400 MΩ")),
    ])
}

#[test]
fn a_row_a_reading_with_codes_and_defused_texts() {
    let bytes = two().csv().unwrap();
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    let heads = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let cell = |row: usize, head: &str| rows[row][heads.iter().position(|it| it == head).unwrap()].to_owned();
    assert_eq!(rows.len(), 2);
    assert_eq!((cell(0, "comparator").as_str(), cell(0, "ohms").as_str()), ("exact", "1120000"));
    assert_eq!((cell(1, "comparator").as_str(), cell(1, "ohms").as_str()), ("more_than", "999000000"));
    assert_eq!(cell(0, "sorted"), "test_again");
    assert_eq!(cell(0, "taken_at"), "2026-06-01T12:00:00+02:00");
    assert_eq!(cell(0, "sentence"), "'=no longer certain, test again");
    assert_eq!((cell(0, "resolved").as_str(), cell(1, "resolved").is_empty()), ("", false));
}

#[test]
fn the_pages_keep_to_pdf_a_and_are_the_same_bytes_each_time() {
    let words = Words::new(Locale::ENGLISH);
    let pages = || Pages::typeset_recall(&two(), &words).unwrap();
    let pdf = pages().pdf().unwrap();
    assert!(pdf.starts_with(b"%PDF-"));
    assert_eq!(pdf, pages().pdf().unwrap());
    assert_eq!(pages().count(), 1);
    assert!(pages().png(1, Scale::nearest(0.5)).unwrap().starts_with(b"\x89PNG"));
    let many = list(vec![line("1.12 MΩ", RecallSort::TestAgain, None); 60]);
    assert!(Pages::typeset_recall(&many, &words).unwrap().count() > 1);
}

#[test]
fn every_time_says_its_offset_or_stands_in_the_one_named_on_each_page() {
    let mut list = two();
    list.jobs[0].boards[0].lines[1].taken_at = "2026-06-01T12:00:00+01:00".parse().unwrap();
    let pdf = Pages::typeset_recall(&list, &Words::new(Locale::ENGLISH)).unwrap().pdf().unwrap();
    let text = spaced(&told("pdftotext", &["-raw", "{}", "-"], &pdf));
    assert!(text.contains("Times in UTC+02:00"), "{text}");
    assert!(text.contains("1 Jun 2026 12:00 UTC+01:00") && text.contains("25 Nov 2026 10:00 UTC+01:00"), "{text}");
    let csv = String::from_utf8(list.csv().unwrap()).unwrap();
    assert!(csv.lines().skip(1).all(|row| row.ends_with(",UTC+02:00,true,3f3f 3f3f 3f3f 3f3f")), "{csv}");
}

#[test]
fn too_long_a_list_says_so_and_its_table_takes_it() {
    let long = list(vec![line("1.12 MΩ", RecallSort::TestAgain, None); LINES_ON_PAPER + 1]);
    let refused = Pages::typeset_recall(&long, &Words::new(Locale::ENGLISH)).err();
    assert!(matches!(refused, Some(PaperError::TooLong { most: LINES_ON_PAPER, .. })));
    assert_eq!(csv::Reader::from_reader(long.csv().unwrap().as_slice()).records().count(), LINES_ON_PAPER + 1);
}

/// The foot names the record; the digest of the paper itself is called so. Without a record only that is left.
#[test]
fn the_foot_names_the_record_and_not_the_paper() {
    let words = Words::new(Locale::ENGLISH);
    let pdf = |list: &RecallList| Pages::typeset_recall(list, &words).unwrap().pdf().unwrap();
    let text = |list: &RecallList| spaced(&text_of(&pdf(list)));
    let page = text(&two());
    assert!(page.contains("Fingerprint 3f3f 3f3f 3f3f 3f3f"), "{page}");
    assert!(page.contains("Digest of this paper (SHA-256)"), "{page}");
    let alone = text(&RecallList { record: None, ..two() });
    assert!(!alone.contains("Fingerprint") && alone.contains("Digest of this paper "), "{alone}");
}
