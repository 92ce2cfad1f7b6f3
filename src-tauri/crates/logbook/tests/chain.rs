//! The chain shows what was altered, seals hold, erasure keeps both, and what is not known is kept.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_logbook::chain::{Fault, LogReport};
use provenohm_logbook::entry::body::{Note, Person, touched};
use provenohm_logbook::entry::{
    Body, Coded, ENVELOPE_VERSION, Entry, Envelope, Fact, Hash, Kind, Lamport, LogId, MapOf, Noun, Object, ObjectId,
    Salt, Seq, Value,
};
use provenohm_logbook::record::{By, Place, Record, WORKED_OUT, WriteError};
use provenohm_logbook::seal::{self, DeviceKey, LONGEST_UNSEALED};
use rusqlite::types::Value as Column;
use support::{CIRCUIT, Counted, Hand, JOB, OTHER_PERSON, PERSON, TESTER, id, moment, taken};
use tempfile::TempDir;

fn report(hand: &Hand) -> LogReport {
    let reports = hand.record.view().check(JOB.into()).unwrap();
    assert_eq!(reports.len(), 1);
    reports.into_values().next().unwrap()
}

fn seal(hand: &mut Hand) {
    hand.write(|writer| writer.seal(JOB.into())).unwrap();
}

#[test]
fn a_whole_log_has_no_faults_and_its_seal_covers_it() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(taken(1, 100));
    assert_eq!(report(&hand).sealed, 0);
    seal(&mut hand);
    let sealed = report(&hand);
    assert!(sealed.faults.is_empty());
    assert_eq!(sealed.sealed, sealed.entries);
    seal(&mut hand);
    assert_eq!(report(&hand), sealed, "sealing what is sealed adds nothing");
}

#[test]
fn a_log_is_sealed_by_itself_before_too_much_is_unsealed() {
    let mut hand = Hand::new(1);
    hand.job();
    for number in 0..600 {
        hand.append(taken(number, 100));
    }
    let report = report(&hand);
    assert!(report.faults.is_empty());
    assert!(report.entries - report.sealed < LONGEST_UNSEALED);
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let seals: Vec<u64> = entries
        .iter()
        .filter(|entry| entry.envelope().kind == Kind::Seal.number())
        .map(|entry| entry.envelope().seq.0)
        .collect();
    assert_eq!(seals, [LONGEST_UNSEALED - 1, 2 * LONGEST_UNSEALED - 1]);
}

#[test]
fn what_is_handed_over_is_sealed() {
    let mut hand = Hand::new(1);
    hand.job();
    let mut random = Counted::from(4);
    let by = By { person: PERSON, at: moment(60), random: &mut |bytes: &mut [u8]| random.fill(bytes) };
    let books = hand.record.hand_over(by, &[JOB.into(), TESTER.into()]).unwrap();
    let entries: Vec<Entry> = books.into_iter().flat_map(|book| book.entries).collect();
    assert_eq!(entries.last().unwrap().envelope().kind, Kind::Seal.number());
    assert_eq!(report(&hand).sealed, entries.len() as u64);
}

