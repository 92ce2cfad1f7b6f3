//! A hub in a database backed up while it runs, brought back into a folder, and carried into another database.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod postgres;
mod support;

use postgres::Postgres;
use provenohm_exchange::hub::{Carried, Epoch, SqliteStore, Store as _};
use provenohm_hub::{NotKept, PostgresStore, back_up_database, move_to, restore};
use serde_json::{Value, json};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use support::{PASSWORD, Running, headers_of, jobs};
use tempfile::TempDir;
use tokio::runtime::Handle;
use tokio::task::spawn_blocking;
use tokio_postgres::NoTls;

/// Something done in a database by hand; what it tells.
async fn by_hand(url: &str, statement: &str) -> Vec<String> {
    let (client, connection) = tokio_postgres::connect(url, NoTls).await.unwrap();
    tokio::spawn(connection);
    client.query(statement, &[]).await.unwrap().iter().map(|row| row.get(0)).collect()
}

async fn backed_up(url: &str, instance: &Path, to: &Path) -> Result<Carried, NotKept> {
    let (url, instance, to, runtime) = (url.to_owned(), instance.to_owned(), to.to_owned(), Handle::current());
    spawn_blocking(move || back_up_database(&url, Some(&instance), &to, runtime)).await.unwrap()
}

async fn start_job(hub: &Running, session: &str, name: &str) {
    hub.ask(session, "start_job", json!({ "name": name, "place": "", "person": "" })).await;
}

/// What the office sees: its people, its phones, and what was done about them, latest first.
async fn told(hub: &Running, office: &str) -> (Value, Value, Vec<Value>) {
    let people = hub.post("/people", office, &json!({})).await.json();
    let phones = hub.post("/phones", office, &json!({})).await.json();
    let audit = hub.post("/people/audit", office, &json!({ "before": null })).await.json();
    (people, phones, audit["lines"].as_array().unwrap().iter().map(|line| line["words"].clone()).collect())
}

/// It sees the same, and behind it what was done since.
async fn sees(hub: &Running, office: &str, before: &(Value, Value, Vec<Value>)) {
    let (people, phones, lines) = told(hub, office).await;
    assert_eq!((&people, &phones), (&before.0, &before.1));
    assert!(lines.len() > before.2.len() && lines.ends_with(&before.2), "{lines:?} after {:?}", before.2);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hub_in_a_database_is_backed_up_while_it_runs_brought_back_and_moved_again() {
    let server = Postgres::start();
    by_hand(&server.url, "CREATE DATABASE other").await;
    let other = server.url.replace("/postgres", "/other");
    let (backup, back) = (TempDir::new().unwrap(), TempDir::new().unwrap());
    let hub = Arc::new(Running::over_store(TempDir::new().unwrap(), Some(&server.url)).await);
    let none = backed_up(&other, hub.record(), backup.path()).await;
    assert!(matches!(none, Err(NotKept::NoneInDatabase)), "{none:?}");
    let made = by_hand(&other, "SELECT tablename::text FROM pg_tables WHERE schemaname = 'public'").await;
    assert_eq!(made, Vec::<String>::new(), "nothing is made where no hub is");

    let office = hub.first().await;
    hub.joined(&office, "A. Recorder", "recorder").await;
    let token = json!({ "name": "Lists", "scope": "lists", "days": 30 });
    let token = hub.post("/tokens/make", &office, &token).await.json()["secret"].as_str().unwrap().to_owned();
    by_hand(
        &server.url,
        "INSERT INTO phone (device, name, secret, enrolled, revoked) VALUES
            (decode(repeat('07', 16), 'hex'), 'Lost phone', decode(repeat('0a', 32), 'hex'), '2026-11-25T09:00:00+01:00',
             '2026-11-26T09:00:00+01:00')",
    )
    .await;
    by_hand(&server.url, "INSERT INTO held VALUES ('log', 1, 'hash', decode(repeat('07', 16), 'hex'), 1, 'book', 'e')")
        .await;
    std::fs::write(hub.record().join("hub-key.pem"), "its key").unwrap();

    // Somebody goes on working meanwhile.
    let over = Arc::new(AtomicBool::new(false));
    let working = tokio::spawn({
        let (hub, office, over) = (Arc::clone(&hub), office.clone(), Arc::clone(&over));
        async move {
            let mut begun = 0;
            while !over.load(Ordering::Relaxed) {
                start_job(&hub, &office, &format!("Meanwhile {begun}")).await;
                begun += 1;
            }
            begun
        }
    });
    let nowhere = hub.record().join("nowhere");
    assert!(
        matches!(backed_up(&server.url, &nowhere, backup.path()).await, Err(NotKept::NoHub(_))),
        "a folder that is none"
    );
    let mut before = 0;
    for _ in 0..4 {
        let carried = backed_up(&server.url, hub.record(), backup.path()).await.unwrap();
        assert!(carried.entries >= before, "an earlier backup is brought up to date");
        before = carried.entries;
    }
    over.store(true, Ordering::Relaxed);
    let begun = working.await.unwrap();
    start_job(&hub, &office, "Mill Lane").await;
    let seen = told(&hub, &office).await;
    let Ok(hub) = Arc::try_unwrap(hub) else { panic!("somebody still works") };
    let instance = hub.end().await;
    let carried = backed_up(&server.url, instance.path(), backup.path()).await.unwrap();
    assert!(carried.entries > before, "{begun} jobs were begun meanwhile");

    let (url, runtime) = (server.url.clone(), Handle::current());
    let copy = backup.path().join("entries.sqlite");
    let (there, here) = spawn_blocking(move || {
        let mut there = PostgresStore::open(&url, Epoch(uuid::Uuid::nil()), runtime).unwrap();
        let mut here = SqliteStore::open(&copy, Epoch(uuid::Uuid::nil())).unwrap();
        ((there.end().unwrap(), there.whole().unwrap()), (here.end().unwrap(), here.whole().unwrap()))
    })
    .await
    .unwrap();
    assert_eq!(there, here);
    assert_eq!(std::fs::read_to_string(backup.path().join("hub-key.pem")).unwrap(), "its key");

    // Brought back into a folder it is the same hub, in another life.
    assert_eq!(restore(backup.path(), back.path()).unwrap(), carried);
    let hub = Running::over(back).await;
    assert_eq!(hub.first, None);
    assert_eq!(hub.post("/call", &office, &jobs()).await.code(), "not_logged_in", "sessions stay behind");
    let office = headers_of(&hub.log_in("A. Office", PASSWORD).await);
    headers_of(&hub.log_in("A. Recorder", PASSWORD).await);
    sees(&hub, &office, &seen).await;
    let listed = hub.ask(&office, "jobs", json!({})).await["jobs"].as_array().unwrap().len();
    assert_eq!(listed, begun + 1);
    let bearer = format!("Authorization: Bearer {token}\r\n");
    assert_eq!(hub.asked("GET", "/api/1/jobs", &bearer, "").await.status, 200);

    // And from there into a database.
    let back = hub.end().await;
    let (url, runtime) = (other.clone(), Handle::current());
    let (moved, back) = spawn_blocking(move || (move_to(back.path(), &url, runtime).unwrap(), back)).await.unwrap();
    assert!(moved.entries >= carried.entries);
    let hub = Running::over_store(back, Some(&other)).await;
    let office = headers_of(&hub.log_in("A. Office", PASSWORD).await);
    sees(&hub, &office, &seen).await;
    assert_eq!(hub.ask(&office, "jobs", json!({})).await["jobs"].as_array().unwrap().len(), begun + 1);
}
