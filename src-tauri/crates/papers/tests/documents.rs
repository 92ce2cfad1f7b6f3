//! The documents read back by other programs: the PDF as text, the workbook (by the calamine library), the CSV.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;
mod told;

use std::io::Cursor;

use calamine::{Data, Reader as _, Xlsx};
use invented::{board_id, large, small};
use provenohm_papers::report::{Board, Line, Part, Parts, Reading, Schedule};
use provenohm_papers::{Pages, PaperError, Scale};
use provenohm_words::{Locale, Words};
use told::{spaced, text_of, told};

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn pdf_of(part: &Part, words: &Words) -> Vec<u8> {
    Pages::typeset(part, words).unwrap().pdf().unwrap()
}

fn current(schedule: &Schedule) -> Vec<&Reading> {
    let circuits = schedule.boards.iter().flat_map(|board| &board.circuits);
    circuits.flat_map(|circuit| &circuit.lines).filter_map(Line::reading).collect()
}

/// Every reading with its number: the current ones, then those withdrawn, replaced or not chosen.
fn every_reading(schedule: &Schedule) -> Vec<(usize, &Reading)> {
    let circuits = || schedule.boards.iter().flat_map(|board| &board.circuits);
    let lines = circuits().flat_map(|circuit| &circuit.lines);
    let current: Vec<_> = (1..).zip(lines).filter_map(|(number, line)| Some((number, line.reading()?))).collect();
    let after = circuits().map(|circuit| circuit.lines.len()).sum::<usize>() + 1;
    let past = circuits().flat_map(|circuit| &circuit.past).map(|past| &past.reading);
    current.into_iter().chain((after..).zip(past)).collect()
}

/// A digest as printed.
fn grouped(digest: &str) -> String {
    [0, 16, 32, 48].map(|from| &digest[from..from + 16]).join(" ")
}

#[test]
fn every_reading_of_500_circuits_stands_once_in_the_pdf_digit_for_digit() {
    let words = words();
    let whole = large(500);
    let parts = Parts::of(&whole).unwrap();
    let texts: Vec<String> = parts.parts.iter().map(|part| text_of(&pdf_of(part, &words))).collect();
    // A line says its number, its pair or place (which may go on in the next line), its reading, its test voltage.
    let lines: Vec<String> = texts.iter().flat_map(|text| text.lines()).map(spaced).collect();
    let all = every_reading(&whole);
    let wrong: Vec<String> = all
        .iter()
        .map(|(number, reading)| (format!("{number} "), format!(" {} 500 V ", spaced(&words.reading(&reading.shown)))))
        .filter(|(number, said)| {
            lines.iter().filter(|line| line.starts_with(number) && line.contains(said)).count() != 1
        })
        .map(|(number, said)| number + &said)
        .collect();
    assert!(wrong.is_empty(), "{} of them, for example {:?}", wrong.len(), wrong.first());
    let count = |said: &str| lines.iter().filter(|line| line.contains(said)).count();
    assert_eq!(count(" 500 V 1.0 MΩ "), current(&whole).len(), "as many lines as readings");
    let past = all.len() - current(&whole).len();
    assert!(past > 100 && count("Replaced by ") + count("Withdrawn:") == past, "as many lines as past readings");
    let corrected = all.iter().filter(|(_, reading)| !reading.corrections.is_empty()).count();
    assert!(corrected > 50 && count("Tester was Tester B (wrong one chosen)") == corrected);
}

/// The rows of a table by its column names.
struct Rows {
    heads: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Rows {
    fn of_csv(bytes: &[u8]) -> Self {
        let mut reader = csv::Reader::from_reader(bytes);
        let heads = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        Self { heads, rows }
    }

    fn of_sheet(book: &[u8], name: &str) -> Self {
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(book)).unwrap();
        let sheet = book.worksheet_range(name).unwrap();
        let mut rows = sheet.rows().map(|row| {
            let texts = row.iter().map(|cell| match cell {
                Data::String(text) => text.clone(),
                Data::Empty => String::new(),
                other => panic!("a cell that is no text: {other:?}"),
            });
            texts.collect()
        });
        Self { heads: rows.next().unwrap(), rows: rows.collect() }
    }

