//! Timed figures, each beside what it is compared with in the same run. They are printed, never asserted.
use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::Path;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use provenohm_api::{Api, Failure, Host};
use provenohm_tests::{Opening, Trouble, Unwatched, single_phase};
use serde_json::{Value, json};

/// Readings saved for one figure.
const READINGS: u32 = 60;

#[derive(Debug, thiserror::Error)]
enum Broken {
    #[error("the core refused: {0}")]
    Core(#[from] Failure),
    #[error("a file: {0}")]
    File(#[from] std::io::Error),
    #[error(transparent)]
    Window(#[from] Trouble),
}

#[tokio::main]
async fn main() -> ExitCode {
    match measure().await {
        Ok(()) => ExitCode::SUCCESS,
        Err(broken) => {
            eprintln!(
                "The measuring stopped: {broken}\nNext: run `cargo xtask test`, which names the check that fails"
            );
            ExitCode::FAILURE
        }
    }
}

async fn measure() -> Result<(), Broken> {
    let folder = tempfile::tempdir()?;
    let append = appends(folder.path())?;
    row("save of one reading", saves(folder.path())?, "append and flush of 200 bytes", append);

    let record = tempfile::tempdir()?;
    let phone = Opening::phone(record.path());
    let first = opened(&phone).await?;
    let demo = Opening { demo: true, ..phone };
    opened(&demo).await?;
    row("start with the demo job, to something painted", opened(&demo).await?, "start on an empty record", first);
    Ok(())
}

/// The mean time of an operation's save, with all the record does around it.
fn saves(folder: &Path) -> Result<Duration, Broken> {
    let api = Api::open(&folder.join("record"), Host::system())?;
    let job = api.call("start_job", json!({ "name": "Bench", "place": "", "person": "A. Recorder", "role": "" }))?;
    let boards = api.call("add_board", json!({ "job": job["id"], "name": "DB-1" }))?;
    let board = &boards["boards"][0]["id"];
    api.call("add_many_circuits", json!({ "board": board, "count": "20", "form": single_phase() }))?;
    let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [] }] });
    let tester = api.call("save_tester", json!({ "identity": { "name": "Tester A", "serial": "1" }, "card": card }))?;
    api.call("choose_tester", json!({ "board": board, "tester": tester["id"] }))?;
    api.call("confirm_cautions", json!({ "job": job["id"] }))?;
    let mut run = api.call("set_volts", json!({ "board": board, "volts": 500 }))?;
    let mut spent = Duration::ZERO;
    for _ in 0..READINGS {
        let reading = json!({ "typed": { "text": "487", "comparator": "exact", "unit": "m" } });
        let save = json!({ "board": board, "slot": run["slot"], "indication": reading });
        let started = Instant::now();
        let mut saved: Value = api.call("save_reading", save)?;
        spent += started.elapsed();
        run = saved["run"].take();
    }
    Ok(spent / READINGS)
}

/// The mean time of what no record can do without: append some bytes and flush them to the disk.
fn appends(folder: &Path) -> Result<Duration, Broken> {
    let mut file = OpenOptions::new().create(true).append(true).open(folder.join("bare"))?;
    let started = Instant::now();
    for _ in 0..READINGS {
        file.write_all(&[0x5a; 200])?;
        file.sync_all()?;
    }
    Ok(started.elapsed() / READINGS)
}

/// From the start of the process to something painted.
async fn opened(opening: &Opening) -> Result<Duration, Broken> {
    let started = Instant::now();
    let window = Unwatched::open(opening).await?;
    let spent = started.elapsed();
    drop(window);
    Ok(spent)
}

fn row(what: &str, took: Duration, beside: &str, other: Duration) {
    let milliseconds = |time: Duration| time.as_secs_f64() * 1000.0;
    println!(
        "{what}: {:.1} ms; {beside}: {:.1} ms; {:.1} times",
        milliseconds(took),
        milliseconds(other),
        took.as_secs_f64() / other.as_secs_f64()
    );
}
