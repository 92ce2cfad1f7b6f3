//! A hub and its devices, without a network: what is sent and taken, page by page, whatever was there before.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::{DeviceId, JobId};
use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::hub::{
    Cursor, Desk, Epoch, JobsThere, Lacks, Line, NoAnswer, Page, Parted, Pull, Scope, SqliteStore, Store, Synced, Tell,
    Want, jobs_there, judge, lacks, page, part, receive, sync,
};
use provenohm_logbook::entry::body::{Book, LogOpened};
use provenohm_logbook::entry::{Entry, LogId};
use provenohm_logbook::record::{By, Record};
use std::collections::{BTreeMap, BTreeSet};
use support::{Forger, Hand, JOB, TESTER, id, moment, recorder, taken, wires};

const EPOCH: Epoch = Epoch(id_of(0xe));

const fn id_of(number: u128) -> uuid::Uuid {
    uuid::Uuid::from_u128(number)
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

struct Hub {
    hand: Hand,
    store: SqliteStore,
    /// What was asked so far, by name.
    asked: Vec<&'static str>,
}

impl Hub {
    fn new(seed: u64) -> Self {
        Self { hand: Hand::new(seed), store: SqliteStore::in_memory(EPOCH).unwrap(), asked: Vec::new() }
    }

    fn entries(&mut self) -> usize {
        self.store.parcels(Scope::All, 0, u64::MAX).unwrap().iter().map(|parcel| parcel.entries.len()).sum()
    }
}

impl Line for Hub {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        self.asked.push("tell");
        Ok(lacks(&mut self.store, tell)?)
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        self.asked.push("send");
        let bytes = write(None, *piece.keys().next().unwrap(), piece).unwrap();
        let bundle = Bundle::open(&bytes).unwrap();
        receive(&mut At(&mut self.hand), &mut self.store, &bundle).unwrap();
        Ok(())
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        self.asked.push("pull");
        Ok(page(&mut self.store, pull)?)
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        Ok(jobs_there(&mut At(&mut self.hand)).unwrap())
    }
}

fn in_step(hand: &mut Hand, hub: &mut Hub) -> Synced {
    sync(&mut At(hand), hub, &[Scope::Register, Scope::Job(JOB)]).unwrap()
}

#[test]
fn two_devices_and_the_hub_hold_the_same_after_each_was_in_step() {
    let (mut one, mut two, mut hub) = (recorder(1), Hand::new(2), Hub::new(3));
    let sent = in_step(&mut one, &mut hub).sent;
    assert_eq!(sent as usize, hub.entries());
    let came = in_step(&mut two, &mut hub).came;
    assert_eq!((came.came, came.adds_up()), (sent, true));
    assert_eq!(wires(&two), wires(&one));
    two.append(taken(3, 130));
    in_step(&mut two, &mut hub);
    in_step(&mut one, &mut hub);
    assert_eq!(wires(&two), wires(&one));
    assert_eq!(wires(&hub.hand), wires(&one), "its own record is made of the same");
    assert_eq!(one.record.projection().unwrap(), two.record.projection().unwrap());
}

#[test]
fn who_has_nothing_new_asks_twice_and_sends_nothing() {
    let (mut one, mut hub) = (recorder(1), Hub::new(3));
    in_step(&mut one, &mut hub);
    hub.asked.clear();
    assert_eq!(in_step(&mut one, &mut hub), Synced::default());
    assert_eq!(hub.asked, ["tell", "pull"]);
}

#[test]
fn testers_go_to_everybody_and_a_job_to_whoever_asks_for_it() {
    let (mut one, mut two, mut hub) = (recorder(1), Hand::new(2), Hub::new(3));
    in_step(&mut one, &mut hub);
    sync(&mut At(&mut two), &mut hub, &[Scope::Register]).unwrap();
    assert_eq!(two.record.view().books().unwrap(), BTreeSet::from([TESTER.into()]));
    // Later it wants the job too, and has all of it although its other cursor is further on.
    in_step(&mut two, &mut hub);
    assert_eq!(wires(&two), wires(&one));
}

