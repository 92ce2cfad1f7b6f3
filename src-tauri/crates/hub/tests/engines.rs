//! Two engines for what a hub keeps, SQLite and a real PostgreSQL server: one story for both, and carrying one into the other.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod postgres;
#[path = "../../exchange/tests/support/mod.rs"]
mod support;

use postgres::Postgres;
use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::hub::{
    Cursor, Desk, Epoch, Erased, JobsThere, Lacks, Line, NoAnswer, NotCarried, Page, Pull, Scope, SqliteStore, Store,
    StoreError, Tell, carry, jobs_there, lacks, page, receive, sync,
};
use provenohm_hub::{CONNECTIONS, Hub, NotKept, Options, PostgresStore, back_up, move_to, restore};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef, Lamport};
use provenohm_logbook::record::{By, Record};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use support::{Forger, Hand, JOB, TESTER, id, moment, recorder, taken, wires};
use tokio::runtime::Runtime;

struct Engine {
    runtime: Runtime,
    server: Postgres,
}

impl Engine {
    fn start() -> Self {
        Self { runtime: Runtime::new().unwrap(), server: Postgres::start() }
    }

    fn store(&self) -> PostgresStore {
        PostgresStore::open(&self.server.url, epoch(), self.runtime.handle().clone()).unwrap()
    }
}

fn epoch() -> Epoch {
    Epoch(id(0xe))
}

fn sqlite() -> SqliteStore {
    SqliteStore::in_memory(epoch()).unwrap()
}

struct At<'h>(&'h mut Hand);

impl Desk for At<'_> {
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
        let Hand { record, random, person, minutes } = &mut *self.0;
        *minutes += 1;
        let mut random = |bytes: &mut [u8]| random.fill(bytes);
        step(record, By { person: *person, at: moment(*minutes), random: &mut random })
    }
}

/// An instance of a hub over a store.
struct Instance<'s>(Hand, &'s mut dyn Store);

impl Line for Instance<'_> {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        Ok(lacks(self.1, tell)?)
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        let bytes = write(None, *piece.keys().next().unwrap(), piece).unwrap();
        receive(&mut At(&mut self.0), self.1, &Bundle::open(&bytes).unwrap()).unwrap();
        Ok(())
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        Ok(page(self.1, pull)?)
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        Ok(jobs_there(&mut At(&mut self.0)).unwrap())
    }
}

/// What both engines must do alike: two devices in step over an instance, then over another one on the same store.
fn story(store: &mut dyn Store) -> Vec<String> {
    let scopes = [Scope::Register, Scope::Job(JOB)];
    let (mut one, mut two) = (recorder(1), Hand::new(2));
    let mut first = Instance(Hand::new(3), store);
    sync(&mut At(&mut one), &mut first, &scopes).unwrap();
    sync(&mut At(&mut two), &mut first, &scopes).unwrap();
    two.append(taken(3, 130));
    sync(&mut At(&mut two), &mut first, &scopes).unwrap();
    // The first instance is gone, with its record.
    let mut second = Instance(Hand::new(4), first.1);
    sync(&mut At(&mut one), &mut second, &scopes).unwrap();
    assert_eq!(wires(&one), wires(&two));
    assert_eq!(second.jobs().unwrap().jobs.len(), 0, "nothing was sent over it yet");
    one.append(taken(4, 140));
    sync(&mut At(&mut one), &mut second, &scopes).unwrap();
    assert_eq!(wires(&second.0), wires(&one), "its record is made anew from the store");
    let store = second.1;
    let all = store.parcels(Scope::All, 0, u64::MAX).unwrap();
    let (epoch, end) = store.end().unwrap();
    assert_eq!(all.last().unwrap().cursor, end);
    let twice = BTreeMap::from([(all[0].book, all[0].entries.clone())]);
    assert_eq!(store.append(&twice).unwrap(), 0, "what is here is not kept twice");
    assert_eq!(store.end().unwrap().1, end);
    let mut told = vec![format!("{epoch:?} {end:?} {:?}", store.whole().unwrap())];
    for scope in [Scope::All, Scope::Register, Scope::Job(JOB)] {
        for after in 0..=end.at {
            for most in [1, 2_000, u64::MAX] {
                told.push(format!("{:?}", store.parcels(scope, after, most).unwrap()));
            }
        }
    }
    let entry = &all[0].entries[1];
    let (log, seq, hash) = (entry.envelope().log, entry.envelope().seq, entry.hash());
    assert!(store.holds(log, seq, hash).unwrap());
    assert!(!store.holds(log, seq, all[0].entries[0].hash()).unwrap());
    assert!(store.knows(Cursor::default()).unwrap() && store.knows(end).unwrap());
    assert!(!store.knows(Cursor { at: end.at + 1, ..end }).unwrap());
    assert!(!store.knows(Cursor { at: end.at, mark: [1; 32] }).unwrap());
    told.push(format!("{:?}", store.heads(&[log]).unwrap()));
    // Only personal data from before the erasure is dropped, whoever asks.
    let entries: Vec<&Entry> = all.iter().flat_map(|parcel| &parcel.entries).collect();
    let everything = |by: u64| {
        let erased = |entry: &&Entry| Erased { entry: EntryRef { ..entry.reference() }, by: Lamport(by) };
        entries.iter().map(erased).collect::<Vec<_>>()
    };
    store.drop_bodies(&everything(0)).unwrap();
    let bare = |store: &mut dyn Store| {
        let parcels = store.parcels(Scope::All, 0, u64::MAX).unwrap();
        parcels.iter().flat_map(|one| &one.entries).filter(|entry| entry.body().is_none()).count()
    };
    assert_eq!(bare(store), 0);
    store.drop_bodies(&everything(1 << 50)).unwrap();
    told.push(format!("{} of {} are bare", bare(store), entries.len()));
    assert!(bare(store) > 0 && bare(store) < entries.len());
    told
}

