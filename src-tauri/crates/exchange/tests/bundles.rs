//! The bytes of a bundle, held by published vectors.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_exchange::bundle::{Bundle, HandOverError, hand_over_watched, write};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Hash};
use provenohm_logbook::record::By;
use serde_json::{Value as Json, json};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::PathBuf;
use support::{Forger, Hand, JOB, handed, moment, of_the_future, receive, receive_entries, recorder, samples, taken};

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn unhex(text: &str) -> Vec<u8> {
    (0..text.len() / 2).map(|at| u8::from_str_radix(&text[2 * at..2 * at + 2], 16).unwrap()).collect()
}

fn read(bytes: &[u8]) -> BTreeMap<Book, Vec<Entry>> {
    let bundle = Bundle::open(bytes).unwrap();
    let of = |book| bundle.entries(book).unwrap().unwrap().map(Result::unwrap).collect();
    bundle.manifest().books.iter().map(|packed| (packed.book, of(packed.book))).collect()
}

#[test]
fn entries_of_every_kind_come_out_as_they_went_in() {
    let mut forger = Forger::new(1, JOB.into());
    for (_, fact) in samples::all() {
        forger.say(fact);
    }
    forger.put(4711, 3, of_the_future());
    let mut entries = forger.seal().to_vec();
    entries[7] = entries[7].clone().erased();
    let mut turned = entries.clone();
    turned.reverse();
    let bytes = write(None, JOB.into(), &BTreeMap::from([(Book::from(JOB), turned)])).unwrap();
    assert_eq!(read(&bytes), [(Book::from(JOB), entries.clone())].into());
    let twice = [entries.clone(), entries].concat();
    let again = write(None, JOB.into(), &BTreeMap::from([(JOB.into(), twice), (support::TESTER.into(), Vec::new())]));
    assert_eq!(again, Ok(bytes), "whatever their order, however often, and without empty books");
}

#[test]
fn a_book_that_is_not_in_it_has_no_entries() {
    let bytes = handed(&mut recorder(1));
    assert!(Bundle::open(&bytes).unwrap().entries(support::OTHER_TESTER.into()).unwrap().is_none());
}

/// A job of two devices with a fork's, a gap's and a future kind's entries in it.
fn rich() -> Vec<u8> {
    let mut hand = recorder(1);
    let mut other = Hand::new(2);
    receive(&mut other, &handed(&mut hand)).unwrap();
    other.append(taken(3, 300));
    receive(&mut hand, &handed(&mut other)).unwrap();
    let mut forger = Forger::new(7, JOB.into());
    forger.put(4711, 3, of_the_future());
    forger.seal();
    forger.say(taken(4, 400));
    forger.say(taken(5, 500));
    let mut entries = forger.seal().to_vec();
    entries.remove(3);
    receive_entries(&mut hand, &entries).unwrap();
    handed(&mut hand)
}

/// Made by this program. Other versions of zstd may pack the same entries into other bytes, so a vector is read, not
/// written anew.
fn vectors() -> Json {
    let vector = |name: &str, bytes: &[u8]| {
        let books: Vec<Json> = read(bytes)
            .iter()
            .map(|(book, entries)| {
                let hashes: Vec<String> = entries.iter().map(|entry| entry.hash().to_string()).collect();
                let wires: Vec<Vec<u8>> = entries.iter().map(Entry::to_wire).collect();
                let wires: Vec<&[u8]> = wires.iter().map(Vec::as_slice).collect();
                let id = book.object().id.0;
                json!({ "book": id, "entries": hashes, "sha256_of_wires": Hash::of(&wires).to_string() })
            })
            .collect();
        json!({ "name": name, "file": hex(bytes), "books": books })
    };
    let plain = handed(&mut recorder(1));
    let refused = |name: &str, bytes: &[u8]| json!({ "name": name, "file": hex(bytes), "refused": Bundle::open(bytes).map(drop).unwrap_err().to_string() });
    let mut newer = plain.clone();
    newer[9] = 2;
    let mut altered = plain.clone();
    altered[plain.len() / 2] ^= 1;
    json!([
        vector("a job and its tester", &plain),
        vector("two devices, a gap, a kind of the future", &rich()),
        refused("cut off", &plain[..plain.len() - 1]),
        refused("one bit altered", &altered),
        refused("a newer version", &newer),
        refused("another file", b"%PDF-1.7"),
    ])
}

/// `PROVENOHM_WRITE=1` writes them anew: only ever for a new version of the format.
#[test]
fn the_published_vectors_are_read_as_they_say() {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../schemas/bundle.vectors.json");
    if std::env::var_os("PROVENOHM_WRITE").is_some() {
        std::fs::write(&file, serde_json::to_string_pretty(&vectors()).unwrap() + "\n").unwrap();
    }
    let published: Vec<Json> = serde_json::from_slice(&std::fs::read(&file).unwrap()).unwrap();
    assert_eq!(published.len(), 6);
    for vector in published {
        let bytes = unhex(vector["file"].as_str().unwrap());
        if let Some(refused) = vector["refused"].as_str() {
            assert_eq!(Bundle::open(&bytes).map(drop).unwrap_err().to_string(), refused);
            continue;
        }
        let books = read(&bytes);
        let told = vector["books"].as_array().unwrap();
        assert_eq!(books.len(), told.len());
        for (entries, told) in books.values().zip(told) {
            let hashes: Vec<String> = entries.iter().map(|entry| entry.hash().to_string()).collect();
            assert_eq!(json!(hashes), told["entries"], "{}", vector["name"]);
        }
        let mut hand = Hand::new(9);
        assert!(receive(&mut hand, &bytes).unwrap().sum().adds_up());
    }
}

/// The entries are the same today as when the vectors were made.
#[test]
fn the_published_vectors_would_be_made_again() {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../schemas/bundle.vectors.json");
    let published: Vec<Json> = serde_json::from_slice(&std::fs::read(&file).unwrap()).unwrap();
    let made = vectors();
    for (published, made) in published.iter().zip(made.as_array().unwrap()) {
        assert_eq!(published["books"], made["books"], "{}", made["name"]);
        assert_eq!(published["refused"], made["refused"], "{}", made["name"]);
    }
}

#[test]
fn packing_tells_how_far_it_is_and_can_be_stopped() {
    let mut hand = recorder(1);
    let mut heard = Vec::new();
    let mut packed = |hand: &mut Hand, go_on: bool| {
        let mut random = |bytes: &mut [u8]| hand.random.fill(bytes);
        let by = By { person: hand.person, at: moment(hand.minutes), random: &mut random };
        hand_over_watched(&mut hand.record, by, JOB, &[], &mut |progress| {
            heard.push(progress);
            if go_on { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        })
    };
    assert!(matches!(packed(&mut hand, false), Err(HandOverError::Stopped)));
    let whole = packed(&mut hand, true).unwrap();
    let last = heard.last().unwrap();
    assert_eq!((last.done, last.of), (whole.entries, whole.entries));
}
