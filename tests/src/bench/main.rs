//! Timed figures, each beside what it is compared with in the same run. They are printed and kept, never asserted.
mod figure;
mod hub;
mod job;
mod join;
mod judge;
#[allow(clippy::unwrap_used, clippy::panic, reason = "it is the tests' own")]
#[path = "../../../src-tauri/crates/hub/tests/postgres/mod.rs"]
mod postgres;
mod recall;
mod save;
mod schedule;
mod sight;
mod start;
mod table;
mod verification;

use std::path::PathBuf;
use std::process::ExitCode;

use provenohm_api::Failure;
use provenohm_tests::Trouble;

#[derive(Debug, thiserror::Error)]
enum Broken {
    #[error("the core refused: {0}")]
    Core(#[from] Failure),
    #[error("a file: {0}")]
    File(#[from] std::io::Error),
    #[error("a job file: {0}")]
    JobFile(#[from] serde_json::Error),
    #[error("the record: {0}")]
    Record(#[from] provenohm_logbook::store::OpenError),
    #[error("the record: {0}")]
    Write(#[from] provenohm_logbook::record::WriteError),
    #[error("the record: {0}")]
    Read(#[from] provenohm_logbook::view::ReadError),
    #[error("the record: {0}")]
    Sqlite(#[from] rusqlite::Error),
    #[error("a bundle: {0}")]
    Bundle(String),
    #[error("the hub: {0}")]
    Hub(#[from] provenohm_exchange::hub::HubError),
    #[error("the hub: {0}")]
    Store(#[from] provenohm_exchange::hub::StoreError),
    #[error("the hub: {0}")]
    NoAnswer(#[from] provenohm_exchange::hub::NoAnswer),
    #[error("a bundle: {0}")]
    HandOver(#[from] provenohm_exchange::bundle::HandOverError),
    #[error(transparent)]
    Window(#[from] Trouble),
    #[error("there is no part {0}: name some of save, schedule, judge, recall, verification, join, hub, sight, start")]
    NoPart(String),
}

/// The first word is the folder for the table; what follows names parts, all of them if nothing does.
#[tokio::main]
async fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let folder = PathBuf::from(words.next().unwrap_or_else(|| "target/bench".to_owned()));
    let parts: Vec<String> = words.collect();
    match measure(&parts).await.and_then(|rows| table::keep(&rows, &folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(broken) => {
            eprintln!(
                "The measuring stopped: {broken}\nNext: run `cargo xtask test`, which names the check that fails"
            );
            ExitCode::FAILURE
        }
    }
}

async fn measure(parts: &[String]) -> Result<Vec<figure::Row>, Broken> {
    const ALL: [&str; 9] = ["save", "schedule", "judge", "recall", "verification", "join", "hub", "sight", "start"];
    if let Some(unknown) = parts.iter().find(|part| !ALL.contains(&part.as_str())) {
        return Err(Broken::NoPart(unknown.clone()));
    }
    let mut rows = Vec::new();
    for part in ALL.into_iter().filter(|part| parts.is_empty() || parts.iter().any(|asked| asked == part)) {
        println!("   measuring: {part}");
        match part {
            "save" => rows.extend(save::rows()?),
            "schedule" => rows.push(schedule::row()?),
            "judge" => rows.push(judge::row()?),
            "recall" => rows.push(recall::row()?),
            "verification" => rows.push(verification::row()?),
            "join" => rows.extend(join::rows()?),
            "hub" => rows.extend(tokio::task::block_in_place(hub::rows)?),
            "sight" => rows.extend(sight::rows().await?),
            _ => rows.extend(start::rows().await?),
        }
    }
    Ok(rows)
}
