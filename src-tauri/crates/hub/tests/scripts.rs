//! What scripts and calendars ask: doors that a token of the right scope opens and no other does, and what is told there held against
//! its own description (OpenAPI 3.1) and the calendar's standard (RFC 5545).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use serde_json::{Value, json};
use support::{Answer, Running, jobs};

const SCOPES: [&str; 4] = ["calendar", "lists", "papers", "add_jobs"];

async fn token(hub: &Running, office: &str, name: &str, scope: &str, days: u32) -> Value {
    let told = hub.post("/tokens/make", office, &json!({ "name": name, "scope": scope, "days": days })).await;
    assert_eq!(told.status, 200, "{}", told.body);
    told.json()
}

async fn secret(hub: &Running, office: &str, scope: &str) -> String {
    token(hub, office, &format!("For {scope}"), scope, 30).await["secret"].as_str().unwrap().to_owned()
}

async fn get(hub: &Running, path: &str, token: &str) -> Answer {
    let address = hub.address;
    hub.raw(format!(
        "GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\nAuthorization: Bearer {token}\r\n\r\n"
    ))
    .await
}

async fn demo(hub: &Running, office: &str) -> String {
    hub.ask(office, "make_demo", json!({})).await["id"].as_str().unwrap().to_owned()
}

#[tokio::test]
async fn a_token_opens_the_doors_of_its_own_scope_and_no_other() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let start = json!({ "name": "Mill Lane", "place": "", "person": "" });
    let job = hub.ask(&office, "start_job", start).await["id"].as_str().unwrap().to_owned();
    let doors = [
        ("/api/1/jobs".to_owned(), "lists"),
        ("/api/1/testers".to_owned(), "lists"),
        ("/api/1/recalls".to_owned(), "lists"),
        ("/api/1/unproved".to_owned(), "lists"),
        (format!("/api/1/jobs/{job}/unproved"), "lists"),
        (format!("/api/1/jobs/{job}"), "papers"),
        (format!("/api/1/jobs/{job}/schedule/1.csv"), "papers"),
    ];
    for scope in SCOPES {
        let token = secret(&hub, &office, scope).await;
        for (path, opened_by) in &doors {
            let told = get(&hub, path, &token).await;
            assert_eq!(told.status, if scope == *opened_by { 200 } else { 401 }, "{scope} {path}: {}", told.body);
        }
        let feed = hub.get(&format!("/calendar/{token}.ics")).await;
        assert_eq!(feed.status, if scope == "calendar" { 200 } else { 401 }, "{scope}");
        // No token is a login, nor opens what devices or the office ask.
        let bearer = format!("Authorization: Bearer {token}\r\n");
        assert_eq!(hub.post("/call", &bearer, &jobs()).await.code(), "not_logged_in");
        assert_eq!(hub.post("/sync/1/jobs", &bearer, &json!({})).await.code(), "not_enrolled");
        assert_eq!(hub.post("/tokens", &bearer, &json!({})).await.code(), "not_logged_in");
        let added = hub.post("/api/1/jobs", &bearer, &json!({})).await;
        assert_eq!(added.status, if scope == "add_jobs" { 422 } else { 401 }, "{scope}: {}", added.body);
    }
    for path in doors.iter().map(|(path, _)| path.as_str()) {
        for wrong in ["", "00", "' OR 1=1 --", &"x".repeat(4096)] {
            assert_eq!(get(&hub, path, wrong).await.code(), "no_token", "{path} {wrong}");
        }
        assert_eq!(hub.get(path).await.code(), "no_token");
        // A login is no token either: what a page of another site makes a browser ask is refused.
        let address = hub.address;
        let told =
            hub.raw(format!("GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n{office}\r\n")).await;
        assert_eq!(told.code(), "no_token");
    }
}

