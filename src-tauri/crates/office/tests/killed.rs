//! Hubs killed at any instant while phones send: nothing that was acknowledged is lost or doubled, an instance beside goes on,
//! and whoever was killed comes back in step.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "../../exchange/tests/support/mod.rs"]
mod devices;
#[path = "../../hub/tests/postgres/mod.rs"]
mod postgres;

use devices::{Counted, Hand, JOB, TESTER, id, moment, recorder, taken, wires};
use postgres::Postgres;
use provenohm_api::network::{Enrolling, Network as _};
use provenohm_exchange::hub::{Cursor, Desk, EnrolCode, Epoch, Line, NoAnswer, Scope, SqliteStore, Store, sync};
use provenohm_hub::PostgresStore;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef};
use provenohm_logbook::record::{By, Place, Record};
use provenohm_wire::Wire;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufRead as _, BufReader};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;
use tempfile::TempDir;

/// How many kills: more overnight.
fn kills() -> u64 {
    std::env::var("PROVENOHM_KILLS").map_or(10, |number| number.parse().unwrap())
}

/// Phones that send at once.
const PHONES: usize = 4;

/// A hub's process.
struct Hub {
    folder: TempDir,
    store: Option<String>,
    listen: String,
    process: Child,
    told: BufReader<ChildStdout>,
}

impl Hub {
    fn start(store: Option<&str>) -> Self {
        let (folder, store) = (TempDir::new().unwrap(), store.map(str::to_owned));
        let (process, told, listen) = serve(&folder, store.as_deref(), "127.0.0.1:0");
        Self { folder, store, listen, process, told }
    }

    fn start_again(&mut self) {
        (self.process, self.told, _) = serve(&self.folder, self.store.as_deref(), &self.listen);
    }

    fn kill(&mut self) {
        self.process.kill().unwrap();
        self.process.wait().unwrap();
    }

    /// Ended as the system ends it; its record.
    fn end(mut self) -> (TempDir, Record) {
        let asked = Command::new("kill").args(["-TERM", &self.process.id().to_string()]).status();
        assert!(asked.unwrap().success() && self.process.wait().unwrap().success());
        let folder = std::mem::replace(&mut self.folder, TempDir::new().unwrap());
        let place = Place { record: folder.path().join("record.sqlite"), device: folder.path().join("device.sqlite") };
        let mut random = Counted::from(99);
        let record = Record::open(&place, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        (folder, record)
    }
}

impl Drop for Hub {
    fn drop(&mut self) {
        drop(self.process.kill());
        drop(self.process.wait());
    }
}

fn serve(folder: &TempDir, store: Option<&str>, listen: &str) -> (Child, BufReader<ChildStdout>, String) {
    let mut process = Command::new(env!("CARGO_BIN_EXE_provenohm-office"))
        .args(["serve", "--listen", listen, "--record"])
        .arg(folder.path())
        .args(store.iter().flat_map(|url| ["--store", url]))
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut told = BufReader::new(process.stdout.take().unwrap());
    let line = line(&mut told);
    let address = line.strip_prefix("Provenohm answers at http://").unwrap_or_else(|| panic!("{line}"));
    (process, told, address.to_owned())
}

fn line(told: &mut BufReader<ChildStdout>) -> String {
    let mut line = String::new();
    told.read_line(&mut line).unwrap();
    line.trim_end().to_owned()
}

/// The office's browser.
struct Office {
    browser: reqwest::blocking::Client,
    session: Vec<(&'static str, String)>,
}

impl Office {
    /// Sets the first password of a hub.
    fn first(hub: &mut Hub) -> Self {
        // One for all tests of this program: only the first is the first.
        drop(rustls::crypto::ring::default_provider().install_default());
        let browser = reqwest::blocking::Client::builder().no_proxy().build().unwrap();
        let link = line(&mut hub.told);
        let asked = json!({ "code": link.rsplit('/').next(), "name": "A. Office", "password": "correct horse" });
        let opened = browser.post(format!("http://{}/first", hub.listen)).json(&asked).send().unwrap();
        let cookie = opened.headers()["set-cookie"].to_str().unwrap().split(';').next().unwrap().to_owned();
        let page = opened.json::<Value>().unwrap()["page"].as_str().unwrap().to_owned();
        Self { browser, session: vec![("cookie", cookie), ("x-provenohm-page", page)] }
    }

