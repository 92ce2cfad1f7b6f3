//! The conversation that the protocol is published with, replayed: requests as they once were sent, and what was answered.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::hub::{
    Cursor, Desk, Epoch, Page, Pull, Scope, SqliteStore, Tell, Want, jobs_there, lacks, page, read, receive, written,
};
use provenohm_logbook::entry::Entry;
use provenohm_logbook::record::{By, Record};
use serde_json::{Value as Json, json};
use std::path::PathBuf;
use support::{Hand, JOB, moment, recorder};

const EPOCH: Epoch = Epoch(uuid::Uuid::from_u128(0xe));

struct At<'h>(&'h mut Hand);

impl Desk for At<'_> {
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
        let Hand { record, random, person, minutes } = &mut *self.0;
        *minutes += 1;
        let mut random = |bytes: &mut [u8]| random.fill(bytes);
        step(record, By { person: *person, at: moment(*minutes), random: &mut random })
    }
}

/// A hub that is always the same.
struct Hub {
    hand: Hand,
    store: SqliteStore,
}

impl Hub {
    fn new() -> Self {
        Self { hand: Hand::new(3), store: SqliteStore::in_memory(EPOCH).unwrap() }
    }

    fn answer(&mut self, path: &str, body: &[u8]) -> Vec<u8> {
        match path {
            "/sync/1/tell" => written(&lacks(&mut self.store, &read::<Tell>(body).unwrap()).unwrap()),
            "/sync/1/send" => {
                receive(&mut At(&mut self.hand), &mut self.store, &Bundle::open(body).unwrap()).unwrap();
                Vec::new()
            }
            "/sync/1/pull" => written(&page(&mut self.store, &read::<Pull>(body).unwrap()).unwrap()),
            "/sync/1/jobs" => written(&jobs_there(&mut At(&mut self.hand)).unwrap()),
            other => panic!("{other}"),
        }
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn unhex(text: &str) -> Vec<u8> {
    (0..text.len() / 2).map(|at| u8::from_str_radix(&text[2 * at..2 * at + 2], 16).unwrap()).collect()
}

fn file() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../schemas/hub.vectors.json")
}

/// Made by this program, once.
fn conversation() -> Json {
    let (mut device, mut hub) = (recorder(1), Hub::new());
    let mut said = Vec::new();
    let mut ask = |about: &str, path: &str, body: Vec<u8>| {
        let answer = hub.answer(path, &body);
        said.push(json!({ "about": about, "path": path, "request": hex(&body), "answer": hex(&answer) }));
        answer
    };
    let (tell, _, _) = At(&mut device).with(provenohm_exchange::hub::told).unwrap();
    ask("a device tells what its logs end with", "/sync/1/tell", written(&tell));
    let books = device.record.view().books().unwrap();
    let all = books.iter().map(|book| (*book, device.record.view().entries(*book).unwrap())).collect();
    ask("it sends them", "/sync/1/send", write(None, JOB.into(), &all).unwrap());
    ask("it tells again: nothing is lacking", "/sync/1/tell", written(&tell));
    ask("which jobs there are", "/sync/1/jobs", Vec::new());
    let want = |scope, from| Want { scope, from };
    let wants = vec![want(Scope::Register, Cursor::default()), want(Scope::Job(JOB), Cursor::default())];
    let first = Pull { epoch: None, wants, most: 1 };
    let told: Page = read(&ask("the first page", "/sync/1/pull", written(&first))).unwrap();
    let next = Pull { epoch: Some(EPOCH), wants: told.upto.unwrap(), most: 1 << 20 };
    let told: Page = read(&ask("the next", "/sync/1/pull", written(&next))).unwrap();
    let end = Pull { epoch: Some(EPOCH), wants: told.upto.unwrap(), most: 1 << 20 };
    ask("nothing more", "/sync/1/pull", written(&end));
    let elsewhere = Pull { epoch: Some(Epoch(uuid::Uuid::from_u128(0xd))), ..end.clone() };
    ask("cursors of another life", "/sync/1/pull", written(&elsewhere));
    let unknown = Cursor { at: 1, mark: [7; 32] };
    let unknown = Pull { wants: vec![want(Scope::Register, unknown)], ..end };
    ask("a cursor of a store that was set back", "/sync/1/pull", written(&unknown));
    json!(said)
}

/// The entries of a page, and what stands around them: other versions of zstd may pack the same into other bytes.
fn read_page(bytes: &[u8]) -> (Page, Vec<Entry>) {
    let mut page: Page = read(bytes).unwrap();
    let mut entries = Vec::new();
    if let Some(bundle) = page.bundle.take() {
        let bundle = Bundle::open(&bundle.0).unwrap();
        for packed in &bundle.manifest().books {
            entries.extend(bundle.entries(packed.book).unwrap().unwrap().map(Result::unwrap));
        }
    }
    (page, entries)
}

/// `PROVENOHM_WRITE=1` writes it anew: only ever for a new version of the protocol.
#[test]
fn what_was_once_asked_is_answered_as_it_was() {
    if std::env::var_os("PROVENOHM_WRITE").is_some() {
        std::fs::write(file(), serde_json::to_string_pretty(&conversation()).unwrap() + "\n").unwrap();
    }
    let kept: Vec<Json> = serde_json::from_slice(&std::fs::read(file()).unwrap()).unwrap();
    assert_eq!(kept.len(), 9);
    let mut hub = Hub::new();
    for step in &kept {
        let of = |part: &str| step[part].as_str().unwrap();
        let (about, answer) = (of("about"), unhex(of("answer")));
        let told = hub.answer(of("path"), &unhex(of("request")));
        if of("path") == "/sync/1/pull" {
            assert_eq!(read_page(&told), read_page(&answer), "{about}");
        } else {
            assert_eq!(hex(&told), hex(&answer), "{about}");
        }
        // Each may be repeated, and is answered the same.
        if of("path") != "/sync/1/tell" || !about.contains("ends with") {
            let again = hub.answer(of("path"), &unhex(of("request")));
            assert_eq!(again.is_empty(), told.is_empty(), "{about}");
        }
    }
    let brought: usize = kept
        .iter()
        .filter(|step| step["path"] == "/sync/1/pull")
        .map(|step| read_page(&unhex(step["answer"].as_str().unwrap())).1.len())
        .sum();
    let sent = unhex(kept[1]["request"].as_str().unwrap());
    let sent: u64 = Bundle::open(&sent).unwrap().manifest().books.iter().map(|packed| packed.entries).sum();
    assert_eq!(brought as u64, sent, "the pages bring what was sent");
}
