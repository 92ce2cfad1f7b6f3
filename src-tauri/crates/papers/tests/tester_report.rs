//! The tester report read back by other programs, from the worked example of its schema.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod told;

use calamine::{Data, Reader as _, Xlsx};
use provenohm_assess::quantity::Ohms;
use provenohm_papers::tester_report::{PointLine, TesterReport};
use provenohm_papers::{Pages, Scale};
use provenohm_words::{Locale, Words};
use rust_decimal::Decimal;
use serde_json::Value;
use std::io::Cursor;
use told::{spaced, text_of, told};

const EXAMPLE: &str = include_str!("../../../../schemas/tester-report.example.json");

fn report() -> TesterReport {
    serde_json::from_str(EXAMPLE).unwrap()
}

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn pdf(report: &TesterReport, words: &Words) -> Vec<u8> {
    Pages::typeset_tester(report, words).unwrap().pdf().unwrap()
}

fn points(report: &TesterReport) -> Vec<&PointLine> {
    report.voltages.iter().flat_map(|voltage| &voltage.points).collect()
}

/// A resistance as printed, in ohms.
fn parsed(text: &str) -> Decimal {
    let (number, unit) = text.split_once('\u{a0}').unwrap();
    let unit: i64 = match unit {
        "GΩ" => 1_000_000_000,
        "MΩ" => 1_000_000,
        "kΩ" => 1_000,
        _ => 1,
    };
    number.replace('−', "-").replace('\u{2009}', "").parse::<Decimal>().unwrap() * Decimal::from(unit)
}

#[test]
fn the_offset_of_its_times_is_on_every_page_and_in_the_workbook() {
    let (report, words) = (report(), words());
    let said = spaced(&format!("Times in {}", words.offset(*report.as_of.offset())));
    let text = told("pdftotext", &["-raw", "{}", "-"], &pdf(&report, &words));
    let pages: Vec<String> = text.split('\u{c}').map(spaced).filter(|page| !page.is_empty()).collect();
    assert!(pages.iter().all(|page| page.contains(&said)), "{text}");
    let mut book = Xlsx::new(Cursor::new(report.xlsx(&words).unwrap())).unwrap();
    let about = book.worksheet_range_at(0).unwrap().unwrap();
    assert!(about.rows().any(|row| spaced(&row[0].to_string()) == said));
}

#[test]
fn every_figure_of_a_point_is_that_of_the_result() {
    let report = report();
    let results: Vec<_> = report.evidence.result.voltages.iter().flat_map(|voltage| &voltage.points).collect();
    let points = points(&report);
    assert!(points.len() >= 4 && points.len() == results.len());
    for (point, result) in points.iter().zip(results) {
        let figure = |ohms: Option<Ohms>| ohms.unwrap().0.round_sf(6).unwrap();
        assert_eq!(parsed(&point.known), figure(result.known_ohm));
        assert_eq!(parsed(&point.mean), figure(Some(result.indicated_ohm)));
        assert_eq!(parsed(&point.error), figure(result.error_ohm));
        assert_eq!(parsed(&point.permitted), figure(result.permitted.map(|it| it.within_ohm)));
        let u = Decimal::try_from(result.budget.as_ref().unwrap().expanded).unwrap().round_sf(4).unwrap();
        assert_eq!(parsed(&point.expanded), u);
    }
}

#[test]
fn every_point_stands_once_in_the_pdf_with_its_decision() {
    let report = report();
    let text = text_of(&pdf(&report, &words()));
    let lines: Vec<String> = text.lines().map(spaced).collect();
    for point in points(&report) {
        let first = |text: &str| spaced(text).split(' ').next().unwrap_or_default().to_owned();
        let figures = [&point.known, &point.mean, &point.error, &point.expanded].map(|figure| spaced(figure));
        let row = format!("{} {}", point.number, spaced(&point.resistor));
        let found = lines.iter().filter(|line| {
            let decided = line.contains(&first(&point.decision.text));
            line.starts_with(&row) && decided && figures.iter().all(|figure| line.contains(figure.as_str()))
        });
        assert_eq!(found.count(), 1, "{point:?} in {lines:#?}");
    }
    let whole = spaced(&text);
    for voltage in &report.voltages {
        for said in [&voltage.holds, &voltage.conforms] {
            assert!(whole.contains(&spaced(&said.text)), "{said:?}");
        }
        for budget in voltage.points.iter().filter_map(|point| point.budget.as_ref()) {
            assert_eq!(whole.matches(&spaced(&budget.title)).count(), 1, "{}", budget.title);
        }
    }
}

#[test]
fn every_page_says_that_it_is_not_signed_and_that_the_data_is_invented() {
    let words = words();
    let text = text_of(&pdf(&report(), &words));
    let pages: Vec<&str> = text.split_terminator('\u{c}').collect();
    assert!(pages.len() > 2);
    for page in pages {
        assert_eq!(page.matches(&words.text("papers-not-signed")).count(), 2, "head and foot");
        assert!(page.contains(&words.text("papers-tester-invented")));
    }
    let real = TesterReport { invented: false, ..report() };
    assert!(!text_of(&pdf(&real, &words)).contains(&words.text("papers-tester-invented")));
}

#[test]
fn a_name_too_long_for_the_foot_is_cut_visibly() {
    let long = TesterReport { name: "An invented tester with a long name, ".repeat(8), ..report() };
    let text = text_of(&pdf(&long, &words()));
    for page in text.split_terminator('\u{c}') {
        let foot = page.lines().rfind(|line| line.contains("Page ")).unwrap();
        assert!(foot.contains("name, An") && foot.contains('…'), "{foot}");
    }
}

