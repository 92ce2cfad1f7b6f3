//! The doors for scripts, asked anything: whatever is asked, the hub answers as its own description says, and never that it broke.
//! `PROPTEST_CASES` says how many requests; `cargo xtask prove api` sends thousands.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{Config, TestRunner};
use serde_json::{Value, json};
use support::Running;

/// One request.
#[derive(Clone, Debug)]
struct Asked {
    path: String,
    method: &'static str,
    job: Option<String>,
    file: Option<String>,
    token: Option<usize>,
    wrong_token: String,
    body: String,
}

const SCOPES: [&str; 4] = ["calendar", "lists", "papers", "add_jobs"];

fn requests(paths: Vec<String>, job_file: String) -> impl Strategy<Value = Asked> {
    let file = prop_oneof![
        select(vec!["1.csv", "2.csv", "1.doc", "0.pdf", "99999999999999999999.csv", "csv"]).prop_map(str::to_owned),
        any::<String>()
    ];
    let body = prop_oneof![
        any::<String>(),
        Just(job_file.clone()),
        (0..job_file.len(), any::<char>()).prop_map(move |(at, letter)| {
            let at = (0..=at).rev().find(|at| job_file.is_char_boundary(*at)).unwrap_or(0);
            format!("{}{letter}{}", &job_file[..at], &job_file[at..])
        })
    ];
    let job = prop_oneof![
        Just(None),
        any::<u128>().prop_map(|id| Some(uuid::Uuid::from_u128(id).to_string())),
        any::<String>().prop_map(Some)
    ];
    let token = prop_oneof![4 => (0..SCOPES.len()).prop_map(Some), 1 => Just(None)];
    let method = select(vec!["GET", "GET", "GET", "POST"]);
    (select(paths), method, job, file, token, "[0-9a-f]{0,64}", body).prop_map(
        |(path, method, job, file, token, wrong_token, body)| Asked {
            path,
            method,
            job,
            file: Some(file),
            token,
            wrong_token,
            body,
        },
    )
}

/// As it stands in an address: nothing but letters and digits as they are.
fn escaped(text: &str) -> String {
    let letter =
        |byte: u8| if byte.is_ascii_alphanumeric() { char::from(byte).to_string() } else { format!("%{byte:02X}") };
    // Without one there is another path.
    if text.is_empty() { "-".to_owned() } else { text.bytes().map(letter).collect() }
}

#[test]
fn whatever_is_asked_is_answered_as_described() {
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let (hub, tokens, known, file, description) = runtime.block_on(async {
        let hub = Running::start().await;
        let office = hub.first().await;
        let start = json!({ "name": "Mill Lane", "place": "", "person": "" });
        let job = hub.ask(&office, "start_job", start).await["id"].as_str().unwrap().to_owned();
        let mut tokens = Vec::new();
        for scope in SCOPES {
            let made = hub.post("/tokens/make", &office, &json!({ "name": scope, "scope": scope, "days": 1 })).await;
            tokens.push(made.json()["secret"].as_str().unwrap().to_owned());
        }
        let papers = format!("Authorization: Bearer {}\r\n", tokens[2]);
        let file = hub.asked("GET", &format!("/api/1/jobs/{job}"), &papers, "").await.body;
        let description = hub.get("/api/1").await.json();
        (hub, tokens, job, file, description)
    });
    let refused = {
        let mut schema = json!({ "$ref": "#/components/schemas/Refused" });
        schema["components"] = description["components"].clone();
        jsonschema::validator_for(&schema).unwrap()
    };
    let paths: Vec<String> = description["paths"].as_object().unwrap().keys().cloned().collect();
    let cases = if std::env::var_os("PROPTEST_CASES").is_some() { Config::default().cases } else { 96 };
    let mut runner = TestRunner::new(Config { cases, failure_persistence: None, ..Config::default() });
    let opened = std::cell::Cell::new(0_u32);
    runner
        .run(&requests(paths, file), |asked| {
            let job = asked.job.clone().unwrap_or_else(|| known.clone());
            let path = asked.path.replace("{job}", &escaped(&job));
            let path = path.replace("{file}", &escaped(asked.file.as_deref().unwrap_or_default()));
            let token = asked.token.map_or(asked.wrong_token.as_str(), |at| tokens[at].as_str());
            let body = if asked.method == "POST" { asked.body.as_str() } else { "" };
            let told =
                runtime.block_on(hub.asked(asked.method, &path, &format!("Authorization: Bearer {token}\r\n"), body));
            let door = &description["paths"][&asked.path][asked.method.to_lowercase()];
            if door.is_null() {
                prop_assert_eq!(told.status, 405);
                return Ok(());
            }
            let described = &door["responses"][told.status.to_string()];
            prop_assert!(described.is_object(), "{} is not described: {}", told.status, told.body);
            if told.status >= 400 {
                let said: Value =
                    serde_json::from_str(&told.body).map_err(|error| TestCaseError::fail(error.to_string()))?;
                prop_assert!(refused.is_valid(&said), "{}", said);
            } else {
                opened.set(opened.get() + 1);
                // Only its own scope opens a door.
                let scope = door["security"][0]["token"][0].as_str().unwrap();
                prop_assert_eq!(asked.token.map(|at| SCOPES[at]), Some(scope));
            }
            Ok(())
        })
        .unwrap();
    assert!(opened.get() > 0, "no request was ever let in");
}
