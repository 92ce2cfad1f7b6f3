//! Checking a book: that its logs are whole, unaltered and sealed.

mod missing;
mod proof;

pub use missing::Gap;
pub use proof::Proof;
pub(crate) use proof::{Ends, Met, openings, walk};

use crate::entry::body::{Book, Sealed};
use crate::entry::{Body, Entry, EntryRef, Fact, Hash, LogId, Object, Seq};
use crate::seal;
use crate::store::{WRITTEN, as_written, blob, counter};
use crate::view::{ReadError, View};
use rusqlite::params;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// What is wrong with a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Stored bytes are not what was written.
    Altered {
        /// Where.
        seq: Seq,
        /// In words.
        what: String,
    },
    /// Entries before this one are missing.
    Gap {
        /// The first place that is missing.
        from: Seq,
    },
    /// Two entries stand at one place. Both are kept.
    Fork {
        /// The place.
        seq: Seq,
    },
    /// An entry does not follow any entry that stands before it.
    BrokenLink(EntryRef),
    /// A seal does not verify by the key of the log's first entry.
    BadSeal(EntryRef),
    /// An entry's clock is earlier than that of the entry it follows, by more than a minute: shown as doubtful, never a reason to refuse.
    ClockBack(EntryRef),
}

/// What a check of one log found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LogReport {
    /// Entries here.
    pub entries: u64,
    /// Entries whose body was erased; the chain holds without them.
    pub erased: u64,
    /// Entries from the start that a good seal covers.
    pub sealed: u64,
    /// Entries that are known to be this log's: chained forward to a seal, or to what a later log names as its end.
    pub authentic: u64,
    /// Of these, the ones for which only another device vouches.
    pub vouched: u64,
    /// Entries chained back to the log's first.
    pub complete: u64,
    /// What is wrong.
    pub faults: Vec<Fault>,
}

