#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
//! What the list of jobs keeps is what the record says anew, whatever was done in between.

use super::{JobTally, Kept, TALLIES, count, current, tallies};
use crate::operations::dispatch;
use crate::state::State;
use crate::testing;
use provenohm_assess::ids::JobId;
use provenohm_logbook::record::WORKED_OUT;
use serde_json::{Value, json};

/// Two jobs of one board each, read with one proved tester.
struct Program {
    state: State,
    jobs: Vec<(Value, Value)>,
    tester: Value,
}

impl Program {
    fn start() -> Self {
        let mut program = Self { state: testing::state(), jobs: Vec::new(), tester: Value::Null };
        for name in ["Mill Lane", "Ferry Road"] {
            let job = program.ask("start_job", json!({ "name": name, "person": "A. Recorder" }))["id"].take();
            let board = program.ask("add_board", json!({ "job": job, "name": "DB-1" }))["boards"][0]["id"].take();
            let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
            program.ask("add_many_circuits", json!({ "board": board, "count": "2", "form": form }));
            program.jobs.push((job, board));
        }
        let range =
            json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" });
        let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [range] }] });
        let saved = program.ask("save_tester", json!({ "identity": { "name": "A", "serial": "1" }, "card": card }));
        program.tester = saved["id"].clone();
        let finding = json!({ "volts": "500", "as_left": "good", "conforms": "yes", "holds": [{ "from": "0.1 MΩ", "to": "999 MΩ" }] });
        let form = json!({ "date": "3 Mar 2026", "valid_until": "3 Mar 2027", "kind": "calibration", "by": "L", "findings": [finding] });
        program.ask("record_verification", json!({ "tester": program.tester, "form": form }));
        program
    }

    fn ask(&mut self, operation: &str, input: Value) -> Value {
        dispatch(&mut self.state, operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
    }

    fn read(&mut self, job: usize, digits: &str) {
        let board = self.jobs[job].1.clone();
        self.ask("choose_tester", json!({ "board": board, "tester": self.tester }));
        self.ask("set_volts", json!({ "board": board, "volts": 500 }));
        let slot = self.ask("run", json!({ "board": board }))["slot"].clone();
        let typed = json!({ "typed": { "text": digits, "comparator": "exact", "unit": "m" } });
        self.ask("save_reading", json!({ "board": board, "slot": slot, "indication": typed }));
    }

    /// What the list says, held equal to every job counted anew; and how many jobs still held before it was asked.
    fn list(&mut self) -> (Vec<JobTally>, usize) {
        let kept = self.state.setting::<Kept>(TALLIES).unwrap();
        let held = kept.map_or(0, |kept| current(&self.state.record.view(), &kept).unwrap().len());
        let listed = tallies(&mut self.state).unwrap();
        self.state.forget_judged();
        let ids: Vec<_> = self.state.record.view().jobs().unwrap().iter().map(|job| job.job).collect();
        let anew: Vec<JobTally> = ids.into_iter().map(|job| count(&mut self.state, job).unwrap()).collect();
        assert_eq!(listed, anew);
        (listed, held)
    }
}

#[test]
fn only_what_something_arrived_about_is_counted_again() {
    let mut program = Program::start();
    assert_eq!(program.list().1, 0, "nothing was counted yet");
    assert_eq!(program.list().1, 2, "nothing has changed");
    program.read(0, "487");
    let (listed, held) = program.list();
    assert_eq!((held, listed[0].tally.done, listed[1].tally.done), (1, 1, 0));
    program.ask("set_job_names", json!({ "job": program.jobs[1].0, "name": "Ferry Road 2", "place": "" }));
    let (listed, held) = program.list();
    assert_eq!((held, listed[1].name.as_str()), (1, "Ferry Road 2"));
}

#[test]
fn a_reading_leaves_other_jobs_of_its_tester_as_counted() {
    let mut program = Program::start();
    program.read(0, "487");
    program.read(1, "50.0");
    program.list();
    program.read(0, "512");
    let (listed, held) = program.list();
    assert_eq!((held, listed[0].tally.done, listed[1].tally.done), (1, 2, 1));
}

#[test]
fn what_looks_alike_is_asked_anew_though_no_job_relies_on_it() {
    let mut program = Program::start();
    program.read(0, "487");
    assert_eq!(program.list().0.iter().map(|one| one.to_settle).collect::<Vec<_>>(), [0, 0]);
    // Another tester of the same serial number: one or two?
    let card = json!({ "voltages": [{ "volts": "500" }] });
    program.ask("save_tester", json!({ "identity": { "name": "A again", "serial": "1" }, "card": card }));
    let (listed, held) = program.list();
    assert_eq!(held, 2, "nothing of either job has to be judged anew");
    assert_eq!(listed.iter().map(|one| one.to_settle).collect::<Vec<_>>(), [1, 0]);
}