#[test]
fn a_seal_holds_for_one_key_log_place_and_head_alone() {
    let mut random = Counted::from(1);
    let mut key = || DeviceKey::make(&mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    let (key, other) = (key(), key());
    let (log, head) = (LogId(id(1)), Hash([1; 32]));
    let sealed = key.seal(log, Seq(4), head);
    assert!(seal::holds(&key.public(), log, &sealed));
    assert!(!seal::holds(&other.public(), log, &sealed));
    assert!(!seal::holds(&key.public(), LogId(id(2)), &sealed));
    assert!(!seal::holds(
        &key.public(),
        log,
        &provenohm_logbook::entry::body::Sealed { seq: Seq(5), ..sealed.clone() }
    ));
    assert!(!seal::holds(
        &key.public(),
        log,
        &provenohm_logbook::entry::body::Sealed { head: Hash([2; 32]), ..sealed }
    ));
}

/// Every column of every entry, one byte or one number at a time.
#[test]
fn every_altered_byte_is_found() {
    let folder = TempDir::new().unwrap();
    let place = Place { record: folder.path().join("record.sqlite"), device: folder.path().join("device.sqlite") };
    let mut random = Counted::from(1);
    let record = Record::open(&place, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    let mut hand = Hand { record, random, minutes: 0, person: PERSON };
    hand.record.keep_person(&Person { person: PERSON, name: "A".into(), role: String::new() }).unwrap();
    hand.append(taken(1, 100));
    seal(&mut hand);
    hand.append(taken(2, 100));
    let raw = rusqlite::Connection::open(&place.record).unwrap();
    raw.pragma_update(None, "synchronous", "off").unwrap();
    let entries: i64 = raw.query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).unwrap();
    assert!(report(&hand).faults.is_empty());
    let mut tried = 0;
    for entry in 1..=entries {
        for column in ["hash", "prev", "kind", "lamport", "recorded_ms", "envelope", "salt", "body"] {
            let read = format!("SELECT {column} FROM entry WHERE id = ?1");
            let write = format!("UPDATE entry SET {column} = ?2 WHERE id = ?1");
            let whole: Column = raw.query_row(&read, [entry], |row| row.get(0)).unwrap();
            let altered: Vec<Column> = match &whole {
                Column::Integer(number) => vec![Column::Integer(number + 1)],
                Column::Blob(bytes) => (0..bytes.len())
                    .map(|place| {
                        let mut bytes = bytes.clone();
                        bytes[place] ^= 0x40;
                        Column::Blob(bytes)
                    })
                    .collect(),
                other => panic!("{other:?}"),
            };
            for altered in altered {
                raw.execute(&write, rusqlite::params![entry, altered]).unwrap();
                assert!(!report(&hand).faults.is_empty(), "entry {entry}, {column}");
                tried += 1;
            }
            raw.execute(&write, rusqlite::params![entry, whole]).unwrap();
        }
    }
    assert!(tried > 1000);
    assert!(report(&hand).faults.is_empty());
}

#[test]
fn a_missing_entry_is_found() {
    let mut hand = Hand::new(1);
    hand.job();
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let mut other = Hand::new(2);
    let without: Vec<Entry> = entries.iter().filter(|entry| entry.envelope().seq.0 != 3).cloned().collect();
    other.record.receive(&without).unwrap();
    assert!(report(&other).faults.contains(&Fault::Gap { from: Seq(3) }));
    assert_eq!(other.record.view().heads(JOB.into()).unwrap().len(), 2);
    other.record.receive(&entries).unwrap();
    assert!(report(&other).faults.is_empty());
    assert_eq!(other.record.view().heads(JOB.into()).unwrap().len(), 1);
}

#[test]
fn an_erased_person_is_gone_and_the_chain_still_verifies() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.person = OTHER_PERSON;
    hand.append(taken(1, 100));
    hand.person = PERSON;
    let card = Person { person: OTHER_PERSON, name: "Recorder C".into(), role: String::new() };
    hand.write(|writer| writer.change_person(&card)).unwrap();
    assert!(matches!(hand.write(|writer| writer.erase_person(OTHER_PERSON, "")), Err(WriteError::NoReason)));
    hand.write(|writer| writer.erase_person(OTHER_PERSON, "asked by the person")).unwrap();
    seal(&mut hand);

    let report = report(&hand);
    assert!(report.faults.is_empty());
    assert_eq!((report.erased, report.sealed), (2, report.entries));
    let person = hand.record.view().person(OTHER_PERSON).unwrap();
    assert!(person.erased && person.card.live.is_empty() && person.local.is_none());
    let readings = hand.record.view().readings(JOB).unwrap();
    assert_eq!(readings[0].taken.by, Some(OTHER_PERSON), "what they recorded stays, under their id");
    let bytes: Vec<u8> = hand.record.view().entries(JOB.into()).unwrap().iter().flat_map(Entry::to_wire).collect();
    for name in ["Recorder B", "Recorder C"] {
        assert!(!bytes.windows(name.len()).any(|window| window == name.as_bytes()));
    }
}

#[test]
fn readings_cannot_be_erased_even_by_an_entry_that_says_so() {
    let mut hand = Hand::new(1);
    hand.job();
    let reading = hand.append(taken(1, 100));
    let of = Object { noun: Noun::Job, id: ObjectId(JOB.0) };
    let erasure = Fact::naming(
        provenohm_logbook::entry::body::Erasure { about: vec![of] },
        provenohm_logbook::entry::Role::Erases,
        [reading],
    )
    .because("hostile");
    let refused = hand.write(|writer| writer.append_in(JOB.into(), erasure.clone()));
    assert!(matches!(refused, Err(WriteError::NotThat(_))));
    hand.record.receive(&[foreign(Kind::Erasure.number(), 1, erasure.encode())]).unwrap();
    assert!(hand.record.view().readings(JOB).unwrap()[0].is_live());
}

#[test]
fn an_entry_acts_only_on_what_it_can_have_known() {
    let mut hand = Hand::new(1);
    hand.job();
    let reading = hand.append(taken(1, 100));
    let about = vec![Object { noun: Noun::Job, id: ObjectId(JOB.0) }];
    let body = Fact::naming(
        provenohm_logbook::entry::body::Withdrawal { about },
        provenohm_logbook::entry::Role::Withdraws,
        [reading],
    )
    .encode();
    let lower = foreign_at(2, Kind::Withdrawal.number(), 1, body.clone());
    hand.record.receive(&[lower]).unwrap();
    assert!(hand.record.view().readings(JOB).unwrap()[0].is_live(), "a counter lower than the reading's");
    hand.record.receive(&[foreign(Kind::Withdrawal.number(), 1, body)]).unwrap();
    assert!(!hand.record.view().readings(JOB).unwrap()[0].is_live());
}

/// An entry of a log of another device.
fn foreign(kind: u64, kind_version: u64, body: Vec<u8>) -> Entry {
    foreign_at(1000, kind, kind_version, body)
}

