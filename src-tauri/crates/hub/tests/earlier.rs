//! What earlier versions left: backups with the office's tables as they were then, and accounts beside the record of a hub that
//! keeps its entries in PostgreSQL.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod postgres;
mod support;

use postgres::Postgres;
use provenohm_hub::{back_up, restore};
use serde_json::{Value, json};
use std::path::Path;
use support::{PASSWORD, Running, headers_of, jobs};
use tempfile::TempDir;

/// What takes the tables one version back, from the latest to the first, which knew names and hashes alone.
const BACK: [&str; 6] = [
    "DROP TABLE token",
    "DROP TABLE held",
    "DROP TABLE session; DROP TABLE attempt; DROP TABLE enrol_code",
    "DROP TABLE phone",
    "DROP TABLE audit; DROP TABLE invite;
     CREATE TABLE earlier (name TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL) STRICT, WITHOUT ROWID;
     INSERT INTO earlier SELECT name, hash FROM account; DROP TABLE account; ALTER TABLE earlier RENAME TO account",
    "",
];

fn as_of_version(folder: &Path, version: u32) {
    let file = rusqlite::Connection::open(folder.join("office.sqlite")).unwrap();
    let latest: u32 = file.query_row("PRAGMA user_version", [], |row| row.get(0)).unwrap();
    assert_eq!(latest as usize, BACK.len(), "a new version is taken back here too");
    for step in &BACK[..(latest - version) as usize] {
        file.execute_batch(step).unwrap();
    }
    file.pragma_update(None, "user_version", version).unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn a_backup_made_by_any_earlier_version_is_brought_back_with_its_people() {
    let hub = Running::start().await;
    let office = hub.first().await;
    hub.ask(&office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await;
    // Ended, it has brought what was recorded into its store.
    let record = hub.end().await;
    for version in 0..=6 {
        let (backup, back) = (TempDir::new().unwrap(), TempDir::new().unwrap());
        let kept = back_up(record.path(), backup.path()).unwrap();
        as_of_version(backup.path(), version);
        assert_eq!(restore(backup.path(), back.path()).unwrap(), kept, "version {version}");
        let hub = Running::over(back).await;
        assert_eq!(hub.first, None, "somebody has a password");
        assert_eq!(hub.post("/call", &office, &jobs()).await.code(), "not_logged_in", "whoever was logged in is not");
        let office = headers_of(&hub.log_in("A. Office", PASSWORD).await);
        assert!(hub.ask(&office, "jobs", json!({})).await.to_string().contains("Mill Lane"));
        // Everything the latest version has works on what was brought up.
        hub.joined(&office, "A. Recorder", "recorder").await;
        assert_eq!(hub.post("/phones", &office, &json!({})).await.json(), json!([]));
        assert!(hub.post("/phones/code", &office, &json!({})).await.json()["code"].is_string());
    }
}

fn names(people: &Value) -> Vec<&str> {
    people["people"].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap()).collect()
}

/// A folder with the accounts of another one.
fn with_accounts_of(folder: &TempDir) -> TempDir {
    let copy = TempDir::new().unwrap();
    let file = rusqlite::Connection::open(folder.path().join("office.sqlite")).unwrap();
    file.execute("VACUUM INTO ?1", [copy.path().join("office.sqlite").to_string_lossy()]).unwrap();
    copy
}

#[tokio::test(flavor = "multi_thread")]
async fn accounts_in_the_folder_of_a_hub_over_postgresql_are_carried_there_once() {
    let earlier = Running::start().await;
    let office = earlier.first().await;
    earlier.joined(&office, "A. Recorder", "recorder").await;
    let earlier = earlier.end().await;
    let server = Postgres::start();
    let over = |folder| Running::over_store(folder, Some(&server.url));
    // Two that start at once, each with the same accounts in its folder.
    let (one, two) = tokio::join!(over(with_accounts_of(&earlier)), over(with_accounts_of(&earlier)));
    assert_eq!((&one.first, &two.first), (&None, &None), "somebody has a password");
    let office = headers_of(&one.log_in("A. Office", PASSWORD).await);
    headers_of(&two.log_in("A. Recorder", PASSWORD).await);
    // Later the file there says nothing any more, nor does one of other people.
    let people = two.post("/people", &office, &json!({})).await.json();
    assert_eq!(names(&people), ["A. Office", "A. Recorder"]);
    let person = people["people"][1]["person"].clone();
    one.post("/people/take-away", &office, &json!({ "person": person })).await;
    let again = over(one.end().await).await;
    assert_eq!(again.log_in("A. Recorder", PASSWORD).await.code(), "login_wrong");
    let strangers = Running::start().await;
    let asked = json!({ "code": strangers.code(), "name": "B. Office", "password": PASSWORD });
    headers_of(&strangers.post("/first", "", &asked).await);
    let third = over(strangers.end().await).await;
    assert_eq!(third.log_in("B. Office", PASSWORD).await.code(), "login_wrong");
    let lines = third.post("/people/audit", &office, &json!({ "before": null })).await.json();
    let made = "A. Office made the account of A. Office: Office";
    let said = lines["lines"].as_array().unwrap().iter().filter(|one| one["words"] == made).count();
    assert_eq!(said, 1, "what was done about them was carried, and once: {lines}");
}
