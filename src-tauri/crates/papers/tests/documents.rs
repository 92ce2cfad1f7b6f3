//! The documents read back by other programs: the PDF as text, the workbook, the CSV.
//!
//! PDF text and fonts: `pdftotext`, `pdffonts` and `pdfinfo` (Debian's poppler-utils). Workbook: the calamine library.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;

use std::io::Cursor;
use std::process::Command;

use calamine::{Data, Reader as _, Xlsx};
use invented::{large, small};
use provenohm_papers::report::{Line, Part, Parts, Reading, Schedule};
use provenohm_papers::{Pages, PaperError, Scale};
use provenohm_words::{Locale, Words};

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn pdf_of(part: &Part, words: &Words) -> Vec<u8> {
    Pages::typeset(part, words).unwrap().pdf().unwrap()
}

/// What a tool says of a PDF: `{}` among its arguments stands for the file.
fn told(tool: &str, args: &[&str], pdf: &[u8]) -> String {
    let file = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(file.path(), pdf).unwrap();
    let args = args.iter().map(|arg| if *arg == "{}" { file.path().as_os_str() } else { arg.as_ref() });
    let output = Command::new(tool).args(args).output().unwrap_or_else(|e| panic!("{tool} (poppler-utils): {e}"));
    assert!(output.status.success(), "{tool}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn text_of(pdf: &[u8]) -> String {
    told("pdftotext", &["-layout", "{}", "-"], pdf)
}

fn current(schedule: &Schedule) -> Vec<&Reading> {
    let circuits = schedule.boards.iter().flat_map(|board| &board.circuits);
    circuits.flat_map(|circuit| &circuit.lines).filter_map(Line::reading).collect()
}

/// Every reading with its number: the current ones, then those withdrawn or replaced.
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

/// White space made one space, whatever its kind.
fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_reading_of_500_circuits_stands_once_in_the_pdf_digit_for_digit() {
    let words = words();
    let whole = large(500);
    let parts = Parts::of(&whole).unwrap();
    let texts: Vec<String> = parts.parts.iter().map(|part| text_of(&pdf_of(part, &words))).collect();
    // A line of the schedule says its number, its pair (which may go on in the next line), its reading, its test voltage.
    let lines: Vec<String> = texts.iter().flat_map(|text| text.lines()).map(spaced).collect();
    let wrong: Vec<String> = (1..)
        .zip(current(&whole))
        .map(|(number, reading)| {
            (format!("{number} "), format!(" {} 500 V 1.0 MΩ ", spaced(&words.reading(&reading.shown))))
        })
        .filter(|(number, said)| {
            lines.iter().filter(|line| line.starts_with(number) && line.contains(said)).count() != 1
        })
        .map(|(number, said)| number + &said)
        .collect();
    assert!(wrong.is_empty(), "{} of them, for example {:?}", wrong.len(), wrong.first());
    let said = lines.iter().filter(|line| line.contains(" 500 V 1.0 MΩ ")).count();
    assert_eq!(said, current(&whole).len(), "as many lines as readings");
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
    let first = ["status", "recorded_time", "comparator", "resistance_ohm", "minimum_ohm", "test_voltage_v", "value"];
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
    for (number, page) in (1..).zip(&pages) {
        assert!(page.contains(&words.text("papers-not-signed")), "page {number}");
        assert!(page.contains(&fingerprint), "page {number}");
        assert!(page.contains(&format!("Page {number} of {}", pages.len())), "page {number}");
        if number > 1 {
            let heads = ["papers-column-judgement", "papers-column-correction"].map(|key| words.text(key));
            assert!(heads.iter().any(|head| page.contains(head)), "page {number}");
        }
    }
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
fn text_that_breaks_documents_is_harmless_in_every_field() {
    let words = words();
    let hostile = [
        "#panic(\"x\") $x$ *b* _i_ `r` @ref <label> \\ // /* [ ] { }",
        "<script>alert(1)</script>&amp;",
        "\u{202e}999 MΩ\u{202c} \u{200f}",
        "a\u{301}\u{301}\u{301}\u{301}\u{301}\u{301}",
        "\u{1f600}\u{1f468}\u{200d}\u{1f469}",
        "=HYPERLINK(\"x\")",
        "\u{0}\u{7}\u{1b}[31m",
        &"W".repeat(200),
    ];
    for text in hostile {
        let mut schedule = small();
        schedule.job.name = text.to_owned();
        schedule.job.place = Some(text.to_owned());
        for circuit in schedule.boards.iter_mut().flat_map(|board| &mut board.circuits) {
            circuit.description = text.to_owned();
            circuit.notes = vec![text.to_owned()];
            circuit.lines.iter_mut().for_each(|line| {
                if let Line::Reading(reading) = line {
                    reading.judgement = text.to_owned();
                    reading.person = text.to_owned();
                    reading.remarks = vec![text.to_owned()];
                }
            });
        }
        schedule.testers.iter_mut().for_each(|tester| tester.name = text.to_owned());
        let parts = Parts::of(&schedule).unwrap();
        let printed = text_of(&pdf_of(&parts.parts[0], &words));
        assert!(printed.contains(&words.text("papers-scope")), "{text:?}");
        parts.xlsx(&words).unwrap();
        let csv = parts.csv(&words).unwrap();
        let mut reader = csv::Reader::from_reader(csv.as_slice());
        for cell in reader.records().flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()) {
            assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell:?}");
        }
    }
}

/// The catalogue's plain messages for papers: key and English text.
fn catalogue() -> Vec<(&'static str, &'static str)> {
    include_str!("../../words/catalogue/en/papers.ftl")
        .lines()
        .filter_map(|line| line.split_once(" = "))
        .filter(|(key, text)| key.starts_with("papers-") && !text.contains('{'))
        .collect()
}

#[test]
fn every_fixed_word_on_paper_comes_from_the_catalogue() {
    let (english, pseudo) = (words(), Words::new(Locale::PSEUDO));
    let parts = Parts::of(&small()).unwrap();
    let plain = |words: &Words| {
        let text = told("pdftotext", &["{}", "-"], &pdf_of(&parts.parts[0], words));
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let (in_english, in_pseudo) = (plain(&english), plain(&pseudo));
    // Short words also stand in the invented data; sentences do not.
    let sentences = catalogue().into_iter().filter(|(_, text)| text.contains(' ') && in_english.contains(text));
    let sentences: Vec<_> = sentences.collect();
    assert!(sentences.len() > 10, "{}", sentences.len());
    for (key, text) in sentences {
        assert!(!in_pseudo.contains(text), "{key} stands in English: {text}");
    }
    assert_eq!(pseudo.unreadable().len(), 0);
}