#[test]
fn a_sign_off_is_counted_with_what_came_since_and_whose_tester_failed() {
    let mut program = Program::start();
    program.read(0, "1.12");
    let job = program.jobs[0].0.clone();
    program.ask("sign_off", json!({ "job": job, "name": "R. Reviewer" }));
    let signed = |listed: &[JobTally]| {
        listed[0].signed.iter().map(|one| (one.number, one.after, one.in_doubt)).collect::<Vec<_>>()
    };
    assert_eq!(signed(&program.list().0), [(1, 0, 0)]);
    program.read(0, "487");
    assert_eq!(signed(&program.list().0), [(1, 1, 0)]);
    let point = |known: &str, shown: &str| json!({ "known": known, "uncertainty_percent": "1", "shown": shown });
    let points = [point("1 MΩ", "1.12 MΩ"), point("10 MΩ", "10.3 MΩ"), point("100 MΩ", "103 MΩ")];
    let form = json!({ "volts": "500", "points": points, "open": "> 999 MΩ", "shorted": "0.01 MΩ" });
    program.ask("record_quick_check", json!({ "tester": program.tester, "form": form }));
    let (listed, _) = program.list();
    assert_eq!(listed[0].signed[0].in_doubt, 1);
    let view = program.ask("job", json!({ "job": job }));
    let said = crate::ops::sign_off::signed_lines(&program.state.words, &listed[0].signed[0]);
    assert_eq!(view["signed"], serde_json::to_value(said).unwrap());
}

#[test]
fn what_was_counted_goes_with_a_job_that_is_removed() {
    assert!(TALLIES.starts_with(WORKED_OUT));
    let mut program = Program::start();
    program.read(0, "487");
    assert_eq!(program.list().0.len(), 2);
    let job: JobId = serde_json::from_value(program.jobs[0].0.clone()).unwrap();
    program.state.record.forget(job.into()).unwrap();
    assert!(program.state.setting::<Kept>(TALLIES).unwrap().is_none());
    let (listed, held) = program.list();
    assert_eq!((held, listed.len(), listed[0].name.as_str()), (0, 1, "Ferry Road"));
}

#[test]
fn a_tester_that_fails_is_counted_on_every_job_that_relies_on_it() {
    let mut program = Program::start();
    program.read(0, "1.12");
    program.read(0, "1.20");
    program.read(0, "487");
    program.read(1, "50.0");
    assert_eq!(program.list().0.iter().map(JobTally::in_doubt).collect::<Vec<_>>(), [0, 0]);
    let point = |known: &str, shown: &str| json!({ "known": known, "uncertainty_percent": "1", "shown": shown });
    let points = [point("1 MΩ", "1.12 MΩ"), point("10 MΩ", "10.3 MΩ"), point("100 MΩ", "103 MΩ"), point("500 MΩ", "")];
    let form = json!({ "volts": "500", "points": points, "open": "> 999 MΩ", "shorted": "0.01 MΩ" });
    program.ask("record_quick_check", json!({ "tester": program.tester, "form": form }));
    let (listed, held) = program.list();
    assert_eq!(held, 0, "both jobs rely on it");
    assert_eq!(listed.iter().map(|one| (one.in_doubt(), one.in_doubt_open())).collect::<Vec<_>>(), [(2, 2), (1, 1)]);
    let recall = program.ask("recall", json!({ "tester": program.tester }));
    let line = &recall["jobs"][1]["boards"][0]["lines"][0];
    let settled = json!({ "tester": program.tester, "job": program.jobs[1].0, "reading": line["reading"], "reason": "taken out" });
    let told = program.ask("resolve_recall", settled);
    let (listed, held) = program.list();
    assert_eq!((held, listed[1].in_doubt(), listed[1].in_doubt_open()), (1, 1, 0));
    program.ask("undo", json!({ "token": told["undo"] }));
    assert_eq!(program.list().0[1].in_doubt_open(), 1);
    let jobs = program.ask("jobs", json!({}));
    assert_eq!(jobs["jobs"][1]["in_doubt"]["words"], "2 readings in doubt, 2 not resolved");
    let job = program.ask("job", json!({ "job": program.jobs[0].0 }));
    assert_eq!(job["in_doubt"][0]["said"]["words"], "2 readings with A in doubt, 2 not resolved");
    assert_eq!(job["in_doubt"][0]["tester"], program.tester);
}
