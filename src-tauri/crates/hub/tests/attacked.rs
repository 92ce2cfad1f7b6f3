//! What somebody tries who means harm: statements and markup in every field, what has ended or was used, bodies that never end, and
//! more connections than there is room for.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod postgres;
mod support;

use postgres::Postgres;
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::hub::EnrolCode;
use serde_json::{Value, json};
use std::time::Duration;
use support::{Answer, PASSWORD, Running, headers_of, jobs};
use tempfile::TempDir;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpStream;

const HARMFUL: [&str; 8] = [
    "'; DROP TABLE account; --",
    "$1 ?1 :name @name %s \\' \\\\",
    "<script>alert(1)</script>",
    "{ $who } { hub-account-in } {\"",
    "../../etc/passwd%00",
    "line\r\nSet-Cookie: provenohm=00\r\n\r\nHTTP/1.1 200 OK",
    "nothing\u{0}more",
    "\u{202e}desrever\u{2066}",
];

/// Done or refused with a code, as JSON that no page takes for anything else.
fn answered(told: &Answer, what: &str) {
    assert!(told.status == 200 || (400..500).contains(&told.status), "{what}: {} {}", told.status, told.body);
    assert_eq!(told.header("content-type"), Some("application/json"), "{what}");
    assert_eq!(told.header("x-content-type-options"), Some("nosniff"), "{what}");
    assert_eq!(told.header("set-cookie").filter(|cookie| cookie.contains("=00")), None, "{what}");
    assert!(told.status == 200 || !told.code().is_empty(), "{what}: {}", told.body);
}

/// As a name is kept.
fn kept(text: &str) -> String {
    text.chars().filter(|sign| !sign.is_control()).collect::<String>().trim().to_owned()
}

/// What a phone says to be enrolled, and a code of its own.
async fn enrolling(hub: &Running, office: &str, nth: usize, name: &str) -> Value {
    let code = hub.post("/phones/code", office, &json!({})).await.json()["code"].as_str().unwrap().to_owned();
    let device = DeviceId(uuid::Uuid::from_u128(1 + nth as u128));
    let said = EnrolCode::typed(&code).unwrap().by_phone(None, device).to_string();
    json!({ "said": said, "device": device, "name": name })
}