#[test]
fn both_engines_tell_one_story() {
    let engine = Engine::start();
    let (here, there) = (story(&mut sqlite()), story(&mut engine.store()));
    assert_eq!(here.len(), there.len());
    for (here, there) in here.iter().zip(&there) {
        assert_eq!(here, there);
    }
}

#[test]
fn instances_that_write_at_once_lose_and_double_nothing() {
    let engine = Engine::start();
    engine.store();
    let logs: Vec<Vec<Entry>> = (0..40)
        .map(|nth| {
            let mut forger = Forger::new(nth, if nth % 2 == 0 { JOB.into() } else { TESTER.into() });
            forger.seal().to_vec()
        })
        .collect();
    std::thread::scope(|threads| {
        for at in 0..4 {
            let (mut store, logs) = (engine.store(), &logs);
            // Each log is brought by two of them.
            threads.spawn(move || {
                for (nth, log) in logs.iter().enumerate().filter(|(nth, _)| nth % 4 == at || (nth + 1) % 4 == at) {
                    let book = if nth % 2 == 0 { JOB.into() } else { TESTER.into() };
                    store.append(&BTreeMap::from([(book, log.clone())])).unwrap();
                }
            });
        }
    });
    let mut store = engine.store();
    let parcels = store.parcels(Scope::All, 0, u64::MAX).unwrap();
    let places: Vec<u64> = parcels.iter().map(|parcel| parcel.cursor.at).collect();
    assert_eq!(places, (1..=40).collect::<Vec<_>>(), "one place for each, without a gap");
    let mut cursor = Cursor::default();
    for parcel in &parcels {
        cursor = cursor.after(parcel.entries.iter().map(Entry::hash));
        assert_eq!(parcel.cursor, cursor);
    }
    assert_eq!(store.whole().unwrap().entries, logs.iter().map(|log| log.len() as u64).sum::<u64>());
}

#[test]
fn a_store_is_carried_into_the_other_engine_stopped_anywhere_and_back() {
    let engine = Engine::start();
    let mut from = sqlite();
    story(&mut from);
    for nth in 0..30 {
        let mut forger = Forger::new(100 + nth, TESTER.into());
        from.append(&BTreeMap::from([(TESTER.into(), forger.seal().to_vec())])).unwrap();
    }
    let mut to = engine.store();
    // Stopped by a store that breaks off after so many entries, each time a little later.
    let all = from.end().unwrap().1.at;
    for at in 1..=all {
        let piece = from.parcels(Scope::All, at - 1, 1).unwrap().remove(0);
        to.append(&BTreeMap::from([(piece.book, piece.entries)])).unwrap();
        if at % 7 == 0 {
            let mut stop = |_| ControlFlow::Break(());
            assert!(matches!(carry(&mut from, &mut to, &mut stop), Err(NotCarried::Stopped)) || at == all);
            break;
        }
    }
    let mut on = |_| ControlFlow::Continue(());
    let carried = carry(&mut from, &mut to, &mut on).unwrap();
    assert_eq!(carried.entries, from.whole().unwrap().entries);
    assert_eq!((from.end().unwrap(), from.whole().unwrap()), (to.end().unwrap(), to.whole().unwrap()));
    assert_eq!(carry(&mut from, &mut to, &mut on).unwrap(), carried, "again changes nothing");
    // The old one takes nothing more, and the new one goes on.
    from.close().unwrap();
    let mut forger = Forger::new(900, JOB.into());
    let more = BTreeMap::from([(JOB.into(), forger.seal().to_vec())]);
    assert!(matches!(from.append(&more), Err(StoreError::Closed)));
    assert_eq!(to.append(&more).unwrap(), 2);
    // Back into an empty one, as a backup; and not over what is something else.
    let mut back = sqlite();
    carry(&mut to, &mut back, &mut on).unwrap();
    assert_eq!(back.whole().unwrap(), to.whole().unwrap());
    let mut other = sqlite();
    other.append(&more).unwrap();
    assert!(matches!(carry(&mut to, &mut other, &mut on), Err(NotCarried::Other)));
}

