//! The conversation that the protocol is published with, sent to a real hub as a phone of that day sends it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::Bundle;
use provenohm_exchange::hub::{EnrolCode, JobsThere, Lacks, Page, Pull, read, written};
use provenohm_logbook::entry::Entry;
use serde_json::{Value, json};
use std::path::Path;
use support::Running;

fn unhex(text: &str) -> Vec<u8> {
    (0..text.len() / 2).map(|at| u8::from_str_radix(&text[2 * at..2 * at + 2], 16).unwrap()).collect()
}

fn conversation() -> Vec<Value> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../schemas/hub.vectors.json");
    serde_json::from_slice(&std::fs::read(file).unwrap()).unwrap()
}

/// A phone that is enrolled, as the header it shows.
async fn phone(hub: &Running) -> String {
    let office = hub.first().await;
    let code = hub.post("/phones/code", &office, &json!({})).await.json()["code"].as_str().unwrap().to_owned();
    let (device, code) = (DeviceId(uuid::Uuid::from_u128(9)), EnrolCode::typed(&code).unwrap());
    let said = code.by_phone(None, device).to_string();
    let told = hub.post("/sync/1/enrol", "", &json!({ "said": said, "device": device, "name": "Phone" })).await.json();
    assert_eq!(told["said"], code.by_hub(None, device).to_string());
    format!("Authorization: Bearer {}\r\n", told["secret"].as_str().unwrap())
}

fn entries(page: &Page) -> Vec<Entry> {
    let Some(bytes) = &page.bundle else { return Vec::new() };
    let bundle = Bundle::open(&bytes.0).unwrap();
    let books = bundle.manifest().books.iter();
    books.flat_map(|packed| bundle.entries(packed.book).unwrap().unwrap().map(Result::unwrap)).collect()
}

#[tokio::test]
async fn a_phone_of_every_released_protocol_is_answered() {
    let hub = Running::start().await;
    assert_eq!(hub.get("/sync").await.json()["protocols"], json!([1]));
    let phone = phone(&hub).await;
    let mut life = None;
    for step in conversation() {
        let of = |part: &str| step[part].as_str().unwrap();
        let (about, mut asked, answer) = (of("about"), unhex(of("request")), unhex(of("answer")));
        if of("path") == "/sync/1/pull" && !about.contains("another life") {
            // This store is in a life of its own.
            let pull: Pull = read(&asked).unwrap();
            let epoch = pull.epoch.and(life);
            asked = written(&Pull { epoch, ..pull });
        }
        let (status, told) = hub.bytes(of("path"), &phone, &asked).await;
        assert_eq!(status, 200, "{about}: {}", String::from_utf8_lossy(&told));
        match of("path") {
            "/sync/1/tell" => {
                let (told, kept): (Lacks, Lacks) = (read(&told).unwrap(), read(&answer).unwrap());
                life = Some(told.epoch);
                assert_eq!(told.logs, kept.logs, "{about}");
            }
            "/sync/1/pull" => {
                let (told, kept): (Page, Page) = (read(&told).unwrap(), read(&answer).unwrap());
                assert_eq!((&told.upto, told.more), (&kept.upto, kept.more), "{about}");
                assert_eq!(entries(&told), entries(&kept), "{about}");
            }
            "/sync/1/jobs" => {
                assert_eq!(read::<JobsThere>(&told), read::<JobsThere>(&answer), "{about}");
            }
            _ => assert_eq!(told, answer, "{about}"),
        }
        // Nothing of it is told to who shows no secret, or one that was never told.
        for stranger in ["", "Authorization: Bearer 00\r\n"] {
            assert_eq!(hub.bytes(of("path"), stranger, &asked).await.0, 401, "{about}");
        }
    }
    for path in ["/sync/1/tell", "/sync/1/pull", "/sync/1/send"] {
        for wrong in [&b""[..], b"\xff", b"{}", &[0x9f; 4096]] {
            let (status, told) = hub.bytes(path, &phone, wrong).await;
            let told: Value = serde_json::from_slice(&told).unwrap();
            assert!((400..500).contains(&status), "{path}: {told}");
        }
    }
    assert!(matches!(hub.bytes("/sync/2/tell", &phone, b"").await.0, 404 | 405), "a protocol of the future");
}