#[tokio::test]
async fn a_token_ends_when_it_is_taken_away_or_whose_it_is_has_no_login() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let other = hub.joined(&office, "B. Office", "office").await;
    let (one, two) = (token(&hub, &office, "One", "lists", 1).await, token(&hub, &other, "Two", "lists", 400).await);
    let (one, two) = (one["secret"].as_str().unwrap(), two["secret"].as_str().unwrap());
    let listed = hub.post("/tokens", &office, &json!({})).await.json();
    assert_eq!((&listed["secret"], listed["tokens"].as_array().unwrap().len()), (&Value::Null, 2), "told once");
    assert!(listed["tokens"][1]["words"].as_str().unwrap().contains("Made by B. Office"), "{listed}");
    assert!(listed["tokens"][1]["words"].as_str().unwrap().ends_with("Not used yet"), "{listed}");
    assert_eq!(get(&hub, "/api/1/testers", two).await.status, 200);
    let listed = hub.post("/tokens", &office, &json!({})).await.json();
    assert!(listed["tokens"][1]["words"].as_str().unwrap().contains("Used last on"), "{listed}");
    let dropped = hub.post("/tokens/drop", &office, &json!({ "token": listed["tokens"][0]["token"] })).await.json();
    assert_eq!(dropped["tokens"].as_array().unwrap().len(), 1);
    assert_eq!(get(&hub, "/api/1/testers", one).await.code(), "no_token");
    assert_eq!(get(&hub, "/api/1/testers", two).await.status, 200);
    let people = hub.post("/people", &office, &json!({})).await.json();
    let b =
        people["people"].as_array().unwrap().iter().find(|one| one["name"] == "B. Office").unwrap()["person"].clone();
    hub.post("/people/role", &office, &json!({ "person": b, "role": "reviewer" })).await;
    assert_eq!(get(&hub, "/api/1/testers", two).await.code(), "no_token");
    hub.post("/people/role", &office, &json!({ "person": b, "role": "office" })).await;
    hub.post("/people/take-away", &office, &json!({ "person": b })).await;
    assert_eq!(get(&hub, "/api/1/testers", two).await.code(), "no_token");
    for (name, days, code) in [(" ", 30, "name_missing"), ("A", 0, "token_days"), ("A", 401, "token_days")] {
        let refused = hub.post("/tokens/make", &office, &json!({ "name": name, "scope": "lists", "days": days })).await;
        assert_eq!((refused.status, refused.code()), (422, code.to_owned()));
    }
    let everything = json!({ "name": "A", "scope": "everything", "days": 1 });
    assert_eq!(hub.post("/tokens/make", &office, &everything).await.code(), "no_request");
    let recorder = hub.joined(&office, "A. Recorder", "recorder").await;
    for path in ["/tokens", "/tokens/make", "/tokens/drop"] {
        assert_eq!(hub.post(path, &recorder, &json!({})).await.code(), "role", "{path}");
    }
    let audit = hub.post("/people/audit", &office, &json!({ "before": null })).await.body;
    assert!(audit.contains("A. Office took the token One away") && audit.contains("B. Office made the token Two"));
    assert!(!audit.contains(one) && !audit.contains(two));
}

/// What a door answers, by its description.
fn answer_of<'a>(description: &'a Value, path: &str, method: &str, status: &str, media: &str) -> &'a Value {
    let answer = &description["paths"][path][method]["responses"][status];
    assert!(answer.is_object(), "{method} {path} is not described: {description}");
    &answer["content"][media]["schema"]
}

fn holds(description: &Value, schema: &Value, told: &Value) {
    let mut schema = schema.clone();
    schema["components"] = description["components"].clone();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let wrong: Vec<String> = validator.iter_errors(told).map(|error| error.to_string()).collect();
    assert_eq!(wrong, Vec::<String>::new(), "{told}");
}

#[tokio::test]
async fn what_is_told_is_what_the_description_says() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let job = demo(&hub, &office).await;
    let description = hub.get("/api/1").await.json();
    assert_eq!(description["openapi"], "3.1.0");
    let lists = secret(&hub, &office, "lists").await;
    let told = |path: String| {
        let (hub, lists) = (&hub, &lists);
        async move { get(hub, &path, lists).await.json() }
    };
    for path in ["/api/1/jobs", "/api/1/testers", "/api/1/recalls", "/api/1/unproved"] {
        let told = told(path.to_owned()).await;
        holds(&description, answer_of(&description, path, "get", "200", "application/json"), &told);
    }
    let of_one = told(format!("/api/1/jobs/{job}/unproved")).await;
    let schema = answer_of(&description, "/api/1/jobs/{job}/unproved", "get", "200", "application/json");
    holds(&description, schema, &of_one);
    assert!(!of_one["jobs"].as_array().unwrap().is_empty(), "the demo has readings of a tester that was not proved");
    let refused = get(&hub, "/api/1/jobs", "no").await.json();
    holds(&description, answer_of(&description, "/api/1/jobs", "get", "401", "application/json"), &refused);
    // Every door that is described is there, and every one that is there is described.
    let paths: Vec<&String> = description["paths"].as_object().unwrap().keys().collect();
    assert_eq!(paths.len(), 7, "{paths:?}");
    for path in paths {
        let path = path.replace("{job}", &job).replace("{file}", "1.csv");
        assert_eq!(get(&hub, &path, "no").await.code(), "no_token", "{path}");
    }
    // A schema that anything would hold proves nothing.
    let schema = answer_of(&description, "/api/1/jobs", "get", "200", "application/json").clone();
    let spoiled = json!({ "jobs": [{ "id": 7 }] });
    let mut with = schema;
    with["components"] = description["components"].clone();
    assert!(!jsonschema::is_valid(&with, &spoiled));
}

