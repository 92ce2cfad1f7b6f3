//! Texts that break documents, in every text of the model at once: the documents say them harmlessly, or say that they
//! were cut or replaced, and each reading still stands there digit for digit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod invented;
mod told;

use std::collections::BTreeSet;
use std::io::Cursor;

use calamine::{Data, Reader as _, Xlsx};
use invented::{every_text, small};
use provenohm_papers::report::{Line, Parts, Schedule};
use provenohm_papers::{Pages, Scale};
use provenohm_words::{Locale, Words};
use told::{spaced, text_of, told};

fn hostile() -> Vec<(&'static str, String)> {
    vec![
        (
            "template markup",
            r##"#panic("x") #import "/model.json" $x^2$ *b* _i_ `r` @ref <label> \ // /* [ ] { } ~ --- #"##.to_owned(),
        ),
        ("template data", "@page@ @pages@ {$count} { $reading }".to_owned()),
        ("HTML", "<script>alert(1)</script>&amp;<b>x</b>".to_owned()),
        ("turned digits", "\u{202e}999 MΩ\u{202c} \u{2066}1\u{2069} \u{200f}\u{200e}\u{61c}".to_owned()),
        ("piled marks", format!("a{}", "\u{301}\u{338}\u{20dd}".repeat(40))),
        ("emoji", "\u{1f600}\u{1f468}\u{200d}\u{1f469}\u{fe0f} 漢字 عربي".to_owned()),
        ("a command", "=cmd|' /C calc'!A0".to_owned()),
        ("a call", "=cmd()".to_owned()),
        ("a sum", "+1+1".to_owned()),
        ("a difference", "-1".to_owned()),
        ("an address", "@SUM(A1)".to_owned()),
        ("a formula in full width", "＝1".to_owned()),
        ("a formula behind a tab", "\t=1".to_owned()),
        ("a formula on a line of its own", "\r\n=1".to_owned()),
        ("control characters", "\u{0}\u{1}\u{7}\u{8}\u{b}\u{1b}[31m\u{7f}\u{85}\u{9f}".to_owned()),
        ("what is no character", "\u{fffe}\u{ffff}\u{e000}\u{f8ff}\u{10ffff}".to_owned()),
        ("invisible", "\u{200b}\u{feff}\u{ad}\u{2060}".to_owned()),
        ("line ends", "one\ntwo\r\nthree\u{2028}four\u{2029}five".to_owned()),
        ("quotes and commas", "\"a\",'b';\"\"c".to_owned()),
        ("nothing", String::new()),
        ("10 kB without a space", "W".repeat(10_000)),
        ("10 kB of words", "insulation ".repeat(930)),
        ("more than a cell holds", "Ω\u{1f600}".repeat(17_000)),
    ]
}

fn readings(schedule: &Schedule) -> Vec<(usize, String)> {
    let words = Words::new(Locale::ENGLISH);
    let lines = schedule.boards.iter().flat_map(|board| &board.circuits).flat_map(|circuit| &circuit.lines);
    let numbered = (1..).zip(lines);
    numbered.filter_map(|(number, line)| Some((number, spaced(&words.reading(&line.reading()?.shown))))).collect()
}

#[test]
fn the_walk_finds_the_texts_people_write() {
    let places: BTreeSet<String> = every_text::places(&small()).iter().map(|place| every_text::field(place)).collect();
    for known in [
        "/job/name",
        "/job/place",
        "/limit_set/title",
        "/limit_set/sha256",
        "/findings/places/place",
        "/testers/serial",
        "/testers/card",
        "/testers/verifications/statements",
        "/boards/name",
        "/boards/circuits/description",
        "/boards/circuits/notes",
        "/boards/circuits/lines/judgement",
        "/boards/circuits/lines/remarks",
        "/boards/circuits/lines/corrections/reason",
        "/boards/circuits/past/reading/person",
        "/boards/circuits/past/reason",
    ] {
        assert!(places.contains(known), "{known} is not among {places:#?}");
    }
    // What has a form of its own is no text.
    for formed in ["/as_of", "/boards/circuits/lines/shown/digits", "/boards/circuits/lines/id", "/findings/sign"] {
        assert!(!places.contains(formed), "{formed}");
    }
}

/// The text of the pages in the order it was set, whatever stands where.
fn in_order(schedule: &Schedule, words: &Words) -> String {
    let pages = Pages::typeset(&Parts::of(schedule).unwrap().parts[0], words).unwrap();
    spaced(&told("pdftotext", &["-raw", "{}", "-"], &pages.pdf().unwrap()))
}

