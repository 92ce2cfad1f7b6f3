//! A device: its record in files, as in the product, so that it can be closed, copied, backed up and restored.

use crate::support::{Counted, Hand, JOB, OTHER_PERSON, OTHER_TESTER, PERSON, TESTER, moment};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{HandedOver, hand_over};
use provenohm_logbook::entry::body::{Book, Person};
use provenohm_logbook::entry::{Entry, EntryRef};
use provenohm_logbook::record::{By, Inspected, Place, Record, Salvaged, set_aside};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const RECORD: &str = "record.sqlite";
const DEVICE: &str = "device.sqlite";

pub(crate) struct Device {
    folder: TempDir,
    hand: Option<Hand>,
    backup: Option<TempDir>,
    /// Minutes by which its clock is wrong.
    pub(crate) wrong: i64,
}

/// Where flushing costs nothing, if there is such a place.
fn folder() -> TempDir {
    let memory = Path::new("/dev/shm");
    if memory.is_dir() { TempDir::new_in(memory).unwrap() } else { TempDir::new().unwrap() }
}

fn open(folder: &Path, mut random: Counted) -> Hand {
    let place = Place { record: folder.join(RECORD), device: folder.join(DEVICE) };
    let record = Record::open(&place, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    Hand { record, random, minutes: 0, person: PERSON }
}

/// Copies a record; with the device's own file, if `whole`, as an image of the whole disk does: no file in it is new.
fn copy(from: &Path, to: &Path, whole: bool) {
    for name in if whole { &[RECORD, DEVICE][..] } else { &[RECORD] } {
        for ending in ["", "-wal", "-shm"] {
            let of = |folder: &Path| -> PathBuf { folder.join(format!("{name}{ending}")) };
            let _ = std::fs::remove_file(of(to));
            if of(from).exists() {
                std::fs::copy(of(from), of(to)).unwrap();
            }
        }
    }
    if whole {
        let device = rusqlite::Connection::open(to.join(DEVICE)).unwrap();
        device.execute("DELETE FROM born", []).unwrap();
    }
}

impl Device {
    pub(crate) fn new(seed: u64) -> Self {
        let folder = folder();
        let hand = open(folder.path(), Counted::from(seed));
        let mut device = Self { folder, hand: Some(hand), backup: None, wrong: 0 };
        device.know_people();
        device
    }

    pub(crate) fn know_people(&mut self) {
        for (person, name) in [(PERSON, "Recorder A"), (OTHER_PERSON, "Recorder B")] {
            let card = Person { person, name: name.into(), role: String::new() };
            self.hand_mut().record.keep_person(&card).unwrap();
        }
    }

    pub(crate) fn id(&self) -> DeviceId {
        self.hand().record.device().id()
    }

    pub(crate) fn hand(&self) -> &Hand {
        self.hand.as_ref().unwrap()
    }

    pub(crate) fn hand_mut(&mut self) -> &mut Hand {
        self.hand.as_mut().unwrap()
    }

    /// What its clock shows.
    pub(crate) fn at(&mut self, minutes: i64) {
        self.hand_mut().minutes = minutes + self.wrong;
    }

    /// Closed and opened again, with something done to its files in between.
    fn while_closed(&mut self, change: impl FnOnce(&mut Self)) {
        let Hand { random, person, record, .. } = self.hand.take().unwrap();
        drop(record);
        change(self);
        self.hand = Some(Hand { person, ..open(self.folder.path(), random) });
    }

    pub(crate) fn restart(&mut self) {
        self.while_closed(|_| {});
    }

    /// Closed, with the bytes of its record changed: a disk that went wrong, or a hand that did.
    pub(crate) fn damage(&mut self, change: impl FnOnce(&mut Vec<u8>)) {
        let file = self.folder.path().join(RECORD);
        self.while_closed(|_| {
            let mut bytes = std::fs::read(&file).unwrap();
            change(&mut bytes);
            std::fs::write(&file, bytes).unwrap();
        });
    }

    /// What a look at its record's file finds.
    pub(crate) fn inspected(&self) -> Inspected {
        let mut random = Counted::from(77);
        Record::inspect(&self.folder.path().join(RECORD), &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap()
    }

    /// Its record is set aside, and what of it is as it was written goes on in a new one.
    pub(crate) fn begin_anew(&mut self) -> Salvaged {
        let mut from = None;
        self.while_closed(|device| from = Some(set_aside(&device.folder.path().join(RECORD), "today").unwrap()));
        let Hand { record, random, .. } = self.hand_mut();
        let salvaged = record.salvage(&from.unwrap(), &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        self.know_people();
        salvaged
    }

    /// Keeps a copy of the record; with the device's own file, as an image of the whole disk, if `whole`.
    pub(crate) fn back_up(&mut self, whole: bool) {
        self.while_closed(|device| {
            let backup = folder();
            copy(device.folder.path(), backup.path(), whole);
            device.backup = Some(backup);
        });
    }

    /// Goes back to the copy. False if there is none.
    pub(crate) fn restore(&mut self) -> bool {
        let Some(backup) = self.backup.take() else { return false };
        let whole = backup.path().join(DEVICE).exists();
        self.while_closed(|device| copy(backup.path(), device.folder.path(), whole));
        self.backup = Some(backup);
        self.know_people();
        true
    }

    /// Another device with this one's files: a new device if only the record was copied, one that cannot be told from
    /// it if `whole`.
    pub(crate) fn cloned(&mut self, seed: u64, whole: bool) -> Self {
        let folder = folder();
        self.while_closed(|device| copy(device.folder.path(), folder.path(), whole));
        let hand = open(folder.path(), Counted::from(seed));
        Self { folder, hand: Some(hand), backup: None, wrong: self.wrong }
    }

    /// What it hands over of the job.
    pub(crate) fn hand_over(&mut self) -> HandedOver {
        let Hand { record, random, person, minutes } = self.hand_mut();
        let mut random = |bytes: &mut [u8]| random.fill(bytes);
        let by = By { person: *person, at: moment(*minutes), random: &mut random };
        hand_over(record, by, JOB, &[TESTER, OTHER_TESTER]).unwrap()
    }

    pub(crate) fn books(&self) -> BTreeSet<Book> {
        self.hand().record.view().books().unwrap()
    }

    pub(crate) fn entries(&self, book: Book) -> Vec<Entry> {
        self.hand().record.view().entries(book).unwrap()
    }

    pub(crate) fn all(&self) -> BTreeSet<EntryRef> {
        self.books().into_iter().flat_map(|book| self.entries(book)).map(|entry| entry.reference()).collect()
    }
}
