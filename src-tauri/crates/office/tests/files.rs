//! What the headless program takes for a job file, and what it says of one it does not take.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Folder, JOB, changed, example, office, refused, told};
use serde_json::{Value, json};

/// All three refuse the same file with the same sentence, and nothing is left of the try.
fn refused_by_all(folder: &Folder, text: &str) -> String {
    let file = folder.with("wrong.json", text);
    let said = refused(&["judge", &file]);
    assert_eq!(said.lines().count(), 1, "{said}");
    assert_eq!(refused(&["schedule", &file, "-o", &folder.text("wrong.pdf")]), said);
    assert_eq!(refused(&["import", &file, "--record", &folder.text("wrong")]), said);
    assert!(!folder.file("wrong.pdf").exists() && !folder.file("wrong").exists());
    said
}

#[test]
fn a_limit_set_is_taken_only_under_its_own_name_and_hash() {
    let folder = Folder::new();
    let text = |file: &Value| file["job"]["limit_set_text"].as_str().unwrap().to_owned();
    let lower = changed(|file| {
        let altered = text(file).replace("1000000", "100000");
        assert_ne!(altered, text(file));
        file["job"]["limit_set_text"] = altered.into();
    });
    assert!(refused_by_all(&folder, &lower).contains("SHA-256"));
    let unknown = changed(|file| file["job"]["limit_set"]["id"] = "none-such".into());
    assert!(refused_by_all(&folder, &unknown).contains("job.limit_set_text"));
    let no_set = changed(|file| file["job"]["limit_set_text"] = "{}".into());
    assert!(refused_by_all(&folder, &no_set).contains("limit set's text"));
}

/// A set that takes the name of a published one with another text, and names its own hash.
#[test]
fn no_other_text_takes_the_name_of_a_set_of_this_program() {
    use sha2::Digest as _;
    let folder = Folder::new();
    let file = changed(|file| {
        let altered = file["job"]["limit_set_text"].as_str().unwrap().replace("1000000", "100000");
        let sha256: String = sha2::Sha256::digest(&altered).iter().map(|byte| format!("{byte:02x}")).collect();
        file["job"]["limit_set"]["sha256"] = sha256.into();
        file["job"]["limit_set_text"] = altered.into();
    });
    assert!(refused_by_all(&folder, &file).contains("an id of its own"));
}

#[test]
fn what_cannot_be_a_circuit_or_a_card_is_refused_with_its_place() {
    let folder = Folder::new();
    let circuit = |electrical: Value| changed(|file| file["boards"][0]["circuits"][0]["electrical"] = electrical);
    let selv = json!({ "nominal": { "volts": "230", "current": "ac" }, "measure": { "kind": "selv" },
        "conductors": "single_phase" });
    let said = refused_by_all(&folder, &circuit(selv));
    assert!(said.contains("boards[0].circuits[0].electrical") && said.contains("SELV goes up to 50\u{a0}V"), "{said}");
    let below_zero = json!({ "nominal": { "volts": "-230", "current": "ac" }, "measure": { "kind": "none" },
        "conductors": "single_phase" });
    assert!(refused_by_all(&folder, &circuit(below_zero)).contains("above zero"));
    let turned = changed(|file| {
        let range = &mut file["testers"][0]["card"]["card"]["voltages"][0]["ranges"][0];
        assert!(range["to_ohm"].is_string());
        range["to_ohm"] = "0".into();
    });
    assert!(refused_by_all(&folder, &turned).contains("testers[0].card"));
    let volts = changed(|file| file["readings"][0]["reading"]["test_voltage_v"] = "-500".into());
    assert!(refused_by_all(&folder, &volts).contains("readings[0]"));
}

