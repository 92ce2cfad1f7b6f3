//! An invented job on record, made and read through the door that the screens use.
use std::path::Path;

use provenohm_api::{Api, Failure, Host};
use provenohm_tests::single_phase;
use serde_json::{Value, json};

/// A job whose circuits ask for three readings each, and its record.
pub(crate) struct Job {
    api: Api,
    id: Value,
    /// Boards still to be recorded, the next one last.
    boards: Vec<Value>,
    /// The board in hand, and the slot that is next on it.
    here: (Value, Value),
}

impl Job {
    /// Makes a job of boards with that many circuits each, and takes a tester with a verification in hand.
    pub(crate) fn make(folder: &Path, boards: usize, circuits: usize) -> Result<Self, Failure> {
        Self::on(Api::open(folder, Host::system())?, "Bench", boards, circuits)
    }

    /// The same on a device at hand.
    pub(crate) fn on(api: Api, name: &str, boards: usize, circuits: usize) -> Result<Self, Failure> {
        let person = json!({ "name": name, "place": "Invented", "person": "A. Recorder", "role": "" });
        let job = api.call("start_job", person)?["id"].take();
        let mut told = Value::Null;
        for board in 1..=boards {
            told = api.call("add_board", json!({ "job": job, "name": format!("DB-{board}") }))?;
            let id = &told["boards"][board - 1]["id"];
            let many = json!({ "board": id, "count": circuits.to_string(), "form": single_phase() });
            api.call("add_many_circuits", many)?;
        }
        let boards: Vec<Value> =
            told["boards"].as_array().into_iter().flatten().map(|board| board["id"].clone()).rev().collect();
        let tester = api.call("save_tester", provenohm_tests::tester())?["id"].take();
        api.call("record_verification", json!({ "tester": tester, "form": provenohm_tests::verification() }))?;
        api.call("confirm_cautions", json!({ "job": job }))?;
        let job = Self { api, id: job, boards, here: (Value::Null, Value::Null) };
        if let Some(first) = job.boards.last() {
            job.api.call("choose_tester", json!({ "board": first, "tester": tester }))?;
            job.api.call("set_volts", json!({ "board": first, "volts": 500 }))?;
        }
        Ok(job)
    }

    /// What saves the next reading, in the order one walks: the input of `save_reading`.
    pub(crate) fn next(&mut self, nth: usize) -> Result<Value, Failure> {
        if self.here.1.is_null() {
            let board = self.boards.pop().unwrap_or_default();
            let run = self.api.call("run", json!({ "board": board }))?;
            self.here = (board, run["slot"].clone());
        }
        let (board, slot) = &self.here;
        let reading = json!({ "text": (400 + nth % 97).to_string(), "comparator": "exact", "unit": "m" });
        Ok(json!({ "board": board, "slot": slot, "indication": { "typed": reading } }))
    }

    /// Saves a reading, and knows from the answer which is next.
    pub(crate) fn save(&mut self, asked: Value) -> Result<(), Failure> {
        let saved = self.api.call("save_reading", asked)?;
        self.here.1 = saved["run"]["slot"].clone();
        Ok(())
    }

    /// The device it is on.
    pub(crate) fn api(&self) -> &Api {
        &self.api
    }

    /// Its id.
    pub(crate) fn id(&self) -> &Value {
        &self.id
    }

    /// Does an operation.
    pub(crate) fn ask(&self, operation: &str, input: Value) -> Result<Value, Failure> {
        self.api.call(operation, input)
    }

    /// Its job file.
    pub(crate) fn file(&self) -> Result<String, Failure> {
        self.api.job_file(self.id.as_str().unwrap_or_default())
    }

    /// Saves that many readings.
    pub(crate) fn record(&mut self, readings: usize) -> Result<(), Failure> {
        for nth in 0..readings {
            let asked = self.next(nth)?;
            self.save(asked)?;
        }
        Ok(())
    }
}
