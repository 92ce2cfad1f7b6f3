//! Several instances of a hub over one database: whoever logged in at one is known at the others, and none keeps anything alone.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod postgres;
mod support;

use postgres::Postgres;
use serde_json::{Value, json};
use support::{PASSWORD, Running, headers_of, jobs};
use tempfile::TempDir;

async fn instance(server: &Postgres) -> Running {
    Running::over_store(TempDir::new().unwrap(), Some(&server.url)).await
}

fn named<'a>(people: &'a Value, name: &str) -> &'a Value {
    people["people"].as_array().unwrap().iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("{people}"))
}

#[tokio::test(flavor = "multi_thread")]
async fn a_login_a_link_and_a_role_hold_at_every_instance() {
    let server = Postgres::start();
    let one = instance(&server).await;
    let office = one.first().await;
    let two = instance(&server).await;
    assert_eq!(two.first, None, "somebody has a password");
    assert_eq!(two.post("/call", &office, &jobs()).await.status, 200);
    // Invited at one, come in at the other, known at both.
    let told = one.post("/people/invite", &office, &json!({ "name": "A. Recorder", "role": "recorder" })).await.json();
    let asked = json!({ "code": told["code"], "name": "", "password": PASSWORD });
    let recorder = headers_of(&two.post("/first", "", &asked).await);
    assert_eq!(one.post("/first", "", &asked).await.code(), "link_used");
    assert_eq!(one.post("/call", &recorder, &jobs()).await.status, 200);
    assert_eq!(
        one.post("/people/invite", &office, &json!({ "name": "A. Recorder", "role": "office" })).await.code(),
        "name_taken"
    );
    let people = two.post("/people", &office, &json!({})).await.json();
    let person = named(&people, "A. Recorder")["person"].clone();
    two.post("/people/role", &office, &json!({ "person": person, "role": "reviewer" })).await;
    let start = json!({ "operation": "start_job", "input": { "name": "Mill Lane", "place": "", "person": "" } });
    assert_eq!(one.post("/call", &recorder, &start).await.code(), "role");
    let own = json!({ "person": named(&people, "A. Office")["person"] });
    assert_eq!(two.post("/people/take-away", &office, &own).await.code(), "last_office");
    // A password changed at one ends what was logged in by it at the other; so does logging out.
    let change = json!({ "old": PASSWORD, "new": "another password" });
    let now = headers_of(&two.post("/password", &recorder, &change).await);
    assert_eq!(one.post("/call", &recorder, &jobs()).await.code(), "not_logged_in");
    assert_eq!(one.post("/call", &now, &jobs()).await.status, 200);
    one.post("/logout", &now, &json!({})).await;
    assert_eq!(two.post("/call", &now, &jobs()).await.code(), "not_logged_in");
    two.post("/people/take-away", &office, &json!({ "person": person })).await;
    assert_eq!(one.log_in("A. Recorder", "another password").await.code(), "login_wrong");
    let lines = two.post("/people/audit", &office, &json!({ "before": null })).await.json();
    let said: Vec<&str> = lines["lines"].as_array().unwrap().iter().map(|one| one["words"].as_str().unwrap()).collect();
    assert_eq!(
        said,
        [
            "A wrong password was given for A. Recorder",
            "A. Office took the login of A. Recorder away",
            "A. Recorder set a password",
            "A. Office gave A. Recorder another role: Reviewer",
            "A. Recorder set a password",
            "A. Office made a link for A. Recorder",
            "A. Office made the account of A. Recorder: Recorder",
            "A. Office set a password",
            "A. Office made the account of A. Office: Office",
        ]
    );
    assert_eq!(lines["more"], false);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_recorded_at_one_is_at_the_other_within_a_second_and_stays_when_it_is_gone() {
    let server = Postgres::start();
    let one = instance(&server).await;
    let office = one.first().await;
    let two = instance(&server).await;
    one.ask(&office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await;
    let begun = std::time::Instant::now();
    while !two.ask(&office, "jobs", json!({})).await.to_string().contains("Mill Lane") {
        assert!(begun.elapsed().as_secs() < 30, "it does not come");
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    // The disk of an instance holds nothing that is not in the database.
    drop(one.end().await);
    drop(two.end().await);
    let three = instance(&server).await;
    assert!(three.ask(&office, "jobs", json!({})).await.to_string().contains("Mill Lane"));
}

#[tokio::test(flavor = "multi_thread")]
async fn instances_that_start_at_once_on_an_empty_database_are_one_hub() {
    let server = Postgres::start();
    let all: Vec<Running> = {
        let begun: Vec<_> = (0..4)
            .map(|_| {
                let url = server.url.clone();
                tokio::spawn(async move { Running::over_store(TempDir::new().unwrap(), Some(&url)).await })
            })
            .collect();
        let mut all = Vec::new();
        for one in begun {
            all.push(one.await.unwrap());
        }
        all
    };
    // Each gives a link to whoever is the first; the one that was made last works, at any of them, and once.
    let mut opened = Vec::new();
    for (at, of) in all.iter().enumerate() {
        let asked = json!({ "code": of.code(), "name": format!("Office {at}"), "password": PASSWORD });
        let told = all[(at + 1) % all.len()].post("/first", "", &asked).await;
        if told.status == 200 {
            opened.push(headers_of(&told));
        } else {
            assert_eq!(told.code(), "link_used");
        }
    }
    let [office] = &opened[..] else { panic!("{} are the first", opened.len()) };
    all[0].ask(office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await;
    // A record is brought in step before its instance ends: what is said at one is in the store of all.
    for instance in all {
        drop(instance.end().await);
    }
    let later = instance(&server).await;
    assert_eq!(later.first, None);
    assert!(later.ask(office, "jobs", json!({})).await.to_string().contains("Mill Lane"));
    let lines = later.post("/people/audit", office, &json!({ "before": null })).await.json();
    assert_eq!(lines["lines"].as_array().unwrap().len(), 2, "an account and its password: {lines}");
}

#[tokio::test(flavor = "multi_thread")]
async fn guessing_at_all_instances_is_guessing_at_one() {
    let server = Postgres::start();
    let one = instance(&server).await;
    one.first().await;
    let two = instance(&server).await;
    for hub in [&one, &two] {
        for _ in 0..5 {
            assert_eq!(hub.log_in("A. Office", "wrong password").await.code(), "login_wrong");
        }
    }
    for hub in [&one, &two] {
        assert_eq!(hub.log_in("A. Office", PASSWORD).await.code(), "login_too_often");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hub_is_moved_with_its_people_and_the_old_one_sends_everybody_on() {
    let old = Running::start().await;
    let office = old.first().await;
    old.joined(&office, "A. Recorder", "recorder").await;
    old.ask(&office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await;
    old.post("/phones/code", &office, &json!({})).await;
    // What was recorded is in the store by now, or will be soon.
    tokio::time::sleep(std::time::Duration::from_secs(1)).await;
    let (server, record) = (Postgres::start(), old.record().to_owned());
    let (url, runtime) = (server.url.clone(), tokio::runtime::Handle::current());
    let moving = tokio::task::spawn_blocking(move || {
        let first = provenohm_hub::move_to(&record, &url, runtime.clone()).unwrap();
        assert_eq!(first, provenohm_hub::move_to(&record, &url, runtime).unwrap());
        first.entries
    });
    assert!(moving.await.unwrap() > 0);
    tokio::time::sleep(std::time::Duration::from_secs(1)).await;
    let refused = old.post("/call", &office, &jobs()).await;
    assert_eq!((refused.status, refused.code()), (410, "hub_moved".to_owned()));
    let new = instance(&server).await;
    assert_eq!(new.first, None);
    assert_eq!(new.post("/call", &office, &jobs()).await.code(), "not_logged_in", "sessions stay behind");
    let office = headers_of(&new.log_in("A. Office", PASSWORD).await);
    headers_of(&new.log_in("A. Recorder", PASSWORD).await);
    assert!(new.ask(&office, "jobs", json!({})).await.to_string().contains("Mill Lane"));
    let lines = new.post("/people/audit", &office, &json!({ "before": null })).await.json();
    assert_eq!(lines["lines"][2]["words"], "A. Office asked for a code for a phone");
}
