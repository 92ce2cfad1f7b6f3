//! Whose an entry is: it is chained forward to a seal by its log's key, or to what a later log names as its end.
//!
//! A record that was restored or copied cannot seal the log it found: that log may have gone on elsewhere. The log it
//! opens in its place names where the old one ended, and so vouches for what no seal reached.

use super::follows_what_it_seals;
use crate::entry::body::{Book, LogOpened};
use crate::entry::{Body, Entry, EntryRef, Fact, Hash, Kind, LogId, Object, Seq};
use crate::seal;
use crate::store::{blob, counter, entry_of, number};
use crate::view::{ReadError, reference};
use rusqlite::{Connection, params};
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// By what an entry is known to be its log's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Proof {
    /// A log of another device names it, or what follows it, as the end of this one.
    Vouched,
    /// A seal by the log's key, or a later log of the same key, reaches it.
    Sealed,
}

/// An entry met on the way from a log's end to its beginning.
pub(crate) struct Met {
    /// Its row: its place in the order of arrival.
    pub(crate) row: i64,
    pub(crate) entry: EntryRef,
    pub(crate) proof: Option<Proof>,
    /// It is a seal that does not hold.
    pub(crate) bad_seal: bool,
}

/// The ends that later logs name, for each log.
#[derive(Debug, Default)]
pub(crate) struct Ends(BTreeMap<LogId, BTreeMap<EntryRef, Proof>>);

impl Ends {
    /// What the later logs of a book name, as far as those are themselves proven.
    pub(crate) fn of(connection: &Connection, book: Book) -> Result<Self, ReadError> {
        let openings = openings(connection, book)?;
        let mut ends = Self::default();
        let mut to_do: Vec<LogId> = openings.keys().copied().collect();
        while let Some(log) = to_do.pop() {
            let Some(Some(after)) = openings.get(&log).map(|it| it.after) else { continue };
            let mut first = None;
            let _ = walk(connection, log, Seq(0), &ends, &mut |met| {
                if met.entry.seq.0 == 0 {
                    first = met.proof;
                }
                ControlFlow::Continue(())
            })?;
            let Some(mut proof) = first else { continue };
            let key = |log: &LogId| openings.get(log).map(|it| it.key);
            if key(&log) != key(&after.log) {
                proof = Proof::Vouched;
            }
            let named = ends.0.entry(after.log).or_default();
            if named.get(&after).is_none_or(|known| *known < proof) {
                named.insert(after, proof);
                to_do.push(after.log);
            }
        }
        Ok(ends)
    }
}

/// Meets the entries of a log from its end down to `floor`, or until `each` stops it.
pub(crate) fn walk(
    connection: &Connection,
    log: LogId,
    floor: Seq,
    ends: &Ends,
    each: &mut dyn FnMut(Met) -> ControlFlow<()>,
) -> Result<ControlFlow<()>, ReadError> {
    let key: Option<[u8; 32]> = connection
        .prepare_cached("SELECT max(key) FROM opened WHERE log = ?1")?
        .query_row([blob(&log.0)], |row| row.get(0))?;
    let mut statement = connection.prepare_cached(
        "SELECT envelope, salt, body, id, log, seq, hash, prev, kind FROM entry
         WHERE log = ?1 AND seq >= ?2 ORDER BY seq DESC",
    )?;
    let mut rows = statement.query(params![blob(&log.0), number(floor.0)])?;
    // What an entry that was met, and is proven, follows.
    let mut followed: BTreeMap<Hash, Proof> = BTreeMap::new();
    while let Some(row) = rows.next()? {
        let entry = reference(row, 4)?;
        let hash = Hash(row.get(6)?);
        let mut proof = followed.remove(&hash);
        proof = proof.max(ends.0.get(&log).and_then(|named| named.get(&entry)).copied());
        let mut bad_seal = false;
        if Kind::from_number(counter(row.get(8)?)) == Some(Kind::Seal) {
            match entry_of(row)?.ok().and_then(|entry| good_seal(&entry, key)) {
                Some(true) => proof = Some(Proof::Sealed),
                Some(false) => bad_seal = true,
                None => {}
            }
        }
        if let Some(proof) = proof {
            let known = followed.entry(Hash(row.get(7)?)).or_insert(proof);
            *known = proof.max(*known);
        }
        if each(Met { row: row.get(3)?, entry, proof, bad_seal }).is_break() {
            return Ok(ControlFlow::Break(()));
        }
    }
    Ok(ControlFlow::Continue(()))
}

/// Whether a seal holds; nothing where this version cannot read it.
fn good_seal(entry: &Entry, key: Option<[u8; 32]>) -> Option<bool> {
    let envelope = entry.envelope();
    let (_, body) = entry.body()?;
    match Fact::decode(envelope.kind, envelope.kind_version, body).ok()?.body {
        Body::Seal(sealed) => Some(
            follows_what_it_seals(entry, &sealed) && key.is_some_and(|key| seal::holds(&key, envelope.log, &sealed)),
        ),
        _ => None,
    }
}

/// What the first entries of a book's logs say.
pub(crate) fn openings(connection: &Connection, book: Book) -> Result<BTreeMap<LogId, LogOpened>, ReadError> {
    let Object { noun, id } = book.object();
    let mut statement = connection.prepare_cached(
        "SELECT e.envelope, e.salt, e.body FROM opened o JOIN entry e ON e.id = o.entry
         WHERE o.noun = ?1 AND o.book = ?2",
    )?;
    let mut rows = statement.query(params![noun.number(), blob(&id.0)])?;
    let mut openings = BTreeMap::new();
    while let Some(row) = rows.next()? {
        // One that was altered opens nothing; a check of the log names it.
        let Ok(entry) = entry_of(row)? else { continue };
        let envelope = entry.envelope();
        let fact = entry.body().map(|(_, body)| Fact::decode(envelope.kind, envelope.kind_version, body));
        if let Some(Ok(Fact { body: Body::LogOpened(opened), .. })) = fact {
            openings.insert(envelope.log, opened);
        }
    }
    Ok(openings)
}
