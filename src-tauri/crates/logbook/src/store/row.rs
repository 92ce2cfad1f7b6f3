//! Rows to entries and back.

use crate::entry::{Entry, LogId, NotAnEntry, Salt, time};
use rusqlite::Row;
use uuid::Uuid;

/// A UUID as it is stored.
pub(crate) fn blob(id: &Uuid) -> &[u8] {
    id.as_bytes().as_slice()
}

/// A counter as it is stored. Counters are refused long before 2⁶³ when an entry is read.
pub(crate) fn number(counter: u64) -> i64 {
    i64::try_from(counter).unwrap_or(i64::MAX)
}

/// A counter as it was stored.
pub(crate) fn counter(stored: i64) -> u64 {
    stored.unsigned_abs()
}

/// The entry of a row that begins with `envelope, salt, body`.
pub(crate) fn entry_of(row: &Row<'_>) -> rusqlite::Result<Result<Entry, NotAnEntry>> {
    let envelope: Vec<u8> = row.get(0)?;
    let salt: Option<[u8; 16]> = row.get(1)?;
    let body: Option<Vec<u8>> = row.get(2)?;
    Ok(Entry::from_parts(envelope, salt.map(Salt).zip(body)))
}

/// The columns of `entry` that [`as_written`] reads a row by.
pub(crate) const WRITTEN: &str = "envelope, salt, body, log, seq, hash, prev, kind, lamport, recorded_ms";

/// The entry of a row that begins with [`WRITTEN`], or in what it is not as it was written.
pub(crate) fn as_written(row: &Row<'_>) -> Result<Entry, String> {
    let read = entry_of(row).and_then(|read| match read {
        Ok(entry) if columns_agree(row, &entry)? => Ok(Ok(entry)),
        Ok(_) => Ok(Err("a column differs from its entry".to_owned())),
        Err(error) => Ok(Err(error.to_string())),
    });
    read.unwrap_or_else(|error| Err(error.to_string()))
}

/// Whether the columns say what the envelope says.
fn columns_agree(row: &Row<'_>, entry: &Entry) -> rusqlite::Result<bool> {
    let envelope = entry.envelope();
    Ok(envelope.log == LogId(Uuid::from_bytes(row.get(3)?))
        && envelope.seq.0 == counter(row.get(4)?)
        && entry.hash().0 == row.get::<_, [u8; 32]>(5)?
        && envelope.prev.0 == row.get::<_, [u8; 32]>(6)?
        && envelope.kind == counter(row.get(7)?)
        && envelope.lamport.0 == counter(row.get(8)?)
        && time::unix_ms(&envelope.recorded) == row.get::<_, i64>(9)?)
}
