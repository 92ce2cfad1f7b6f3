//! The headless program as people run it: its answers, its exit codes, its one sentence.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Folder, JOB, example, json, office, refused, told};
use serde_json::Value;
use std::path::Path;
use std::process::Command;

const LIMIT: [&str; 3] = ["limit", "--set", "iec-60364-6-2016"];

#[test]
fn sets_names_the_default_one_first() {
    let sets = json(&["sets", "--json"]);
    assert_eq!(sets[0]["id"], "iec-60364-6-2016");
    assert!(told(&["sets"]).contains("IEC 60364-6:2016"));
}

/// IEC 60364-6:2016 Table 6.1 (seen).
#[test]
fn limits_of_the_default_set() {
    let ask = |more: &[&str]| json(&[&LIMIT[..], more, &["--json"]].concat());
    let plain = ask(&["--nominal", "230", "--measure", "none"]);
    assert_eq!(plain["test_voltage_v"], "500");
    assert_eq!(plain["minimum_ohm"], "1000000");
    let pairs: Vec<&str> = plain["pairs"].as_array().unwrap().iter().map(|one| one["pair"].as_str().unwrap()).collect();
    assert_eq!(pairs, ["L–N", "L–PE", "N–PE"]);
    assert_eq!(plain["source"]["place"], "Table 6.1");
    let selv = ask(&["--nominal", "24", "--measure", "selv"]);
    assert_eq!((&selv["test_voltage_v"], &selv["minimum_ohm"]), (&"250".into(), &"500000".into()));
    let high = ask(&["--nominal", "690", "--measure", "none"]);
    assert_eq!((&high["test_voltage_v"], &high["minimum_ohm"]), (&"1000".into(), &"1000000".into()));
    let felv = ask(&["--nominal", "24", "--measure", "felv", "--supply", "230"]);
    assert_eq!((&felv["test_voltage_v"], &felv["minimum_ohm"]), (&"500".into(), &"1000000".into()));
}

#[test]
fn an_impossible_circuit_is_refused_in_one_sentence() {
    let said = refused(&[&LIMIT[..], &["--nominal", "60", "--measure", "selv"]].concat());
    assert!(said.contains("SELV goes up to 50\u{a0}V"), "{said}");
    assert_eq!(said.lines().count(), 1);
    assert!(refused(&["limit", "--set", "none-such", "--nominal", "230"]).contains("none-such"));
}

/// w = 3 % of 1.05 MΩ + 2 · 0.01 MΩ (calc): the limit and what proves it, each with its figures.
#[test]
fn a_reading_is_explained_with_every_figure() {
    let ask = |reading: &str, policy: &str| {
        json(&[
            "explain",
            "--reading",
            reading,
            "--set",
            "iec-60364-6-2016",
            "--nominal",
            "230",
            "--measure",
            "none",
            "--accuracy",
            "3 % + 2",
            "--resolution",
            "0.01 MΩ",
            "--policy",
            policy,
            "--json",
        ])
    };
    let close = ask("1.05 MΩ", "guarded");
    assert_eq!(close["value"], "too_close");
    assert_eq!(close["guard_ohm"], "51500");
    assert_eq!(close["acceptance_ohm"], "1051500");
    assert_eq!(close["smallest_indication_ohm"], "1060000");
    assert_eq!(ask("1.06 MΩ", "guarded")["value"], "meets");
    assert_eq!(ask("1.05 MΩ", "simple")["value"], "meets");
    assert_eq!(ask("0.98 MΩ", "guarded")["value"], "below");
    assert_eq!(ask("> 999 MΩ", "guarded")["value"], "meets");
}

