//! Migrations are frozen. A record of every version that was released is kept, and opens.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_logbook::entry::Hash;
use provenohm_logbook::entry::body::Person;
use provenohm_logbook::record::{Place, Record};
use provenohm_logbook::store::SCHEMA;
use std::path::PathBuf;
use support::{Counted, Hand, JOB, PERSON, replacing, taken};
use tempfile::TempDir;

fn kept(schema: u32) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/records/{schema}.sqlite"))
}

/// Writes the record of this version's schema; run once when a schema is made: `PROVENOHM_WRITE=1`.
fn write_if_asked() {
    if std::env::var_os("PROVENOHM_WRITE").is_none() {
        return;
    }
    let folder = TempDir::new().unwrap();
    let mut hand = open(&folder);
    let card = Person { person: PERSON, name: "Recorder A".into(), role: "recorder".into() };
    hand.record.keep_person(&card).unwrap();
    hand.job();
    let first = hand.append(taken(1, 30));
    hand.append(replacing(2, 200, first));
    hand.write(|writer| writer.seal(JOB.into())).unwrap();
    drop(hand);
    let _ = std::fs::remove_file(kept(SCHEMA));
    let raw = rusqlite::Connection::open(folder.path().join("record.sqlite")).unwrap();
    raw.execute("VACUUM INTO ?1", [kept(SCHEMA).to_str().unwrap()]).unwrap();
}

fn open(folder: &TempDir) -> Hand {
    let place = Place { record: folder.path().join("record.sqlite"), device: folder.path().join("device.sqlite") };
    let mut random = Counted::from(1);
    let record = Record::open(&place, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    Hand { record, random, minutes: 10, person: PERSON }
}

/// What a new record of today says of the same entries.
fn written_today(hand: &Hand) -> String {
    let view = hand.record.view();
    let mut today = Hand::new(2);
    for book in view.books().unwrap() {
        today.record.receive(&view.entries(book).unwrap()).unwrap();
    }
    today.record.projection().unwrap()
}

#[test]
fn migrations_are_frozen() {
    let frozen = ["bd300c9c6f48df2ee1cf4ae23818191b1dc5f2728e36cea1f07fa3b5a384a48d"];
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src/store/migrations");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    let now: Vec<String> = files.iter().map(|file| Hash::of(&[&std::fs::read(file).unwrap()]).to_string()).collect();
    assert_eq!(now, frozen, "a released migration is never edited: add another");
    assert_eq!(files.len(), SCHEMA as usize, "every migration is run");
}

#[test]
fn every_schema_has_a_kept_record_that_opens_and_goes_on() {
    write_if_asked();
    for schema in 1..=SCHEMA {
        let folder = TempDir::new().unwrap();
        std::fs::copy(kept(schema), folder.path().join("record.sqlite")).unwrap();
        let mut hand = open(&folder);
        let readings = hand.record.view().readings(JOB).unwrap();
        assert_eq!(readings.iter().map(|one| one.is_live()).collect::<Vec<_>>(), [false, true], "schema {schema}");
        let report = hand.record.view().check(JOB.into()).unwrap();
        assert!(report.values().all(|log| log.faults.is_empty() && log.sealed == log.entries), "schema {schema}");
        // Judgement knows nothing but these tables.
        assert_eq!(hand.record.projection().unwrap(), written_today(&hand), "schema {schema}");
        hand.append(taken(3, 100));
        assert_eq!(hand.record.view().readings(JOB).unwrap().len(), 3);
    }
}
