//! What operations work on: the record, the host, the words, and jobs already judged.

use crate::attend::Attending;
use crate::failure::Failure;
use crate::host::Host;
use crate::judged::Judged;
use crate::long_work::LongWork;
use crate::ops::run::Hand;
use crate::seat::{Seat, join};
use crate::signed::{AsSigned, Said, put_together};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, TesterId};
use provenohm_exchange::job_file::Made;
use provenohm_exchange::{renewed, snapshot};
use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::entry::body::{Person, SignOff};
use provenohm_logbook::record::{By, Place, Receipt, Record, Writer};
use provenohm_logbook::view::Stated;
use provenohm_words::{Locale, Words};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;
use uuid::Uuid;

/// What operations work on.
pub(crate) struct State {
    pub(crate) record: Record,
    pub(crate) host: Host,
    pub(crate) words: Words,
    /// Whose seat this is, where several people log in; nobody's on a device.
    pub(crate) seat: Option<Seat>,
    /// How far long work is.
    pub(crate) long_work: Arc<LongWork>,
    /// Several people work on it at once: it is a hub's.
    pub(crate) is_shared: bool,
    /// Whoever attends to the office.
    pub(crate) attending: Arc<Attending>,
    /// Where schedules and job files go.
    pub(crate) papers: PathBuf,
    /// Where the record lies; nowhere if it is only in memory.
    pub(crate) place: Option<Place>,
    /// Why the record of that place is not open: what is here is an empty one in memory then.
    pub(crate) not_opened: Option<Failure>,
    /// Jobs as judged, until something they rest on is written.
    judged: BTreeMap<JobId, Kept>,
    /// When another program last wrote to the record, as the record counts it: what was judged before no longer holds.
    elsewhere: i64,
    /// The job of each board and circuit: it never changes.
    homes: BTreeMap<Uuid, JobId>,
    /// Jobs as they were signed: what a sign-off covers never changes.
    signed: BTreeMap<EntryRef, Arc<AsSigned>>,
}

/// A job as judged.
struct Kept {
    judged: Arc<Judged>,
    /// What was written of its readings since.
    since: Vec<EntryRef>,
    /// Testers in somebody's hand, which it knows though no reading may name them yet.
    in_hand: BTreeSet<TesterId>,
}

impl State {
    pub(crate) fn new(record: Record, host: Host, papers: PathBuf) -> Self {
        Self {
            record,
            host,
            words: Words::new(Locale::ENGLISH),
            seat: None,
            long_work: Arc::default(),
            is_shared: false,
            attending: Arc::default(),
            papers,
            place: None,
            not_opened: None,
            judged: BTreeMap::new(),
            elsewhere: 0,
            homes: BTreeMap::new(),
            signed: BTreeMap::new(),
        }
    }

    /// Speaks the language that was chosen by the person at this screen, else on this device.
    pub(crate) fn read_locale(&mut self) -> Result<(), Failure> {
        let own = self.setting::<String>(&self.own("locale"))?;
        let chosen = own.map_or_else(|| self.setting::<String>("locale"), |own| Ok(Some(own)))?;
        let locale = chosen.and_then(|id| Locale::named(&id)).unwrap_or(Locale::ENGLISH);
        // Reading a catalogue takes a while.
        if locale.id() != self.words.locale().id() {
            self.words = Words::new(locale);
        }
        Ok(())
    }

    /// Lets go of the record: from now on there is none, and that is why.
    pub(crate) fn closed(&mut self, why: Failure) -> Result<(), Failure> {
        let record = Record::in_memory(&mut self.host)?;
        self.opened(record);
        self.not_opened = Some(why);
        Ok(())
    }

    /// Goes on with another record. What was worked out from the one before is forgotten.
    pub(crate) fn opened(&mut self, record: Record) {
        self.record = record;
        self.not_opened = None;
        self.judged.clear();
        self.homes.clear();
        self.signed.clear();
    }

