//! A program over a record in memory, with a clock that ticks by a second and counted randomness.

use chrono::{DateTime, Duration, FixedOffset};
use provenohm_api::{Api, Failure, Host};
use serde_json::{Value, json};

/// A host whose time and randomness repeat.
pub(crate) fn host(start: &str) -> Host {
    host_from(start, 0)
}

/// The same with randomness of its own.
pub(crate) fn host_from(start: &str, seed: u64) -> Host {
    let mut now: DateTime<FixedOffset> = start.parse().unwrap();
    let mut count = seed;
    Host::new(
        move || {
            now += Duration::seconds(1);
            now
        },
        move |bytes| {
            for byte in bytes {
                count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                *byte = (count >> 56) as u8;
            }
            Ok(())
        },
    )
}

/// The program and what tests say to it.
pub(crate) struct Program {
    pub(crate) api: Api,
    _papers: tempfile::TempDir,
}

impl Program {
    pub(crate) fn start() -> Self {
        let papers = tempfile::tempdir().unwrap();
        let api = Api::in_memory(host("2026-11-25T10:00:00+00:00"), papers.path()).unwrap();
        Self { api, _papers: papers }
    }

    /// Over a record in a folder, from then on.
    pub(crate) fn on(folder: &std::path::Path, start: &str) -> Self {
        // Its randomness is another each time, as ids of one record are.
        let seed = start.bytes().fold(1_u64, |seed, byte| seed.wrapping_mul(31).wrapping_add(byte.into()));
        Self::of(Api::open(folder, host_from(start, seed)).unwrap())
    }

    /// A program that is open already.
    pub(crate) fn of(api: Api) -> Self {
        Self { api, _papers: tempfile::tempdir().unwrap() }
    }

    /// Another device: its randomness is another.
    pub(crate) fn start_with(seed: u64) -> Self {
        let papers = tempfile::tempdir().unwrap();
        let api = Api::in_memory(host_from("2026-11-25T11:00:00+00:00", seed), papers.path()).unwrap();
        Self { api, _papers: papers }
    }

    /// An operation that must succeed.
    pub(crate) fn ask(&self, operation: &str, input: Value) -> Value {
        self.api.call(operation, input).unwrap_or_else(|failure| panic!("{operation}: {failure:?}"))
    }

    /// An operation that must be refused.
    pub(crate) fn refused(&self, operation: &str, input: Value) -> Failure {
        self.api.call(operation, input).unwrap_err()
    }

    /// A job with one board; its ids.
    pub(crate) fn job(&self) -> (String, String) {
        let job = self.ask("start_job", json!({ "name": "Mill Lane", "place": "", "person": "A. Recorder" }));
        let job = job["id"].as_str().unwrap().to_owned();
        let view = self.ask("add_board", json!({ "job": job, "name": "DB-1" }));
        let board = view["boards"][0]["id"].as_str().unwrap().to_owned();
        (job, board)
    }

    /// Circuits of one kind on a board.
    pub(crate) fn circuits(&self, board: &str, count: u32, form: Value) -> Value {
        self.ask("add_many_circuits", json!({ "board": board, "count": count.to_string(), "form": form }))["view"]
            .clone()
    }

    /// A tester with a card for 250, 500 and 1000 V; its id.
    pub(crate) fn tester(&self, name: &str) -> String {
        let voltage = |volts: &str| {
            json!({
                "volts": volts, "over_range": "999 MΩ",
                "ranges": [
                    { "from": "0.05 MΩ", "to": "19.99 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" },
                    { "from": "20 MΩ", "to": "999 MΩ", "resolution": "1 MΩ", "percent": "3", "digits": "2" },
                ],
            })
        };
        let card = json!({ "voltages": [voltage("250"), voltage("500"), voltage("1000")] });
        let identity = json!({ "name": name, "serial": format!("serial {name}") });
        self.ask("save_tester", json!({ "identity": identity, "card": card }))["id"].as_str().unwrap().to_owned()
    }

    /// A good certificate for all three test voltages.
    pub(crate) fn certificate(&self, tester: &str, date: &str, valid_until: &str) -> Value {
        let finding = |volts: &str| json!({ "volts": volts, "as_left": "good", "conforms": "yes", "holds": [{ "from": "0.1 MΩ", "to": "999 MΩ" }] });
        let form = json!({
            "date": date, "valid_until": valid_until, "kind": "calibration", "by": "A laboratory",
            "certificate": "C-1", "findings": [finding("250"), finding("500"), finding("1000")],
        });
        self.ask("record_verification", json!({ "tester": tester, "form": form }))
    }
}

/// A 230 V circuit of line and neutral.
pub(crate) fn single_phase() -> Value {
    json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" })
}

/// Sets the tester to 500 V; the slot now.
pub(crate) fn slot_at_500_v(program: &Program, board: &str) -> Value {
    program.ask("set_volts", json!({ "board": board, "volts": 500 }))["slot"].clone()
}
