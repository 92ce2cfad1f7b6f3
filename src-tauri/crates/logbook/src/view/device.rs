//! The devices a job is recorded on, and which of them the job knows.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::chain::openings;
use crate::entry::body::{DeviceKnown, JobOpened};
use crate::entry::{LogId, Noun, Object, ObjectId};
use crate::store::{blob, counter};
use provenohm_assess::ids::{DeviceId, JobId, PersonId};
use rusqlite::params;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A device that wrote in a job's book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobDevice {
    /// Which.
    pub device: DeviceId,
    /// Its public key. Another key under the same id is another device.
    pub key: [u8; 32],
    /// Whose entries it wrote there.
    pub people: BTreeSet<PersonId>,
    /// How many entries.
    pub entries: u64,
    /// The job was begun on it.
    pub began: bool,
    /// Who vouches for it, as it stands; whether that counts says `known`.
    pub vouched: Vec<Stated<DeviceKnown>>,
    /// The known device from whose log it says to go on, as a restored or copied record does. Its own word alone: it makes
    /// nothing known.
    pub goes_on_from: Option<DeviceId>,
    /// It is known to this job: the job was begun on it, or somebody at a known device vouches for it.
    pub known: bool,
}

impl View<'_> {
    /// The devices that wrote in a job's book, by id and key.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn devices(&self, job: JobId) -> Result<Vec<JobDevice>, ReadError> {
        let of = Object { noun: Noun::Job, id: ObjectId(job.0) };
        let (mut devices, homes) = self.writers(of)?;
        for opened in self.stated::<JobOpened>(of)?.iter().filter(|one| one.is_live()) {
            if let Some(device) = homes.get(&opened.entry.log).and_then(|home| devices.get_mut(home)) {
                (device.began, device.known) = (true, true);
            }
        }
        let words: Vec<_> = self.stated::<DeviceKnown>(of)?.into_iter().filter(Stated::is_live).collect();
        for one in &words {
            if let Some(device) = devices.get_mut(&(one.value.device, one.value.key)) {
                device.vouched.push(one.clone());
            }
        }
        // What a device says counts once it is known itself, so each round may make others known.
        loop {
            let counts = |log: &LogId| homes.get(log).and_then(|home| devices.get(home)).is_some_and(|one| one.known);
            let next: Vec<_> = devices
                .iter()
                .filter(|(_, one)| !one.known && one.vouched.iter().any(|word| counts(&word.entry.log)))
                .map(|(home, _)| *home)
                .collect();
            if next.is_empty() {
                self.note_who_goes_on(job, &mut devices, &homes)?;
                return Ok(devices.into_values().collect());
            }
            for home in next {
                devices.entry(home).and_modify(|one| one.known = true);
            }
        }
    }

    /// Notes which devices say that they go on from a known one.
    fn note_who_goes_on(
        &self,
        job: JobId,
        devices: &mut BTreeMap<Home, JobDevice>,
        homes: &BTreeMap<LogId, Home>,
    ) -> Result<(), ReadError> {
        for (log, opened) in openings(self.connection, job.into())? {
            let (Some(home), Some(before)) = (homes.get(&log), opened.after.and_then(|after| homes.get(&after.log)))
            else {
                continue;
            };
            if home != before && devices.get(before).is_some_and(|one| one.known) {
                devices.entry(*home).and_modify(|one| one.goes_on_from = Some(before.0));
            }
        }
        Ok(())
    }

    /// Who wrote in a book, by device and key; and whose each log is.
    fn writers(&self, of: Object) -> Result<Writers, ReadError> {
        let mut devices = BTreeMap::new();
        let mut homes = BTreeMap::new();
        let mut statement = self.connection.prepare_cached(
            "SELECT o.log, o.device, o.key, (SELECT count(*) FROM entry e WHERE e.log = o.log)
             FROM opened o WHERE o.noun = ?1 AND o.book = ?2 ORDER BY o.entry",
        )?;
        let mut rows = statement.query(params![of.noun.number(), blob(&of.id.0)])?;
        while let Some(row) = rows.next()? {
            let log = LogId(Uuid::from_bytes(row.get(0)?));
            let home: Home = (DeviceId(Uuid::from_bytes(row.get(1)?)), row.get(2)?);
            let device = devices.entry(home).or_insert_with(|| JobDevice {
                device: home.0,
                key: home.1,
                people: BTreeSet::new(),
                entries: 0,
                began: false,
                vouched: Vec::new(),
                goes_on_from: None,
                known: false,
            });
            // Two first entries of one log are a fork; its entries are counted once.
            if homes.insert(log, home).is_none() {
                device.entries += counter(row.get(3)?);
                device.people.extend(self.people_of(log)?);
            }
        }
        Ok((devices, homes))
    }

    fn people_of(&self, log: LogId) -> Result<BTreeSet<PersonId>, ReadError> {
        let entries = self.entries_of(log)?;
        Ok(entries.iter().filter_map(|entry| entry.envelope().person).collect())
    }
}

/// A device and its key.
type Home = (DeviceId, [u8; 32]);

/// The devices of a book, and whose each of its logs is.
type Writers = (BTreeMap<Home, JobDevice>, BTreeMap<LogId, Home>);
