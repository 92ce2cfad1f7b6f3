//! Sign-offs of a job, and what blocks one here.

use super::facet::Stated;
use super::query::{ReadError, View};
use crate::entry::body::{Book, SignOff};
use crate::entry::{Entry, EntryRef, Kind, Noun, Object, ObjectId};
use crate::store::{blob, counter, number};
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

    /// What bears a sign-off out: the first entry of its log, the sign-off, and the seal over it.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn evidence(&self, sign_off: EntryRef) -> Result<Vec<Entry>, ReadError> {
        self.entries_where(
            "SELECT e.envelope, e.salt, e.body FROM entry s JOIN entry e ON e.log = s.log
             WHERE s.log = ?1 AND s.seq = ?2 AND substr(s.hash, 1, 8) = ?3
               AND (e.seq = 0 OR e.id = s.id OR (e.seq = s.seq + 1 AND e.prev = s.hash AND e.kind = ?4))
             ORDER BY e.seq, e.hash",
            params![blob(&sign_off.log.0), number(sign_off.seq.0), sign_off.short, number(Kind::Seal.number())],
        )
    }

    /// How many entries of some books this version cannot read.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn need_newer<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<u64, ReadError> {
        let mut counted = self.connection.prepare_cached(
            "SELECT count(*) FROM standing s CROSS JOIN entry e ON e.id = s.entry
             WHERE s.readable = 0 AND s.withdrawn = 0 AND e.body IS NOT NULL
               AND e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)",
        )?;
        let mut count = 0;
        for book in books {
            let Object { noun, id } = book.object();
            count += counted.query_row(params![noun.number(), blob(&id.0)], |row| row.get(0)).map(counter)?;
        }
        Ok(count)
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