#[test]
fn complaints_are_for_people_and_short() {
    let folder = Folder::new();
    let unit = example().replace("\"Mohm\"", &format!("\"{}\"", "m".repeat(5_000)));
    let said = refused_by_all(&folder, &unit);
    assert!(said.contains("is not one of: ") && said.len() < 400, "{said}");
    let spelt = example().replace("\"limit_set\"", "\"limitset\"");
    assert!(refused_by_all(&folder, &spelt).contains("“limitset”"));
    // One line for the whole file: the place is what helps.
    let misspelt = changed(|file| file["readings"][1]["reading"]["conditions"]["n_isolatd"] = true.into());
    let said = refused_by_all(&folder, &misspelt);
    assert!(said.contains("readings[1].reading.conditions") && said.contains("“n_isolatd”"), "{said}");
    for key in ["as_left", "leads_shorted_good", "resolution_ohm"] {
        let wrong = format!("{key}_");
        let misspelt = example().replacen(&format!("\"{key}\""), &format!("\"{wrong}\""), 1);
        assert_ne!(misspelt, example(), "{key}");
        let said = refused_by_all(&folder, &misspelt);
        assert!(said.contains(&format!("“{wrong}”")) && said.contains("testers["), "{said}");
    }
    std::fs::write(folder.file("utf16.json"), [0xff, 0xfe, 0x7b, 0x00]).unwrap();
    assert!(refused(&["judge", &folder.text("utf16.json")]).contains("UTF-8"));
    assert!(refused(&["judge", &folder.text("")]).contains("a folder"));
    assert!(refused(&["judge", &folder.text("none.json")]).contains("no such file"));
    // A byte order mark is nothing to complain of.
    let marked = folder.with("marked.json", &format!("\u{feff}{}", example()));
    assert_eq!(told(&["judge", &marked]), told(&["judge", JOB]));
}

#[test]
fn where_nothing_is_to_be_found_nothing_is_made() {
    let folder = Folder::new();
    for command in [&["export", "--record"][..], &["recall", "--tester", "1001", "--record"]] {
        let said = refused(&[command, &[folder.text("none").as_str()]].concat());
        assert!(said.contains("no record"), "{said}");
        assert!(!folder.file("none").exists());
    }
    let file = folder.with("a-file", "");
    assert!(refused(&["import", JOB, "--record", &file]).contains("no record"));
    let nowhere = folder.text("none/schedule.pdf");
    let said = refused(&["schedule", JOB, "-o", &nowhere]);
    assert!(said.starts_with(&nowhere) && said.contains("no folder"), "{said}");
    let record = folder.text("record");
    told(&["import", JOB, "--record", &record]);
    assert!(refused(&["export", "--record", &record, "--job", "none-such"]).contains("none-such"));
}

#[test]
fn a_request_that_is_none_is_refused_in_one_line() {
    let limit = ["limit", "--set", "iec-60364-6-2016"];
    for (more, reason) in [
        (&["--nominal", "-230"][..], "for example 230"),
        (&["--nominal", "1e400"], "230"),
        (&["--nominal", "twelve"], "230"),
        (&[], "--nominal"),
        (&["--nominal", "230", "--loads", "some"], "connected"),
        (&["--nominal", "230", "--supply", "230"], "FELV"),
    ] {
        let said = refused(&[&limit[..], more].concat());
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(said.contains(reason), "{more:?}: {said}");
    }
    let said = refused(&["judge", JOB, "--at", "2026-11-25"]);
    assert!(said.contains("+01:00") && said.lines().count() == 1, "{said}");
}

/// `/dev/full` refuses every byte (Linux, full(4)).
#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_could_not_be_written_was_not_given() {
    for arguments in
        [&["sets"][..], &["judge", JOB, "--json"], &["limit", "--set", "jp-article-58", "--nominal", "200"]]
    {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let program = std::process::Command::new(env!("CARGO_BIN_EXE_provenohm-office"));
        let mut program = program;
        let output = program.args(arguments).stdout(full).output().unwrap();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(!output.stderr.is_empty());
    }
    assert_eq!(office(&["sets"]).status.code(), Some(0));
}

#[test]
fn a_second_tester_of_one_serial_number_is_said() {
    let folder = Folder::new();
    let record = folder.text("record");
    assert!(!told(&["import", JOB, "--record", &record]).contains("serial number"));
    let again = changed(|file| file["job"]["id"] = "018f0000-0000-7000-8000-0000000000aa".into());
    let said = told(&["import", &folder.with("again.json", &again), "--record", &record]);
    assert!(said.contains("serial number"), "{said}");
}