#[test]
fn a_hub_that_lost_its_disk_or_was_set_back_is_refilled_by_its_devices() {
    let (mut one, mut hub) = (recorder(1), Hub::new(3));
    in_step(&mut one, &mut hub);
    let all = hub.entries();
    // A new disk: another life.
    hub.store = SqliteStore::in_memory(Epoch(id(0xf))).unwrap();
    hub.hand = Hand::new(4);
    in_step(&mut one, &mut hub);
    assert_eq!(hub.entries(), all);
    assert_eq!(wires(&hub.hand), wires(&one));

    // Set back without knowing: the same life, and something else came since.
    let mut back = Hub::new(5);
    let (mut two, mut three) = (recorder(6), recorder(7));
    in_step(&mut two, &mut back);
    two.append(taken(8, 130));
    in_step(&mut two, &mut back);
    let mut old = Hub::new(8);
    in_step(&mut three, &mut old);
    in_step(&mut two, &mut old);
    in_step(&mut three, &mut old);
    assert_eq!(wires(&two), wires(&three));
    assert_eq!(wires(&old.hand), wires(&two));
}

/// A hub that says something else than what it has.
struct Lies(Hub, fn(Page) -> Page);

impl Line for Lies {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        self.0.tell(tell)
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        self.0.send(piece)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        assert!(self.0.asked.len() < 50, "it is asked for ever");
        self.0.pull(pull).map(self.1)
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.0.jobs()
    }
}

#[test]
fn a_hub_that_lies_makes_a_device_take_nothing() {
    fn packed(entries: &[Entry], job: JobId) -> Option<provenohm_logbook::entry::Bytes> {
        let books = BTreeMap::from([(job.into(), entries.to_vec())]);
        Some(provenohm_logbook::entry::Bytes(write(None, job.into(), &books).unwrap()))
    }
    let lies: [fn(Page) -> Page; 4] = [
        // What no seal covers.
        |page| Page { bundle: packed(&Forger::new(9, JOB.into()).entries, JOB), ..page },
        // A job nobody asked for.
        |page| Page { bundle: packed(Forger::new(9, JobId(id(0x99)).into()).seal(), JobId(id(0x99))), ..page },
        // No bundle at all.
        |page| Page { bundle: Some(provenohm_logbook::entry::Bytes(vec![7; 40])), ..page },
        // Each time another life.
        |page| Page { upto: None, bundle: None, ..page },
    ];
    for lie in lies {
        let (mut one, mut hub) = (recorder(1), Hub::new(3));
        in_step(&mut one, &mut hub);
        let before = wires(&one);
        let mut liar = Lies(hub, lie);
        sync(&mut At(&mut one), &mut liar, &[Scope::Register, Scope::Job(JOB)]).unwrap_err();
        assert_eq!(wires(&one), before);
        // The truth is taken afterwards.
        let mut hub = liar.0;
        let mut two = recorder(2);
        two.append(taken(5, 130));
        in_step(&mut two, &mut hub);
        in_step(&mut one, &mut hub);
        assert_eq!(wires(&one), wires(&hub.hand));
    }
}

#[test]
fn a_hub_that_says_more_for_ever_is_not_asked_for_ever() {
    let (mut one, hub) = (recorder(1), Hub::new(3));
    let mut liar = Lies(hub, |page| Page { more: true, ..page });
    sync(&mut At(&mut one), &mut liar, &[Scope::Register, Scope::Job(JOB)]).unwrap();
}

#[test]
fn what_a_hub_hid_comes_once_what_builds_on_it_is_not_taken() {
    let (mut one, mut two, mut hub) = (recorder(1), Hand::new(2), Hub::new(3));
    in_step(&mut one, &mut hub);
    in_step(&mut two, &mut hub);
    two.append(taken(3, 130));
    in_step(&mut two, &mut hub);
    let mut liar = Lies(hub, |page| Page { bundle: None, ..page });
    let scopes = [Scope::Register, Scope::Job(JOB)];
    sync(&mut At(&mut one), &mut liar, &scopes).unwrap();
    let mut hub = liar.0;
    two.append(taken(4, 140));
    in_step(&mut two, &mut hub);
    let before = wires(&one);
    let refused = sync(&mut At(&mut one), &mut hub, &scopes);
    assert!(matches!(refused, Err(NoAnswer::NotTaken(_))), "the beginning of a log is missing");
    assert_eq!(wires(&one), before);
    in_step(&mut one, &mut hub);
    assert_eq!(wires(&one), wires(&two));
}

