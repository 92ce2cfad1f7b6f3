//! Jobs.

use super::facet::{Facet, Stated};
use super::query::{ReadError, View};
use crate::entry::body::{BoardOrder, CautionsRead, JobNames, JobOpened, JobPeople, JobRules, Note, Origin};
use crate::entry::{Kind, Noun, Object, ObjectId};
use provenohm_assess::ids::{CircuitId, JobId, PersonId};

/// A job, facet by facet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Job {
    /// Which.
    pub job: JobId,
    /// Whether it is on the list of jobs: undoing its beginning takes it off, unless others have worked on it.
    pub stands: bool,
    /// How and when it began.
    pub opened: Vec<Stated<JobOpened>>,
    /// Name and place.
    pub names: Facet<JobNames>,
    /// Limit set and policies.
    pub rules: Facet<JobRules>,
    /// People.
    pub people: Facet<JobPeople>,
    /// Order of its boards.
    pub order: Facet<BoardOrder>,
    /// Who has read the cautions.
    pub cautions: Vec<Stated<CautionsRead>>,
    /// Something about it needs a newer version; true if it must not be judged without.
    pub needs_newer: Option<bool>,
}

impl Job {
    /// Whether it is invented: every paper says so.
    #[must_use]
    pub fn is_invented(&self) -> bool {
        self.opened
            .iter()
            .any(|one| matches!(one.value.origin, Origin::Invented | Origin::FromFile { invented: true, .. }))
    }

    /// Whether a person has read the cautions for this job.
    #[must_use]
    pub fn cautions_read_by(&self, person: PersonId) -> bool {
        self.cautions.iter().any(|one| one.is_live() && one.value.person == person)
    }
}

impl View<'_> {
    /// The jobs that stand, by id and so by the time they began.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn jobs(&self) -> Result<Vec<Job>, ReadError> {
        self.begun(Noun::Job, Kind::JobOpened)?.into_iter().map(|id| self.job(JobId(id))).collect()
    }

    /// The names that jobs go by now.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn job_names(&self) -> Result<Vec<(JobId, String)>, ReadError> {
        let all = self.all_stated::<JobNames>()?.into_iter().filter(Stated::is_live);
        Ok(all.map(|one| (one.value.job, one.value.name)).collect())
    }

    /// One job.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn job(&self, job: JobId) -> Result<Job, ReadError> {
        let object = Object { noun: Noun::Job, id: ObjectId(job.0) };
        Ok(Job {
            job,
            stands: self.is_begun(object, Kind::JobOpened)?,
            opened: self.stated(object)?,
            names: Facet::of(self.stated(object)?),
            rules: Facet::of(self.stated(object)?),
            people: Facet::of(self.stated(object)?),
            order: Facet::of(self.stated(object)?),
            cautions: self.stated(object)?,
            needs_newer: self.needs_newer(object)?,
        })
    }

    /// The notes on something, whatever became of them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn notes(&self, of: Object) -> Result<Vec<Stated<Note>>, ReadError> {
        Ok(self.stated::<Note>(of)?.into_iter().filter(|note| note.value.of == of).collect())
    }

    /// The notes on a circuit under every id that means it, whatever became of them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn circuit_notes(&self, job: JobId, circuit: CircuitId) -> Result<Vec<Stated<Note>>, ReadError> {
        let same = self.same_circuits(job)?;
        let mut notes = Vec::new();
        for id in std::iter::once(circuit.0).chain(same.others(circuit.0)) {
            notes.extend(self.notes(Object { noun: Noun::Circuit, id: ObjectId(id) })?);
        }
        Ok(notes)
    }
}
