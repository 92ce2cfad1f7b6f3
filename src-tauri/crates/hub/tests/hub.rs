//! A hub that listens, asked over real connections: who may do what, and what is refused.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_hub::{Hub, not_serving};
use serde_json::json;
use std::time::Duration;
use support::{PASSWORD, Running, headers_of, jobs, options};
use tempfile::TempDir;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpStream;
use tokio::sync::oneshot;

#[tokio::test]
async fn the_first_person_sets_a_password_by_the_link_once_and_works_with_the_record() {
    let hub = Running::start().await;
    assert_eq!(hub.get("/health").await.body, "ok\n");
    let session = hub.first().await;
    let again = json!({ "code": hub.code(), "name": "B", "password": PASSWORD });
    assert_eq!(hub.post("/first", "", &again).await.code(), "link_used");
    let start =
        json!({ "operation": "start_job", "input": { "name": "Mill Lane", "place": "", "person": "A. Recorder" } });
    let started = hub.post("/call", &session, &start).await;
    assert_eq!(started.status, 200, "{}", started.body);
    // A refusal of the record itself is told as it is in the app.
    let refused = hub.post("/call", &session, &json!({ "operation": "no_such", "input": {} })).await;
    assert_eq!((refused.status, refused.code()), (422, "unknown_operation".to_owned()));

    // Started anew: no link, and whoever was logged in still is.
    let hub = Running::over(hub.end().await).await;
    assert_eq!(hub.first, None);
    assert_eq!(hub.post("/call", &session, &jobs()).await.status, 200);
    let who = json!({ "name": "A. Office", "password": PASSWORD });
    let session = headers_of(&hub.post("/login", "", &who).await);
    let told = hub.post("/call", &session, &jobs()).await.json();
    assert_eq!(told["jobs"][0]["name"], "Mill Lane");
    let going_on = hub.post("/session", &session, &json!({})).await.json();
    assert_eq!(going_on["name"], "A. Office");
    hub.post("/logout", &session, &json!({})).await;
    assert_eq!(hub.post("/call", &session, &jobs()).await.code(), "not_logged_in");
}

#[tokio::test]
async fn nobody_sees_the_record_without_a_session_of_the_hubs_own_page() {
    let hub = Running::start().await;
    let session = hub.first().await;
    assert_eq!(hub.post("/call", &session, &jobs()).await.status, 200);
    let cookie = session.lines().next().unwrap().to_owned() + "\r\n";
    let page = session.lines().nth(1).unwrap().to_owned() + "\r\n";
    let forged = "X-Provenohm-Page: 00\r\n";
    for headers in ["", &cookie, &page, &format!("{cookie}{forged}"), &format!("Cookie: provenohm=00\r\n{page}")] {
        let refused = hub.post("/call", headers, &jobs()).await;
        assert_eq!((refused.status, refused.code()), (401, "not_logged_in".to_owned()), "{headers}");
    }
    // The words of the screens are no secret: the login is in them.
    let words = json!({ "operation": "catalogue", "input": { "locale": null } });
    assert_eq!(hub.post("/call", "", &words).await.json()["locale"], "en");
}

#[tokio::test]
async fn another_host_or_origin_is_refused_whoever_asks() {
    let hub = Running::start().await;
    let session = hub.first().await;
    let (asked, port) = (jobs().to_string(), hub.address.port());
    for host in ["hub.invalid".to_owned(), format!("hub.invalid:{port}"), "127.0.0.1".to_owned(), String::new()] {
        let refused = hub.posted(&host, "/call", &session, &asked).await;
        assert_eq!(refused.status, 403, "{host}");
    }
    for origin in ["null", "http://hub.invalid", "https://127.0.0.1", &format!("https://{}", hub.address)] {
        let refused = hub.post("/call", &format!("{session}Origin: {origin}\r\n"), &jobs()).await;
        assert_eq!((refused.status, refused.code()), (403, "not_this_page".to_owned()), "{origin}");
    }
    let own = format!("{session}Origin: http://{}\r\n", hub.address);
    assert_eq!(hub.post("/call", &own, &jobs()).await.status, 200);
    assert_eq!(hub.posted(&format!("localhost:{port}"), "/call", &session, &asked).await.status, 200);
}

