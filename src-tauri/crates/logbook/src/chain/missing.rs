//! What a book lacks, and where its logs part: shown beside it, never a reason to leave out what is there.

use crate::entry::body::Book;
use crate::entry::{EntryRef, LogId, Object, Seq};
use crate::store::{blob, counter};
use crate::view::{ReadError, View, reference};
use rusqlite::params;
use uuid::Uuid;

/// Entries that are missing from a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The entry that follows one which is not here.
    pub before: EntryRef,
    /// The last place before it that is filled.
    pub after: Option<Seq>,
}

impl Gap {
    /// How many entries are missing; 0 where only one branch of a fork lacks what it follows.
    #[must_use]
    pub fn missing(&self) -> u64 {
        self.before.seq.0 - self.after.map_or(0, |seq| seq.0 + 1)
    }
}

impl View<'_> {
    /// The gaps in the logs of a book.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn gaps(&self, book: Book) -> Result<Vec<Gap>, ReadError> {
        let Object { noun, id } = book.object();
        let gaps = self
            .connection()
            .prepare_cached(
                "SELECT e.log, e.seq, e.hash, (SELECT max(b.seq) FROM entry b WHERE b.log = e.log AND b.seq < e.seq)
                 FROM entry e
                 WHERE e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) AND e.seq > 0
                   AND NOT EXISTS (SELECT 1 FROM entry p WHERE p.log = e.log AND p.seq = e.seq - 1 AND p.hash = e.prev)
                 ORDER BY e.log, e.seq, e.hash",
            )?
            .query_map(params![noun.number(), blob(&id.0)], |row| {
                let after: Option<i64> = row.get(3)?;
                Ok(Gap { before: reference(row, 0)?, after: after.map(|seq| Seq(counter(seq))) })
            })?
            .collect::<rusqlite::Result<_>>()?;
        Ok(gaps)
    }

    /// The places where a log of a book goes on in two ways: it was written on two devices at once.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn forks(&self, book: Book) -> Result<Vec<(LogId, Seq)>, ReadError> {
        let Object { noun, id } = book.object();
        let forks = self
            .connection()
            .prepare_cached(
                "SELECT log, seq FROM entry
                 WHERE log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)
                 GROUP BY log, seq, prev HAVING count(*) > 1 ORDER BY log, seq",
            )?
            .query_map(params![noun.number(), blob(&id.0)], |row| {
                Ok((LogId(Uuid::from_bytes(row.get(0)?)), Seq(counter(row.get(1)?))))
            })?
            .collect::<rusqlite::Result<_>>()?;
        Ok(forks)
    }
}
