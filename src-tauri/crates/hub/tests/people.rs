//! Several people at one hub: who invites whom, what each may do, and whose work is whose.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use serde_json::{Value, json};
use support::{PASSWORD, Running, headers_of, jobs};

/// The line of somebody among the people.
fn line<'a>(people: &'a Value, name: &str) -> &'a Value {
    people["people"].as_array().unwrap().iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("{people}"))
}

#[tokio::test]
async fn the_office_invites_somebody_who_sets_their_own_password_by_a_link_once() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let told =
        hub.post("/people/invite", &office, &json!({ "name": " A. Recorder ", "role": "recorder" })).await.json();
    let code = told["code"].as_str().unwrap().to_owned();
    assert!(line(&told, "A. Recorder")["standing"].as_str().unwrap().starts_with("Invited. The link works until"));
    assert_eq!(hub.post("/people", &office, &json!({})).await.json()["code"], Value::Null, "told once");
    assert_eq!(hub.log_in("A. Recorder", "").await.code(), "login_wrong", "there is no password yet");
    let asked = json!({ "code": code, "name": "Somebody Else", "password": PASSWORD });
    let opened = hub.post("/first", "", &asked).await;
    headers_of(&opened);
    let said = ["name", "role", "role_words"].map(|field| opened.json()[field].clone());
    assert_eq!(said, ["A. Recorder", "recorder", "Recorder"], "the name is the account's");
    assert_eq!(hub.post("/first", "", &asked).await.code(), "link_used");
    let people = hub.post("/people", &office, &json!({})).await.json();
    assert_eq!(line(&people, "A. Recorder")["standing"], "Has a password");
    for (name, code) in [("A. Recorder", "name_taken"), ("", "name_missing"), (&"x".repeat(121), "name_long")] {
        let refused = hub.post("/people/invite", &office, &json!({ "name": name, "role": "recorder" })).await;
        assert_eq!((refused.status, refused.code()), (422, code.to_owned()));
    }
    // Everything is as it was after the next start.
    let hub = Running::over(hub.end().await).await;
    headers_of(&hub.log_in("A. Recorder", PASSWORD).await);
}

#[tokio::test]
async fn a_login_taken_away_ends_at_once_and_a_new_link_brings_the_same_person_back() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let recorder = hub.joined(&office, "A. Recorder", "recorder").await;
    let people = hub.post("/people", &office, &json!({})).await.json();
    let person = json!({ "person": line(&people, "A. Recorder")["person"] });
    assert_eq!(hub.post("/call", &recorder, &jobs()).await.status, 200);
    let people = hub.post("/people/take-away", &office, &person).await.json();
    assert_eq!(line(&people, "A. Recorder")["standing"], "No login");
    assert_eq!(hub.post("/call", &recorder, &jobs()).await.code(), "not_logged_in");
    assert_eq!(hub.post("/session", &recorder, &json!({})).await.code(), "not_logged_in");
    assert_eq!(hub.log_in("A. Recorder", PASSWORD).await.code(), "login_wrong");
    let told = hub.post("/people/link", &office, &person).await.json();
    let asked = json!({ "code": told["code"], "name": "", "password": "another password" });
    headers_of(&hub.post("/first", "", &asked).await);
    assert_eq!(hub.post("/call", &recorder, &jobs()).await.code(), "not_logged_in", "the earlier session is over");
    let people = hub.post("/people", &office, &json!({})).await.json();
    assert_eq!(line(&people, "A. Recorder")["person"], person["person"]);
    // The office itself stays.
    let own = json!({ "person": line(&people, "A. Office")["person"] });
    let refused = hub.post("/people/take-away", &office, &own).await;
    assert_eq!((refused.status, refused.code()), (422, "last_office".to_owned()));
    let own = json!({ "person": own["person"], "role": "reviewer" });
    assert_eq!(hub.post("/people/role", &office, &own).await.code(), "last_office");
}