    fn code(&self, hub: &Hub) -> EnrolCode {
        let mut asked = self.browser.post(format!("http://{}/phones/code", hub.listen)).json(&json!({}));
        for (name, value) in &self.session {
            asked = asked.header(*name, value);
        }
        EnrolCode::typed(asked.send().unwrap().json::<Value>().unwrap()["code"].as_str().unwrap()).unwrap()
    }
}

/// A phone that takes one reading after the other.
struct Phone {
    hand: Hand,
    line: Box<dyn Line + Send>,
    next: u128,
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

impl Phone {
    /// The first has a job, which the others have from the hub.
    fn enrolled(office: &Office, hub: &Hub, nth: usize) -> Self {
        let hand = if nth == 0 { recorder(1) } else { Hand::new(1 + nth as u64) };
        let asked = Enrolling {
            address: hub.listen.clone(),
            code: office.code(hub),
            device: hand.record.device().id(),
            name: format!("Phone {nth}"),
        };
        let line = Wire.line(&Wire.enrol(&asked).unwrap()).unwrap();
        let mut phone = Self { hand, line, next: (1 + nth as u128) << 32 };
        phone.synced().unwrap();
        phone
    }

    fn synced(&mut self) -> Result<(), NoAnswer> {
        sync(&mut At(&mut self.hand), &mut *self.line, &[Scope::Register, Scope::Job(JOB)]).map(drop)
    }

    /// Takes readings and sends them until it is over; tells of each that the hub has acknowledged.
    fn work(&mut self, at: usize, acknowledged: &Sender<(usize, EntryRef)>, over: &AtomicBool) {
        let mut waiting = None;
        while !over.load(Ordering::Relaxed) {
            let entry = *waiting.get_or_insert_with(|| {
                self.next += 1;
                self.hand.append(taken(self.next, 100))
            });
            match self.synced() {
                Ok(()) => {
                    waiting = None;
                    acknowledged.send((at, entry)).unwrap();
                }
                // It tries again, as phones do.
                Err(NoAnswer::NotReached) => std::thread::sleep(Duration::from_millis(10)),
                Err(error) => panic!("{error}"),
            }
        }
    }
}

/// What was read of a store, from its beginning on.
#[derive(Default)]
struct Seen {
    cursor: Cursor,
    entries: BTreeSet<(Book, Vec<u8>)>,
    references: BTreeSet<EntryRef>,
}

impl Seen {
    /// Reads what came: one parcel behind the other, each entry once.
    fn go_on(&mut self, store: &mut dyn Store) {
        for parcel in store.parcels(Scope::All, self.cursor.at, u64::MAX).unwrap() {
            self.cursor = self.cursor.after(parcel.entries.iter().map(Entry::hash));
            assert_eq!(parcel.cursor, self.cursor, "the digest over everything before");
            for entry in &parcel.entries {
                assert!(self.entries.insert((parcel.book, entry.to_wire())), "an entry came twice");
                self.references.insert(entry.reference());
            }
        }
    }

    fn of(&self, book: Book) -> BTreeSet<&Vec<u8>> {
        self.entries.iter().filter(|(one, _)| *one == book).map(|(_, wire)| wire).collect()
    }