async fn harmed(hub: &Running) {
    let office = hub.first().await;
    let job =
        hub.ask(&office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await["id"].clone();
    for (nth, text) in HARMFUL.into_iter().enumerate() {
        // Where a name is asked for it is a name, told as it was typed.
        let told = hub.post("/people/invite", &office, &json!({ "name": text, "role": "recorder" })).await;
        assert_eq!(told.status, 200, "{text}: {}", told.body);
        let asked = json!({ "code": told.json()["code"], "name": text, "password": PASSWORD });
        let opened = hub.post("/first", "", &asked).await;
        headers_of(&opened);
        assert_eq!(opened.json()["name"], kept(text));
        headers_of(&hub.log_in(text, PASSWORD).await);
        let made =
            hub.post("/tokens/make", &office, &json!({ "name": text, "scope": "lists", "days": 1 })).await.json();
        assert!(made["tokens"].as_array().unwrap().iter().any(|one| one["name"] == kept(text)), "{made}");
        let enrolled = hub.post("/sync/1/enrol", "", &enrolling(hub, &office, nth, text).await).await;
        assert_eq!(enrolled.status, 200, "{text}: {}", enrolled.body);
        let phones = hub.post("/phones", &office, &json!({})).await.json();
        assert!(phones.as_array().unwrap().iter().any(|one| one["name"] == kept(text)), "{text}: {phones}");
        for (operation, input) in [
            ("start_job", json!({ "name": text, "place": text, "person": text })),
            ("add_board", json!({ "job": job, "name": text })),
            ("set_job_names", json!({ "job": job, "name": text, "place": text })),
            ("save_tester", json!({ "identity": { "name": text, "serial": text }, "card": { "voltages": [] } })),
            ("job", json!({ "job": text })),
            ("run", json!({ "board": text })),
            ("origin", json!({ "board": text, "slot": text })),
            ("recall", json!({ "tester": text })),
            ("set_place", json!({ "hash": text })),
            ("import_job_file", json!({ "text": text })),
            ("take_in_bundle", json!({ "base64": text })),
            (text, json!({})),
        ] {
            let told = hub.post("/call", &office, &json!({ "operation": operation, "input": input })).await;
            answered(&told, &format!("{operation}: {text}"));
        }
        // Where something else is asked for, nothing is done.
        for (path, asked) in [
            ("/people/role", json!({ "person": text, "role": text })),
            ("/people/link", json!({ "person": text })),
            ("/people/take-away", json!({ "person": text })),
            ("/people/audit", json!({ "before": text })),
            ("/people/invite", json!({ "name": "B", "role": text })),
            ("/tokens/make", json!({ "name": "B", "scope": text, "days": 1 })),
            ("/tokens/drop", json!({ "token": text })),
            ("/phones/revoke", json!({ "device": text })),
            ("/phones/accept", json!({ "device": text })),
            ("/phones/drop", json!({ "device": text, "waiting": text })),
            ("/password", json!({ "old": text, "new": text })),
            ("/first", json!({ "code": text, "name": text, "password": text.repeat(3) })),
            ("/sync/1/enrol", json!({ "said": text, "device": text, "name": text })),
            (text, json!({})),
        ] {
            let path: String = path
                .bytes()
                .map(|one| match one {
                    b'/' | b'a'..=b'z' | b'0'..=b'9' | b'-' => char::from(one).to_string(),
                    other => format!("%{other:02x}"),
                })
                .collect();
            let told = hub.post(&format!("/{}", path.trim_start_matches('/')), &office, &asked).await;
            assert!((400..500).contains(&told.status), "{path} {text}: {} {}", told.status, told.body);
        }
        let shown = text.replace(char::is_control, "");
        for headers in [
            format!("Cookie: provenohm={shown}\r\nX-Provenohm-Page: {shown}\r\n"),
            format!("Authorization: Bearer {shown}\r\n"),
        ] {
            assert_eq!(hub.post("/call", &headers, &jobs()).await.status, 401, "{headers}");
            assert_eq!(hub.asked("GET", "/api/1/jobs", &headers, "").await.status, 401, "{headers}");
            assert_eq!(hub.post("/sync/1/jobs", &headers, &json!({})).await.status, 401, "{headers}");
        }
    }
    // Everybody is there, with the role they had; every line stands in the audit; and it goes on.
    let people = hub.post("/people", &office, &json!({})).await.json();
    let people = people["people"].as_array().unwrap();
    assert_eq!(people.len(), 1 + HARMFUL.len());
    assert_eq!(people.iter().filter(|one| one["role"] == "office").count(), 1);
    let audit = hub.post("/people/audit", &office, &json!({ "before": null })).await.json();
    assert_eq!(audit["lines"].as_array().unwrap().len(), 50);
    assert_eq!(audit["more"], true);
    assert!(hub.ask(&office, "jobs", json!({})).await["jobs"].as_array().unwrap().len() > HARMFUL.len());
}

#[tokio::test(flavor = "multi_thread")]
async fn statements_and_markup_are_text_in_every_field_beside_the_record() {
    harmed(&Running::start().await).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn statements_and_markup_are_text_in_every_field_in_a_database() {
    let server = Postgres::start();
    harmed(&Running::over_store(TempDir::new().unwrap(), Some(&server.url)).await).await;
}

#[tokio::test]
async fn what_has_ended_or_was_used_opens_nothing_more() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let token = json!({ "name": "Lists", "scope": "lists", "days": 1 });
    let token = hub.post("/tokens/make", &office, &token).await.json()["secret"].as_str().unwrap().to_owned();
    let bearer = format!("Authorization: Bearer {token}\r\n");
    let told = hub.post("/people/invite", &office, &json!({ "name": "A. Recorder", "role": "recorder" })).await.json();
    let invited = json!({ "code": told["code"], "name": "", "password": PASSWORD });
    let (used, late) = (enrolling(&hub, &office, 1, "Used").await, enrolling(&hub, &office, 2, "Late").await);
    assert_eq!(hub.post("/sync/1/enrol", "", &used).await.status, 200);
    // The same words again, as somebody heard them who listened.
    assert_eq!(hub.post("/sync/1/enrol", "", &used).await.code(), "enrol_code");
    assert_eq!(hub.post("/call", &office, &jobs()).await.status, 200);
    assert_eq!(hub.asked("GET", "/api/1/jobs", &bearer, "").await.status, 200);
    // The days go by.
    let file = rusqlite::Connection::open(hub.record().join("office.sqlite")).unwrap();
    file.busy_timeout(Duration::from_secs(30)).unwrap();
    file.execute_batch(
        "UPDATE token SET until = '2020-01-01T00:00:00+00:00';
         UPDATE invite SET until = '2020-01-01T00:00:00+00:00';
         UPDATE enrol_code SET until = 0;
         UPDATE session SET heard = heard - 12 * 60 * 60;",
    )
    .unwrap();
    assert_eq!(hub.asked("GET", "/api/1/jobs", &bearer, "").await.code(), "no_token");
    assert_eq!(hub.post("/first", "", &invited).await.code(), "link_used");
    assert_eq!(hub.post("/sync/1/enrol", "", &late).await.code(), "enrol_code");
    assert_eq!(hub.post("/call", &office, &jobs()).await.code(), "not_logged_in");
    assert_eq!(hub.post("/session", &office, &json!({})).await.code(), "not_logged_in");
    assert_eq!(hub.post("/people", &office, &json!({})).await.code(), "not_logged_in");
    // Logged out, a cookie that somebody copied is of no use.
    let office = headers_of(&hub.log_in("A. Office", PASSWORD).await);
    hub.post("/logout", &office, &json!({})).await;
    assert_eq!(hub.post("/call", &office, &jobs()).await.code(), "not_logged_in");
}

#[tokio::test]
async fn phones_are_the_business_of_the_office_alone() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let recorder = hub.joined(&office, "A. Recorder", "recorder").await;
    let reviewer = hub.joined(&office, "A. Reviewer", "reviewer").await;
    let phone = json!({ "device": uuid::Uuid::from_u128(1) });
    let enrolled = hub.post("/sync/1/enrol", "", &enrolling(&hub, &office, 0, "Phone").await).await.json();
    let bearer = format!("Authorization: Bearer {}\r\n", enrolled["secret"].as_str().unwrap());
    for path in ["", "/code", "/revoke", "/accept", "/drop"] {
        for (session, code) in
            [(recorder.as_str(), "role"), (&reviewer, "role"), ("", "not_logged_in"), (&bearer, "not_logged_in")]
        {
            assert_eq!(hub.post(&format!("/phones{path}"), session, &phone).await.code(), code, "{path}");
        }
    }
    assert_eq!(hub.post("/phones/drop", &office, &phone).await.code(), "not_found", "nothing waits");
    assert_eq!(hub.post("/sync/1/jobs", &bearer, &json!({})).await.status, 200);
    assert_eq!(hub.post("/phones/revoke", &office, &phone).await.status, 200);
    assert_eq!(hub.post("/phones/revoke", &office, &phone).await.code(), "not_found", "once");
    assert_eq!(hub.post("/sync/1/jobs", &bearer, &json!({})).await.code(), "not_enrolled");
}