/// What was sent is behind no cursor before a page came: until then it counts as not told.
#[test]
fn a_hub_that_is_set_back_before_its_first_page_came_gets_all_again() {
    struct Breaks<'h>(&'h mut Hub);
    impl Line for Breaks<'_> {
        fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
            self.0.tell(tell)
        }

        fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
            self.0.send(piece)
        }

        fn pull(&mut self, _: &Pull) -> Result<Page, NoAnswer> {
            Err(NoAnswer::NotReached)
        }

        fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
            self.0.jobs()
        }
    }
    let (mut one, mut hub) = (recorder(1), Hub::new(3));
    let scopes = [Scope::Register, Scope::Job(JOB)];
    sync(&mut At(&mut one), &mut Breaks(&mut hub), &scopes).unwrap_err();
    let all = hub.entries();
    let mut back = Hub::new(4);
    in_step(&mut one, &mut back);
    assert!(all > 0);
    assert_eq!(back.entries(), all);
    assert_eq!(wires(&back.hand), wires(&one));
}

/// While a device waits for its hub, its record is set aside and a new one stands in its place: what that one lacks comes, and
/// what it records is told.
#[test]
fn a_record_put_in_the_place_of_the_one_that_asked_is_brought_in_step_too() {
    struct Swaps<'s>(&'s mut Hub, &'s mut Option<Hand>, &'s std::cell::RefCell<Hand>, &'static str);
    impl Swaps<'_> {
        fn swap(&mut self, at: &str) {
            if at == self.3
                && let Some(new) = self.1.take()
            {
                *self.2.borrow_mut() = new;
            }
        }
    }
    struct Shared<'s>(&'s std::cell::RefCell<Hand>);
    impl Desk for Shared<'_> {
        fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
            At(&mut self.0.borrow_mut()).with(step)
        }
    }
    impl Line for Swaps<'_> {
        fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
            let told = self.0.tell(tell);
            self.swap("tell");
            told
        }
        fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
            self.0.send(piece)
        }
        fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
            let page = self.0.pull(pull);
            self.swap("pull");
            page
        }
        fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
            self.0.jobs()
        }
    }
    for at in ["tell", "pull"] {
        let (mut one, mut hub) = (recorder(1), Hub::new(3));
        for nth in 2..9 {
            one.append(taken(nth, 130));
        }
        in_step(&mut one, &mut hub);
        one.append(taken(9, 130));
        let (device, mut new) = (std::cell::RefCell::new(one), Some(recorder(20)));
        let scopes = [Scope::Register, Scope::Job(JOB)];
        let mut line = Swaps(&mut hub, &mut new, &device, at);
        sync(&mut Shared(&device), &mut line, &scopes).unwrap();
        let mut two = Hand::new(7);
        in_step(&mut two, &mut hub);
        assert_eq!(wires(&device.borrow()), wires(&two), "swapped after {at}");
    }
}

