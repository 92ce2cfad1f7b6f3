//! What the schedule says of values that wait to be settled, and of limits from memory.

use crate::live::{also, corrected_apart, file_with_one_reading, read_twice};
use crate::schedule::{Row, demo, paper, rows};
use crate::support::Program;
use serde_json::{Value, json};

/// The schedule of a job file brought in: its lines, and its pages as text.
fn schedule_of(program: &Program, file: &Value) -> (Vec<Row>, String) {
    let job = program.ask("import_job_file", json!({ "text": file.to_string() }))["job"].clone();
    (rows(program, &job), paper(program, &job))
}

fn measured(rows: &[Row]) -> impl Iterator<Item = &Row> {
    rows.iter().filter(|row| row["status"] == "current")
}

#[test]
fn page_one_names_every_live_choice_of_rules() {
    let (program, mut file) = file_with_one_reading();
    let mut other = also(&file, &json!({ "value": "guarded", "tester": "full", "quick_check_days": 7 }));
    let text = other["limit_set_text"].as_str().unwrap().replace("\"version\": 1", "\"version\": 2");
    other["limit_set"]["sha256"] = json!(sha256(&text));
    other["limit_set"]["version"] = json!(2);
    other["limit_set_text"] = json!(text);
    file["job"]["rules_also"] = json!([other]);
    let (_, paper) = schedule_of(&program, &file);
    let page = &paper[..paper.find("Board DB-1").unwrap()];
    let said = page.find("Also chosen, to settle").unwrap_or_else(|| panic!("{page}"));
    let told = page[said..].replace('\u{200b}', "");
    let tester = "Testers: a tester is proved when every requirement was tested";
    for one in ["version 2", "Values: the tester's uncertainty", tester, "within 7 days"] {
        assert!(told.contains(one), "{one}: {told}");
    }
    let digest = other_digest(&file);
    assert!(told.replace(' ', "").contains(&digest), "{told}");
}

fn sha256(text: &str) -> String {
    provenohm_papers::report::Digest::of(text.as_bytes()).as_str().to_owned()
}

fn other_digest(file: &Value) -> String {
    file["job"]["rules_also"][0]["limit_set"]["sha256"].as_str().unwrap().to_owned()
}

#[test]
fn a_circuit_with_two_values_shows_both() {
    let (program, mut file) = file_with_one_reading();
    let mut other = file["boards"][0]["circuits"][0]["electrical"].clone();
    other["nominal"] = json!({ "volts": "690", "current": "ac" });
    other["spd_stays"] = json!(true);
    file["boards"][0]["circuits"][0]["electrical_also"] = json!([other]);
    let (rows, paper) = schedule_of(&program, &file);
    let said = "other value, to settle: 690\u{a0}V a.c.";
    let row = measured(&rows).next().unwrap();
    assert!(row["nominal_voltage_text"].starts_with("230") && row["conditions_text"].contains(said), "{row:?}");
    assert!(row["conditions_text"].contains("surge protector stays connected"), "{row:?}");
    assert!(paper.contains("other value, to settle: 690 V a.c."), "{paper}");
}

/// The worse reading is below; the other one meets, and its line does not say that it is below.
#[test]
fn each_of_two_readings_of_a_pair_says_what_it_is_itself() {
    let (program, mut file) = file_with_one_reading();
    read_twice(&mut file);
    let (rows, _) = schedule_of(&program, &file);
    let told = |digits: &str| {
        let row = measured(&rows).find(|row| row["shown_digits"] == digits).unwrap();
        (row["value"].as_str(), row["sign"].as_str(), row["remarks_text"].contains("two values to settle"))
    };
    assert_eq!(told("1.05"), ("meets", "stop", true));
    assert_eq!(told("0.85"), ("below", "stop", true));
}

/// Readings joined at earth prove their members only if each of them does.
#[test]
fn two_joined_readings_prove_a_single_pair_only_if_both_meet() {
    let proves = |digits: &str| {
        let (program, mut file) = file_with_one_reading();
        let circuit = file["boards"][0]["circuits"][0]["id"].clone();
        let live = |conductor: &str| json!({ "live": { "circuit": circuit, "conductor": conductor } });
        file["readings"][0]["reading"]["pair"] = json!({ "a": [live("L"), live("N")], "b": ["earth"] });
        read_twice(&mut file);
        file["readings"][1]["reading"]["shown"]["digits"] = json!(digits);
        let job = program.ask("import_job_file", json!({ "text": file.to_string() }))["job"].clone();
        rows(&program, &job).iter().filter(|row| row["status"] == "missing").count()
    };
    assert_eq!(proves("1.50"), 1, "L–N is missing");
    assert_eq!(proves("0.85"), 3, "so are L–PE and N–PE");
}

#[test]
fn circumstances_corrected_apart_are_both_on_the_line() {
    let (program, mut file) = file_with_one_reading();
    corrected_apart(&mut file);
    let (rows, paper) = schedule_of(&program, &file);
    let row = measured(&rows).next().unwrap();
    let other = if row["test_voltage_v"] == "500" { "250" } else { "500" };
    let said = format!("other value, to settle: Test voltage {other}");
    assert!(row["remarks_text"].contains(&said), "{row:?}");
    assert!(paper.contains(&said), "{paper}");
}

/// FELV of the demo job: its row of Table 6.1 is recalled, not read.
#[test]
fn limits_from_memory_are_marked_with_their_source_and_counted_once_on_page_one() {
    let (program, job) = demo();
    let rows = rows(&program, &job);
    let memory = |row: &&Row| row["minimum_source_tag"].starts_with("memory");
    let marked = measured(&rows).filter(memory).count();
    assert!(marked > 0 && marked < rows.len());
    for row in measured(&rows) {
        let said = row["minimum_source_text"].contains("recalled from memory");
        assert_eq!(said, row["minimum_source_tag"].starts_with("memory"), "{row:?}");
    }
    let paper = paper(&program, &job);
    let (page, lines) = paper.split_at(paper.find("Board DB-1").unwrap());
    assert_eq!(page.matches("judged by a limit recalled from memory").count(), 1, "{page}");
    assert!(page.contains(&format!("{marked} readings are judged by a limit recalled")), "{page}");
    assert!(lines.contains("recalled from memory, very sure"), "beside the lines");
}