/// An account more, and one who is logged in, as the first versions had them; the hub brings the file up.
fn accounts(folder: &std::path::Path, name: &str) {
    let options = Options {
        record: folder.to_owned(),
        listen: "127.0.0.1:0".parse().unwrap(),
        certificate: None,
        names: Vec::new(),
        store: None,
        connections: CONNECTIONS,
    };
    Runtime::new().unwrap().block_on(Hub::bind(&options)).map(drop).unwrap();
    let file = rusqlite::Connection::open(folder.join("office.sqlite")).unwrap();
    let person = name.as_bytes();
    let add = "INSERT INTO account (person, name, role, hash) VALUES (?1, ?2, 'office', 'its hash')";
    file.execute(add, rusqlite::params![person, name]).unwrap();
    let session = "INSERT INTO session (cookie, person, of, heard) VALUES (?1, ?1, ?1, 0)";
    file.execute(session, [person]).unwrap();
}

#[test]
fn a_hub_is_backed_up_while_it_runs_brought_back_in_a_new_life_and_moved() {
    let (folder, backup, back) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    assert!(matches!(back_up(folder.path(), backup.path()), Err(NotKept::NoHub(_))));
    let mut running = SqliteStore::open(&folder.path().join("entries.sqlite"), epoch()).unwrap();
    story(&mut running);
    accounts(folder.path(), "A. Office");
    let first = back_up(folder.path(), backup.path()).unwrap();
    assert_eq!(first.entries, running.whole().unwrap().entries);
    // Later the same backup is brought up to date, with the accounts as they are then.
    let mut forger = Forger::new(1, TESTER.into());
    running.append(&BTreeMap::from([(TESTER.into(), forger.seal().to_vec())])).unwrap();
    accounts(folder.path(), "B. Office");
    assert_eq!(back_up(folder.path(), backup.path()).unwrap().entries, first.entries + 2);
    // Another hub leaves that backup alone, its accounts too.
    let stranger = tempfile::tempdir().unwrap();
    accounts(stranger.path(), "C. Office");
    let kept = std::fs::read(backup.path().join("office.sqlite")).unwrap();
    let refused = back_up(stranger.path(), backup.path());
    assert!(matches!(refused, Err(NotKept::NotCarried(NotCarried::Other))), "{refused:?}");
    assert_eq!(std::fs::read(backup.path().join("office.sqlite")).unwrap(), kept);
    let brought = restore(backup.path(), back.path()).unwrap();
    assert_eq!(brought.entries, first.entries + 2);
    assert!(matches!(restore(backup.path(), back.path()), Err(NotKept::Occupied(_))));
    let mut other = SqliteStore::open(&back.path().join("entries.sqlite"), epoch()).unwrap();
    assert_eq!(other.whole().unwrap(), running.whole().unwrap());
    assert_ne!(other.end().unwrap().0, epoch(), "devices compare what they have with it");
    let known = rusqlite::Connection::open(back.path().join("office.sqlite")).unwrap();
    let names: i64 = known.query_row("SELECT count(*) FROM account", [], |row| row.get(0)).unwrap();
    let sessions: i64 = known.query_row("SELECT count(*) FROM session", [], |row| row.get(0)).unwrap();
    assert_eq!((names, sessions), (2, 0), "whoever was logged in then is not now");
    // Moved: the same life and content there, and the old store takes nothing more.
    let engine = Engine::start();
    let moved = move_to(folder.path(), &engine.server.url, engine.runtime.handle().clone()).unwrap();
    assert_eq!(moved, move_to(folder.path(), &engine.server.url, engine.runtime.handle().clone()).unwrap());
    let mut there = engine.store();
    assert_eq!((there.end().unwrap(), there.whole().unwrap()), (running.end().unwrap(), running.whole().unwrap()));
    let mut forger = Forger::new(2, TESTER.into());
    let more = BTreeMap::from([(TESTER.into(), forger.seal().to_vec())]);
    assert!(matches!(running.append(&more), Err(StoreError::Closed)));
    assert_eq!(there.append(&more).unwrap(), 2);
}
