//! Rows to entries and back.

use crate::entry::{Entry, NotAnEntry, Salt};
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
