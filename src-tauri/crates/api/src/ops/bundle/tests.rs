#![allow(clippy::unwrap_used)]
//! What is missing of a job is said, whatever was lost on the way.

use super::*;
use crate::operations::dispatch;
use crate::testing;
use provenohm_logbook::record::Leaving;
use serde_json::json;
use std::collections::BTreeMap;

/// What is said to be missing.
fn lacking(state: &State, job: JobId) -> Vec<String> {
    Lacking::of(&state.record.view(), job).unwrap().lines(&state.words)
}

#[test]
fn what_is_missing_of_a_job_is_said_where_it_is_handed_over() {
    let mut here = testing::state();
    let demo = dispatch(&mut here, "make_demo", json!({})).unwrap();
    let job: JobId = serde_json::from_value(demo["id"].clone()).unwrap();
    assert_eq!(lacking(&here, job), [] as [String; 0]);

    // The job's book alone, with two entries between two seals lost on the way.
    let handed = |state: &mut State| {
        let by = By { person: PersonId(Uuid::nil()), at: state.host.now(), random: &mut state.host };
        state.record.hand_over(by, &[job.into()]).unwrap().remove(0)
    };
    let sealed = handed(&mut here).entries.last().unwrap().envelope().seq.0;
    for name in ["DB-8", "DB-9"] {
        dispatch(&mut here, "add_board", json!({ "job": job, "name": name })).unwrap();
    }
    let Leaving { book, entries, .. } = handed(&mut here);
    let lost = sealed + 1..=sealed + 2;
    let later: Vec<_> = entries.into_iter().filter(|entry| !lost.contains(&entry.envelope().seq.0)).collect();
    let bytes = bundle::write(None, book, &BTreeMap::from([(book, later)])).unwrap();
    let mut there = testing::state();
    take_in(&mut there, &bytes).unwrap();
    let said = lacking(&there, job);
    assert_eq!(said[0], "2 entries in between are missing: another bundle may bring them");
    assert!(said[1].starts_with("Readings rely on "), "{said:?}");
    // Whoever signs, reviews or prints it is told as well, and the paper says it.
    let asked = json!({ "job": job });
    let open = dispatch(&mut there, "sign_off_view", asked.clone()).unwrap()["open"].clone();
    let ready = dispatch(&mut there, "schedule", asked.clone()).unwrap()["ready"].clone();
    let look = dispatch(&mut there, "look", asked).unwrap()["lacking"].clone();
    for line in &said {
        let told = |lines: &serde_json::Value| lines.as_array().unwrap().iter().any(|it| it["said"]["words"] == *line);
        assert!(told(&open) && told(&ready), "{line}: {open} {ready}");
        assert!(look.as_array().unwrap().contains(&json!(line)), "{line}: {look}");
    }
}

/// What this device says of a job it holds.
fn lines(state: &mut State, job: JobId) -> Vec<String> {
    super::handed(state, OfJob { job }).unwrap().lines
}

#[test]
fn what_is_only_here_is_told_by_the_readings_themselves_after_a_book_went_and_came_back() {
    let mut here = testing::state();
    let start = json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" });
    let job = dispatch(&mut here, "start_job", start).unwrap();
    let job: JobId = serde_json::from_value(job["id"].clone()).unwrap();
    let board =
        dispatch(&mut here, "add_board", json!({ "job": job, "name": "DB-1" })).unwrap()["boards"][0]["id"].clone();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
    dispatch(&mut here, "add_many_circuits", json!({ "board": board, "count": "4", "form": form })).unwrap();
    let read = |state: &mut State| {
        let slot = dispatch(state, "set_volts", json!({ "board": board, "volts": 500 })).unwrap()["slot"].clone();
        let typed = json!({ "typed": { "text": "487", "comparator": "exact", "unit": "m" } });
        dispatch(state, "save_reading", json!({ "board": board, "slot": slot, "indication": typed })).unwrap();
    };
    let packed = |state: &mut State| {
        let by = By { person: PersonId(Uuid::nil()), at: state.host.now(), random: &mut state.host };
        bundle::hand_over(&mut state.record, by, job, &[]).unwrap().bytes
    };
    // Another device takes the job in twice, and gives it back with what it has.
    let mut there = testing::state();
    there.host.id().unwrap();
    let mut there = State::new(Record::in_memory(&mut there.host).unwrap(), there.host, std::path::PathBuf::new());
    read(&mut here);
    take_in(&mut there, &packed(&mut here)).unwrap();
    let early = packed(&mut there);
    read(&mut here);
    read(&mut here);
    take_in(&mut there, &packed(&mut here)).unwrap();
    let late = packed(&mut there);
    take_in(&mut here, &late).unwrap();
    assert_eq!(lines(&mut here, job).last().unwrap(), "No reading is only on this device");

    here.record.forget(job.into()).unwrap();
    here.forget_judged();
    take_in(&mut here, &early).unwrap();
    assert!(lines(&mut here, job)[0].contains("not handed over yet"), "what was said of the book went with it");
    dispatch(&mut here, "add_person", json!({ "job": job, "name": "A. Recorder" })).unwrap();
    read(&mut here);
    read(&mut here);
    assert_eq!(lines(&mut here, job).last().unwrap(), "2 readings only on this device, as far as it knows");
}