fn foreign_at(lamport: u64, kind: u64, kind_version: u64, body: Vec<u8>) -> Entry {
    let envelope = Envelope {
        version: ENVELOPE_VERSION,
        log: LogId(id(0x77)),
        seq: Seq(5),
        prev: Hash([1; 32]),
        kind,
        kind_version,
        critical: true,
        lamport: Lamport(lamport),
        recorded: moment(0),
        person: None,
        body_hash: Hash::NONE,
    };
    Entry::new(envelope, Salt([2; 16]), body)
}

#[test]
fn what_a_newer_version_wrote_is_kept_counted_and_forwarded_untouched() {
    let mut hand = Hand::new(1);
    hand.job();
    let circuit = Object { noun: Noun::Circuit, id: ObjectId(CIRCUIT.0) };
    let mut frame = MapOf::default();
    frame.put(0, &vec![circuit]);
    frame.put(1, &Vec::<provenohm_logbook::entry::Naming>::new());
    frame.put(2, &"a content of the future".to_owned());
    let body = frame.finish().encode();
    assert_eq!(touched(&body).0, [circuit]);
    let newer = foreign(4711, 3, body);
    hand.record.receive(std::slice::from_ref(&newer)).unwrap();
    let view = hand.record.view();
    let unreadable = view.unreadable().unwrap();
    assert_eq!((unreadable[0].kind, unreadable[0].count), (4711, 1));
    assert_eq!(view.circuits(JOB).unwrap()[0].needs_newer, Some(true));
    assert_eq!(view.job(JOB).unwrap().needs_newer, None);
    let log = newer.envelope().log;
    assert_eq!(view.entries_of(log).unwrap(), [newer], "byte for byte");
}

#[test]
fn what_bears_on_a_job_or_a_reading_beyond_this_version_is_named() {
    let mut hand = Hand::new(1);
    hand.job();
    let job = Object { noun: Noun::Job, id: ObjectId(JOB.0) };
    let reading = Object { noun: Noun::Reading, id: ObjectId(id(0x1_0001)) };
    let of_the_future = |about: Vec<Object>| {
        let mut frame = MapOf::default();
        frame.put(0, &about);
        frame.put(1, &Vec::<provenohm_logbook::entry::Naming>::new());
        frame.put(2, &"a content of the future".to_owned());
        frame.finish().encode()
    };
    hand.record.receive(&[foreign(4711, 3, of_the_future(vec![job, reading]))]).unwrap();
    let beyond = hand.record.view().beyond(JOB).unwrap();
    assert!(!beyond.job, "it is about one reading");
    assert_eq!(beyond.readings.into_iter().map(|it| it.0).collect::<Vec<_>>(), [id(0x1_0001)]);
    let mut hand = Hand::new(2);
    hand.job();
    hand.record.receive(&[foreign(4711, 3, of_the_future(vec![job]))]).unwrap();
    assert!(hand.record.view().beyond(JOB).unwrap().job);
}

#[test]
fn a_known_kind_with_an_unknown_key_is_kept_and_does_not_act() {
    let mut hand = Hand::new(1);
    hand.job();
    let of = Object { noun: Noun::Job, id: ObjectId(JOB.0) };
    let note = Note { note: provenohm_assess::ids::NoteId(id(9)), of, text: "damp".into(), person: None, at: None };
    let Value::Map(mut frame) = Value::decode(&Fact::from(Body::from(note)).encode()).unwrap() else { panic!() };
    frame.push((7, "of the future".to_owned().to_value()));
    hand.record.receive(&[foreign(Kind::Note.number(), 1, Value::Map(frame).encode())]).unwrap();
    assert!(hand.record.view().notes(of).unwrap().is_empty());
    assert_eq!(hand.record.view().unreadable().unwrap()[0].kind, Kind::Note.number());
}

#[test]
fn a_book_removed_from_the_device_goes_on_in_a_new_log_when_it_returns() {
    let mut hand = Hand::new(1);
    hand.job();
    let before = hand.append(taken(1, 100));
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let counted = format!("{WORKED_OUT}tallies");
    hand.record.choose(&counted, Some("one job")).unwrap();
    hand.record.choose("theme", Some("sun")).unwrap();
    hand.record.forget(JOB.into()).unwrap();
    assert_eq!(hand.record.choice(&counted).unwrap(), None, "it speaks of what is gone");
    assert_eq!(hand.record.choice("theme").unwrap().as_deref(), Some("sun"));
    assert!(hand.record.view().jobs().unwrap().is_empty());
    assert!(hand.record.view().books().unwrap().is_empty());
    hand.record.receive(&entries).unwrap();
    assert_eq!(hand.record.view().readings(JOB).unwrap().len(), 1);
    let after = hand.append(taken(2, 100));
    assert_ne!(after.log, before.log);
    assert!(hand.record.view().check(JOB.into()).unwrap().values().all(|log| log.faults.is_empty()));
}
