//! Heads: the entries of a log that no other entry of it follows.

use crate::entry::Entry;
use crate::store::{blob, number};
use rusqlite::{Connection, params};

/// Takes an entry into the heads: it ends its predecessor's headship, and is a head unless one follows it.
pub(super) fn follow(tx: &Connection, entry: &Entry) -> rusqlite::Result<()> {
    let envelope = entry.envelope();
    let (log, seq) = (blob(&envelope.log.0), number(envelope.seq.0));
    tx.prepare_cached("DELETE FROM head WHERE log = ?1 AND seq = ?2 AND hash = ?3")?.execute(params![
        log,
        seq - 1,
        envelope.prev.0
    ])?;
    tx.prepare_cached(
        "INSERT OR IGNORE INTO head (log, seq, hash) SELECT ?1, ?2, ?3
         WHERE NOT EXISTS (SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 + 1 AND prev = ?3)",
    )?
    .execute(params![log, seq, entry.hash().0])?;
    Ok(())
}