#[test]
fn the_plots_are_drawn() {
    let words = words();
    let drawn = report();
    let mut bare = drawn.clone();
    for voltage in &mut bare.voltages {
        for plot in [&mut voltage.error_plot, &mut voltage.load_plot] {
            let plot = plot.as_mut().unwrap();
            plot.marks.clear();
            plot.bands.clear();
            plot.bounds.clear();
        }
    }
    let picture = |report: &TesterReport| {
        Pages::typeset_tester(report, &words).unwrap().png(2, Scale::nearest(1.0)).unwrap().len()
    };
    assert!(picture(&drawn) > picture(&bare) + 1_000, "{} and {}", picture(&drawn), picture(&bare));
    let text = text_of(&pdf(&drawn, &words));
    let plot = drawn.voltages[0].error_plot.as_ref().unwrap();
    assert!(plot.x.ticks.iter().all(|tick| spaced(&text).contains(&spaced(&tick.label))));
}

#[test]
fn the_report_is_attached_and_the_same_bytes_come_each_time() {
    let (report, words) = (report(), words());
    let first = pdf(&report, &words);
    assert_eq!(first, pdf(&report, &words));
    assert_eq!(report.xlsx(&words).unwrap(), report.xlsx(&words).unwrap());
    assert_eq!(String::from_utf8(report.json().unwrap()).unwrap(), EXAMPLE);
    assert!(told("pdfdetach", &["-list", "{}"], &first).contains("model.json"));
}

#[test]
fn the_workbook_holds_every_point_and_every_line_of_a_budget_as_text() {
    let (report, words) = (report(), words());
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(report.xlsx(&words).unwrap())).unwrap();
    let mut rows = |sheet: &str| -> Vec<Vec<String>> {
        let cells = book.worksheet_range(&words.text(&format!("papers-tester-sheet-{sheet}"))).unwrap();
        let text = |cell: &Data| match cell {
            Data::String(text) => text.clone(),
            Data::Empty => String::new(),
            other => panic!("a cell that is no text: {other:?}"),
        };
        cells.rows().map(|row| row.iter().map(text).collect()).collect()
    };
    let sheet = rows("points");
    for point in points(&report) {
        let found: Vec<_> = sheet.iter().filter(|row| row[0] == point.number.to_string()).collect();
        assert_eq!(found.len(), 1);
        let cells = [&point.known, &point.mean, &point.error, &point.expanded, &point.decision.text];
        assert!(cells.iter().all(|cell| found[0].contains(cell)), "{found:?}");
    }
    let budgets: Vec<_> = report
        .voltages
        .iter()
        .flat_map(|voltage| {
            let of_points = voltage.points.iter().filter_map(|point| point.budget.as_ref());
            of_points.chain(voltage.loads.iter().filter_map(|load| load.budget.as_ref()))
        })
        .collect();
    let lines: usize = budgets.iter().map(|budget| budget.lines.len() + budget.sums.len()).sum();
    assert_eq!(rows("budgets").len(), lines + 1);
    assert_eq!(rows("measured").len(), report.measured.len() + 1);
}

/// The report with every text a person could have written replaced; what it rests on stays.
fn replaced(text: &str) -> TesterReport {
    fn walk(value: &mut Value, text: &str) {
        match value {
            Value::String(old) => text.clone_into(old),
            Value::Array(items) => items.iter_mut().for_each(|item| walk(item, text)),
            Value::Object(fields) => {
                let fixed = ["sign", "evidence", "format", "language", "as_of", "bench", "tester"];
                fields
                    .iter_mut()
                    .filter(|(name, _)| !fixed.contains(&name.as_str()))
                    .for_each(|(_, it)| walk(it, text));
            }
            Value::Null | Value::Bool(_) | Value::Number(_) => {}
        }
    }
    let mut tree: Value = serde_json::from_str(EXAMPLE).unwrap();
    walk(&mut tree, text);
    serde_json::from_value(tree).unwrap()
}

#[test]
fn hostile_texts_stay_texts() {
    let words = words();
    let hostile = [
        r##"#panic("x") #import "/model.json" $x^2$ *b* _i_ `r` @ref <label> \ // /* [ ] { }"##.to_owned(),
        "@page@ @pages@ {$count}".to_owned(),
        "\u{202e}999 MΩ\u{202c} \u{0}\u{1b}[31m".to_owned(),
        format!("a{}", "\u{301}".repeat(60)),
        "=cmd|' /C calc'!A0".to_owned(),
        "W".repeat(10_000),
        "insulation ".repeat(930),
        String::new(),
    ];
    for text in hostile {
        let report = replaced(&text);
        let printed = text_of(&pdf(&report, &words));
        for page in printed.split_terminator('\u{c}') {
            assert!(page.contains(&words.text("papers-not-signed")));
        }
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(report.xlsx(&words).unwrap())).unwrap();
        for sheet in book.sheet_names() {
            let formulas = book.worksheet_formula(&sheet).unwrap();
            assert!(formulas.cells().all(|(_, _, formula)| formula.is_empty()), "{sheet}");
        }
    }
}

#[test]
fn every_word_of_its_own_comes_from_the_catalogue() {
    let report = replaced("0");
    let said = |locale| text_of(&pdf(&report, &Words::new(locale))).replace('\u{200b}', "");
    let plain = |text: &str| -> Vec<String> {
        let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| word.len() > 1 && word.is_ascii());
        let own = words.filter(|word| word.chars().all(|c| c.is_ascii_lowercase()) && *word != "mm");
        own.filter(|word| !word.chars().all(|c| c.is_ascii_hexdigit())).map(str::to_owned).collect()
    };
    assert_eq!(plain(&said(Locale::PSEUDO)), [] as [&str; 0]);
    assert!(plain(&said(Locale::ENGLISH)).contains(&"indications".to_owned()));
}
