//! Erasure: the body of personal data is dropped. The envelope stays, so the chain still verifies.

use super::standing;
use crate::entry::{Entry, Kind, Role};
use crate::store::{blob, number};
use rusqlite::{Connection, params};

/// Whether an erasure that is here names this entry.
pub(super) fn is_erased(tx: &Connection, entry: &Entry) -> rusqlite::Result<bool> {
    let envelope = entry.envelope();
    if !Kind::from_number(envelope.kind).is_some_and(Kind::erasable) {
        return Ok(false);
    }
    tx.prepare_cached(
        "SELECT EXISTS (SELECT 1 FROM naming n
         JOIN entry f ON f.id = n.entry
         JOIN standing s ON s.entry = f.id
         WHERE n.log = ?1 AND n.seq = ?2 AND n.short = ?3 AND n.role = ?4
           AND f.kind = ?5 AND f.lamport > ?6 AND s.readable = 1)",
    )?
    .query_row(
        params![
            blob(&envelope.log.0),
            number(envelope.seq.0),
            entry.hash().short(),
            Role::Erases.number(),
            number(Kind::Erasure.number()),
            number(envelope.lamport.0),
        ],
        |row| row.get(0),
    )
}

/// Drops the bodies that the erasure `id` names and that may be dropped.
pub(super) fn erase_named(tx: &Connection, id: i64) -> rusqlite::Result<()> {
    let named: Vec<(i64, u64)> = tx
        .prepare_cached(
            "SELECT t.id, t.kind FROM naming n
             JOIN entry f ON f.id = n.entry
             JOIN entry t ON t.log = n.log AND t.seq = n.seq AND substr(t.hash, 1, 8) = n.short
             WHERE n.entry = ?1 AND n.role = ?2 AND f.kind = ?3 AND f.lamport > t.lamport AND t.body IS NOT NULL",
        )?
        .query_map(params![id, Role::Erases.number(), number(Kind::Erasure.number())], |row| {
            Ok((row.get(0)?, crate::store::counter(row.get(1)?)))
        })?
        .collect::<rusqlite::Result<_>>()?;
    for (target, kind) in named {
        if Kind::from_number(kind).is_some_and(Kind::erasable) {
            erase(tx, target)?;
        }
    }
    Ok(())
}

fn erase(tx: &Connection, target: i64) -> rusqlite::Result<()> {
    let freed = standing::named_by(tx, target)?;
    tx.prepare_cached("UPDATE entry SET salt = NULL, body = NULL WHERE id = ?1")?.execute([target])?;
    tx.prepare_cached("DELETE FROM about WHERE entry = ?1")?.execute([target])?;
    tx.prepare_cached("DELETE FROM naming WHERE entry = ?1")?.execute([target])?;
    tx.prepare_cached("UPDATE standing SET readable = 0 WHERE entry = ?1")?.execute([target])?;
    for entry in freed {
        standing::settle(tx, entry)?;
    }
    Ok(())
}
