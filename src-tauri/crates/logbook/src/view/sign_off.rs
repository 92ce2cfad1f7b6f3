//! Sign-offs of a job, and what blocks one here.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::entry::body::{Book, SignOff};
use crate::entry::{Noun, Object, ObjectId};
use crate::store::blob;
use provenohm_assess::ids::JobId;
use rusqlite::params;

impl View<'_> {
    /// The sign-offs of a job, withdrawn ones too, by their numbers. Two may have one number: two people signed apart.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn sign_offs(&self, job: JobId) -> Result<Vec<Stated<SignOff>>, ReadError> {
        let mut all = self.stated::<SignOff>(Object { noun: Noun::Job, id: ObjectId(job.0) })?;
        all.sort_by_key(|one| one.value.number);
        Ok(all)
    }

    /// How many entries of some books this version cannot read and must not sign over.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn critical_unreadable<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<u64, ReadError> {
        let mut count = 0;
        for book in books {
            let Object { noun, id } = book.object();
            let entries = self.entries_where(
                "SELECT e.envelope, e.salt, e.body FROM standing s CROSS JOIN entry e ON e.id = s.entry
                 WHERE s.readable = 0 AND s.withdrawn = 0 AND e.body IS NOT NULL
                   AND e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)",
                params![noun.number(), blob(&id.0)],
            )?;
            count += entries.iter().filter(|entry| entry.envelope().critical).count() as u64;
        }
        Ok(count)
    }
}