    fn columns<const N: usize>(&self, names: [&str; N]) -> Vec<[String; N]> {
        let at = names.map(|name| self.heads.iter().position(|head| head == name).unwrap_or_else(|| panic!("{name}")));
        self.rows.iter().map(|row| at.map(|column| row[column].clone())).collect()
    }
}

#[test]
fn every_reading_of_500_circuits_stands_once_in_the_workbook_and_the_csv() {
    let words = words();
    let whole = large(500);
    let parts = Parts::of(&whole).unwrap();
    let all = every_reading(&whole);
    assert!(all.len() > current(&whole).len() + 100, "there are past readings");
    let said = |reading: &Reading| {
        let comparator = serde_json::to_value(reading.shown.comparator).unwrap().as_str().unwrap().to_owned();
        let ohms = reading.shown.ohms().0.normalize().to_string();
        let unit = reading.shown.unit.symbol().to_owned();
        [reading.id.to_string(), comparator, ohms, reading.shown.digits.to_string(), unit]
    };
    let expected: Vec<_> = all.iter().map(|(_, reading)| said(reading)).collect();
    let names = ["reading_id", "comparator", "resistance_ohm", "shown_digits", "shown_unit"];
    assert_eq!(Rows::of_csv(&parts.csv(&words).unwrap()).columns(names), expected);
    let book = parts.xlsx(&words).unwrap();
    assert_eq!(Rows::of_sheet(&book, &words.text("papers-sheet-data")).columns(names), expected);

    let heads = ["number", "comparator", "digits", "unit"].map(|key| words.text(&format!("papers-column-{key}")));
    let for_people = all.iter().map(|(number, reading)| {
        let sign = reading.shown.comparator.sign().to_owned();
        [number.to_string(), sign, words.digits(reading.shown.digits), reading.shown.unit.symbol().to_owned()]
    });
    let sheet = Rows::of_sheet(&book, &words.text("papers-sheet-readings"));
    assert_eq!(sheet.columns(heads.each_ref().map(String::as_str)), for_people.collect::<Vec<_>>());
}

