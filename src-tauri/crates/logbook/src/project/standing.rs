//! Where an entry stands: whether a withdrawal, a replacement or a settlement bears on it.
//!
//! An entry acts on the entries it names if this version can read it and it is not itself withdrawn. It must have
//! known what it names, so its counter is higher; following names therefore always ends.

use crate::entry::{Kind, Role};
use crate::store::counter;
use rusqlite::{Connection, OptionalExtension, params};

/// Works out where `first` stands, and then whatever changes because of it.
pub(super) fn settle(tx: &Connection, first: i64) -> rusqlite::Result<()> {
    work_out(tx, first)?;
    // A new entry acts on what it names even where its own standing is the plain one.
    let mut to_do = named_by(tx, first)?;
    while let Some(entry) = to_do.pop() {
        if work_out(tx, entry)? {
            to_do.extend(named_by(tx, entry)?);
        }
    }
    Ok(())
}

/// Works out where one entry stands. True if it now acts, or no longer acts, on what it names.
fn work_out(tx: &Connection, entry: i64) -> rusqlite::Result<bool> {
    let (mut withdrawn, mut replaced, mut set_aside) = (false, false, false);
    let mut acting = tx.prepare_cached(
        "SELECT n.role, f.kind, t.kind,
                EXISTS (SELECT 1 FROM about a JOIN about b ON a.noun = b.noun AND a.object = b.object
                        WHERE a.entry = f.id AND b.entry = t.id AND a.subject = 1 AND b.subject = 1)
         FROM entry t
         JOIN naming n ON n.log = t.log AND n.seq = t.seq AND n.short = substr(t.hash, 1, 8)
         JOIN entry f ON f.id = n.entry
         JOIN standing s ON s.entry = f.id
         WHERE t.id = ?1 AND f.lamport > t.lamport AND s.readable = 1 AND s.withdrawn = 0",
    )?;
    let mut rows = acting.query([entry])?;
    while let Some(row) = rows.next()? {
        let role: i64 = row.get(0)?;
        let from = Kind::from_number(counter(row.get(1)?));
        let kind: i64 = row.get(2)?;
        let to = Kind::from_number(counter(kind));
        let same_subject: bool = row.get(3)?;
        withdrawn |=
            role == Role::Withdraws.number() && from == Some(Kind::Withdrawal) && to.is_none_or(Kind::withdrawable);
        replaced |= role == Role::Replaces.number() && from == to && same_subject;
        set_aside |= role == Role::SetsAside.number() && from == Some(Kind::Settlement);
    }
    let acted: Option<bool> = tx
        .prepare_cached("SELECT withdrawn FROM standing WHERE entry = ?1")?
        .query_row([entry], |row| row.get(0))
        .optional()?;
    // While tables are made anew, an entry may be named before its own turn has come.
    let Some(acted) = acted else { return Ok(false) };
    tx.prepare_cached("UPDATE standing SET withdrawn = ?2, replaced = ?3, set_aside = ?4 WHERE entry = ?1")?
        .execute(params![entry, withdrawn, replaced, set_aside])?;
    Ok(acted != withdrawn)
}

/// The entries that `entry` names and that are here.
pub(super) fn named_by(tx: &Connection, entry: i64) -> rusqlite::Result<Vec<i64>> {
    tx.prepare_cached(
        "SELECT t.id FROM naming n
         JOIN entry t ON t.log = n.log AND t.seq = n.seq AND substr(t.hash, 1, 8) = n.short
         WHERE n.entry = ?1",
    )?
    .query_map([entry], |row| row.get(0))?
    .collect()
}