    fn is_held_by(&self, wires: &BTreeMap<Book, Vec<Vec<u8>>>) {
        for book in [Book::from(JOB), Book::from(TESTER)] {
            let (there, here) = (self.of(book), wires[&book].iter().collect::<BTreeSet<_>>());
            assert!(there == here, "{book:?}: {} there, {} here", there.len(), here.len());
        }
    }
}

/// The next that the hub acknowledges.
fn next_of(hub: usize, told: &Receiver<(usize, EntryRef)>, acknowledged: &mut BTreeSet<EntryRef>) {
    loop {
        // Far longer than anything takes: what hangs is said to hang.
        let (at, entry) = told.recv_timeout(Duration::from_secs(120)).expect("phones are answered");
        acknowledged.insert(entry);
        if at == hub {
            return;
        }
    }
}

/// Kills one hub after the other, of these that share a store, while phones send at each.
fn killed_while_phones_send(kills: u64, mut hubs: Vec<Hub>, store: &mut dyn Store) {
    // The link of the one that was started last is the one that works.
    let office = Office::first(hubs.last_mut().unwrap());
    let at = |nth: usize| nth % hubs.len();
    let mut phones: Vec<(usize, Phone)> =
        (0..PHONES).map(|nth| (at(nth), Phone::enrolled(&office, &hubs[at(nth)], nth))).collect();
    let (over, (tells, told)) = (AtomicBool::new(false), channel());
    let (mut seen, mut acknowledged) = (Seen::default(), BTreeSet::new());
    std::thread::scope(|threads| {
        // Also where something is not as it should be, so that it is said.
        struct Over<'o>(&'o AtomicBool);
        impl Drop for Over<'_> {
            fn drop(&mut self) {
                self.0.store(true, Ordering::Relaxed);
            }
        }
        let _over = Over(&over);
        for (at, phone) in &mut phones {
            let (tells, over) = (tells.clone(), &over);
            threads.spawn(move || phone.work(*at, &tells, over));
        }
        for kill in 0..kills {
            let victim = kill as usize % hubs.len();
            for _ in 0..=kill % 3 {
                next_of(victim, &told, &mut acknowledged);
            }
            // Any instant of the next request, spread over how long one takes.
            std::thread::sleep(Duration::from_micros(kill * 7919 % 40_000));
            hubs[victim].kill();
            acknowledged.extend(told.try_iter().map(|(_, entry)| entry));
            seen.go_on(store);
            let lost: Vec<_> = acknowledged.difference(&seen.references).collect();
            assert!(lost.is_empty(), "kill {kill}: {lost:?}");
            if hubs.len() > 1 {
                // The other goes on. Its phones may just have been about to tell of what it answered before.
                (0..=PHONES).for_each(|_| next_of((victim + 1) % hubs.len(), &told, &mut acknowledged));
            }
            hubs[victim].start_again();
        }
    });
    for _ in 0..2 {
        phones.iter_mut().for_each(|(_, phone)| phone.synced().unwrap());
    }
    let records: Vec<(TempDir, Record)> = hubs.into_iter().map(Hub::end).collect();
    seen.go_on(store);
    assert_eq!((store.end().unwrap().1, store.whole().unwrap().entries), (seen.cursor, seen.entries.len() as u64));
    assert!(acknowledged.is_subset(&seen.references));
    for (_, phone) in &phones {
        seen.is_held_by(&wires(&phone.hand));
    }
    for (_, record) in records {
        let hand = Hand { record, random: Counted::from(1), minutes: 0, person: devices::PERSON };
        seen.is_held_by(&wires(&hand));
    }
}

#[test]
fn kills_of_a_hub_while_phones_send_lose_and_double_nothing() {
    let hub = Hub::start(None);
    let mut store = SqliteStore::open(&hub.folder.path().join("entries.sqlite"), Epoch(id(1))).unwrap();
    killed_while_phones_send(kills(), vec![hub], &mut store);
}

#[test]
fn kills_of_either_instance_over_one_database_lose_and_double_nothing() {
    let (server, runtime) = (Postgres::start(), tokio::runtime::Runtime::new().unwrap());
    let hubs = (0..2).map(|_| Hub::start(Some(&server.url))).collect();
    let mut store = PostgresStore::open(&server.url, Epoch(id(1)), runtime.handle().clone()).unwrap();
    // Of these each takes several times as long.
    killed_while_phones_send(kills().div_ceil(10).max(10), hubs, &mut store);
}