#[tokio::test]
async fn wrong_passwords_are_refused_alike_and_those_of_one_name_soon_not_heard() {
    let hub = Running::start().await;
    let office = hub.first().await;
    for _ in 0..5 {
        for name in ["B. Office", "' OR 1=1 --"] {
            let refused = hub.log_in(name, "wrong password").await;
            assert_eq!((refused.status, refused.code()), (401, "login_wrong".to_owned()), "{name}");
        }
    }
    // Whoever guesses at other names does not keep the office out.
    for _ in 0..9 {
        assert_eq!(hub.log_in("A. Office", "wrong password").await.code(), "login_wrong");
    }
    headers_of(&hub.log_in("A. Office", PASSWORD).await);
    assert_eq!(hub.log_in("A. Office", "wrong password").await.code(), "login_wrong");
    let refused = hub.log_in("A. Office", PASSWORD).await;
    assert_eq!((refused.status, refused.code()), (429, "login_too_often".to_owned()));
    // Nor is the password guessed by whoever finds a page open.
    let change = json!({ "old": PASSWORD, "new": "another password" });
    assert_eq!(hub.post("/password", &office, &change).await.code(), "login_too_often");
}

#[tokio::test]
async fn what_is_no_request_is_refused_in_a_sentence_and_a_giant_one_before_it_is_read() {
    let hub = Running::start().await;
    for (password, name, code) in [("short", "A", "password_short"), (PASSWORD, " ", "name_missing")] {
        let asked = json!({ "code": hub.code(), "name": name, "password": password });
        assert_eq!(hub.post("/first", "", &asked).await.code(), code);
    }
    let guessed = json!({ "code": "00", "name": "A", "password": PASSWORD });
    assert_eq!(hub.post("/first", "", &guessed).await.code(), "link_used");
    for path in ["/call", "/login", "/first"] {
        let refused = hub.posted(&hub.address.to_string(), path, "", "{").await;
        assert_eq!((refused.status, refused.code()), (400, "no_request".to_owned()), "{path}");
        let giant = format!("\"{}\"", "x".repeat(8 * 1024));
        let refused = hub.posted(&hub.address.to_string(), path, "", &giant).await;
        assert_eq!((refused.status, refused.code()), (413, "too_large".to_owned()), "{path}");
    }
    // The link still works: nothing of it was used up.
    hub.first().await;
}

#[tokio::test]
async fn every_answer_says_what_a_page_of_it_may_do() {
    let hub = Running::start().await;
    for path in ["/", "/health", "/nothing", "/../Cargo.toml", "/%2e%2e/Cargo.toml"] {
        let told = hub.get(path).await;
        let policy = told.header("content-security-policy").unwrap_or_else(|| panic!("{path}: {}", told.headers));
        assert!(policy.starts_with("default-src 'none'; script-src 'self';"), "{policy}");
        assert_eq!(told.header("x-content-type-options"), Some("nosniff"));
        assert_eq!(told.header("cache-control"), Some("no-store"));
        assert_eq!(told.status, if matches!(path, "/" | "/health") { 200 } else { 404 }, "{path}");
    }
    assert!(hub.get("/").await.body.contains("<title>Provenohm</title>"));
}

#[tokio::test]
async fn an_address_that_is_taken_is_refused() {
    let record = TempDir::new().unwrap();
    let hub = Running::start().await;
    let Err(refused) = Hub::bind(&options(record.path(), hub.address)).await else { panic!("listens") };
    assert!(not_serving(&refused).starts_with("It cannot listen on 127.0.0.1:"), "{refused}");
}

#[tokio::test]
async fn where_others_reach_it_nothing_goes_over_the_network_as_it_is() {
    let record = TempDir::new().unwrap();
    let hub = Hub::bind(&options(record.path(), "0.0.0.0:0".parse().unwrap())).await.unwrap();
    assert!(hub.reached().starts_with("https://") && hub.pin().is_some(), "{}", hub.reached());
    assert!(hub.first_link().unwrap().starts_with("https://"));
    let port = hub.address().port();
    let (end, asked) = oneshot::channel::<()>();
    let running = tokio::spawn(hub.run(async move { drop(asked.await) }));
    let mut stream = TcpStream::connect(("127.0.0.1", port)).await.unwrap();
    stream.write_all(b"GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n").await.unwrap();
    let mut told = Vec::new();
    // It hangs up, with at most a few bytes of what is no HTTP.
    drop(stream.read_to_end(&mut told).await);
    assert!(!String::from_utf8_lossy(&told).contains("HTTP"), "{told:?}");
    end.send(()).unwrap();
    running.await.unwrap();
}

#[tokio::test]
async fn who_says_nothing_or_never_ends_is_not_waited_for() {
    let hub = Running::start().await;
    let mut silent = Vec::new();
    for _ in 0..200 {
        let mut stream = TcpStream::connect(hub.address).await.unwrap();
        stream.write_all(b"POST /login HTTP/1.1\r\nHost:").await.unwrap();
        silent.push(stream);
    }
    assert_eq!(hub.get("/health").await.body, "ok\n", "others are answered meanwhile");
    let mut told = Vec::new();
    let ended = tokio::time::timeout(Duration::from_secs(30), silent[0].read_to_end(&mut told)).await;
    assert!(ended.is_ok(), "a head that does not end is cut off");
}
