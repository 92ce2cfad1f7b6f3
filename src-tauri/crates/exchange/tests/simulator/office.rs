//! A hub in the schedule: its store, two instances over it that may die in the middle of a request, and lines that lose and
//! double what they carry.

use crate::acts::act;
use crate::chance::Chance;
use crate::device::Device;
use crate::dying::Dying;
use crate::held::Held;
use crate::liar::Liar;
use crate::support::{Hand, JOB, moment};
use provenohm_exchange::bundle::Bundle;
use provenohm_exchange::hub::{
    Desk, Epoch, JobsThere, Lacks, Line, NoAnswer, Page, Parcel, Parted, Pull, Scope, SqliteStore, Store, Synced, Tell,
    jobs_there, keep_in_step, lacks, packed, page, receive, sync,
};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef};
use provenohm_logbook::record::{By, Record};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

pub(crate) struct Office {
    store: SqliteStore,
    pub(crate) instances: Vec<Device>,
    pub(crate) held: Held,
    epochs: u128,
    backup: Option<Vec<Parcel>>,
    /// Whether it hid something from a device.
    pub(crate) hid: bool,
    /// How often an instance died in the middle of a request.
    pub(crate) died: u32,
}

const SCOPES: [Scope; 2] = [Scope::Register, Scope::Job(JOB)];
/// Calls of the store, about as many as a request makes.
const CALLS: usize = 24;

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
        Self { store: empty(0), instances, held: Held::default(), epochs: 0, backup: None, hid: false, died: 0 }
    }

    /// A device and one of the instances, until they are in step or the line breaks.
    pub(crate) fn syncs(&mut self, device: &mut Device, chance: &mut Chance, breaks: bool) -> Result<Synced, NoAnswer> {
        let at = chance.below(self.instances.len());
        sync(device, &mut Over { office: self, at, chance, breaks }, &SCOPES)
    }

    /// The same with a hub that lies.
    pub(crate) fn lies(&mut self, device: &mut Device, chance: &mut Chance) -> Result<Synced, NoAnswer> {
        let at = chance.below(self.instances.len());
        let mut liar = Liar { over: Over { office: self, at, chance, breaks: true }, hid: false };
        let done = sync(device, &mut liar, &SCOPES);
        let hid = liar.hid;
        self.hid |= hid;
        done
    }

    /// After it hid something it is brought back in another life, as a backup is: devices compare all they have with it.
    pub(crate) fn is_honest_again(&mut self) {
        if std::mem::take(&mut self.hid) {
            self.epochs += 1;
            let all = self.store.parcels(Scope::All, 0, u64::MAX).unwrap();
            self.holds_only(all);
        }
    }

    /// Somebody works at an instance, in a browser.
    pub(crate) fn acts(&mut self, minutes: i64, number: u128, chance: &mut Chance) -> Option<&'static str> {
        let at = chance.below(self.instances.len());
        let instance = &mut self.instances[at];
        instance.at(minutes);
        keep_in_step(instance, &mut self.store).unwrap();
        let what = instance.books().contains(&JOB.into()).then(|| act(instance, number, chance));
        // Before it is answered.
        keep_in_step(instance, &mut self.store).unwrap();
        what
    }

    /// From now on what this device wrote and the hub has not waits, whoever brings it.
    pub(crate) fn revoke(&mut self, device: &Device) {
        let all = self.all();
        self.held.revoke(device.id(), all);
    }

    pub(crate) fn refuses(&self, device: &Device) -> bool {
        self.held.is_revoked(device.id())
    }

    /// What waits is accepted, at an instance that may die over it; false if nothing was.
    pub(crate) fn accepts(&mut self, chance: &mut Chance, may_die: bool) -> bool {
        let at = chance.below(self.instances.len());
        let dies = (may_die && chance.one_in(3)).then(|| chance.below(CALLS));
        let mut store = Dying::after(&mut self.store, dies);
        let any = self.held.accept(&mut self.instances[at], &mut store);
        if store.is_dead() {
            self.dies(at, chance);
        }
        any
    }

    /// Takes in what a device sent, and answers; nothing if the instance dies meanwhile.
    fn takes(&mut self, at: usize, piece: &BTreeMap<Book, Vec<Entry>>, dies: Option<usize>) -> Option<()> {
        let sent = packed(piece).unwrap().unwrap();
        let bundle = Bundle::open(&sent).unwrap();
        let mut store = Dying::after(&mut self.store, dies);
        let instance = &mut self.instances[at];
        let mut take = || match self.held.keep_aside(instance, &mut store, &bundle)? {
            None => receive(instance, &mut store, &bundle).map(drop),
            Some(Parted { rest, .. }) => match packed(&rest)? {
                Some(rest) => receive(instance, &mut store, &Bundle::open(&rest).unwrap()).map(drop),
                None => Ok(()),
            },
        };
        let taken = take();
        if dies.is_some() {
            return None;
        }
        taken.unwrap();
        // What is acknowledged is kept.
        let waits: BTreeSet<_> = self.held.entries().map(Entry::hash).collect();
        for entry in piece.values().flatten() {
            let here = self.store.holds(entry.envelope().log, entry.envelope().seq, entry.hash()).unwrap();
            assert!(here || waits.contains(&entry.hash()), "acknowledged before it was kept: {:?}", entry.reference());
        }
        self.held.holds(&self.instances[at], &mut self.store);
        Some(())
    }

    /// An instance ends in the middle of something. Its record is as it was then, or gone.
    fn dies(&mut self, at: usize, chance: &mut Chance) {
        self.died += 1;
        if chance.one_in(2) {
            self.instances[at].restart();
        } else {
            self.instances[at] = Device::new(chance.number());
        }
    }

    pub(crate) fn back_up(&mut self) {
        self.backup = Some(self.store.parcels(Scope::All, 0, u64::MAX).unwrap());
    }

    /// Goes back to the copy, as a disk that was put back: nobody tells the hub.
    pub(crate) fn restore(&mut self) {
        let Some(backup) = self.backup.clone() else { return };
        self.holds_only(backup);
    }

    fn holds_only(&mut self, parcels: Vec<Parcel>) {
        self.store = empty(self.epochs);
        for parcel in parcels {
            self.store.append(&BTreeMap::from([(parcel.book, parcel.entries)])).unwrap();
        }
    }

    /// Its disk is lost: a new store, in another life.
    pub(crate) fn is_lost(&mut self) {
        self.epochs += 1;
        self.store = empty(self.epochs);
        self.held.is_lost();
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
        let kept = self.kept();
        kept.into_iter().chain(self.instances.iter().flat_map(Device::all)).collect()
    }

    /// What only the record of an instance has.
    pub(crate) fn at_instances_alone(&mut self) -> BTreeSet<EntryRef> {
        let kept = self.kept();
        self.instances.iter().flat_map(Device::all).filter(|entry| !kept.contains(entry)).collect()
    }

    fn kept(&mut self) -> BTreeSet<EntryRef> {
        let parcels = self.store.parcels(Scope::All, 0, u64::MAX).unwrap();
        let stored = parcels.iter().flat_map(|parcel| &parcel.entries);
        stored.chain(self.held.entries()).map(Entry::reference).collect()
    }
}

fn empty(epoch: u128) -> SqliteStore {
    SqliteStore::in_memory(Epoch(Uuid::from_u128(0xe0 + epoch))).unwrap()
}

/// What is asked over a line.
pub(crate) struct Over<'o> {
    office: &'o mut Office,
    at: usize,
    pub(crate) chance: &'o mut Chance,
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
        self.ask(|office, _| {
            let lacks = lacks(&mut office.store, tell).unwrap();
            office.held.without_what_waits(tell, lacks)
        })
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        let dies = (self.breaks && self.chance.one_in(8)).then(|| self.chance.below(CALLS));
        let at = self.at;
        let taken = self.ask(|office, at| office.takes(at, piece, dies));
        if dies.is_some() {
            self.office.dies(at, self.chance);
        }
        taken?.ok_or(NoAnswer::NotReached)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        self.ask(|office, _| page(&mut office.store, pull).unwrap())
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.ask(|office, at| jobs_there(&mut office.instances[at]).unwrap())
    }
}