#[test]
fn milliohms_are_refused_with_what_to_write() {
    let output = office(&["explain", "--reading", "1 mΩ", "--set", "iec-60364-6-2016", "--nominal", "230"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("Write MΩ or kΩ"));
}

#[test]
fn a_job_file_is_judged_pair_by_pair() {
    let told = json(&["judge", JOB, "--json"]);
    let pairs = &told["boards"][0]["circuits"][0]["pairs"];
    assert_eq!(pairs[0]["readings"][0]["value"], "meets");
    assert_eq!(pairs[0]["readings"][0]["shown"]["comparator"], "more_than");
    assert_eq!(pairs[1]["readings"][0]["indicated_ohm"], "487000000");
    assert_eq!(pairs[1]["readings"][0]["tester"], "proved");
    assert_eq!(pairs[2]["not_tested"], "no_access");
    assert_eq!((&told["sums"]["required"], &told["sums"]["meets"]), (&3.into(), &2.into()));
    assert!(self::told(&["judge", JOB]).contains("meets 1.0\u{a0}MΩ at 500\u{a0}V"));
}

#[test]
fn what_was_recorded_later_can_be_left_out() {
    let now = json(&["judge", JOB, "--json"]);
    let file: Value = serde_json::from_str(&example()).unwrap();
    let first = file["readings"][0]["recorded_at"].as_str().unwrap();
    let then = json(&["judge", JOB, "--at", first, "--json"]);
    assert_eq!(then["sums"]["without_reading"], 2);
    assert_eq!(now["sums"]["without_reading"], 1);
}

#[test]
fn a_doubtful_clock_is_looked_at() {
    let folder = Folder::new();
    let mut file: Value = serde_json::from_str(&example()).unwrap();
    file["readings"][0]["doubtful_clock"] = true.into();
    let told = json(&["judge", &folder.with("clock.json", &file.to_string()), "--json"]);
    let reading = &told["boards"][0]["circuits"][0]["pairs"][0]["readings"][0];
    assert_eq!(reading["level"], "look");
    assert_eq!(reading["method"][0]["kind"], "doubtful_clock");
}

#[test]
fn strict_exits_with_three_unless_everything_holds() {
    assert_eq!(office(&["judge", JOB, "--strict"]).status.code(), Some(3));
    let folder = Folder::new();
    let mut file: Value = serde_json::from_str(&example()).unwrap();
    // The last pair is read too: the first reading's circumstances with the pair that was not tested.
    let mut reading = file["readings"][0].clone();
    reading["reading"]["id"] = "018f0000-0000-7000-8000-000000000001".into();
    reading["reading"]["pair"] = file["not_tested"][0]["pair"].clone();
    file["readings"].as_array_mut().unwrap().push(reading);
    let said_not = folder.with("both.json", &file.to_string());
    assert_eq!(office(&["judge", &said_not, "--strict"]).status.code(), Some(3), "a reading, and that there is none");
    file["not_tested"] = serde_json::json!([]);
    let whole = folder.with("whole.json", &file.to_string());
    assert_eq!(office(&["judge", &whole, "--strict"]).status.code(), Some(0));
}

#[test]
fn what_cannot_be_read_is_refused_with_file_place_and_reason() {
    let folder = Folder::new();
    let hurt = [
        ("no.json", "not json".to_owned(), "Line 1"),
        ("other.json", r#"{"format":"something else"}"#.to_owned(), "provenohm-job"),
        ("list.json", "[]".to_owned(), "provenohm-job"),
        ("newer.json", example().replace("\"version\": 1,\n  \"made\"", "\"version\": 99,\n  \"made\""), "newer"),
        ("cut.json", example().chars().take(600).collect(), "ends in the middle"),
        ("comparator.json", example().replace("\"more_than\"", "\"greater\""), "greater"),
        ("digits.json", example().replace("\"digits\": \"0.40\"", "\"digits\": \"0.4e9\""), "0.4e9"),
        ("empty.json", String::new(), "empty"),
    ];
    for (name, text, reason) in hurt {
        let file = folder.with(name, &text);
        let said = refused(&["judge", &file]);
        assert!(said.contains(name) && said.contains(reason), "{name}: {said}");
        assert_eq!(said.lines().count(), 1, "{said}");
    }
    assert!(refused(&["judge", &folder.text("missing.json")]).contains("missing.json"));
}

#[test]
fn any_single_byte_changed_never_panics() {
    let folder = Folder::new();
    let text = example();
    for at in (0..text.len()).step_by(text.len() / 60) {
        let mut bytes = text.clone().into_bytes();
        bytes[at] = b'{';
        let file = folder.file("changed.json");
        std::fs::write(&file, bytes).unwrap();
        let output = office(&["judge", &file.display().to_string()]);
        assert!(matches!(output.status.code(), Some(0 | 2)), "at byte {at}: {:?}", output.status);
    }
}

#[test]
fn a_job_goes_out_of_a_record_and_comes_back_as_a_new_one() {
    let folder = Folder::new();
    let (one, other) = (folder.text("one"), folder.text("other"));
    told(&["import", JOB, "--record", &one]);
    let out = folder.text("out.json");
    told(&["export", "--record", &one, "-o", &out]);
    let (before, after) = (read(Path::new(JOB)), read(Path::new(&out)));
    assert_ne!(before["job"]["id"], after["job"]["id"]);
    assert_eq!(after["job"]["from_file"], true);
    let shown = |file: &Value| -> Vec<Value> {
        file["readings"].as_array().unwrap().iter().map(|one| one["reading"]["shown"].clone()).collect()
    };
    assert_eq!(shown(&before), shown(&after));
    assert_eq!(after["readings"][1]["past"]["fate"]["kind"], "replaced");
    assert_eq!(json(&["judge", JOB, "--json"])["sums"], json(&["judge", &out, "--json"])["sums"]);
    // The job is already in the first record: its bundle is the way. In another record it is new.
    assert!(refused(&["import", &out, "--record", &one]).contains("Use its bundle"));
    told(&["import", &out, "--record", &other]);
}

fn read(path: &Path) -> Value {
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// 750 kΩ to 25 V from 1000 V: 2.8 s for each µF (seen, an instrument maker's manual); never without the caution.
#[test]
fn how_long_a_cable_holds_its_charge() {
    let asked = ["discharge", "--through", "750 kΩ", "--capacitance", "1 µF", "--from", "1000", "--to", "25"];
    let said = told(&asked);
    assert!(said.contains("2.77\u{a0}s") && said.contains("verify the discharge before touching"), "{said}");
    assert_eq!(json(&[&asked[..], &["--json"]].concat())["time_s"], "2.77");
    assert!(
        refused(&["discharge", "--through", "1 MΩ", "--capacitance", "3", "--from", "500", "--to", "25"])
            .contains("0.3\u{a0}µF")
    );
    assert!(
        refused(&["discharge", "--through", "0 MΩ", "--capacitance", "1 µF", "--from", "500", "--to", "25"])
            .contains("above zero")
    );
}

/// 10 ∥ 20 ∥ 30 = 5.4545; 1.50 with, 1.55 without, each ±3 %: at least 20 MΩ and no upper figure (calc).
#[test]
fn circuits_read_together() {
    assert_eq!(json(&["parallel", "10 MΩ", "20 MΩ", "30 MΩ", "--json"])["together_ohm"], "5454500");
    assert!(told(&["parallel", "100 MΩ", "> 999 MΩ"]).contains("more than 90.9\u{a0}MΩ together"));
    assert!(
        told(&["parallel", "200 MΩ", "200 MΩ", "200 MΩ", "200 MΩ", "--uncertainty", "3 %"])
            .contains("±1.5\u{a0}% together")
    );
    assert!(refused(&["parallel", "> 999 MΩ", "< 1 MΩ"]).contains("both ways"));
    let own = json(&["own", "--with", "1.50 MΩ", "--without", "1.55 MΩ", "--uncertainty", "3 %", "--json"]);
    assert_eq!((&own["at_least_ohm"], &own["at_most_ohm"]), (&"20000000".into(), &Value::Null));
    assert!(
        refused(&["own", "--with", "1.5 MΩ", "--without", "1.2 MΩ", "--uncertainty", "3"]).contains("read both again")
    );
}

#[test]
fn the_demo_s_last_tester_puts_its_readings_in_doubt() {
    let folder = Folder::new();
    let record = folder.text("record");
    told(&["demo", "--record", &record]);
    let recall = json(&["recall", "--record", &record, "--tester", "1004", "--json"]);
    assert!(recall["counts"]["all"].as_u64().unwrap() > 0, "{recall}");
    assert_eq!(recall["counts"]["resolved"], 0);
    let lines = told(&["recall", "--record", &record, "--tester", "1004", "-o", &folder.text("recall.csv")]);
    assert!(lines.contains("readings in doubt, 0 resolved"), "{lines}");
    let table = std::fs::read_to_string(folder.file("recall.csv")).unwrap();
    assert_eq!(u64::try_from(table.lines().count()).unwrap(), recall["counts"]["all"].as_u64().unwrap() + 1);
    told(&["recall", "--record", &record, "--tester", "1004", "-o", &folder.text("recall.pdf")]);
    assert!(std::fs::read(folder.file("recall.pdf")).unwrap().starts_with(b"%PDF-"));
    assert!(
        refused(&["recall", "--record", &record, "--tester", "1004", "-o", &folder.text("recall.txt")])
            .contains(".pdf or .csv")
    );
    assert_eq!(json(&["recall", "--record", &record, "--tester", "1001", "--json"])["counts"]["all"], 0);
}

/// Comparator, digits and unit of each reading that stands, as the job file has them.
fn standing() -> Vec<[String; 3]> {
    let file: Value = serde_json::from_str(&example()).unwrap();
    let standing = file["readings"].as_array().unwrap().iter().filter(|one| one["past"].is_null());
    let field = |one: &Value, name: &str| one["reading"]["shown"][name].as_str().unwrap().to_owned();
    let unit = |one: &Value| if field(one, "unit") == "Mohm" { "MΩ".to_owned() } else { field(one, "unit") };
    standing.map(|one| [field(one, "comparator"), field(one, "digits"), unit(one)]).collect()
}

/// What the table for software says of the readings that stand.
fn in_table(rows: &[Vec<String>]) -> Vec<[String; 3]> {
    let column = |name: &str| rows[0].iter().position(|head| head == name).unwrap();
    let columns = ["comparator", "shown_digits", "shown_unit"].map(column);
    let (digits, changed) = (column("shown_digits"), column("changed_time"));
    let standing = rows[1..].iter().filter(|row| !row[digits].is_empty() && row[changed].is_empty());
    standing.map(|row| columns.map(|at| row[at].clone())).collect()
}

#[test]
fn the_schedule_is_written_as_csv_with_every_reading_digit_for_digit() {
    let folder = Folder::new();
    let file = folder.text("schedule.csv");
    assert!(told(&["schedule", JOB, "-o", &file]).contains("schedule.csv"));
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_path(file).unwrap();
    let rows: Vec<Vec<String>> = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    assert_eq!(in_table(&rows), standing());
}

#[test]
fn the_schedule_is_written_as_a_workbook_with_every_reading_digit_for_digit() {
    use calamine::Reader as _;
    let folder = Folder::new();
    let file = folder.text("schedule.xlsx");
    told(&["schedule", JOB, "-o", &file]);
    let mut book: calamine::Xlsx<_> = calamine::open_workbook(&file).unwrap();
    let sheet = book.worksheet_range("Data").unwrap();
    let rows: Vec<Vec<String>> = sheet.rows().map(|row| row.iter().map(ToString::to_string).collect()).collect();
    assert_eq!(in_table(&rows), standing());
}

/// Read by `pdftotext` (Debian's poppler-utils).
#[test]
fn the_schedule_is_written_as_a_pdf_that_says_each_reading_and_that_it_is_not_signed() {
    let folder = Folder::new();
    let file = folder.text("schedule.pdf");
    told(&["schedule", JOB, "-o", &file]);
    assert!(std::fs::read(&file).unwrap().starts_with(b"%PDF-"));
    let read = Command::new("pdftotext").args(["-layout", &file, "-"]).output().unwrap();
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
    let text = String::from_utf8(read.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    for [_, digits, unit] in standing() {
        assert!(text.contains(&format!("{digits} {unit}")), "{digits} {unit}: {text}");
    }
    assert!(text.contains("Not signed"), "{text}");
}

#[test]
fn a_schedule_under_another_ending_is_refused() {
    let folder = Folder::new();
    let said = refused(&["schedule", JOB, "-o", &folder.text("schedule.doc")]);
    assert!(said.contains("schedule.doc") || said.contains(".pdf"), "{said}");
    assert!(!folder.file("schedule.doc").exists());
}

#[test]
fn a_tester_report_is_written_by_its_ending_and_refused_in_one_sentence() {
    let verification = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../schemas/verification.example.json");
    let folder = tempfile::tempdir().unwrap();
    for (ending, begins) in [("pdf", b"%PDF-".as_slice()), ("xlsx", b"PK".as_slice()), ("json", b"{".as_slice())] {
        let file = folder.path().join(format!("report.{ending}"));
        let path = file.to_str().unwrap();
        assert_eq!(told(&["tester-report", verification, "-o", path]).trim_end(), path);
        assert!(std::fs::read(&file).unwrap().starts_with(begins));
    }
    let wrong = folder.path().join("report.docx");
    let said = refused(&["tester-report", verification, "-o", wrong.to_str().unwrap()]);
    assert!(said.contains(".pdf, .xlsx or .json") && !wrong.exists(), "{said}");
    let other = folder.path().join("report.pdf");
    assert!(refused(&["tester-report", JOB, "-o", other.to_str().unwrap()]).contains("Check how it is spelt"));
}

/// Of a record in an office without a window: by the tester's serial number, its latest verification.
#[test]
fn a_tester_report_is_made_from_a_record() {
    let folder = Folder::new();
    let record = folder.text("record");
    told(&["demo", "--record", &record]);
    let file = folder.text("report.json");
    told(&["tester-report", "--record", &record, "--tester", "1005", "-o", &file]);
    let report = read(Path::new(&file));
    assert!(report["name"].as_str().unwrap().contains("1005"), "{}", report["name"]);
    assert_eq!(report["invented"], true);
    assert!(!report["voltages"].as_array().unwrap().is_empty());
    let refused = |more: &[&str]| {
        refused(&[&["tester-report", "--record", &record, "-o", &folder.text("none.pdf")], more].concat())
    };
    assert!(refused(&["--tester", "no such"]).contains("no such"));
    assert!(refused(&["--tester", "1005", "--bench", "none"]).contains("none"));
    assert!(!folder.file("none.pdf").exists());
}

#[test]
fn a_job_goes_to_another_record_as_a_bundle_and_stays_the_same_job() {
    let folder = Folder::new();
    let (one, other, bundle) = (folder.text("one"), folder.text("other"), folder.text("job.provenohm-bundle"));
    told(&["import", JOB, "--record", &one]);
    told(&["bundle", "--record", &one, "--output", &bundle]);
    let looked = told(&["receive", &bundle, "--record", &other, "--look"]);
    assert!(looked.starts_with("In ") && looked.contains("same 0"), "{looked}");
    assert!(refused(&["export", "--record", &other]).contains("no job"), "nothing was taken");
    assert_eq!(told(&["receive", &bundle, "--record", &other]), looked);
    let again = json(&["receive", &bundle, "--record", &other, "--json"]);
    assert_eq!((again["joined"].as_u64(), again["same"].as_u64()), (Some(0), again["came"].as_u64()));
    let export = |record: &str| json(&["export", "--record", record]);
    let (here, there) = (export(&one), export(&other));
    assert_eq!((&here["job"], &here["readings"]), (&there["job"], &there["readings"]));
    assert!(refused(&["receive", JOB, "--record", &folder.text("none")]).contains("not a bundle"));
    assert!(!folder.file("none").exists(), "and no record is left behind");
}