impl View<'_> {
    /// Checks every log of a book.
    ///
    /// # Errors
    /// [`ReadError`] if the record cannot be read at all; what is wrong with entries is in the report.
    pub fn check(&self, book: Book) -> Result<BTreeMap<LogId, LogReport>, ReadError> {
        let ends = Ends::of(self.connection(), book)?;
        self.logs(book)?.into_iter().map(|log| Ok((log, self.check_log(log, &ends)?))).collect()
    }

    /// The logs of a book that are here, by id.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn logs(&self, book: Book) -> Result<Vec<LogId>, ReadError> {
        let Object { noun, id } = book.object();
        let logs = self
            .connection()
            .prepare_cached("SELECT DISTINCT log FROM opened WHERE noun = ?1 AND book = ?2 ORDER BY log")?
            .query_map(params![noun.number(), blob(&id.0)], |row| Ok(LogId(uuid::Uuid::from_bytes(row.get(0)?))))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(logs)
    }

    /// The heads of a book: per log its last entry, more than one where it forks or has a gap.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn heads(&self, book: Book) -> Result<Vec<(LogId, Seq, Hash)>, ReadError> {
        let Object { noun, id } = book.object();
        let heads = self
            .connection()
            .prepare_cached(
                "SELECT DISTINCT h.log, h.seq, h.hash FROM head h JOIN opened o ON o.log = h.log
                 WHERE o.noun = ?1 AND o.book = ?2 ORDER BY h.log, h.seq, h.hash",
            )?
            .query_map(params![noun.number(), blob(&id.0)], |row| {
                let log = LogId(uuid::Uuid::from_bytes(row.get(0)?));
                Ok((log, Seq(counter(row.get(1)?)), Hash(row.get(2)?)))
            })?
            .collect::<rusqlite::Result<_>>()?;
        Ok(heads)
    }

    /// The entries of a book, log by log in their order: what is exported.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn entries(&self, book: Book) -> Result<Vec<Entry>, ReadError> {
        let Object { noun, id } = book.object();
        self.entries_where(
            "SELECT envelope, salt, body FROM entry
             WHERE log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) ORDER BY log, seq, hash",
            params![noun.number(), blob(&id.0)],
        )
    }

    /// The entries of one log in their order.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn entries_of(&self, log: LogId) -> Result<Vec<Entry>, ReadError> {
        self.entries_where("SELECT envelope, salt, body FROM entry WHERE log = ?1 ORDER BY seq, hash", [blob(&log.0)])
    }

    /// Every book here.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn books(&self) -> Result<BTreeSet<Book>, ReadError> {
        let logs: Vec<[u8; 16]> = self
            .connection()
            .prepare_cached("SELECT DISTINCT log FROM opened")?
            .query_map([], |row| row.get(0))?
            .collect::<rusqlite::Result<_>>()?;
        let mut books = BTreeSet::new();
        for log in logs {
            books.extend(self.book_of(LogId(uuid::Uuid::from_bytes(log)))?);
        }
        Ok(books)
    }

    fn check_log(&self, log: LogId, ends: &Ends) -> Result<LogReport, ReadError> {
        let mut report = LogReport::default();
        let mut statement = self
            .connection()
            .prepare_cached(&format!("SELECT {WRITTEN} FROM entry WHERE log = ?1 ORDER BY seq, hash"))?;
        let mut rows = statement.query([blob(&log.0)])?;
        let mut place: Vec<Entry> = Vec::new();
        let mut before: Vec<Entry> = Vec::new();
        let mut whole: BTreeSet<Hash> = BTreeSet::new();
        let mut key = None;
        while let Some(row) = rows.next()? {
            let seq = Seq(counter(row.get(4)?));
            report.entries += 1;
            let entry = match as_written(row) {
                Ok(entry) => entry,
                Err(what) => {
                    report.faults.push(Fault::Altered { seq, what });
                    continue;
                }
            };
            match place.first().map(|one| one.envelope().seq) {
                Some(at) if at == seq => report.faults.push(Fault::Fork { seq }),
                at => {
                    let expected = Seq(at.map_or(0, |at| at.0 + 1));
                    before = std::mem::take(&mut place);
                    whole.retain(|hash| before.iter().any(|one| one.hash() == *hash));
                    if seq != expected {
                        report.faults.push(Fault::Gap { from: expected });
                        before.clear();
                    }
                }
            }
            follow(&mut report, &before, &entry);
            if seq.0 == 0 || whole.contains(&entry.envelope().prev) {
                whole.insert(entry.hash());
                report.complete += 1;
            }
            read(&mut report, &mut key, log, &entry);
            place.push(entry);
        }
        let _ = walk(self.connection(), log, Seq(0), ends, &mut |met| {
            report.authentic += u64::from(met.proof.is_some());
            report.vouched += u64::from(met.proof == Some(Proof::Vouched));
            ControlFlow::Continue(())
        })?;
        Ok(report)
    }
}

fn follow(report: &mut LogReport, before: &[Entry], entry: &Entry) {
    let prev = entry.envelope().prev;
    match before.iter().find(|one| one.hash() == prev) {
        Some(one) if clock_went_back(one, entry) => {
            report.faults.push(Fault::ClockBack(entry.reference()));
        }
        Some(_) => {}
        None if before.is_empty() => {}
        None => report.faults.push(Fault::BrokenLink(entry.reference())),
    }
}

fn clock_went_back(before: &Entry, entry: &Entry) -> bool {
    use crate::entry::time::{CLOCK_JITTER_MS, unix_ms};
    unix_ms(&before.envelope().recorded) > unix_ms(&entry.envelope().recorded) + CLOCK_JITTER_MS
}

fn read(report: &mut LogReport, key: &mut Option<[u8; 32]>, log: LogId, entry: &Entry) {
    let envelope = entry.envelope();
    let Some((_, body)) = entry.body() else {
        report.erased += 1;
        return;
    };
    match Fact::decode(envelope.kind, envelope.kind_version, body).map(|fact| fact.body) {
        Ok(Body::LogOpened(opened)) => *key = Some(opened.key),
        Ok(Body::Seal(sealed)) => {
            if follows_what_it_seals(entry, &sealed) && key.is_some_and(|key| seal::holds(&key, log, &sealed)) {
                report.sealed = report.sealed.max(envelope.seq.0 + 1);
            } else {
                report.faults.push(Fault::BadSeal(entry.reference()));
            }
        }
        _ => {}
    }
}

fn follows_what_it_seals(entry: &Entry, sealed: &Sealed) -> bool {
    entry.envelope().prev == sealed.head && entry.envelope().seq.0 == sealed.seq.0 + 1
}