#[tokio::test]
async fn a_role_is_held_to_at_the_next_request() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let [recorder, reviewer] = [("A. Recorder", "recorder"), ("A. Reviewer", "reviewer")];
    let recorder = hub.joined(&office, recorder.0, recorder.1).await;
    let reviewer = hub.joined(&office, reviewer.0, reviewer.1).await;
    let job = hub.ask(&recorder, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await;
    let board = json!({ "operation": "add_board", "input": { "job": job["id"], "name": "DB-1" } });
    let sign = json!({ "operation": "sign_off", "input": { "job": job["id"], "name": "" } });
    let set_aside = json!({ "operation": "set_record_aside", "input": {} });
    for (session, asked, needed) in [
        (&reviewer, &board, "Recorder"),
        (&recorder, &sign, "Reviewer"),
        (&recorder, &set_aside, "Office"),
        (&reviewer, &set_aside, "Office"),
    ] {
        let refused = hub.post("/call", session, asked).await;
        assert_eq!((refused.status, refused.code()), (403, "role".to_owned()), "{asked}");
        let words = format!("This needs the role {needed}. The office gives roles");
        assert_eq!(refused.json()["words"], words);
    }
    for path in ["", "/invite", "/link", "/role", "/take-away", "/audit"] {
        let path = format!("/people{path}");
        for (session, status) in [(recorder.as_str(), 403), (&reviewer, 403), ("", 401)] {
            assert_eq!(hub.post(&path, session, &json!({})).await.status, status, "{path}");
        }
        assert_eq!(hub.post(&path, &office, &json!({ "more": 1 })).await.code(), "no_request", "{path}");
    }
    hub.ask(&reviewer, "look", json!({ "job": job["id"] })).await;
    let people = hub.post("/people", &office, &json!({})).await.json();
    let change = json!({ "person": line(&people, "A. Reviewer")["person"], "role": "recorder" });
    hub.post("/people/role", &office, &change).await;
    assert_eq!(hub.post("/call", &reviewer, &board).await.status, 200);
    assert_eq!(hub.post("/call", &reviewer, &sign).await.code(), "role");
}

#[tokio::test]
async fn everybody_changes_their_own_password_and_is_then_logged_in_there_alone() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let one = hub.joined(&office, "A. Recorder", "recorder").await;
    let other = headers_of(&hub.log_in("A. Recorder", PASSWORD).await);
    let change = |old: &str, new: &str| json!({ "old": old, "new": new });
    assert_eq!(hub.post("/password", &one, &change("wrong password", "new password")).await.code(), "password_wrong");
    assert_eq!(hub.post("/password", &one, &change(PASSWORD, "short")).await.code(), "password_short");
    assert_eq!(hub.post("/password", "", &change(PASSWORD, "new password")).await.code(), "not_logged_in");
    assert_eq!(hub.post("/call", &other, &jobs()).await.status, 200);
    let now = headers_of(&hub.post("/password", &one, &change(PASSWORD, "new password")).await);
    assert_eq!(hub.post("/call", &now, &jobs()).await.status, 200);
    for session in [&one, &other] {
        assert_eq!(hub.post("/call", session, &jobs()).await.code(), "not_logged_in");
    }
    assert_eq!(hub.post("/call", &office, &jobs()).await.status, 200);
    assert_eq!(hub.log_in("A. Recorder", PASSWORD).await.code(), "login_wrong");
    headers_of(&hub.log_in("A. Recorder", "new password").await);
    let lines = hub.post("/people/audit", &office, &json!({ "before": null })).await.json();
    let said: Vec<_> = lines["lines"].as_array().unwrap().iter().take(5).map(|one| one["words"].clone()).collect();
    assert_eq!(
        said,
        [
            "A. Recorder logged in",
            "A wrong password was given for A. Recorder",
            "A. Recorder set a password",
            "A wrong password was given for A. Recorder",
            "A. Recorder logged in",
        ]
    );
}

