//! Bundles out of one program and into another.

use crate::support::{Program, single_phase};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

/// A job with a circuit, a proved tester and one reading; its ids.
fn recorded() -> (Program, String, String) {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let tester = program.tester("Tester A");
    program.certificate(&tester, "2026-03-02", "2027-03-02");
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    read(&program, &board, "200");
    (program, job, board)
}

fn read(program: &Program, board: &str, text: &str) {
    program.ask("set_volts", json!({ "board": board, "volts": 500 }));
    let slot = program.ask("run", json!({ "board": board }))["slot"].clone();
    let indication = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
    program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": indication }));
}

fn handed(program: &Program, job: &str) -> Vec<u8> {
    let written = program.ask("hand_over", json!({ "job": job, "testers": [] }));
    let path = written["files"][0].as_str().unwrap();
    assert!(is_of_mill_lane(path), "{path}");
    std::fs::read(path).unwrap()
}

/// Named by the job, the device and the time: `Mill-Lane-0190a0c1-20261125-101500.provenohm-bundle`.
fn is_of_mill_lane(path: &str) -> bool {
    let name = std::path::Path::new(path).file_name().unwrap().to_str().unwrap();
    let told = name.strip_prefix("Mill-Lane-").and_then(|rest| rest.strip_suffix(".provenohm-bundle")).unwrap();
    let lengths: Vec<usize> = told.split('-').map(str::len).collect();
    lengths == [8, 8, 6]
}

fn file(bytes: &[u8]) -> Value {
    json!({ "base64": BASE64_STANDARD.encode(bytes) })
}

/// The job as it is judged, without when and by whom the file was made.
fn judged(program: &Program, job: &str) -> Value {
    let mut file: Value = serde_json::from_str(&program.api.job_file(job).unwrap()).unwrap();
    file["made"] = Value::Null;
    file
}

#[test]
fn a_job_handed_over_is_the_same_job_on_the_other_device() {
    let (program, job, _) = recorded();
    let bytes = handed(&program, &job);
    let other = Program::start();
    let preview = other.ask("preview_bundle", file(&bytes));
    assert_eq!(preview["job"], json!(job));
    assert!(other.ask("jobs", json!({}))["jobs"].as_array().unwrap().is_empty(), "only looked at");
    let came = preview["came"].as_u64().unwrap();
    assert_eq!(preview["words"], format!("In {came} = joined {came} + same 0 + to settle 0"));
    let lines = preview["lines"].to_string();
    assert!(lines.contains("Job Mill Lane") && lines.contains("Tester Tester A"), "{lines}");

    assert_eq!(other.ask("take_in_bundle", file(&bytes)), preview, "it comes out as told");
    assert_eq!(judged(&other, &job), judged(&program, &job));
    let again = other.ask("take_in_bundle", file(&bytes));
    assert_eq!(again["words"], format!("In {came} = joined 0 + same {came} + to settle 0"));
}

#[test]
fn a_written_file_is_told_whole_and_no_other_file_is() {
    let (program, job, _) = recorded();
    let written = program.ask("hand_over", json!({ "job": job, "testers": [] }));
    let path = written["files"][0].as_str().unwrap();
    let told = program.ask("written_file", json!({ "path": path }));
    assert!(is_of_mill_lane(told["name"].as_str().unwrap()), "{}", told["name"]);
    assert_eq!(BASE64_STANDARD.decode(told["base64"].as_str().unwrap()).unwrap(), std::fs::read(path).unwrap());

    let papers = std::path::Path::new(path).parent().unwrap();
    std::fs::create_dir(papers.join("deeper")).unwrap();
    std::fs::write(papers.join("deeper/notes.txt"), "not ours").unwrap();
    for other in ["/etc/hostname", "", "..", "deeper/notes.txt", "../papers/Mill-Lane.provenohm-bundle"] {
        let other = papers.join(other).display().to_string();
        assert_eq!(program.refused("written_file", json!({ "path": other })).code, "file_not_there", "{other}");
        let with = json!({ "paths": [path, other] });
        assert_eq!(program.refused("written_files", with).code, "file_not_there", "{other}");
    }
    std::fs::remove_file(path).unwrap();
    assert_eq!(program.refused("written_file", json!({ "path": path })).code, "file_not_there");
}