    /// Why an operation cannot be done while the record is not open; only what needs none is.
    pub(crate) fn refuses(&self, operation: &str) -> Option<Failure> {
        const WITHOUT_RECORD: [&str; 6] =
            ["catalogue", "settings", "set_settings", "place", "set_place", "set_record_aside"];
        self.not_opened.clone().filter(|_| !WITHOUT_RECORD.contains(&operation))
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

    /// Who records for a job: on this device, or whoever's seat this is.
    pub(crate) fn me(&self, job: JobId) -> Result<Option<PersonId>, Failure> {
        if let Some(seat) = &self.seat {
            return Ok(Some(seat.person));
        }
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

    /// A person under all ids that mean them.
    pub(crate) fn ids_of(&self, person: PersonId) -> Result<BTreeSet<PersonId>, Failure> {
        Ok(std::iter::once(person).chain(self.record.view().person(person)?.same).collect())
    }

    /// Who acts on what belongs to no job: whoever recorded last on this device, or whoever's seat this is.
    ///
    /// # Errors
    /// `no_person` if nobody said so yet.
    pub(crate) fn anyone(&self) -> Result<PersonId, Failure> {
        self.anyone_yet()?.ok_or_else(|| Failure::of("no_person"))
    }

    /// The same, if anybody.
    pub(crate) fn anyone_yet(&self) -> Result<Option<PersonId>, Failure> {
        match &self.seat {
            Some(seat) => Ok(Some(seat.person)),
            None => self.setting("me"),
        }
    }

    /// Says who records on this device for a job. At a seat that is settled.
    pub(crate) fn be(&mut self, job: JobId, person: PersonId) -> Result<(), Failure> {
        self.is_seated(person)?;
        if self.seat.is_some() {
            return Ok(());
        }
        self.keep_setting(&format!("me:{job}"), &person)?;
        self.keep_setting("me", &person)
    }

    /// The person of that name, known to this device or new.
    pub(crate) fn person_named(&mut self, name: &str, role: &str) -> Result<PersonId, Failure> {
        if let Some(seat) = self.seat.as_ref().filter(|seat| seat.name == name) {
            return Ok(seat.person);
        }
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
        let written = self.append(person, change);
        match (&written, self.judged.get_mut(&job)) {
            (Ok(receipt), Some(kept)) => kept.since.extend(receipt.appended.iter().map(|one| one.entry)),
            // Nothing should have been written; the record is asked.
            (Err(_), _) => self.judged.clear(),
            (Ok(_), None) => {}
        }
        written
    }

    fn append<T>(
        &mut self,
        person: PersonId,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, Failure>,
    ) -> Result<Receipt<T>, Failure> {
        let (at, seat) = (self.host.now(), self.seat.clone());
        self.is_seated(person)?;
        seat.as_ref().map_or(Ok(()), |seat| self.know(seat))?;
        let written = self.record.write(By { person, at, random: &mut self.host }, |writer| {
            let value = change(writer)?;
            let joined = seat.map_or(Ok(Vec::new()), |seat| join(writer, &seat))?;
            Ok::<_, Failure>((value, joined))
        })?;
        self.attending.recorded();
        let Receipt { value: (value, joined), mut appended, noted } = written;
        if !joined.is_empty() {
            self.judged.clear();
            // That somebody joined is no part of what they did: taking that back leaves them among the people.
            appended.retain(|one| !joined.contains(&one.entry));
        }
        Ok(Receipt { value, appended, noted })
    }

    /// A job as judged on what the record says now. Renewed where it lies if nobody else still holds it.
    pub(crate) fn judged(&mut self, job: JobId) -> Result<Arc<Judged>, Failure> {
        let elsewhere = self.record.written_elsewhere()?;
        if elsewhere != self.elsewhere {
            self.judged.clear();
            self.elsewhere = elsewhere;
        }
        let made = Made { at: self.host.now(), by: maker() };
        let mut in_hand: BTreeSet<TesterId> = Hand::of(self)?.tester.into_iter().collect();
        let kept = match self.judged.remove(&job) {
            Some(kept) if kept.in_hand.is_superset(&in_hand) => {
                in_hand.clone_from(&kept.in_hand);
                self.renewed(job, kept, &made)?
            }
            Some(kept) => {
                in_hand.extend(kept.in_hand);
                None
            }
            None => None,
        };
        let judged = match kept {
            Some(judged) => judged,
            None => Arc::new(self.judged_anew(job, &in_hand, made)?),
        };
        self.judged.insert(job, Kept { judged: Arc::clone(&judged), since: Vec::new(), in_hand });
        Ok(judged)
    }

    /// A job judged before, with what was written of its readings since; nothing where only the whole record tells.
    fn renewed(&self, job: JobId, kept: Kept, made: &Made) -> Result<Option<Arc<Judged>>, Failure> {
        let Kept { mut judged, since, .. } = kept;
        if !since.is_empty() {
            let Some(renewed) = renewed(&self.record.view(), job, &since)? else { return Ok(None) };
            let judged = Arc::make_mut(&mut judged);
            judged.renew(renewed);
            judged.file.made = made.clone();
        }
        Ok(Some(judged))
    }

    /// A job as judged on what the record says now, for one look: it is kept only if it was kept before.
    pub(crate) fn judged_once(&mut self, job: JobId) -> Result<Arc<Judged>, Failure> {
        let kept = self.judged.contains_key(&job);
        let judged = self.judged(job)?;
        if !kept {
            self.judged.remove(&job);
        }
        Ok(judged)
    }

    /// A job judged on nothing but the record, with testers that are in hand.
    pub(crate) fn judged_anew(&self, job: JobId, in_hand: &BTreeSet<TesterId>, made: Made) -> Result<Judged, Failure> {
        let also: Vec<TesterId> = in_hand.iter().copied().collect();
        Judged::of(snapshot(&self.record.view(), job, &also, made)?)
    }

    /// A job as it was signed, judged by the rules of this version. Nothing where not all of it is here.
    pub(crate) fn as_signed(&mut self, job: JobId, said: &Stated<SignOff>) -> Result<Option<Arc<AsSigned>>, Failure> {
        if let Some(known) = self.signed.get(&said.entry) {
            return Ok(Some(Arc::clone(known)));
        }
        let made = Made { at: self.host.now(), by: maker() };
        let mut past = Record::in_memory(&mut self.host)?;
        let Some(judged) = put_together(&self.record.view(), job, &said.value.cut, &mut past, made)? else {
            return Ok(None);
        };
        let found = Arc::new(AsSigned { judged, said: Said::of(&past.view(), job)? });
        self.signed.insert(said.entry, Arc::clone(&found));
        Ok(Some(found))
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