/// A job of the office with one board, a circuit of three slots and a tester.
async fn board(hub: &Running, office: &str) -> (Value, Value, Value) {
    let job =
        hub.ask(office, "start_job", json!({ "name": "Mill Lane", "place": "", "person": "" })).await["id"].clone();
    let view = hub.ask(office, "add_board", json!({ "job": job, "name": "DB-1" })).await;
    let board = view["boards"][0]["id"].clone();
    let form = json!({ "nominal": "230", "measure": "none", "conductors": "single_phase" });
    hub.ask(office, "add_many_circuits", json!({ "board": board, "count": "1", "form": form })).await;
    let range = json!({ "from": "0.05 MΩ", "to": "999 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" });
    let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": [range] }] });
    let identity = json!({ "name": "Tester A", "serial": "1001" });
    let tester = hub.ask(office, "save_tester", json!({ "identity": identity, "card": card })).await["id"].clone();
    (job, board, tester)
}

#[tokio::test]
async fn two_at_one_board_each_record_as_themselves_and_at_their_own_place() {
    let hub = Running::start().await;
    let office = hub.first().await;
    let one = hub.joined(&office, "A. Recorder", "recorder").await;
    let other = hub.joined(&office, "B. Recorder", "recorder").await;
    let (job, board, tester) = board(&hub, &office).await;
    for session in [&one, &other] {
        hub.ask(session, "choose_tester", json!({ "board": board, "tester": tester })).await;
    }
    hub.ask(&one, "set_volts", json!({ "board": board, "volts": 500 })).await;
    let view = hub.ask(&other, "run", json!({ "board": board })).await;
    assert_ne!(view["ask_volts"], Value::Null, "what one says of the tester in hand the other has not said");
    hub.ask(&other, "set_volts", json!({ "board": board, "volts": 500 })).await;
    let slots = view["slots"].as_array().unwrap();
    for (session, slot, text) in [(&one, &slots[0], "1.90"), (&other, &slots[1], "2.10")] {
        let indication = json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
        let save = json!({ "board": board, "slot": slot["id"], "indication": indication });
        let saved = hub.ask(session, "save_reading", save).await;
        assert!(saved.to_string().contains(text), "{saved}");
    }
    for (slot, who) in [(&slots[0], "A. Recorder"), (&slots[1], "B. Recorder")] {
        let origin = hub.ask(&office, "origin", json!({ "board": board, "slot": slot["id"] })).await.to_string();
        assert!(origin.contains(who), "{origin}");
        let another = ["A. Recorder", "B. Recorder"].into_iter().find(|name| *name != who).unwrap();
        assert!(!origin.contains(another), "{origin}");
    }
    let view = hub.ask(&one, "job", json!({ "job": job })).await;
    let people: Vec<_> = view["people"].as_array().unwrap().iter().map(|one| one["name"].clone()).collect();
    assert_eq!(people, ["A. Office", "A. Recorder", "B. Recorder"], "each joined by recording, once");
    // Each takes back their own last reading, and nobody records as somebody else.
    let undone = hub.ask(&one, "undo_reading", json!({ "board": board })).await;
    assert!(undone["words"].as_str().unwrap().contains("1.90"), "{undone}");
    let be = json!({ "operation": "be_person", "input": { "job": job, "person": view["people"][2]["id"] } });
    let refused = hub.post("/call", &one, &be).await;
    assert_eq!((refused.status, refused.code()), (422, "not_you".to_owned()));
    // Where they are, and how they like the screen, is each one's own.
    hub.ask(&one, "set_place", json!({ "hash": "#/testers" })).await;
    hub.ask(&one, "set_settings", json!({ "theme": "dark", "hand": "left", "gloves": true, "locale": "en" })).await;
    assert_eq!(hub.ask(&other, "place", json!({})).await["hash"], Value::Null);
    assert_eq!(hub.ask(&other, "settings", json!({})).await["settings"]["theme"], "system");
    assert_eq!(hub.ask(&one, "settings", json!({})).await["settings"]["theme"], "dark");
}