#[tokio::test]
async fn a_job_goes_out_as_a_file_and_comes_in_as_a_new_one() {
    let (hub, other) = (Running::start().await, Running::start().await);
    let office = hub.first().await;
    let job = demo(&hub, &office).await;
    let papers = secret(&hub, &office, "papers").await;
    let file = get(&hub, &format!("/api/1/jobs/{job}"), &papers).await.body;
    let there = other.first().await;
    let add = format!("Authorization: Bearer {}\r\n", secret(&other, &there, "add_jobs").await);
    let host = other.address.to_string();
    let added = other.posted(&host, "/api/1/jobs", &add, &file).await;
    assert_eq!(added.status, 201, "{}", added.body);
    let description = other.get("/api/1").await.json();
    holds(&description, answer_of(&description, "/api/1/jobs", "post", "201", "application/json"), &added.json());
    let jobs = other.ask(&there, "jobs", json!({})).await;
    assert_eq!(jobs["jobs"][0]["id"], added.json()["job"]);
    assert_eq!(other.posted(&host, "/api/1/jobs", &add, "{").await.code(), "not_a_job_file");
    // The schedule is the one that people make, and leaves no file behind.
    let csv = get(&hub, &format!("/api/1/jobs/{job}/schedule/1.csv"), &papers).await;
    assert_eq!((csv.status, csv.header("x-provenohm-parts")), (200, Some("1")));
    assert!(csv.header("content-disposition").unwrap().ends_with(".csv\""), "{}", csv.headers);
    assert!(csv.body.contains("MΩ"), "{}", csv.body);
    let pdf = get(&hub, &format!("/api/1/jobs/{job}/schedule/1.pdf"), &papers).await;
    assert_eq!(pdf.header("content-type"), Some("application/pdf"));
    assert!(pdf.body.starts_with("%PDF-"));
    let left = std::fs::read_dir(hub.record().join("papers")).into_iter().flatten().count();
    assert_eq!(left, 0, "no file is left behind");
    for (file, status) in [("2.csv", 404), ("0.csv", 404), ("one.csv", 404), ("1.doc", 404), ("1", 404)] {
        let told = get(&hub, &format!("/api/1/jobs/{job}/schedule/{file}"), &papers).await;
        assert_eq!(told.status, status, "{file}: {}", told.body);
    }
    let unknown = uuid::Uuid::from_u128(7);
    assert_eq!(get(&hub, &format!("/api/1/jobs/{unknown}"), &papers).await.status, 422);
    assert_eq!(get(&hub, "/api/1/jobs/no-id", &papers).await.status, 422);
}

#[tokio::test]
async fn a_calendar_program_gets_a_day_for_each_tester() {
    let hub = Running::start().await;
    let office = hub.first().await;
    demo(&hub, &office).await;
    let identity = json!({ "name": "Tester; with, signs\\ and a name that is longer than one line of a calendar may be", "serial": "77" });
    hub.ask(&office, "save_tester", json!({ "identity": identity, "card": { "voltages": [] } })).await;
    let made = token(&hub, &office, "Calendar", "calendar", 365).await;
    let address = made["address"].as_str().unwrap();
    let path = address.strip_prefix(&format!("http://{}", hub.address)).unwrap();
    let feed = hub.get(path).await;
    assert_eq!(feed.header("content-type"), Some("text/calendar; charset=utf-8"));
    // RFC 5545, 3.1: lines end with CRLF and have at most 75 octets.
    assert!(feed.body.split("\r\n").all(|line| line.len() <= 75 && !line.contains('\n')), "{}", feed.body);
    let calendar: icalendar::Calendar = feed.body.parse().unwrap();
    use icalendar::{CalendarComponent, Component as _, DatePerhapsTime};
    let lists = secret(&hub, &office, "lists").await;
    let testers = get(&hub, "/api/1/testers", &lists).await.json();
    let testers = testers["testers"].as_array().unwrap();
    let events: Vec<_> = calendar.components.iter().filter_map(CalendarComponent::as_event).collect();
    assert_eq!(events.len(), testers.len());
    for (event, tester) in events.iter().zip(testers) {
        // RFC 5545, 3.6.1: UID and DTSTAMP are required; a whole day is a date.
        assert!(event.get_uid().unwrap().starts_with(tester["id"].as_str().unwrap()));
        assert!(event.get_timestamp().is_some());
        let DatePerhapsTime::Date(day) = event.get_start().unwrap() else { panic!("no whole day") };
        match tester["day"].as_str() {
            Some(said) => assert_eq!(day.to_string(), said),
            None => assert_eq!(tester["due"]["level"], "look", "what nothing proves is due at once"),
        }
        assert!(event.get_summary().unwrap().contains(tester["name"].as_str().unwrap()), "{:?}", event.get_summary());
    }
    assert!(testers.iter().any(|tester| tester["day"].is_string()), "the demo has a verified tester: {testers:?}");
    assert_eq!(hub.get("/calendar/00.ics").await.code(), "no_token");
    assert_eq!(hub.get(&path.replace(".ics", "")).await.code(), "no_token");
}
