//! A record whose file went wrong: what the window says, and the way on from there.
use crate::bench::picture;
use crate::hand_over::{hand_over, look_into, open, take_in};
use provenohm_tests::{Entry, Job, Trouble, Window, single_phase};
use serde_json::{Value, json};
use std::path::Path;

/// Writes other bytes over a name in the record's file, as a disk that went wrong does.
fn alter(record: &Path, name: &str) {
    let file = record.join("record.sqlite");
    // What is in the file beside it comes into it first.
    let sqlite = rusqlite::Connection::open(&file).unwrap();
    sqlite.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
    drop(sqlite);
    let mut bytes = std::fs::read(&file).unwrap();
    let found: Vec<usize> =
        bytes.windows(name.len()).enumerate().filter(|(_, it)| *it == name.as_bytes()).map(|(at, _)| at).collect();
    assert!(!found.is_empty());
    for at in found {
        bytes[at] ^= 0x02;
    }
    std::fs::write(file, bytes).unwrap();
}

async fn jobs(window: &Window) -> Result<Vec<Value>, Trouble> {
    Ok(window.call("jobs", json!({})).await?["jobs"].as_array().unwrap().clone())
}

#[tokio::test]
async fn a_damaged_record_is_set_aside_and_filled_again_from_what_another_phone_holds() -> Result<(), Trouble> {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let one = open(here.path()).await?;
    let job = Job::with(&one, &[(2, single_phase())]).await?;
    one.run(&job.board).await?;
    one.tap_in(Entry::Typed { digits: "487", unit: 'm' }).await?;
    let bundle = hand_over(&one, &job.job).await?;
    let two = open(there.path()).await?;
    look_into(&two, &bundle).await?;
    take_in(&two).await?;
    one.kill()?;

    alter(here.path(), "DB-2");
    let one = open(here.path()).await?;
    one.go(&format!("#/job/{}", job.job)).await?;
    one.until_shown("Set the damaged record aside").await?;
    picture(&one, "damaged").await?;
    assert_eq!(one.serious_barriers().await?, Vec::<String>::new());
    one.tap_named("Set the damaged record aside").await?;
    one.until_shown("is not as it was written").await?;
    picture(&one, "set-aside").await?;
    one.tap_named("Go on").await?;
    one.until_shown("Trial hall").await?;
    assert_eq!(jobs(&one).await?.len(), 1, "what is as it was written is here again");

    let back = hand_over(&two, &job.job).await?;
    look_into(&one, &back).await?;
    take_in(&one).await?;
    assert_eq!(job.done(&one).await?, job.done(&two).await?);
    one.go(&format!("#/job/{}", job.job)).await?;
    one.until_shown("DB-2").await
}
