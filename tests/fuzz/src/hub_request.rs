//! What devices ask a hub, and what a hub answers them: read or refused, the same when written again, answered, and nothing is
//! kept that was not judged.
use std::collections::BTreeMap;

use chrono::DateTime;
use provenohm_assess::ids::{PersonId, TesterId};
use provenohm_exchange::bundle::Bundle;
use provenohm_exchange::hub::{
    Cursor, Desk, Epoch, JobsThere, Lacks, Page, Pull, Scope, SqliteStore, Store, Tell, Want, lacks, page, read,
    receive, take, written,
};
use provenohm_logbook::entry::Coded;
use provenohm_logbook::entry::body::{Person, TesterIdentity};
use provenohm_logbook::record::{By, Record};
use uuid::Uuid;

const EPOCH: Epoch = Epoch(Uuid::from_u128(0xe));
const PERSON: PersonId = PersonId(Uuid::from_u128(1));

/// The first byte chooses what it is.
pub(crate) fn holds(bytes: &[u8]) {
    let Some((choice, bytes)) = bytes.split_first() else { return };
    match choice % 6 {
        0 => asked(bytes, |tell: &Tell| {
            let (mut hub, mut store) = (hub(), store());
            fill(&mut hub, &mut store);
            answered(lacks(&mut store, tell).ok());
        }),
        1 => asked(bytes, |pull: &Pull| {
            let (mut hub, mut store) = (hub(), store());
            fill(&mut hub, &mut store);
            answered(page(&mut store, pull).ok());
        }),
        2 => sent(bytes),
        3 => asked(bytes, |page: &Page| told(page)),
        4 => asked(bytes, |_: &Lacks| {}),
        _ => asked(bytes, |_: &JobsThere| {}),
    }
}

/// Reads a message, which is the same when it is written again.
fn asked<T: Coded + PartialEq>(bytes: &[u8], then: impl FnOnce(&T)) {
    let Ok(message) = read::<T>(bytes) else { return };
    assert!(read::<T>(&written(&message)).is_ok_and(|again| again == message), "it is another one when read again");
    then(&message);
}

fn answered<T: Coded + PartialEq>(answer: Option<T>) {
    let Some(answer) = answer else { panic!("a hub in order does not answer") };
    assert!(read::<T>(&written(&answer)).is_ok_and(|again| again == answer), "its answer cannot be read");
}

/// Sent to a hub: all of it is kept, in record and store, or nothing.
fn sent(bytes: &[u8]) {
    let Ok(bundle) = Bundle::open(bytes) else { return };
    let (mut hub, mut store) = (hub(), store());
    let taken = receive(&mut hub, &mut store, &bundle);
    let Ok(whole) = store.whole() else { panic!("the store cannot be read") };
    assert_eq!(taken.is_ok() && !bundle.manifest().books.is_empty(), whole.entries > 0);
    let mut books = BTreeMap::new();
    if let Ok(parcels) = store.parcels(Scope::All, 0, u64::MAX) {
        for parcel in parcels {
            books.entry(parcel.book).or_insert_with(Vec::new).extend(parcel.entries);
        }
    }
    for (book, mut kept) in books {
        let Ok(mut here) = hub.0.view().entries(book) else { panic!("the record cannot be read") };
        kept.sort_by_key(provenohm_logbook::entry::Entry::hash);
        here.sort_by_key(provenohm_logbook::entry::Entry::hash);
        assert_eq!(kept, here, "record and store are not the same");
    }
}

/// Told by whoever says to be the hub: a device takes what it asked for, or nothing.
fn told(page: &Page) {
    let Desktop(mut device) = hub();
    let wants = vec![Want { scope: Scope::Register, from: Cursor::default() }];
    let asked = Pull { epoch: None, wants, most: 1 << 20 };
    if take(&mut device, &asked, page).is_err() {
        assert!(device.view().books().is_ok_and(|books| books.is_empty()), "nothing of it is here");
    }
    let Ok(books) = device.view().books() else { panic!("the record cannot be read") };
    assert!(books.into_iter().all(|book| Scope::Register.holds(book)), "it was not asked for");
}

struct Desktop(Record);

impl Desk for Desktop {
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
        let mut random = counting();
        let at = DateTime::UNIX_EPOCH.fixed_offset() + chrono::Duration::days(25_000);
        step(&mut self.0, By { person: PERSON, at, random: &mut random })
    }
}

fn counting() -> impl FnMut(&mut [u8]) -> Result<(), provenohm_logbook::random::NoRandomness> {
    let mut count = 0_u8;
    move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(5).wrapping_add(113);
            *byte = count;
        }
        Ok(())
    }
}

fn hub() -> Desktop {
    match Record::in_memory(&mut counting()) {
        Ok(record) => Desktop(record),
        Err(error) => panic!("the record does not open: {error}"),
    }
}

fn store() -> SqliteStore {
    match SqliteStore::in_memory(EPOCH) {
        Ok(store) => store,
        Err(error) => panic!("the store does not open: {error}"),
    }
}

/// A tester that the hub knows.
fn fill(hub: &mut Desktop, store: &mut SqliteStore) {
    let tester = TesterId(Uuid::from_u128(2));
    let (name, model, serial) = ("Tester 1".to_owned(), "M".to_owned(), "1".to_owned());
    let identity = TesterIdentity { tester, name, model, serial, invented: Some(true) };
    let card = Person { person: PERSON, name: "A. Recorder".to_owned(), role: String::new() };
    let wrote = hub.with(|record, by| {
        record.keep_person(&card).is_ok() && record.write(by, |writer| writer.append(identity).map(drop)).is_ok()
    });
    assert!(wrote && provenohm_exchange::hub::keep_in_step(hub, store).is_ok(), "the hub cannot be filled");
}