#[test]
fn the_csv_is_the_same_for_software_in_every_language() {
    let parts = Parts::of(&small()).unwrap();
    let english = Rows::of_csv(&parts.csv(&words()).unwrap());
    let pseudo = Rows::of_csv(&parts.csv(&Words::new(Locale::PSEUDO)).unwrap());
    assert_eq!(english.heads, pseudo.heads);
    for (name, column) in english.heads.iter().zip(0..) {
        assert!(name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_'), "{name}");
        if name != "corrections_text" {
            assert!(english.rows.iter().zip(&pseudo.rows).all(|(one, other)| one[column] == other[column]), "{name}");
        }
    }
    let first = ["status", "time", "comparator", "resistance_ohm", "minimum_ohm", "test_voltage_v", "value"];
    let expected = ["current", "2026-11-25T08:12:00+01:00", "more_than", "999000000", "1000000", "500", "meets"];
    assert_eq!(english.columns(first)[0], expected);
    let states: Vec<String> = english.columns(["tester_state"]).into_iter().map(|[state]| state).collect();
    assert!(states.iter().any(|state| state == "not_proved") && states.iter().any(|state| state == "not_chosen"));
}

#[test]
fn the_same_schedule_gives_the_same_bytes() {
    let words = words();
    let parts = Parts::of(&small()).unwrap();
    assert_eq!(pdf_of(&parts.parts[0], &words), pdf_of(&parts.parts[0], &words));
    assert_eq!(parts.xlsx(&words).unwrap(), parts.xlsx(&words).unwrap());
    assert_eq!(parts.csv(&words).unwrap(), parts.csv(&words).unwrap());
}

#[test]
fn each_page_says_not_signed_its_number_and_the_fingerprint_and_repeats_the_head() {
    let words = words();
    let parts = Parts::of(&large(120)).unwrap();
    let text = text_of(&pdf_of(&parts.parts[0], &words));
    let pages: Vec<&str> = text.split('\u{c}').filter(|page| !page.trim().is_empty()).collect();
    assert!(pages.len() > 3);
    let fingerprint = parts.whole.fingerprint().to_string();
    let mut listed = 0;
    for (number, page) in (1..).zip(&pages) {
        assert!(page.contains(&words.text("papers-not-signed")), "page {number}");
        assert!(page.contains(&fingerprint), "page {number}");
        assert!(page.contains(&format!("Page {number} of {}", pages.len())), "page {number}");
        let has = |keys: &[&str]| keys.iter().all(|key| page.contains(&words.text(&format!("papers-{key}"))));
        let lists = ["Replaced by ", "Tester was"].map(|sign| page.contains(sign));
        match lists {
            _ if number == 1 => {}
            [false, false] if has(&["testers-detail"]) || has(&["signing"]) => {}
            [false, false] => assert!(has(&["column-pair", "column-judgement", "column-limit"]), "page {number}"),
            [replaced, corrected] => {
                assert!(!replaced || has(&["past", "column-taken", "column-judgement"]), "page {number}");
                assert!(!corrected || has(&["corrections", "column-correction"]), "page {number}");
            }
        }
        listed += usize::from(lists.contains(&true));
    }
    assert!(listed > 2, "what changed takes several pages");
}

#[test]
fn page_one_says_what_the_schedule_rests_on() {
    let words = words();
    let schedule = small();
    let parts = Parts::of(&schedule).unwrap();
    let pdf = pdf_of(&parts.parts[0], &words);
    // In reading order, with the lines of a paragraph joined.
    let text = told("pdftotext", &["-l", "1", "{}", "-"], &pdf).split_whitespace().collect::<Vec<_>>().join(" ");
    let set = &schedule.limit_set;
    let mut said = vec![
        words.text("papers-scope"),
        words.text("papers-demo"),
        set.title.clone(),
        set.id.clone(),
        grouped(&set.sha256),
        grouped(parts.whole.as_str()),
        words.text_with("papers-rules-version", &[("version", "1".into())]),
        words.date_time(schedule.as_of),
    ];
    said.extend(schedule.findings.iter().map(|finding| finding.sentence.clone()));
    said.extend(schedule.policies.iter().map(|policy| policy.text.clone()));
    said.extend(
        schedule.testers.iter().flat_map(|tester| [tester.name.clone(), tester.serial.clone(), tester.state.clone()]),
    );
    said.extend(schedule.testers.iter().flat_map(|t| &t.verifications).map(|v| v.sentence.clone()));
    said.extend(words.cautions());
    for sentence in said {
        let sentence = sentence.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(&sentence), "page 1 does not say: {sentence}\n{text}");
    }
}

#[test]
fn what_was_withdrawn_replaced_corrected_missing_or_not_tested_is_on_paper() {
    let words = words();
    let parts = Parts::of(&small()).unwrap();
    let text = told("pdftotext", &["{}", "-"], &pdf_of(&parts.parts[0], &words));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in ["repaired, tested again", "Withdrawn: taken on", "misread on the tester", "no access", "not proved"] {
        assert!(text.contains(said), "{said}");
    }
    assert!(text.contains(&words.text("papers-missing")));
    let csv = String::from_utf8(parts.csv(&words).unwrap()).unwrap();
    for status in [",withdrawn,", ",replaced,", ",not_tested,", ",missing,"] {
        assert!(csv.contains(status), "{status}");
    }
}

