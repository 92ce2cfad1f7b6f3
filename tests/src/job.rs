//! An invented job to record on, put into the record by operations.
use serde_json::{Value, json};

use crate::{Trouble, Window};

/// What it is made of, by id.
#[derive(Debug, Clone)]
pub struct Job {
    /// The job.
    pub job: String,
    /// Its one board.
    pub board: String,
    /// The tester chosen for the board's run, with no verification on record.
    pub tester: String,
}

impl Job {
    /// A job with a board of `circuits`, each a count and a form, and a tester with a card; the cautions are confirmed.
    pub async fn with(window: &Window, circuits: &[(u32, Value)]) -> Result<Self, Trouble> {
        let started = json!({ "name": "Trial hall", "place": "Invented", "person": "A. Recorder", "role": "" });
        let job = id(&window.call("start_job", started).await?["id"])?;
        let boards = window.call("add_board", json!({ "job": job, "name": "DB-2" })).await?;
        let board = id(&boards["boards"][0]["id"])?;
        for (count, form) in circuits {
            let many = json!({ "board": board, "count": count.to_string(), "form": form });
            window.call("add_many_circuits", many).await?;
        }
        let tester = id(&window.call("save_tester", tester()).await?["id"])?;
        window.call("choose_tester", json!({ "board": board, "tester": tester })).await?;
        window.call("confirm_cautions", json!({ "job": job })).await?;
        Ok(Self { job, board, tester })
    }

    /// The board of 54 readings: nine single-phase circuits, two three-phase ones singly and one with lives joined.
    pub async fn of_54_readings(window: &Window) -> Result<Self, Trouble> {
        let three_phase = |joined: bool| json!({ "nominal": "400", "to_earth": "230", "measure": "none", "conductors": "three_phase_n", "joined_to_earth": joined });
        Self::with(window, &[(9, single_phase()), (2, three_phase(false)), (1, three_phase(true))]).await
    }

    /// Proves the tester at its three test voltages, as a laboratory's certificate does.
    pub async fn prove_tester(&self, window: &Window) -> Result<(), Trouble> {
        window.call("record_verification", json!({ "tester": self.tester, "form": verification() })).await?;
        Ok(())
    }

    /// How many of the board's readings are taken, and of how many.
    pub async fn done(&self, window: &Window) -> Result<(u64, u64), Trouble> {
        let job = window.call("job", json!({ "job": self.job })).await?;
        let board = &job["boards"][0];
        let count = |name: &str| board[name].as_u64().unwrap_or_default();
        Ok((count("done"), count("of")))
    }
}

/// A 230 V circuit of line and neutral.
pub fn single_phase() -> Value {
    json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" })
}

/// A laboratory's certificate at three test voltages.
pub fn verification() -> Value {
    let finding = |volts: &str| json!({ "volts": volts, "as_left": "good", "conforms": "yes", "holds": [{ "from": "0.1 MΩ", "to": "999 MΩ" }] });
    json!({
        "date": "3 Mar 2020", "valid_until": "3 Mar 2099", "kind": "calibration", "by": "A laboratory",
        "certificate": "C-1", "findings": [finding("250"), finding("500"), finding("1000")],
    })
}

/// A tester with a card of three test voltages.
pub fn tester() -> Value {
    let voltage = |volts: &str| {
        json!({
            "volts": volts, "over_range": "999 MΩ",
            "ranges": [
                { "from": "0.05 MΩ", "to": "19.99 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" },
                { "from": "20 MΩ", "to": "999 MΩ", "resolution": "1 MΩ", "percent": "3", "digits": "2" },
            ],
        })
    };
    json!({
        "identity": { "name": "Tester A", "serial": "0001" },
        "card": { "voltages": [voltage("250"), voltage("500"), voltage("1000")] },
    })
}

fn id(told: &Value) -> Result<String, Trouble> {
    told.as_str().map(str::to_owned).ok_or_else(|| Trouble::NotShown(format!("no id but {told}")))
}
