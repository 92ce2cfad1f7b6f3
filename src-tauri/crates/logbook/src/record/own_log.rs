//! The logs this device writes: one open in each book.

use crate::chain::{Ends, walk};
use crate::entry::body::{Book, LogOpened, OpenedWhy};
use crate::entry::{EntryRef, Hash, LogId, Object, Seq};
use crate::store::{blob, counter, number};
use crate::view::ReadError;
use provenohm_assess::ids::DeviceId;
use rusqlite::{Connection, OptionalExtension, Row, params};
use std::ops::ControlFlow;
use uuid::Uuid;

/// A log of this device and its end.
#[derive(Clone, Copy, Debug)]
pub(super) struct OwnLog {
    pub(super) log: LogId,
    pub(super) seq: Seq,
    pub(super) hash: Hash,
    /// How many entries from the start a seal covers.
    pub(super) sealed_to: u64,
}

impl OwnLog {
    pub(super) fn head(&self) -> EntryRef {
        EntryRef { log: self.log, seq: self.seq, short: self.hash.short() }
    }

    fn of(row: &Row<'_>) -> rusqlite::Result<Self> {
        Ok(Self {
            log: LogId(Uuid::from_bytes(row.get(0)?)),
            seq: Seq(counter(row.get(1)?)),
            hash: Hash(row.get(2)?),
            sealed_to: counter(row.get(3)?),
        })
    }
}

/// The open log of a book, if this device has one there.
pub(super) fn open_log(tx: &Connection, book: Book) -> rusqlite::Result<Option<OwnLog>> {
    let Object { noun, id } = book.object();
    tx.prepare_cached(
        "SELECT log, head_seq, head_hash, sealed_to FROM own_log WHERE noun = ?1 AND book = ?2 AND closed IS NULL",
    )?
    .query_row(params![noun.number(), blob(&id.0)], OwnLog::of)
    .optional()
}

/// The log of a book that was closed last, and why.
fn former(tx: &Connection, book: Book) -> rusqlite::Result<Option<(OwnLog, String)>> {
    let Object { noun, id } = book.object();
    tx.prepare_cached(
        "SELECT log, head_seq, head_hash, sealed_to, closed FROM own_log
         WHERE noun = ?1 AND book = ?2 AND closed IS NOT NULL ORDER BY rowid DESC LIMIT 1",
    )?
    .query_row(params![noun.number(), blob(&id.0)], |row| Ok((OwnLog::of(row)?, row.get(4)?)))
    .optional()
}

/// The books in which an own log has an end that no seal of it covers.
pub(super) fn unsealed(tx: &Connection) -> rusqlite::Result<Vec<Book>> {
    tx.prepare_cached("SELECT DISTINCT noun, book FROM own_log WHERE sealed_to <= head_seq ORDER BY noun, book")?
        .query_map([], |row| Ok(Book::numbered(row.get(0)?, Uuid::from_bytes(row.get(1)?))))?
        .collect()
}

/// Whether the log of a book that was closed last has an end here that nothing proves to be its own.
pub(super) fn leaves_unsealed(tx: &Connection, book: Book) -> Result<bool, ReadError> {
    let Some((log, _)) = former(tx, book)? else { return Ok(false) };
    let head = log.head();
    let mut unsealed = false;
    let _ = walk(tx, log.log, log.seq, &Ends::of(tx, book)?, &mut |met| {
        unsealed |= met.entry == head && met.proof.is_none();
        ControlFlow::Continue(())
    })?;
    Ok(unsealed)
}

/// What the first entry of a new log in a book says.
pub(super) fn opening(tx: &Connection, book: Book, device: DeviceId, key: [u8; 32]) -> rusqlite::Result<LogOpened> {
    let (why, after) = match former(tx, book)? {
        None => (OpenedWhy::First, None),
        Some((log, closed)) => {
            let why = match closed.as_str() {
                "forked" => OpenedWhy::Forked,
                "returned" => OpenedWhy::Returned,
                _ => OpenedWhy::Restored,
            };
            (why, Some(log.head()))
        }
    };
    Ok(LogOpened { book, device, key, why, after })
}

/// Notes the end of an own log; makes its row with the first entry.
pub(super) fn note(tx: &Connection, book: Book, device: DeviceId, log: &OwnLog) -> rusqlite::Result<()> {
    let Object { noun, id } = book.object();
    tx.prepare_cached(
        "INSERT INTO own_log (log, device, noun, book, closed, head_seq, head_hash, sealed_to)
         VALUES (?1, ?2, ?3, ?4, NULL, ?5, ?6, ?7)
         ON CONFLICT (log) DO UPDATE SET
             head_seq = excluded.head_seq, head_hash = excluded.head_hash, sealed_to = excluded.sealed_to",
    )?
    .execute(params![
        blob(&log.log.0),
        blob(&device.0),
        noun.number(),
        blob(&id.0),
        number(log.seq.0),
        log.hash.0,
        number(log.sealed_to),
    ])?;
    Ok(())
}

/// Closes an open log of this device for good. False if it was not open.
pub(super) fn close(tx: &Connection, log: LogId, why: &str) -> rusqlite::Result<bool> {
    let closed = tx
        .prepare_cached("UPDATE own_log SET closed = ?2 WHERE log = ?1 AND closed IS NULL")?
        .execute(params![blob(&log.0), why])?;
    Ok(closed > 0)
}
