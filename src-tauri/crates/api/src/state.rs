//! What operations work on: the record, the host, the words, and jobs already judged.

use crate::failure::Failure;
use crate::host::Host;
use crate::judged::Judged;
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, TesterId};
use provenohm_exchange::job_file::Made;
use provenohm_exchange::{refresh_readings, snapshot};
use provenohm_logbook::entry::body::Person;
use provenohm_logbook::record::{By, Receipt, Record, Writer};
use provenohm_words::{Locale, Words};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;
use uuid::Uuid;

/// What operations work on.
pub(crate) struct State {
    pub(crate) record: Record,
    pub(crate) host: Host,
    pub(crate) words: Words,
    /// Where schedules and job files go.
    pub(crate) papers: PathBuf,
    /// Jobs as judged, until something they rest on is written.
    judged: BTreeMap<JobId, Kept>,
    /// The job of each board and circuit: it never changes.
    homes: BTreeMap<Uuid, JobId>,
}

/// A job as judged.
struct Kept {
    judged: Arc<Judged>,
    /// Readings were recorded since.
    stale: bool,
}

impl State {
    pub(crate) fn new(record: Record, host: Host, papers: PathBuf) -> Result<Self, Failure> {
        let mut state = Self {
            record,
            host,
            words: Words::new(Locale::ENGLISH),
            papers,
            judged: BTreeMap::new(),
            homes: BTreeMap::new(),
        };
        if let Some(locale) = state.setting::<String>("locale")?.and_then(|id| Locale::named(&id)) {
            state.words = Words::new(locale);
        }
        Ok(state)
    }

    /// A choice of this device.
    pub(crate) fn setting<T: DeserializeOwned>(&self, name: &str) -> Result<Option<T>, Failure> {
        let text = self.record.choice(name)?;
        // A choice that an older version wrote otherwise is as good as none.
        Ok(text.and_then(|text| serde_json::from_str(&text).ok()))
    }

    /// Keeps a choice of this device.
    pub(crate) fn keep_setting<T: Serialize>(&mut self, name: &str, value: &T) -> Result<(), Failure> {
        let text = serde_json::to_string(value).map_err(|error| Failure::of("unexpected").because(error))?;
        Ok(self.record.choose(name, Some(&text))?)
    }

    /// Who records on this device for a job.
    pub(crate) fn me(&self, job: JobId) -> Result<Option<PersonId>, Failure> {
        match self.setting(&format!("me:{job}"))? {
            Some(person) => Ok(Some(person)),
            None => Ok(None),
        }
    }

    /// Who records on this device for a job.
    ///
    /// # Errors
    /// `no_person` if nobody said so yet.
    pub(crate) fn person(&self, job: JobId) -> Result<PersonId, Failure> {
        self.me(job)?.ok_or_else(|| Failure::of("no_person"))
    }

    /// Who acts on what belongs to no job: whoever recorded last on this device.
    pub(crate) fn anyone(&self) -> Result<PersonId, Failure> {
        self.setting("me")?.ok_or_else(|| Failure::of("no_person"))
    }

    /// Says who records on this device for a job.
    pub(crate) fn be(&mut self, job: JobId, person: PersonId) -> Result<(), Failure> {
        self.keep_setting(&format!("me:{job}"), &person)?;
        self.keep_setting("me", &person)
    }

    /// The person of that name, known to this device or new.
    pub(crate) fn person_named(&mut self, name: &str, role: &str) -> Result<PersonId, Failure> {
        let known = self.record.view().people()?.into_iter().find(|known| {
            let card = known.local.as_ref().or_else(|| known.card.first());
            card.is_some_and(|card| card.name == name)
        });
        if let Some(known) = known {
            return Ok(known.person);
        }
        let person = PersonId(self.host.id()?);
        self.record.keep_person(&Person { person, name: name.to_owned(), role: role.to_owned() })?;
        Ok(person)
    }

    /// Writes to the record: all of `change` or nothing.
    pub(crate) fn write<T>(
        &mut self,
        person: PersonId,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, Failure>,
    ) -> Result<Receipt<T>, Failure> {
        self.judged.clear();
        self.append(person, change)
    }

    /// Writes readings of one job, or what bears on them, and nothing else: the rest of it stays as judged.
    pub(crate) fn write_readings<T>(
        &mut self,
        job: JobId,
        person: PersonId,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, Failure>,
    ) -> Result<Receipt<T>, Failure> {
        if let Some(kept) = self.judged.get_mut(&job) {
            kept.stale = true;
        }
        self.append(person, change)
    }

    fn append<T>(
        &mut self,
        person: PersonId,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, Failure>,
    ) -> Result<Receipt<T>, Failure> {
        let at = self.host.now();
        self.record.write(By { person, at, random: &mut self.host }, change)
    }

    /// A job as judged on what the record says now.
    pub(crate) fn judged(&mut self, job: JobId) -> Result<Arc<Judged>, Failure> {
        let made = Made { at: self.host.now(), by: maker() };
        let judged = match self.judged.get(&job) {
            Some(kept) if !kept.stale => return Ok(Arc::clone(&kept.judged)),
            Some(kept) => {
                let mut file = kept.judged.file.clone();
                refresh_readings(&self.record.view(), &mut file, made)?;
                kept.judged.with_readings(file)
            }
            None => {
                let hand = self.setting::<crate::ops::run::Hand>("hand")?;
                let also: Vec<TesterId> = hand.and_then(|hand| hand.tester).into_iter().collect();
                Judged::of(snapshot(&self.record.view(), job, &also, made)?)?
            }
        };
        let judged = Arc::new(judged);
        self.judged.insert(job, Kept { judged: Arc::clone(&judged), stale: false });
        Ok(judged)
    }

    /// Forgets what was judged: something outside the record that it rests on has changed.
    pub(crate) fn forget_judged(&mut self) {
        self.judged.clear();
    }

    /// The job a board belongs to.
    pub(crate) fn job_of_board(&mut self, board: BoardId) -> Result<JobId, Failure> {
        self.home(board.0)
    }

    /// The job a circuit belongs to.
    pub(crate) fn job_of_circuit(&mut self, circuit: CircuitId) -> Result<JobId, Failure> {
        self.home(circuit.0)
    }

    fn home(&mut self, id: Uuid) -> Result<JobId, Failure> {
        if !self.homes.contains_key(&id) {
            let view = self.record.view();
            for job in view.jobs()? {
                self.homes.extend(view.boards(job.job)?.iter().map(|board| (board.board.0, job.job)));
                self.homes.extend(view.circuits(job.job)?.iter().map(|circuit| (circuit.circuit.0, job.job)));
            }
        }
        self.homes.get(&id).copied().ok_or_else(|| Failure::of("not_found"))
    }
}

/// What files name as their maker.
pub(crate) fn maker() -> String {
    format!("Provenohm {}", env!("CARGO_PKG_VERSION"))
}