#[tokio::test]
async fn a_body_that_does_not_end_is_not_waited_for() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let begun = |path: &str, headers: &str| {
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nContent-Length: 100\r\n{headers}\r\n{{",
            hub.address
        );
        let address = hub.address;
        async move {
            let mut stream = TcpStream::connect(address).await.unwrap();
            stream.write_all(head.as_bytes()).await.unwrap();
            stream
        }
    };
    let mut slow = Vec::new();
    for path in ["/login", "/first", "/sync/1/enrol", "/call"] {
        slow.push((path, begun(path, "").await));
    }
    slow.push(("/people/invite", begun("/people/invite", &office).await));
    assert_eq!(hub.post("/call", &office, &jobs()).await.status, 200, "others are answered meanwhile");
    // What needs a secret is refused before anything is read.
    let mut told = String::new();
    begun("/sync/1/send", "").await.read_to_string(&mut told).await.unwrap();
    assert!(told.starts_with("HTTP/1.1 401"), "{told}");
    for (path, mut stream) in slow {
        let mut told = String::new();
        let ended = tokio::time::timeout(Duration::from_secs(60), stream.read_to_string(&mut told)).await;
        assert!(ended.is_ok() && told.starts_with("HTTP/1.1 408"), "{path}: {told}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn more_connections_than_there_is_room_for_wait_and_are_answered() {
    let hub = Running::with_room_for(20).await;
    let mut held = Vec::new();
    for _ in 0..50 {
        let mut stream = TcpStream::connect(hub.address).await.unwrap();
        stream.write_all(b"POST /login HTTP/1.1\r\nHost:").await.unwrap();
        held.push(stream);
    }
    // There is no room now; whoever says nothing loses it soon.
    let told = tokio::time::timeout(Duration::from_secs(60), hub.get("/health")).await;
    assert_eq!(told.unwrap().body, "ok\n");
    // And those who come and go leave none of it taken.
    drop(held);
    for _ in 0..100 {
        drop(TcpStream::connect(hub.address).await.unwrap());
    }
    let told = tokio::time::timeout(Duration::from_secs(60), hub.get("/health")).await;
    assert_eq!(told.unwrap().body, "ok\n");
}
