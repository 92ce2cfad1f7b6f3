//! Which jobs and testers rely on which, and what this version cannot read.

use super::query::{ReadError, View};
use crate::entry::body::touched;
use crate::entry::{Kind, Noun, Object, ObjectId};
use crate::store::{blob, counter};
use provenohm_assess::ids::{JobId, ReadingId, TesterId};
use rusqlite::params;
use std::collections::BTreeSet;

/// Entries that are kept without being read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// Number of their kind.
    pub kind: u64,
    /// How many there are.
    pub count: u64,
}

/// What of a job this version must not judge, since an entry bears on it that only a newer one can read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Beyond {
    /// All of it.
    pub job: bool,
    /// Some readings.
    pub readings: BTreeSet<ReadingId>,
}

impl View<'_> {
    /// The testers that readings of a job rely on, by their own word or by correction.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn testers_of(&self, job: JobId) -> Result<Vec<TesterId>, ReadError> {
        let object = Object { noun: Noun::Job, id: ObjectId(job.0) };
        let ids = self.related(object, Noun::Tester, [Kind::Reading, Kind::Correction])?;
        Ok(ids.into_iter().map(TesterId).collect())
    }

    /// The jobs whose readings rely on a tester.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn jobs_of(&self, tester: TesterId) -> Result<Vec<JobId>, ReadError> {
        let object = Object { noun: Noun::Tester, id: ObjectId(tester.0) };
        let ids = self.related(object, Noun::Job, [Kind::Reading, Kind::Correction])?;
        Ok(ids.into_iter().map(JobId).collect())
    }

    /// Entries of kinds, versions or keys this version does not know, by kind. They are kept and forwarded.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn unreadable(&self) -> Result<Vec<Unreadable>, ReadError> {
        let counts = self
            .connection
            .prepare_cached(
                "SELECT e.kind, count(*) FROM standing s CROSS JOIN entry e ON e.id = s.entry
                 WHERE s.readable = 0 AND e.body IS NOT NULL GROUP BY e.kind ORDER BY e.kind",
            )?
            .query_map([], |row| Ok(Unreadable { kind: counter(row.get(0)?), count: counter(row.get(1)?) }))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(counts)
    }

    /// Readings of a job that an entry bears on which this version cannot read and must not judge without; and
    /// whether such an entry is about the job itself, and so about all of them.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn beyond(&self, job: JobId) -> Result<Beyond, ReadError> {
        let entries = self.entries_where(
            "SELECT e.envelope, e.salt, e.body FROM standing s
             CROSS JOIN entry e ON e.id = s.entry CROSS JOIN about a ON a.entry = s.entry
             WHERE a.noun = ?1 AND a.object = ?2 AND s.readable = 0 AND s.withdrawn = 0 AND e.body IS NOT NULL",
            params![Noun::Job.number(), blob(&job.0)],
        )?;
        let mut beyond = Beyond::default();
        for entry in entries.iter().filter(|entry| entry.envelope().critical) {
            let Some((_, body)) = entry.body() else { continue };
            let (about, _) = touched(body);
            beyond.job |= !about.iter().any(|it| matches!(it.noun, Noun::Board | Noun::Circuit | Noun::Reading));
            let readings = about.iter().filter(|it| it.noun == Noun::Reading);
            beyond.readings.extend(readings.map(|it| ReadingId(it.id.0)));
        }
        Ok(beyond)
    }

    /// Whether something about an object needs a newer version to be read: `Some(true)` if it must not be judged
    /// without, `Some(false)` if it may.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn needs_newer(&self, object: Object) -> Result<Option<bool>, ReadError> {
        let entries = self.entries_where(
            // From the few that cannot be read, not from all that is about the object.
            "SELECT e.envelope, e.salt, e.body FROM standing s
             CROSS JOIN entry e ON e.id = s.entry CROSS JOIN about a ON a.entry = s.entry
             WHERE a.noun = ?1 AND a.object = ?2 AND s.readable = 0 AND s.withdrawn = 0 AND e.body IS NOT NULL",
            params![object.noun.number(), blob(&object.id.0)],
        )?;
        Ok(entries.iter().map(|entry| entry.envelope().critical).reduce(|one, other| one || other))
    }
}