#[test]
fn fonts_are_embedded_and_the_model_is_attached() {
    let parts = Parts::of(&small()).unwrap();
    let pdf = pdf_of(&parts.parts[0], &words());
    let fonts = told("pdffonts", &["{}"], &pdf);
    let lines: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(!lines.is_empty());
    for line in lines {
        assert!(
            line.contains("IBMPlexSans") && line.split_whitespace().filter(|word| *word == "yes").count() >= 2,
            "{line}"
        );
    }
    let attached = told("pdfdetach", &["-list", "{}"], &pdf);
    assert!(attached.contains("model.json"), "{attached}");
    // The document says in the clear which part and level of ISO 19005 it keeps to.
    for flag in [b"<pdfaid:part>3<".as_slice(), b"<pdfaid:conformance>A<".as_slice()] {
        assert_eq!(
            pdf.windows(flag.len()).filter(|window| *window == flag).count(),
            1,
            "{}",
            String::from_utf8_lossy(flag)
        );
    }
    let about = told("pdfinfo", &["{}"], &pdf);
    assert!(about.contains("841.89 x 595.276 pts (A4)") || about.contains("(A4)"), "{about}");
}

#[test]
fn pages_are_drawn_and_a_page_that_is_not_there_is_refused() {
    let parts = Parts::of(&small()).unwrap();
    let pages = Pages::typeset(&parts.parts[0], &words()).unwrap();
    let png = pages.png(1, Scale::nearest(1.0)).unwrap();
    assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
    let width = u32::from_be_bytes(png[16..20].try_into().unwrap());
    assert_eq!(width, 842, "A4 landscape is 841.89 points wide");
    for missing in [0, pages.count() + 1] {
        assert!(matches!(pages.png(missing, Scale::nearest(1.0)), Err(PaperError::NoSuchPage { .. })));
    }
}

#[test]
fn each_line_of_a_schedule_takes_one_line_where_nothing_is_odd() {
    let words = words();
    let parts = Parts::of(&large(8)).unwrap();
    let text = text_of(&pdf_of(&parts.parts[0], &words));
    let said =
        |line: &&str| line.contains("500 V") && line.contains("Tester A · proved") && line.contains("A. Recorder");
    let whole = text.lines().filter(said).filter(|line| line.contains("25 Nov 2026 08:")).count();
    assert_eq!(whole, current(&large(8)).len(), "{text}");
}

#[test]
fn what_holds_for_all_lines_of_a_circuit_is_said_once_and_what_several_share_is_marked() {
    let words = words();
    let mut schedule = large(8);
    for (at, line) in schedule.boards[0].circuits.iter_mut().flat_map(|circuit| &mut circuit.lines).enumerate() {
        if let Line::Reading(reading) = line {
            reading.remarks.push("N isolated from PE".to_owned());
            reading.remarks.extend((at % 4 == 0).then(|| "loads were connected".to_owned()));
        }
    }
    let parts = Parts::of(&schedule).unwrap();
    let text = spaced(&text_of(&pdf_of(&parts.parts[0], &words)));
    // The head of a circuit is repeated where it goes on on the next page, and so is the head of the board.
    let (pages, on_each) =
        (text.matches("Board DB-1").count(), text.matches("on each line: N isolated from PE").count());
    assert!((8..8 + pages).contains(&on_each), "once a circuit: {text}");
    assert_eq!(text.matches("N isolated from PE").count(), on_each, "{text}");
    assert_eq!(text.matches("(1) loads were connected").count(), pages, "once a page: {text}");
    assert_eq!(text.matches("loads were connected").count(), pages, "{text}");
    let marked = current(&schedule).iter().filter(|reading| reading.remarks.len() > 1).count();
    assert_eq!(text.matches("invented, not judged (1)").count(), marked);
}

#[test]
fn boards_without_circuits_take_one_line() {
    let words = words();
    let mut schedule = small();
    let pages = |schedule: &_| Pages::typeset(&Parts::of(schedule).unwrap().parts[0], &words).unwrap();
    let before = pages(&schedule).count();
    schedule.boards.extend((3..6).map(|number| Board {
        id: board_id(number),
        name: format!("DB-{number}"),
        place: None,
        circuits: Vec::new(),
    }));
    let after = pages(&schedule);
    assert_eq!(after.count(), before);
    assert!(text_of(&after.pdf().unwrap()).contains("Boards without circuits: DB-2, DB-3, DB-4, DB-5"));
}
