//! An entry arrives: it is stored and projected.

use super::{erasure, head, standing};
use crate::entry::body::touched;
use crate::entry::{Body, Entry, Fact, Object, Role, Salt};
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
    /// It was here, but not as it was written, and is now.
    Mended,
}

/// Stores and projects an entry, inside the caller's transaction.
pub(crate) fn arrive(tx: &Connection, entry: &Entry) -> rusqlite::Result<Arrival> {
    let known = known(tx, entry)?;
    let erased = erasure::is_erased(tx, entry)?;
    let body = if erased { None } else { entry.body() };
    let id = match known {
        None => insert(tx, entry, body)?,
        // A copy without the body cannot mend one with it.
        Some(known) if !known.as_written && (body.is_some() || erased) => {
            mend(tx, known.id, entry, body)?;
            return Ok(Arrival::Mended);
        }
        // It came before without the body that this copy still has, and nothing says that it is erased.
        Some(known) if known.bare && body.is_some() => {
            tx.prepare_cached("UPDATE entry SET salt = ?2, body = ?3 WHERE id = ?1")?.execute(params![
                known.id,
                body.map(|(salt, _)| salt.0),
                body.map(|(_, bytes)| bytes)
            ])?;
            known.id
        }
        Some(_) => return Ok(Arrival::Known),
    };
    if known.is_none() {
        head::follow(tx, entry)?;
    }
    project(tx, id, entry.envelope().kind, entry.envelope().kind_version, entry, body.map(|(_, bytes)| bytes))?;
    Ok(if known.is_none() { Arrival::New(id) } else { Arrival::Completed(id) })
}

/// An entry that is here already.
#[derive(Clone, Copy)]
struct Known {
    id: i64,
    /// Without its body.
    bare: bool,
    /// What is stored is what came, as far as it came.
    as_written: bool,
}

/// The row of an entry: by its hash or, where that was altered, by its bytes. The stored bytes are held against those
/// that came; the column alone would vouch for whatever stands beside it.
fn known(tx: &Connection, entry: &Entry) -> rusqlite::Result<Option<Known>> {
    let envelope = entry.envelope();
    tx.prepare_cached(
        "SELECT id, body IS NULL,
                hash = ?3 AND envelope = ?4 AND prev = ?5 AND kind = ?6 AND lamport = ?7 AND recorded_ms = ?8
                AND (body IS NULL OR ?10 IS NULL OR (salt = ?9 AND body = ?10))
         FROM entry WHERE log = ?1 AND seq = ?2 AND (hash = ?3 OR envelope = ?4) ORDER BY hash = ?3 DESC LIMIT 1",
    )?
    .query_row(
        params![
            blob(&envelope.log.0),
            number(envelope.seq.0),
            entry.hash().0,
            entry.envelope_bytes(),
            envelope.prev.0,
            number(envelope.kind),
            number(envelope.lamport.0),
            crate::entry::time::unix_ms(&envelope.recorded),
            entry.body().map(|(salt, _)| salt.0),
            entry.body().map(|(_, bytes)| bytes),
        ],
        |row| Ok(Known { id: row.get(0)?, bare: row.get(1)?, as_written: row.get(2)? }),
    )
    .optional()
}

/// Puts the bytes that came in the place of altered ones, and projects them instead.
fn mend(tx: &Connection, id: i64, entry: &Entry, body: Option<(&Salt, &[u8])>) -> rusqlite::Result<()> {
    let freed = standing::named_by(tx, id)?;
    let envelope = entry.envelope();
    tx.prepare_cached(
        "UPDATE entry SET hash = ?2, prev = ?3, kind = ?4, lamport = ?5, recorded_ms = ?6, envelope = ?7, salt = ?8,
                          body = ?9 WHERE id = ?1",
    )?
    .execute(params![
        id,
        entry.hash().0,
        envelope.prev.0,
        number(envelope.kind),
        number(envelope.lamport.0),
        crate::entry::time::unix_ms(&envelope.recorded),
        entry.envelope_bytes(),
        body.map(|(salt, _)| salt.0),
        body.map(|(_, bytes)| bytes),
    ])?;
    for table in ["about", "naming", "opened"] {
        tx.prepare_cached(&format!("DELETE FROM {table} WHERE entry = ?1"))?.execute([id])?;
    }
    head::follow(tx, entry)?;
    project(tx, id, envelope.kind, envelope.kind_version, entry, body.map(|(_, bytes)| bytes))?;
    freed.into_iter().try_for_each(|one| standing::settle(tx, one))
}

fn insert(tx: &Connection, entry: &Entry, body: Option<(&Salt, &[u8])>) -> rusqlite::Result<i64> {
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