#[test]
fn on_pages() {
    let words = Words::new(Locale::ENGLISH);
    let plain = in_order(&every_text::replaced(&small(), "0"), &words);
    for (name, text) in hostile() {
        let schedule = every_text::replaced(&small(), &text);
        let parts = Parts::of(&schedule).unwrap();
        let pages = Pages::typeset(&parts.parts[0], &words).unwrap_or_else(|refused| panic!("{name}: {refused}"));
        assert!(pages.count() <= 32, "{name} takes {} pages", pages.count());
        pages.png(1, Scale::nearest(0.25)).unwrap();
        let printed = text_of(&pages.pdf().unwrap_or_else(|refused| panic!("{name}: {refused}")));
        let turned = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        let odd = |c: &char| {
            turned(*c) || matches!(c, '\u{e000}'..='\u{f8ff}') || (c.is_control() && !"\n\u{c}".contains(*c))
        };
        assert_eq!(printed.chars().find(odd), None, "{name}");
        for (number, page) in (1..).zip(printed.split('\u{c}').filter(|page| !page.trim().is_empty())) {
            assert!(page.contains(&words.text("papers-not-signed")), "{name}, page {number}");
            assert!(page.contains(&parts.whole.fingerprint().to_string()), "{name}, page {number}");
        }
        assert!(printed.contains(&words.text("papers-scope")), "{name}");
        // Every reading stands as often as beside texts that do no harm.
        let in_order = in_order(&schedule, &words);
        // The numbers keep to their own columns, whatever stands beside them.
        let lines: Vec<String> = printed.lines().map(spaced).collect();
        for (number, said) in readings(&schedule) {
            let said = format!(" {said} ");
            assert_eq!(in_order.matches(&said).count(), plain.matches(&said).count(), "{name}: No. {number}{said}");
            // Piles of marks reach into the lines above and below, and what stands for control characters breaks where
            // it likes: laid out as text, their lines run together.
            if name == "piled marks" || name == "control characters" {
                continue;
            }
            let found = lines.iter().filter(|line| line.starts_with(&format!("{number} ")) && line.contains(&said));
            assert_eq!(found.count(), 1, "{name}: No. {number}{said}\n{printed}");
        }
        // Markup is said, not obeyed.
        if name == "template markup" || name == "HTML" {
            let start: String = text.chars().take(8).collect();
            assert!(printed.contains(&start), "{name}");
        }
        let cut = text.chars().count() > 2_000;
        assert_eq!(spaced(&printed).contains(&words.text("papers-shortened")), cut, "{name}");
    }
}

#[test]
fn in_the_csv() {
    let words = Words::new(Locale::ENGLISH);
    for (name, text) in hostile() {
        let schedule = every_text::replaced(&small(), &text);
        let bytes = Parts::of(&schedule).unwrap().csv(&words).unwrap();
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        let heads = reader.headers().unwrap().clone();
        let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.unwrap()).collect();
        let circuits = || schedule.boards.iter().flat_map(|board| &board.circuits);
        assert_eq!(rows.len(), circuits().map(|it| it.lines.len() + it.past.len()).sum::<usize>(), "{name}");
        let begins_a_formula = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];
        for cell in rows.iter().flat_map(|row| row.iter()) {
            assert!(!cell.starts_with(begins_a_formula), "{name}: {cell:?}");
        }
        let column = |wanted: &str| heads.iter().position(|head| head == wanted).unwrap();
        let said = rows[0].get(column("circuit_description")).unwrap();
        assert_eq!(said.strip_prefix('\'').unwrap_or(said), text, "{name}: the text stands there whole");
        let digits: Vec<String> = circuits()
            .flat_map(|it| &it.lines)
            .filter_map(Line::reading)
            .map(|it| it.shown.digits.to_string())
            .collect();
        let current = rows.iter().filter(|row| row.get(column("status")) == Some("current"));
        let found: Vec<&str> = current.map(|row| row.get(column("shown_digits")).unwrap()).collect();
        assert_eq!(found, digits, "{name}");
    }
}

#[test]
fn in_the_workbook() {
    let words = Words::new(Locale::ENGLISH);
    for (name, text) in hostile() {
        let schedule = every_text::replaced(&small(), &text);
        let bytes = Parts::of(&schedule).unwrap().xlsx(&words).unwrap_or_else(|refused| panic!("{name}: {refused}"));
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap_or_else(|refused| panic!("{name}: {refused}"));
        let sheets = book.sheet_names();
        assert_eq!(sheets.len(), 3, "{name}");
        for sheet in sheets {
            let formulas = book.worksheet_formula(&sheet).unwrap();
            assert_eq!(formulas.rows().flatten().find(|formula| !formula.is_empty()), None, "{name}, {sheet}");
            let cells = book.worksheet_range(&sheet).unwrap();
            for cell in cells.rows().flatten() {
                assert!(matches!(cell, Data::String(_) | Data::Empty), "{name}, {sheet}: {cell:?}");
            }
            let readings = schedule.boards.iter().flat_map(|board| &board.circuits).flat_map(|it| &it.lines);
            let digits: BTreeSet<String> =
                readings.filter_map(Line::reading).map(|it| it.shown.digits.to_string()).collect();
            let said: BTreeSet<String> = cells.rows().flatten().map(ToString::to_string).collect();
            let about = sheet == words.text("papers-sheet-about");
            assert!(about || digits.is_subset(&said), "{name}, {sheet}");
        }
    }
}
