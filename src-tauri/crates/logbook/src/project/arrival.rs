//! An entry arrives: it is stored and projected.

use super::{erasure, head, standing};
use crate::entry::body::touched;
use crate::entry::{Body, Entry, Fact, Object, Role};
use crate::store::{blob, number};
use rusqlite::{Connection, OptionalExtension, params};

/// What arriving did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Arrival {
    /// It was not here before; its row.
    New(i64),
    /// It was here without its body, which this copy brought; its row.
    Completed(i64),
    /// It was here, with all it now brought.
    Known,
}

/// Stores and projects an entry, inside the caller's transaction.
pub(crate) fn arrive(tx: &Connection, entry: &Entry) -> rusqlite::Result<Arrival> {
    let envelope = entry.envelope();
    let known: Option<(i64, bool)> = tx
        .prepare_cached("SELECT id, body IS NULL FROM entry WHERE log = ?1 AND seq = ?2 AND hash = ?3")?
        .query_row(params![blob(&envelope.log.0), number(envelope.seq.0), entry.hash().0], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })
        .optional()?;
    let erased = erasure::is_erased(tx, entry)?;
    let body = if erased { None } else { entry.body() };
    let id = match known {
        None => insert(tx, entry, body)?,
        // It came before without the body that this copy still has, and nothing says that it is erased.
        Some((id, true)) if body.is_some() => {
            tx.prepare_cached("UPDATE entry SET salt = ?2, body = ?3 WHERE id = ?1")?.execute(params![
                id,
                body.map(|(salt, _)| salt.0),
                body.map(|(_, bytes)| bytes)
            ])?;
            id
        }
        Some(_) => return Ok(Arrival::Known),
    };
    if known.is_none() {
        head::follow(tx, entry)?;
    }
    project(tx, id, entry.envelope().kind, entry.envelope().kind_version, entry, body.map(|(_, bytes)| bytes))?;
    Ok(if known.is_none() { Arrival::New(id) } else { Arrival::Completed(id) })
}

fn insert(tx: &Connection, entry: &Entry, body: Option<(&crate::entry::Salt, &[u8])>) -> rusqlite::Result<i64> {
    let envelope = entry.envelope();
    tx.prepare_cached(
        "INSERT INTO entry (log, seq, hash, prev, kind, lamport, recorded_ms, envelope, salt, body)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
    )?
    .execute(params![
        blob(&envelope.log.0),
        number(envelope.seq.0),
        entry.hash().0,
        envelope.prev.0,
        number(envelope.kind),
        number(envelope.lamport.0),
        crate::entry::time::unix_ms(&envelope.recorded),
        entry.envelope_bytes(),
        body.map(|(salt, _)| salt.0),
        body.map(|(_, bytes)| bytes),
    ])?;
    Ok(tx.last_insert_rowid())
}

/// Rows of the entry's own, then what it changes for others. `body` is `None` once erased.
pub(super) fn project(
    tx: &Connection,
    id: i64,
    kind: u64,
    version: u64,
    entry: &Entry,
    body: Option<&[u8]>,
) -> rusqlite::Result<()> {
    let fact = body.map(|bytes| Fact::decode(kind, version, bytes));
    let (objects, names) = body.map(touched).unwrap_or_default();
    let subject = fact.as_ref().and_then(|fact| fact.as_ref().ok()).and_then(|fact| fact.body.subject());
    for object in objects {
        about(tx, id, kind, object, Some(object) == subject)?;
    }
    for name in &names {
        tx.prepare_cached("INSERT OR IGNORE INTO naming (log, seq, short, role, entry) VALUES (?1, ?2, ?3, ?4, ?5)")?
            .execute(params![
            blob(&name.entry.log.0),
            number(name.entry.seq.0),
            name.entry.short,
            name.role.number(),
            id
        ])?;
    }
    // An erased body was readable once; a body that never came is not readable yet. Neither acts on others.
    let readable = matches!(fact, Some(Ok(_)));
    tx.prepare_cached(
        "INSERT INTO standing (entry, readable, withdrawn, replaced, set_aside) VALUES (?1, ?2, 0, 0, 0)
         ON CONFLICT (entry) DO UPDATE SET readable = excluded.readable",
    )?
    .execute(params![id, readable])?;
    if let Some(Ok(fact)) = &fact {
        if let Body::LogOpened(opened) = &fact.body {
            let book = opened.book.object();
            tx.prepare_cached(
                "INSERT OR IGNORE INTO opened (entry, log, noun, book, device, key) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            )?
            .execute(params![
                id,
                blob(&entry.envelope().log.0),
                book.noun.number(),
                blob(&book.id.0),
                blob(&opened.device.0),
                opened.key
            ])?;
        }
        if fact.names.iter().any(|name| name.role == Role::Erases) {
            erasure::erase_named(tx, id)?;
        }
    }
    standing::settle(tx, id)
}

fn about(tx: &Connection, id: i64, kind: u64, object: Object, subject: bool) -> rusqlite::Result<()> {
    tx.prepare_cached("INSERT OR IGNORE INTO about (noun, object, kind, entry, subject) VALUES (?1, ?2, ?3, ?4, ?5)")?
        .execute(params![object.noun.number(), blob(&object.id.0), number(kind), id, subject])?;
    Ok(())
}
