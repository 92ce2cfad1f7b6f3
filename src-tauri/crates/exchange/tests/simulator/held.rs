//! Devices that the office revoked, and what waits of them: as the hub's own tables keep it.

use crate::device::Device;
use crate::dying::Dying;
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, Head};
use provenohm_exchange::hub::{Books, HubError, Lacks, Parted, Store, Tell, judge, packed, part, receive};
use provenohm_logbook::entry::{Entry, EntryRef, LogId};
use std::collections::{BTreeMap, BTreeSet};

#[derive(Default)]
pub(crate) struct Held {
    revoked: BTreeSet<DeviceId>,
    waiting: BTreeMap<DeviceId, Books>,
    /// What the hub had when it revoked a device, and what was accepted since: of revoked devices it may have nothing else.
    let_in: BTreeSet<EntryRef>,
}

impl Held {
    pub(crate) fn revoke(&mut self, device: DeviceId, there: BTreeSet<EntryRef>) {
        if self.revoked.insert(device) {
            self.let_in.extend(there);
        }
    }

    pub(crate) fn is_revoked(&self, device: DeviceId) -> bool {
        self.revoked.contains(&device)
    }

    pub(crate) fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.waiting.values().flat_map(BTreeMap::values).flatten()
    }

    /// The disk it is on is lost.
    pub(crate) fn is_lost(&mut self) {
        self.waiting.clear();
    }

    /// Keeps aside what of a bundle is of revoked devices: the rest, if anything was.
    pub(crate) fn keep_aside(
        &mut self,
        instance: &mut Device,
        store: &mut dyn Store,
        bundle: &Bundle<'_>,
    ) -> Result<Option<Parted>, HubError> {
        let of = |log: LogId| {
            let begun = |(_, books): &(&DeviceId, &Books)| books.values().flatten().any(|it| it.envelope().log == log);
            self.waiting.iter().find(begun).map(|(device, _)| *device)
        };
        let Some(parted) = part(instance, store, bundle, &self.revoked, &of)? else { return Ok(None) };
        judge(instance, self.waiting.values().chain(parted.held.values()).chain([&parted.rest]))?;
        let waits: BTreeSet<_> = self.entries().map(Entry::hash).collect();
        for (device, books) in &parted.held {
            let waiting = self.waiting.entry(*device).or_default();
            for (book, entries) in books {
                let new = entries.iter().filter(|entry| !waits.contains(&entry.hash()));
                waiting.entry(*book).or_default().extend(new.cloned());
            }
        }
        Ok(Some(parted))
    }

    /// Nobody has to send again what waits.
    pub(crate) fn without_what_waits(&self, tell: &Tell, mut lacks: Lacks) -> Lacks {
        lacks.logs.retain(|ends| {
            let of_log = || self.entries().map(Entry::envelope).filter(|it| it.log == ends.log).map(|it| it.seq.0);
            // With all that leads to it, from what is there on.
            let waits = |head: &Head| {
                let places: BTreeSet<u64> = of_log().filter(|seq| *seq <= head.seq.0).collect();
                let from = places.first().copied().unwrap_or_default();
                self.entries().any(|it| it.hash() == head.hash)
                    && places.len() as u64 == head.seq.0 - from + 1
                    && (from == 0 || ends.heads.iter().any(|end| end.seq.0 + 1 >= from))
            };
            let mut told = tell.heads.iter().filter(|head| head.log == ends.log);
            !told.clone().any(waits) || told.any(|head| !waits(head) && !ends.heads.contains(head))
        });
        lacks
    }

    /// Somebody of the office accepts all that waits. False if nothing does, or the instance died over it.
    pub(crate) fn accept(&mut self, instance: &mut Device, store: &mut Dying<'_>) -> bool {
        let mut any = false;
        while let Some((device, books)) = self.waiting.pop_first() {
            self.let_in.extend(books.values().flatten().map(Entry::reference));
            let mut books = books;
            for entries in books.values_mut() {
                entries.sort_by_key(|entry| (entry.envelope().log, entry.envelope().seq, entry.hash()));
            }
            let bytes = packed(&books).unwrap().unwrap();
            let taken = receive(instance, store, &Bundle::open(&bytes).unwrap());
            if store.is_dead() {
                self.waiting.insert(device, books);
                return false;
            }
            taken.unwrap();
            any = true;
        }
        any
    }

    /// The store has nothing of a revoked device that nobody let in.
    pub(crate) fn holds(&self, instance: &Device, store: &mut dyn Store) {
        let parcels = store.parcels(provenohm_exchange::hub::Scope::All, 0, u64::MAX).unwrap();
        let view = instance.hand().record.view();
        for entry in parcels.iter().flat_map(|parcel| &parcel.entries).map(Entry::reference) {
            let writer = view.device_of(entry.log).unwrap();
            let revoked = writer.is_some_and(|device| self.is_revoked(device));
            assert!(!revoked || self.let_in.contains(&entry), "nobody accepted {entry:?} of a revoked device");
        }
    }
}
