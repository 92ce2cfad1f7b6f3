//! The seat of somebody who logged in at a host that several people share: who records there, and what they chose.

use crate::failure::Failure;
use crate::state::State;
use provenohm_assess::ids::PersonId;
use provenohm_logbook::entry::body::{Book, JobPeople, JobPerson, Person};
use provenohm_logbook::entry::{EntryRef, Fact, Role};
use provenohm_logbook::record::Writer;
use std::collections::BTreeSet;

/// Who works by a login of their own. What is recorded from here is theirs, and what they choose is nobody else's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seat {
    /// The login's person.
    pub person: PersonId,
    /// Their name.
    pub name: String,
    /// What they do, in words.
    pub role: String,
}

impl State {
    /// Goes on for whoever asks now: at their seat, or without one for the person at this device.
    pub(crate) fn sit(&mut self, seat: Option<&Seat>) -> Result<(), Failure> {
        if self.seat.as_ref() == seat {
            return Ok(());
        }
        self.seat = seat.cloned();
        self.read_locale()
    }

    /// Makes a login's person known here under their name, before anything of theirs is in the record.
    pub(crate) fn know(&mut self, seat: &Seat) -> Result<(), Failure> {
        if self.not_opened.is_some() || self.record.is_read_only() || self.record.view().card(seat.person)?.is_some() {
            return Ok(());
        }
        Ok(self.record.keep_person(&card(seat))?)
    }

    /// The name under which a choice of the person at this screen is kept.
    pub(crate) fn own(&self, what: &str) -> String {
        match &self.seat {
            None => what.to_owned(),
            Some(seat) => format!("of-person:{}:{what}", seat.person),
        }
    }

    /// The name somebody acts under: at a seat its own, whatever is typed in its place is somebody else's.
    ///
    /// # Errors
    /// `not_you`.
    pub(crate) fn acting_name(&self, typed: String) -> Result<String, Failure> {
        match &self.seat {
            None => Ok(typed),
            Some(seat) if typed.trim().is_empty() || typed.trim() == seat.name => Ok(seat.name.clone()),
            Some(_) => Err(Failure::of("not_you")),
        }
    }

    /// Refuses to act as anybody but whoever sits here.
    ///
    /// # Errors
    /// `not_you`.
    pub(crate) fn is_seated(&self, person: PersonId) -> Result<(), Failure> {
        match &self.seat {
            Some(seat) if seat.person != person => Err(Failure::of("not_you")),
            _ => Ok(()),
        }
    }
}

fn card(seat: &Seat) -> Person {
    Person { person: seat.person, name: seat.name.clone(), role: seat.role.clone() }
}

/// Lists a seat's person among the people of each job that was just written in, once. The entries that do so.
pub(crate) fn join(writer: &mut Writer<'_>, seat: &Seat) -> Result<Vec<EntryRef>, Failure> {
    let logs: BTreeSet<_> = writer.appended().iter().map(|one| one.entry.log).collect();
    let mut jobs = BTreeSet::new();
    for log in logs {
        if let Some(Book::Job { job }) = writer.view().book_of(log)? {
            jobs.insert(job);
        }
    }
    let mut joined = Vec::new();
    for job in jobs {
        let facet = writer.view().job(job)?.people;
        let mut people: Vec<JobPerson> = facet.live.iter().flat_map(|live| live.value.people.clone()).collect();
        if people.iter().any(|one| one.person == seat.person) {
            continue;
        }
        people.push(JobPerson { person: seat.person, part: seat.role.clone() });
        joined.push(writer.append(Fact::naming(JobPeople { job, people }, Role::Replaces, facet.current()))?);
    }
    Ok(joined)
}
