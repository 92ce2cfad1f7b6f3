//! Devices for the tests of this crate: those of the logbook's own tests, what they hand over, and one that forges.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, dead_code, unreachable_pub)]

#[path = "../../../logbook/tests/support/mod.rs"]
mod hand;

pub use hand::*;

use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, NotABundle, hand_over};
use provenohm_exchange::join::{Joined, take_in};
use provenohm_logbook::entry::body::{Book, LogOpened, OpenedWhy, Sealed, TesterIdentity};
use provenohm_logbook::entry::{
    Body, ENVELOPE_VERSION, Entry, EntryRef, Envelope, Fact, Hash, Lamport, LogId, MapOf, Naming, Noun, Object,
    ObjectId, Salt, Seq,
};
use provenohm_logbook::record::{By, TakeInError};
use provenohm_logbook::seal::DeviceKey;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// A device with a job, its tester and two readings.
pub fn recorder(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    recorder_facts(&mut hand);
    hand
}

pub fn recorder_facts(hand: &mut Hand) {
    hand.job();
    let (name, model, serial) = ("Tester 1".into(), "M".into(), "1".into());
    hand.append(TesterIdentity { tester: TESTER, name, model, serial, invented: None });
    hand.append(taken(1, 100));
    hand.append(taken(2, 120));
}

/// The job as this device hands it over.
pub fn handed(hand: &mut Hand) -> Vec<u8> {
    hand.minutes += 1;
    let mut random = |bytes: &mut [u8]| hand.random.fill(bytes);
    let by = By { person: hand.person, at: moment(hand.minutes), random: &mut random };
    hand_over(&mut hand.record, by, JOB, &[]).unwrap().bytes
}

/// Takes a bundle in.
pub fn receive(hand: &mut Hand, bytes: &[u8]) -> Result<Joined, TakeInError<NotABundle>> {
    let bundle = Bundle::open(bytes).map_err(TakeInError::Source)?;
    take_in(&mut hand.record, &bundle, &mut |_| ControlFlow::Continue(()))
}

/// Takes entries in that nobody packed.
pub fn receive_entries(hand: &mut Hand, entries: &[Entry]) -> Result<Joined, TakeInError<std::convert::Infallible>> {
    take_in(
        &mut hand.record,
        &BTreeMap::from([(Book::from(JOB), entries.to_vec())]),
        &mut |_| ControlFlow::Continue(()),
    )
}

/// The bytes of everything a record holds of some books.
pub fn wires(hand: &Hand) -> BTreeMap<Book, Vec<Vec<u8>>> {
    let view = hand.record.view();
    let of = |book: Book| (book, view.entries(book).unwrap().iter().map(Entry::to_wire).collect());
    view.books().unwrap().into_iter().map(of).collect()
}

/// A device that writes whatever it likes, well chained and sealed.
pub struct Forger {
    pub key: DeviceKey,
    pub log: LogId,
    pub entries: Vec<Entry>,
    pub lamport: u64,
}

impl Forger {
    /// With the first entry of a log in a book.
    pub fn new(seed: u64, book: Book) -> Self {
        let mut random = Counted::from(seed);
        let key = DeviceKey::make(&mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        let log = LogId(id(0xf000_0000 + u128::from(seed)));
        let mut forger = Self { key, log, entries: Vec::new(), lamport: 100 };
        let opened = forger.opening(book);
        forger.say(opened);
        forger
    }

    pub fn opening(&self, book: Book) -> LogOpened {
        LogOpened { book, device: DeviceId(id(0xf)), key: self.key.public(), why: OpenedWhy::First, after: None }
    }

    pub fn say(&mut self, fact: impl Into<Fact>) -> EntryRef {
        let fact = fact.into();
        self.put(fact.body.kind().number(), 1, fact.encode())
    }

    pub fn put(&mut self, kind: u64, kind_version: u64, body: Vec<u8>) -> EntryRef {
        self.lamport += 1;
        let envelope = Envelope {
            version: ENVELOPE_VERSION,
            log: self.log,
            seq: Seq(self.entries.len() as u64),
            prev: self.entries.last().map_or(Hash::NONE, Entry::hash),
            kind,
            kind_version,
            critical: false,
            lamport: Lamport(self.lamport),
            recorded: moment(0),
            person: None,
            body_hash: Hash::NONE,
        };
        let entry = Entry::new(envelope, Salt([3; 16]), body);
        let name = entry.reference();
        self.entries.push(entry);
        name
    }

    /// The seal that the next entry would hold.
    pub fn sealed(&self) -> Sealed {
        let last = self.entries.last().unwrap();
        self.key.seal(self.log, last.envelope().seq, last.hash())
    }

    pub fn seal(&mut self) -> &[Entry] {
        let sealed = self.sealed();
        self.say(Body::Seal(sealed));
        &self.entries
    }
}

/// The body of a kind of the future, about the job.
pub fn of_the_future() -> Vec<u8> {
    let mut frame = MapOf::default();
    frame.put(0, &vec![Object { noun: Noun::Job, id: ObjectId(JOB.0) }]);
    frame.put(1, &Vec::<Naming>::new());
    frame.put(2, &"a content of the future".to_owned());
    frame.finish().encode()
}