/// For every number of parcels, every point a device is at, every page size and every scope: page after page brings what
/// comes behind that point, once, in its order.
#[test]
fn the_pager_gives_everything_once_from_any_point_in_pages_of_any_size() {
    for parcels in 0..=20 {
        let mut store = SqliteStore::in_memory(EPOCH).unwrap();
        let mut cursors = vec![Cursor::default()];
        for nth in 0..parcels {
            let book: Book = if nth % 3 == 0 { TESTER.into() } else { JobId(id(1 + nth % 2)).into() };
            let mut forger = Forger::new(nth as u64, book);
            store.append(&BTreeMap::from([(book, forger.seal().to_vec())])).unwrap();
            cursors.push(store.end().unwrap().1);
        }
        let all = store.parcels(Scope::All, 0, u64::MAX).unwrap();
        assert_eq!(all.len(), parcels as usize);
        let size = all.first().map_or(1, |one| one.entries.iter().map(|it| it.to_wire().len() as u64).sum());
        for have in 0..=parcels as usize {
            for page_size in 1..=20 {
                let wants = [Scope::Register, Scope::Job(JobId(id(1))), Scope::Job(JobId(id(2)))];
                let mut pull = Pull {
                    epoch: Some(EPOCH),
                    wants: wants.iter().map(|scope| Want { scope: *scope, from: cursors[have] }).collect(),
                    most: size * page_size - size / 2,
                };
                let mut came: Vec<Entry> = Vec::new();
                let mut more = true;
                for _ in 0..=parcels {
                    let told = page(&mut store, &pull).unwrap();
                    let here = told.bundle.iter().flat_map(|bytes| {
                        let bundle = Bundle::open(&bytes.0).unwrap();
                        let books: Vec<Book> = bundle.manifest().books.iter().map(|it| it.book).collect();
                        let of = |book| bundle.entries(book).unwrap().unwrap().map(Result::unwrap).collect::<Vec<_>>();
                        books.into_iter().flat_map(of).collect::<Vec<_>>()
                    });
                    let before = came.len();
                    came.extend(here);
                    let bytes: u64 = came[before..].iter().map(|it| it.to_wire().len() as u64).sum();
                    assert!(bytes <= size * (page_size + 1), "a page goes beyond its size by one parcel at most");
                    (pull.wants, more) = (told.upto.unwrap(), told.more);
                    if !more {
                        break;
                    }
                }
                assert!(!more, "there is an end to it");
                assert!(pull.wants.iter().all(|want| want.from == cursors[parcels as usize]));
                let mut expected: Vec<_> = all[have..].iter().flat_map(|one| &one.entries).map(Entry::hash).collect();
                let mut found: Vec<_> = came.iter().map(Entry::hash).collect();
                expected.sort_unstable();
                found.sort_unstable();
                assert_eq!(found, expected, "{parcels} parcels from {have} in pages of {page_size}");
            }
        }
    }
}

#[test]
fn what_a_revoked_device_wrote_is_parted_at_what_the_store_has() {
    let (mut hand, mut hub) = (recorder(1), Hub::new(3));
    in_step(&mut hand, &mut hub);
    // A device with a log in the job, of which the hub has the beginning; and one that nobody revoked.
    let (mut lost, mut other) = (Forger::new(7, JOB.into()), Forger::new(8, JOB.into()));
    let revoked = DeviceId(id(0xf));
    other.entries.clear();
    other.say(LogOpened { device: DeviceId(id(0xe)), ..lost.opening(JOB.into()) });
    let first = lost.seal().to_vec();
    hub.send(&BTreeMap::from([(JOB.into(), first.clone())])).unwrap();
    lost.say(taken(9, 150));
    let mut all = lost.seal().to_vec();
    let beyond = all[first.len()..].to_vec();
    all.extend(other.seal().to_vec());
    let bytes = write(None, JOB.into(), &BTreeMap::from([(JOB.into(), all.clone())])).unwrap();
    let bundle = Bundle::open(&bytes).unwrap();
    let mut parted = |of: &[DeviceId]| {
        let revoked = of.iter().copied().collect();
        part(&mut At(&mut hub.hand), &mut hub.store, &bundle, &revoked, &|_| None).unwrap()
    };
    assert_eq!(parted(&[]), None);
    assert_eq!(parted(&[DeviceId(id(0xd))]), None, "a device that wrote nothing here");
    let Some(Parted { held, rest }) = parted(&[revoked]) else { panic!("nothing is parted") };
    assert_eq!(held, BTreeMap::from([(revoked, BTreeMap::from([(JOB.into(), beyond)]))]));
    let rest = &rest[&Book::from(JOB)];
    assert_eq!(rest.len() + 2, all.len());
    assert!(rest.iter().all(|entry| first.contains(entry) || other.entries.contains(entry)));
}

