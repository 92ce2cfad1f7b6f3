//! A hub in the schedule: its store, two instances over it, and lines that lose and double what they carry.

use crate::chance::Chance;
use crate::device::Device;
use crate::support::{Hand, JOB, moment};
use provenohm_exchange::bundle::{Bundle, write};
use provenohm_exchange::hub::{
    Desk, Epoch, JobsThere, Lacks, Line, NoAnswer, Page, Parcel, Pull, Scope, SqliteStore, Store, Synced, Tell,
    jobs_there, keep_in_step, lacks, page, receive, sync,
};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef};
use provenohm_logbook::record::{By, Record};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

pub(crate) struct Office {
    store: SqliteStore,
    pub(crate) instances: Vec<Device>,
    epochs: u128,
    backup: Option<Vec<Parcel>>,
}

impl Desk for Device {
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T {
        let Hand { record, random, person, minutes } = self.hand_mut();
        let mut random = |bytes: &mut [u8]| random.fill(bytes);
        step(record, By { person: *person, at: moment(*minutes), random: &mut random })
    }
}

impl Office {
    pub(crate) fn new(chance: &mut Chance) -> Self {
        let instances = (0..2).map(|_| Device::new(chance.number())).collect();
        Self { store: empty(0), instances, epochs: 0, backup: None }
    }

    /// A device and one of the instances, until they are in step or the line breaks.
    pub(crate) fn syncs(&mut self, device: &mut Device, chance: &mut Chance, breaks: bool) -> Result<Synced, NoAnswer> {
        let at = chance.below(self.instances.len());
        let mut over = Over { office: self, at, chance, breaks };
        sync(device, &mut over, &[Scope::Register, Scope::Job(JOB)])
    }

    pub(crate) fn back_up(&mut self) {
        self.backup = Some(self.store.parcels(Scope::All, 0, u64::MAX).unwrap());
    }

    /// Goes back to the copy, as a disk that was put back: nobody tells the hub.
    pub(crate) fn restore(&mut self) {
        let Some(backup) = self.backup.clone() else { return };
        self.store = empty(self.epochs);
        for parcel in backup {
            self.store.append(&BTreeMap::from([(parcel.book, parcel.entries)])).unwrap();
        }
    }

    /// Its disk is lost: a new store, in another life.
    pub(crate) fn is_lost(&mut self) {
        self.epochs += 1;
        self.store = empty(self.epochs);
    }

    /// An instance ends for good; another begins with nothing.
    pub(crate) fn replace_instance(&mut self, chance: &mut Chance) {
        let at = chance.below(self.instances.len());
        self.instances[at] = Device::new(chance.number());
    }

    /// Brings every instance in step.
    pub(crate) fn gather(&mut self) {
        for _ in 0..2 {
            for instance in &mut self.instances {
                keep_in_step(instance, &mut self.store).unwrap();
            }
        }
    }

    pub(crate) fn all(&mut self) -> BTreeSet<EntryRef> {
        let parcels = self.store.parcels(Scope::All, 0, u64::MAX).unwrap();
        let stored = parcels.iter().flat_map(|parcel| &parcel.entries).map(Entry::reference);
        stored.chain(self.instances.iter().flat_map(Device::all)).collect()
    }
}

fn empty(epoch: u128) -> SqliteStore {
    SqliteStore::in_memory(Epoch(Uuid::from_u128(0xe0 + epoch))).unwrap()
}

/// What is asked over a line.
struct Over<'o> {
    office: &'o mut Office,
    at: usize,
    chance: &'o mut Chance,
    breaks: bool,
}

impl Over<'_> {
    /// Asks once, twice, or in vain; the answer may be what is lost.
    fn ask<T>(&mut self, mut ask: impl FnMut(&mut Office, usize) -> T) -> Result<T, NoAnswer> {
        if !self.breaks {
            return Ok(ask(self.office, self.at));
        }
        match self.chance.below(12) {
            0 => Err(NoAnswer::NotReached),
            1 => {
                ask(self.office, self.at);
                Err(NoAnswer::NotReached)
            }
            2 => {
                ask(self.office, self.at);
                // The second time it may be another instance that hears it.
                self.at = self.chance.below(self.office.instances.len());
                Ok(ask(self.office, self.at))
            }
            _ => Ok(ask(self.office, self.at)),
        }
    }
}

impl Line for Over<'_> {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        self.ask(|office, _| lacks(&mut office.store, tell).unwrap())
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        let bytes = write(None, *piece.keys().next().unwrap(), piece).unwrap();
        let bundle = Bundle::open(&bytes).unwrap();
        self.ask(|office, at| receive(&mut office.instances[at], &mut office.store, &bundle).unwrap()).map(drop)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        self.ask(|office, _| page(&mut office.store, pull).unwrap())
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.ask(|office, at| jobs_there(&mut office.instances[at]).unwrap())
    }
}