/// Two phones and two jobs of one name write into one folder, and one phone twice: every file stays.
#[test]
fn no_bundle_takes_the_place_of_another() {
    let (program, job, _) = recorded();
    let other = Program::start_with(9);
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    let folder = tempfile::tempdir().unwrap();
    for one in [&program, &other] {
        one.ask("set_files_folder", json!({ "folder": folder.path().display().to_string() }));
    }
    let (second, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let mut written = std::collections::BTreeSet::new();
    for (program, job) in [(&program, &job), (&program, &second), (&other, &job), (&program, &job)] {
        let files = program.ask("hand_over", json!({ "job": job, "testers": [] }))["files"].clone();
        written.insert(files[0].as_str().unwrap().to_owned());
    }
    assert_eq!(written.len(), 4, "{written:?}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 4, "and nothing half written beside them");
    let whereabouts = other.ask("job", json!({ "job": job }))["whereabouts"].clone();
    assert!(whereabouts.as_str().unwrap().starts_with("Handed over on "), "the job says so too: {whereabouts}");
}

#[test]
fn files_go_to_the_folder_a_person_chose_while_it_is_there() {
    let (program, job, _) = recorded();
    let usual = program.ask("files_folder", json!({}));
    assert_eq!(usual["usual"], true);
    let stick = tempfile::tempdir().unwrap();
    let folder = stick.path().join("jobs");
    let ask = json!({ "folder": folder.display().to_string() });
    assert_eq!(program.refused("set_files_folder", ask.clone()).code, "folder_not_there");
    assert_eq!(program.refused("set_files_folder", json!({ "folder": "jobs" })).code, "folder_not_whole");
    assert_eq!(program.ask("files_folder", json!({})), usual, "a refusal changes nothing");

    std::fs::create_dir(&folder).unwrap();
    assert_eq!(program.ask("set_files_folder", ask)["usual"], false);
    assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 0, "what it was tried with is gone");
    let written = program.ask("hand_over", json!({ "job": job, "testers": [] }));
    let path = std::path::PathBuf::from(written["files"][0].as_str().unwrap());
    assert_eq!(path.parent(), Some(folder.as_path()));
    assert!(is_of_mill_lane(program.ask("written_file", json!({ "path": path }))["name"].as_str().unwrap()));

    std::fs::remove_dir_all(&folder).unwrap();
    assert_eq!(program.refused("export_job", json!({ "job": job })).code, "folder_not_there");
    assert!(!folder.exists(), "a stick that is out is not made up for");
    assert_eq!(program.ask("set_files_folder", json!({ "folder": null })), usual);
    assert!(
        program.ask("export_job", json!({ "job": job }))["files"][0]
            .as_str()
            .unwrap()
            .starts_with(usual["folder"].as_str().unwrap())
    );
}

#[test]
fn what_was_not_handed_over_yet_is_said() {
    let (program, job, board) = recorded();
    let lines = |program: &Program| program.ask("handed", json!({ "job": job }))["lines"].clone();
    let only_here = |count| json!(format!("{count} only on this device, as far as it knows"));
    assert_eq!(
        lines(&program),
        json!([
            "On this device: not handed over yet",
            "1 reading of this device not handed over yet",
            only_here("1 reading")
        ])
    );
    let bytes = handed(&program, &job);
    assert!(lines(&program)[0].as_str().unwrap().starts_with("Handed over on "), "{}", lines(&program));
    assert_eq!(lines(&program)[1], "Every reading of this device is in that file");
    read(&program, &board, "300");
    assert_eq!(lines(&program)[1], "1 reading of this device not handed over yet");
    program.ask("take_in_bundle", file(&bytes));
    assert!(lines(&program)[2].as_str().unwrap().starts_with("Received last on "), "{}", lines(&program));
    assert_eq!(
        lines(&program)[1],
        "1 reading of this device not handed over yet",
        "its own bundle back brings nothing"
    );
    assert_eq!(lines(&program)[3], only_here("2 readings"), "and shows nothing of any other device");
}

#[test]
fn what_came_back_from_another_device_is_not_only_here() {
    let (program, job, board) = recorded();
    let other = Program::start_with(77);
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    let person = other.ask("add_person", json!({ "job": job, "name": "B. Recorder" }));
    assert!(person["me"].is_string());
    read(&program, &board, "300");
    program.ask("take_in_bundle", file(&handed(&other, &job)));
    let lines = program.ask("handed", json!({ "job": job }))["lines"].clone();
    let back = lines[3].as_str().unwrap();
    assert!(
        back.starts_with("Received back on ") && back.ends_with("1 reading of this device is on another device too"),
        "{lines}"
    );
    assert_eq!(lines[4], "1 reading only on this device, as far as it knows");
}

#[test]
fn a_device_is_known_by_the_word_of_a_known_one() {
    let (program, job, _) = recorded();
    let other = Program::start_with(77);
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    other.ask("add_person", json!({ "job": job, "name": "B. Recorder" }));
    program.ask("take_in_bundle", file(&handed(&other, &job)));
    let devices =
        |program: &Program| program.ask("devices", json!({ "job": job }))["lines"].as_array().unwrap().clone();
    let unknown = devices(&program).into_iter().find(|one| one["known"] == false).unwrap();
    assert!(unknown["words"].as_str().unwrap().contains("B. Recorder"), "{unknown}");
    assert_eq!(unknown["said"]["words"], "Not known to this job: nobody vouches for it");
    let word = json!({ "job": job, "device": unknown["device"], "key": unknown["key"] });
    assert_eq!(other.refused("vouch_for_device", word.clone()).code, "device_not_known", "it vouches for itself");
    let mut because = word.clone();
    because["reason"] = json!("The first phone was lost");
    let said = other.ask("vouch_for_device", because);
    let told = said["lines"].as_array().unwrap().iter().find(|one| one["device"] == unknown["device"]).unwrap();
    assert_eq!(told["known"], false, "its own word makes it no more known");
    assert_eq!(
        told["said"]["words"],
        "Not known to this job: B. Recorder vouches for it, on a device not known itself. The first phone was lost"
    );
    other.ask("undo", json!({ "token": said["undo"] }));
    let vouched = program.ask("vouch_for_device", word.clone());
    let known = vouched["lines"].as_array().unwrap().iter().find(|one| one["device"] == unknown["device"]).unwrap();
    assert_eq!(known["said"]["words"], "Known to this job: A. Recorder vouches for it");
    assert_eq!(program.refused("vouch_for_device", word).code, "not_found", "once is enough");
    program.ask("undo", json!({ "token": vouched["undo"] }));
    assert!(devices(&program).iter().any(|one| one["known"] == false));
}

#[test]
fn long_work_is_asked_about_and_stopped_while_it_goes_on() {
    let (program, job, _) = recorded();
    let told = program.ask("long_work", json!({}));
    assert_eq!(told, json!({ "done": 0, "of": 0 }), "nothing long was done yet");
    let other = Program::start();
    let bytes = handed(&program, &job);
    let packed = program.ask("long_work", json!({}));
    assert!(packed["of"].as_u64().unwrap() > 0 && packed["done"] == packed["of"], "packing tells how far it is");
    let came = other.ask("take_in_bundle", file(&bytes))["came"].clone();
    // Each entry is read, taken, and proven.
    let steps = 3 * came.as_u64().unwrap();
    assert_eq!(other.ask("long_work", json!({})), json!({ "done": steps, "of": steps }));
    other.ask("stop_long_work", json!({}));
    let again = other.ask("take_in_bundle", file(&bytes));
    assert_eq!(again["same"], came, "what was stopped too late stops nothing that comes after");
    let verified = other.ask("verify_file", json!({ "files": [BASE64_STANDARD.encode(&bytes)] }));
    assert_eq!(verified["holds"], true);
    assert_eq!(other.ask("long_work", json!({})), json!({ "done": steps, "of": steps }), "so does verifying");
    let pdf = other.ask("make_schedule", json!({ "job": job, "format": "pdf" }))["files"][0].clone();
    assert_eq!(other.ask("long_work", json!({})), json!({ "done": 1, "of": 1 }), "and making pages, part by part");
    let pdf = BASE64_STANDARD.encode(std::fs::read(pdf.as_str().unwrap()).unwrap());
    other.ask("verify_file", json!({ "files": [pdf, pdf] }));
    assert_eq!(other.ask("long_work", json!({})), json!({ "done": 2, "of": 2 }), "and verifying them");
}

#[test]
fn what_was_judged_before_is_judged_anew_with_what_came() {
    let (program, job, board) = recorded();
    let other = Program::start();
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    assert_eq!(judged(&other, &job)["readings"].as_array().unwrap().len(), 1);
    read(&program, &board, "0.50");
    other.ask("take_in_bundle", file(&handed(&program, &job)));
    assert_eq!(judged(&other, &job), judged(&program, &job));
}

#[test]
fn no_bundle_is_refused_in_one_sentence_and_nothing_is_taken() {
    let (program, job, _) = recorded();
    let bytes = handed(&program, &job);
    let other = Program::start();
    let mut altered = bytes.clone();
    altered[bytes.len() / 2] ^= 1;
    let mut newer = bytes.clone();
    newer[9] = 9;
    for (bytes, code) in [
        (&bytes[..bytes.len() - 1], "bundle_damaged"),
        (&altered, "bundle_damaged"),
        (&newer, "bundle_newer"),
        (b"{}", "not_a_bundle"),
        (b"", "not_a_bundle"),
    ] {
        for operation in ["preview_bundle", "take_in_bundle"] {
            let refused = other.refused(operation, file(bytes));
            assert_eq!(refused.code, code);
            assert!(!refused.words.is_empty() && refused.words != code);
        }
    }
    assert_eq!(other.refused("take_in_bundle", json!({ "base64": "?" })).code, "not_a_bundle");
    assert!(other.ask("jobs", json!({}))["jobs"].as_array().unwrap().is_empty());
    assert_eq!(other.refused("hand_over", json!({ "job": job, "testers": [] })).code, "not_found");
}

#[test]
fn a_job_from_a_file_that_was_taken_back_is_there_again_once_the_work_of_another_arrives() {
    let (from, job, _) = recorded();
    let text = from.api.job_file(&job).unwrap();
    let (one, other) = (Program::start_with(5), Program::start_with(6));
    let imported = one.ask("import_job_file", json!({ "text": text }));
    let job = imported["job"].as_str().unwrap();
    let board = one.ask("job", json!({ "job": job }))["boards"][0]["id"].as_str().unwrap().to_owned();
    other.ask("take_in_bundle", file(&handed(&one, job)));
    one.ask("undo", json!({ "token": imported["done"]["undo"] }));
    assert_eq!(one.ask("jobs", json!({}))["jobs"], json!([]));

    // The other does not know of that, and tests a circuit.
    let me = other.ask("add_person", json!({ "job": job, "name": "B. Recorder", "role": "" }))["me"].clone();
    assert_ne!(me, Value::Null);
    // What else was done with it is known where it was taken in.
    let elsewhere = other.refused("undo", json!({ "token": imported["done"]["undo"] }));
    assert_eq!(
        (elsewhere.code.as_str(), other.ask("jobs", json!({}))["jobs"].as_array().unwrap().len()),
        ("begun_elsewhere", 1)
    );
    read(&other, &board, "300");
    one.ask("take_in_bundle", file(&handed(&other, job)));
    other.ask("take_in_bundle", file(&handed(&one, job)));
    for program in [&one, &other] {
        assert_eq!(program.ask("jobs", json!({}))["jobs"].as_array().unwrap().len(), 1);
        assert_eq!(program.ask("readings", json!({ "job": job }))["rows"].as_array().unwrap().len(), 2);
    }
    assert_eq!(judged(&one, job), judged(&other, job));
}
