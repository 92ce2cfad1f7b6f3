//! Two live values: of the job's rules, and of a reading's circumstances. Both come in by a job file here.

use crate::support::{Program, single_phase, slot_at_500_v};
use serde_json::{Value, json};

const NEW_JOB: &str = "018f0000-0000-7000-8000-000000000001";

/// A job file with one reading of 1.05 MΩ by a proved tester at 500 V.
pub(crate) fn file_with_one_reading() -> (Program, Value) {
    let program = Program::start();
    let (job, board) = program.job();
    program.circuits(&board, 1, single_phase());
    let tester = program.tester("Tester A");
    program.certificate(&tester, "3 Mar 2026", "3 Mar 2027");
    program.ask("choose_tester", json!({ "board": board, "tester": tester }));
    let slot = slot_at_500_v(&program, &board);
    let typed = json!({ "typed": { "text": "1.05", "comparator": "exact", "unit": "m" } });
    let saved = program.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    assert_eq!(saved["saved"]["judgement"]["level"], "done", "{saved}");
    let mut file: Value = serde_json::from_str(&program.api.job_file(&job).unwrap()).unwrap();
    file["job"]["id"] = json!(NEW_JOB);
    (program, file)
}

/// Other policies beside those of the file, as another device chose them.
pub(crate) fn also(file: &Value, policies: &Value) -> Value {
    let job = &file["job"];
    json!({
        "limit_set": job["limit_set"], "limit_set_text": job["limit_set_text"],
        "policies": policies, "recorded_at": file["made"]["at"],
    })
}

/// The new job's list of things to look at.
fn taken(program: &Program, file: &Value) -> (Value, Value) {
    let job = program.ask("import_job_file", json!({ "text": file.to_string() }))["job"].clone();
    let look = program.ask("look", json!({ "job": job }));
    (job, look)
}

/// A job file makes its tester anew: that it is one of those here is asked, last.
const TWICE: &str = "One tester registered twice?";

/// The first thing that waits to be settled.
fn first_open(program: &Program, job: &Value) -> Value {
    program.ask("settling", json!({ "job": job }))["questions"][0].clone()
}

fn said(look: &Value) -> String {
    look["items"][0]["sentences"].to_string()
}

#[test]
fn two_live_policies_show_the_least_favourable_judgement_as_a_stop_until_settled() {
    let (program, mut file) = file_with_one_reading();
    // 1.05 MΩ meets 1 MΩ; with w = 3 % + 2 digits = 0.0515 MΩ (calc) it is too close to call.
    file["job"]["rules_also"] = json!([also(&file, &json!({ "value": "guarded", "tester": "usual" }))]);
    let (job, look) = taken(&program, &file);
    assert_eq!(look["items"][0]["level"], "stop", "{look}");
    assert!(said(&look).contains("too close to call"), "{look}");
    assert!(said(&look).contains("two values to settle"), "{look}");
    // Both values go out again, and the person is asked.
    let again: Value = serde_json::from_str(&program.api.job_file(job.as_str().unwrap()).unwrap()).unwrap();
    assert_eq!(again["job"]["rules_also"].as_array().unwrap().len(), 1);
    let open = first_open(&program, &job);
    assert_eq!(open["asks"], "Two sets of rules for the job");
    program.ask("settle", json!({ "job": job, "question": open["id"], "choice": open["choices"][0]["id"] }));
    assert_eq!(first_open(&program, &job)["asks"], TWICE);
    let job = program.ask("job", json!({ "job": job }));
    assert_eq!((&job["value_policy"], &job["stop"]), (&json!("simple"), &json!(0)));
}

/// Two corrections made apart: 500 V and 250 V.
pub(crate) fn corrected_apart(file: &mut Value) {
    let reading = file["readings"][0]["reading"].clone();
    let at = file["made"]["at"].clone();
    let volts = ["500", "250"];
    file["readings"][0]["corrections"] = volts
        .map(|volts| json!({ "test_voltage_v": volts, "reason": "read off the tester", "recorded_at": at }))
        .into();
    file["readings"][0]["live"] = volts
        .map(|volts| {
            json!({
                "tester": reading["tester"], "test_voltage_v": volts, "at": reading["at"],
                "conditions": reading["conditions"], "recorded_at": at,
            })
        })
        .into();
}

