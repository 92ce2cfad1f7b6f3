//! Which jobs and testers rely on which, and what this version cannot read.

use super::query::{ReadError, View};
use crate::entry::{Kind, Noun, Object, ObjectId};
use crate::store::{blob, counter};
use provenohm_assess::ids::{JobId, TesterId};
use rusqlite::params;

/// Entries that are kept without being read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// Number of their kind.
    pub kind: u64,
    /// How many there are.
    pub count: u64,
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
                "SELECT e.kind, count(*) FROM entry e JOIN standing s ON s.entry = e.id
                 WHERE s.readable = 0 AND e.body IS NOT NULL GROUP BY e.kind ORDER BY e.kind",
            )?
            .query_map([], |row| Ok(Unreadable { kind: counter(row.get(0)?), count: counter(row.get(1)?) }))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(counts)
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