#[test]
fn what_waits_is_known_by_the_store_and_by_what_waits_already_and_could_be_taken_in() {
    let mut hub = Hub::new(3);
    let (mut known, mut lost) = (Forger::new(7, JOB.into()), Forger::new(9, JOB.into()));
    let revoked = BTreeSet::from([DeviceId(id(0xf))]);
    let books = |entries: &[Entry]| BTreeMap::from([(Book::from(JOB), entries.to_vec())]);
    hub.send(&books(known.seal())).unwrap();
    known.say(taken(9, 150));
    let beyond = books(&known.seal().to_vec()[2..]);
    let mut part_at =
        |hand: &mut Hand, books: &BTreeMap<Book, Vec<Entry>>, held_of: &dyn Fn(LogId) -> Option<DeviceId>| {
            let bytes = write(None, JOB.into(), books).unwrap();
            part(&mut At(hand), &mut hub.store, &Bundle::open(&bytes).unwrap(), &revoked, held_of).unwrap()
        };
    // An instance that was just made knows how the log begins by the store alone.
    let mut fresh = Hand::new(11);
    let parted = part_at(&mut fresh, &beyond, &|_| None).unwrap();
    assert_eq!((parted.held.values().next(), parted.rest), (Some(&beyond), BTreeMap::new()));
    // Of a log that nobody has here a second piece is of whom the first one is.
    let first = lost.seal().to_vec();
    lost.say(taken(10, 160));
    let all = lost.seal().to_vec();
    let second = books(&all[first.len()..]);
    assert_eq!(part_at(&mut fresh, &second, &|_| None), None);
    let of = |log| (log == lost.log).then_some(DeviceId(id(0xf)));
    assert_eq!(part_at(&mut fresh, &second, &of).unwrap().held.values().next(), Some(&second));
    // Kept aside is what would be taken in: from its beginning, sealed, begun once.
    judge(&mut At(&mut fresh), [&books(&all[..first.len()]), &books(&all)]).unwrap();
    for wrong in [&all[first.len()..], &all[..all.len() - 1]] {
        assert!(judge(&mut At(&mut fresh), [&books(wrong)]).is_err());
    }
    let mut forged = Forger::new(8, JOB.into());
    (forged.log, forged.entries) = (lost.log, Vec::new());
    forged.say(forged.opening(JOB.into()));
    let mut twice = [all.as_slice(), forged.seal()].concat();
    twice.sort_by_key(|entry| (entry.envelope().seq, entry.hash()));
    assert!(judge(&mut At(&mut fresh), [&books(&twice)]).is_err());
}

/// A phone is lost before it was in step and revoked; its backup goes on as another one, which vouches for what no seal reached.
#[test]
fn what_a_backup_of_a_revoked_device_vouches_for_waits_and_its_own_work_does_not() {
    let mut hub = Hub::new(3);
    let (mut lost, mut copy) = (Forger::new(7, JOB.into()), Forger::new(8, JOB.into()));
    let end = lost.say(taken(9, 150));
    let from = LogOpened { device: DeviceId(id(0xe)), after: Some(end), ..copy.opening(JOB.into()) };
    copy.entries.clear();
    copy.say(from);
    let all = [lost.entries.as_slice(), copy.seal()].concat();
    let bytes = write(None, JOB.into(), &BTreeMap::from([(JOB.into(), all)])).unwrap();
    let revoked = BTreeSet::from([DeviceId(id(0xf))]);
    let bundle = Bundle::open(&bytes).unwrap();
    let parted = part(&mut At(&mut hub.hand), &mut hub.store, &bundle, &revoked, &|_| None).unwrap().unwrap();
    let held = &parted.held[&DeviceId(id(0xf))];
    assert_eq!(held[&Book::from(JOB)], lost.entries);
    assert!(judge(&mut At(&mut hub.hand), [held]).is_err(), "nothing proves it alone");
    judge(&mut At(&mut hub.hand), [held, &parted.rest]).unwrap();
    // Its own work is taken in, and what waits once it is accepted.
    hub.send(&parted.rest).unwrap();
    hub.send(held).unwrap();
    assert_eq!(hub.entries(), lost.entries.len() + copy.entries.len());
}