#[test]
fn what_is_on_record_of_a_tester_is_of_that_tester_and_can_be() {
    let folder = Folder::new();
    let proof = |change: fn(&mut Value)| {
        changed(|file| {
            let all = file["testers"].as_array_mut().unwrap();
            let of = all.iter_mut().find(|one| one["verifications"].is_array()).unwrap();
            change(&mut of["verifications"][0]["verification"]);
        })
    };
    let foreign = proof(|it| it["tester"] = "018f0000-0000-7000-8000-0000000000bb".into());
    assert!(refused_by_all(&folder, &foreign).contains("another tester"));
    let lapsed_at_once = proof(|it| it["valid_until"] = "1999-01-01".into());
    assert!(refused_by_all(&folder, &lapsed_at_once).contains("last day"));
    let below_zero = proof(|it| {
        let finding = &mut it["findings"][0];
        let said = if finding["as_left"].is_object() { "as_left" } else { "as_found" };
        finding[said]["holds"] = json!({ "in": [{ "from_ohm": "-5", "to_ohm": "1000000" }] });
    });
    assert!(refused_by_all(&folder, &below_zero).contains("testers["));
}

/// Two live values stay two: what cannot stand like this in the file cannot stand so in the record.
#[test]
fn two_live_values_come_in_as_two() {
    let folder = Folder::new();
    let file = changed(|file| {
        let circuit = &mut file["boards"][0]["circuits"][0];
        let mut other = circuit["electrical"].clone();
        other["nominal"]["volts"] = "400".into();
        circuit["electrical_also"] = json!([other]);
    });
    let record = folder.text("record");
    told(&["import", &folder.with("two.json", &file), "--record", &record]);
    let out = folder.text("out.json");
    told(&["export", "--record", &record, "-o", &out]);
    let again: Value = serde_json::from_str(&std::fs::read_to_string(&out).unwrap()).unwrap();
    let circuit = &again["boards"][0]["circuits"][0];
    let both = [&circuit["electrical"], &circuit["electrical_also"][0]].map(|one| one["nominal"]["volts"].clone());
    assert!(both.contains(&"400".into()) && both[0] != both[1], "{circuit}");
    assert_eq!(office(&["judge", &out, "--strict"]).status.code(), Some(3));
}

/// Who noted something and when is what the file says, not who brought it in.
#[test]
fn a_note_keeps_its_time_and_its_person() {
    let folder = Folder::new();
    let at = "2026-03-02T09:25:00+01:00";
    let file = changed(|file| {
        let note = json!({ "id": "018f0000-0000-7000-8000-000000000009", "text": "damp", "at": at, "person": file["people"][0]["id"] });
        file["boards"][0]["circuits"][0]["notes"] = json!([note]);
    });
    let record = folder.text("record");
    told(&["import", &folder.with("noted.json", &file), "--record", &record]);
    let out = folder.text("out.json");
    told(&["export", "--record", &record, "-o", &out]);
    let again: Value = serde_json::from_str(&std::fs::read_to_string(&out).unwrap()).unwrap();
    let note = &again["boards"][0]["circuits"][0]["notes"][0];
    let named = again["people"].as_array().unwrap().iter().find(|one| one["id"] == note["person"]);
    assert_eq!((&note["text"], &note["at"]), (&json!("damp"), &json!(at)));
    assert_eq!(named.map(|one| &one["name"]), Some(&json!("Invented recorder")));
}

#[test]
fn a_name_makes_no_line_and_no_colour_of_its_own() {
    let folder = Folder::new();
    let file = changed(|file| file["job"]["name"] = "Hall\n  9  L–PE  200 MΩ  meets\u{1b}[31m".into());
    let lines = told(&["judge", &folder.with("name.json", &file)]);
    assert!(lines.starts_with("Hall\u{fffd}") && !lines.contains('\u{1b}'), "{lines}");
}
