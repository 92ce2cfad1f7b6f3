//! The bytes of a bundle, held by published vectors.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::NoteId;
use provenohm_exchange::bundle::limits::MOST_RATIO;
use provenohm_exchange::bundle::{Bundle, HandOverError, hand_over_watched, write};
use provenohm_logbook::entry::body::{Book, Note};
use provenohm_logbook::entry::{Entry, Fact, Hash, LARGEST_ENTRY, Noun, Object, ObjectId};
use provenohm_logbook::record::{By, WriteError};
use serde_json::{Value as Json, json};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::PathBuf;
use support::{
    Forger, Hand, JOB, handed, id, moment, of_the_future, receive, receive_entries, recorder, samples, taken,
};

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

#[test]
fn packing_and_opening_many_entries_is_told_on_the_way_and_can_be_stopped() {
    let mut forger = Forger::new(1, JOB.into());
    for number in 0..2_500 {
        forger.say(taken(number, 100));
    }
    let books = BTreeMap::from([(Book::from(JOB), forger.seal().to_vec())]);
    let bytes = write(None, JOB.into(), &books).unwrap();
    let mut heard = Vec::new();
    let opened = Bundle::open_watched(&bytes, &mut |progress| {
        heard.push((progress.done, progress.of));
        ControlFlow::Continue(())
    });
    assert!(opened.unwrap().is_some());
    assert_eq!(heard, [(1_000, 2_502), (2_000, 2_502)]);
    assert!(Bundle::open_watched(&bytes, &mut |_| ControlFlow::Break(())).unwrap().is_none());
    let mut hand = Hand::new(2);
    receive(&mut hand, &bytes).unwrap();
    let mut random = |bytes: &mut [u8]| hand.random.fill(bytes);
    let by = By { person: hand.person, at: moment(9), random: &mut random };
    let mut heard = Vec::new();
    let packed = hand_over_watched(&mut hand.record, by, JOB, &[], &mut |progress| {
        heard.push((progress.done, progress.of));
        ControlFlow::Continue(())
    });
    assert!(packed.is_ok());
    assert_eq!(heard, [(1_000, 2_502), (2_000, 2_502), (2_502, 2_502)]);
}

#[test]
fn the_references_that_proved_a_tester_travel_with_it() {
    let mut hand = recorder(1);
    let of = |name: &str| samples::all().into_iter().find(|(its, _)| *its == name).unwrap().1;
    for name in ["reference, a resistor", "reference, a voltmeter", "bench run"] {
        hand.append(of(name));
    }
    let books = read(&handed(&mut hand));
    let references: Vec<Book> = books.into_keys().filter(|book| matches!(book, Book::Reference { .. })).collect();
    assert_eq!(references.len(), 1, "the one a run names, and no other");
    let mut other = Hand::new(2);
    receive(&mut other, &handed(&mut hand)).unwrap();
    let [Book::Reference { reference }] = references[..] else { panic!("{references:?}") };
    let card = |hand: &Hand| hand.record.view().known_reference(reference).unwrap().card.first().cloned();
    assert!(card(&other).is_some() && card(&other) == card(&hand));
}

fn note(text: String) -> Fact {
    let of = Object { noun: Noun::Job, id: ObjectId(JOB.0) };
    Note { note: NoteId(id(0x77)), of, text, person: None, at: None }.into()
}

#[test]
fn what_is_recorded_can_always_be_handed_on() {
    let mut hand = recorder(1);
    let (before, largest) = (hand.record.projection().unwrap(), LARGEST_ENTRY);
    let refused = hand.write(|writer| writer.append_in(JOB.into(), note("a".repeat(largest))));
    assert!(matches!(refused, Err(WriteError::TooLong)));
    assert_eq!(hand.record.projection().unwrap(), before);

    // One letter again and again: packed it would be less than a bundle may grow from.
    hand.write(|writer| writer.append_in(JOB.into(), note("a".repeat(largest - 1_000)))).unwrap();
    let bytes = handed(&mut hand);
    let bundle = Bundle::open(&bytes).unwrap();
    let largest = bundle.manifest().books.iter().max_by_key(|book| book.unpacked).unwrap();
    assert!(largest.unpacked <= largest.packed * MOST_RATIO && largest.packed > largest.unpacked, "{largest:?}");
    assert!(receive(&mut Hand::new(2), &bytes).unwrap().sum().adds_up());
}