#[test]
fn two_live_corrections_are_both_judged_until_one_correction_settles_them() {
    let (program, mut file) = file_with_one_reading();
    corrected_apart(&mut file);
    let (job, look) = taken(&program, &file);
    assert_eq!(look["items"][0]["level"], "stop", "{look}");
    assert!(said(&look).contains("250\u{a0}V: this set asks"), "at 250 V it cannot be judged: {look}");
    let again: Value = serde_json::from_str(&program.api.job_file(job.as_str().unwrap()).unwrap()).unwrap();
    assert_eq!(again["readings"][0]["live"].as_array().unwrap().len(), 2);
    let reading = look["items"][0]["reading"].clone();
    let correct = json!({ "job": job, "readings": [reading], "volts": 500, "reason": "asked both" });
    program.ask("correct_readings", correct);
    assert_eq!(program.ask("look", json!({ "job": job }))["stop"], 0);
    let settled: Value = serde_json::from_str(&program.api.job_file(job.as_str().unwrap()).unwrap()).unwrap();
    assert_eq!(settled["readings"][0]["live"], Value::Null);
}

#[test]
fn more_than_eight_combinations_cannot_be_judged() {
    let (program, mut file) = file_with_one_reading();
    corrected_apart(&mut file);
    let others = [("simple", "full"), ("simple", "indications_only"), ("guarded", "usual")];
    let rules = |others: &[(&str, &str)]| -> Value {
        others.iter().map(|(value, tester)| also(&file, &json!({ "value": value, "tester": tester }))).collect()
    };
    let (eight, ten) = (rules(&others), rules(&[&others[..], &[("guarded", "full")]].concat()));
    file["job"]["rules_also"] = eight;
    let (_, look) = taken(&program, &file);
    assert!(said(&look).contains("250\u{a0}V: this set asks"), "four by two are judged: {look}");
    file["job"]["rules_also"] = ten;
    let (_, look) = taken(&program, &file);
    assert_eq!(look["items"][0]["level"], "stop");
    assert!(!said(&look).contains("250\u{a0}V: this set asks"), "five by two are not: {look}");
}

/// The reading once more, with other digits, as another device took it.
pub(crate) fn read_twice(file: &mut Value) {
    let mut second = file["readings"][0].clone();
    second["reading"]["id"] = json!("018f0000-0000-7000-8000-000000000002");
    second["reading"]["shown"]["digits"] = json!("0.85");
    file["readings"].as_array_mut().unwrap().push(second);
}

#[test]
fn two_readings_of_a_pair_are_a_stop_until_one_is_chosen() {
    let (program, mut file) = file_with_one_reading();
    read_twice(&mut file);
    let (job, look) = taken(&program, &file);
    assert_eq!(look["stop"], 1, "{look}");
    let open = first_open(&program, &job);
    assert_eq!(open["choices"][0]["words"], "1.05\u{a0}MΩ", "{open}");
    let settled = json!({ "job": job, "question": open["id"], "choice": open["choices"][0]["id"] });
    program.ask("settle", settled.clone());
    let view = program.ask("job", json!({ "job": job }));
    assert_eq!((&view["stop"], &view["look"]), (&json!(0), &json!(1)), "two pairs are missing still");
    assert_eq!(program.refused("settle", settled).code, "not_found");
}

#[test]
fn readings_kept_beside_each_other_are_judged_as_they_are_also_through_a_job_file() {
    let (program, mut file) = file_with_one_reading();
    read_twice(&mut file);
    let (job, _) = taken(&program, &file);
    let open = first_open(&program, &job);
    program.ask("settle", json!({ "job": job, "question": open["id"], "choice": "both" }));
    let view = program.ask("job", json!({ "job": job }));
    assert_eq!((&view["stop"], &first_open(&program, &job)["asks"]), (&json!(0), &json!(TWICE)));
    let told = |job: &Value| {
        let look = program.ask("look", json!({ "job": job }));
        let below = look["items"].as_array().unwrap().iter().find(|item| item["shown"] == "0.85\u{a0}MΩ").cloned();
        assert_eq!(look["stop"], 0, "{look}");
        assert_eq!(below.unwrap_or_else(|| panic!("the less favourable speaks: {look}"))["level"], "look");
    };
    told(&job);
    let mut again: Value = serde_json::from_str(&program.api.job_file(job.as_str().unwrap()).unwrap()).unwrap();
    assert!(again["readings"].as_array().unwrap().iter().all(|one| one["kept_at"].is_string()), "{again}");
    again["job"]["id"] = json!(NEW_JOB);
    let (job, _) = taken(&program, &again);
    told(&job);
}
