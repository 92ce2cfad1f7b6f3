//! A record's file looked at as it is, and left as it is: what its entries say, and what of it is not as it was written.

use super::{ReceiveError, Record};
use crate::entry::{Entry, Hash, LogId, Salt, Seq};
use crate::random::Randomness;
use crate::store::{self, OpenError, counter};
use rusqlite::{Connection, Row};
use std::collections::BTreeSet;
use std::path::Path;
use uuid::Uuid;

/// An end of a log.
type End = (LogId, Seq, Hash);

/// What a record's file holds.
#[derive(Debug)]
pub struct Inspected {
    /// A record in memory with every entry that is as it was written.
    pub record: Record,
    /// Places of entries that are not, with why.
    pub altered: Vec<(LogId, Seq, String)>,
    /// Ends the file itself noted, of which the entry is not here.
    pub cut_off: Vec<(LogId, Seq)>,
    /// Logs the file itself noted, of which nothing is here.
    pub removed: Vec<LogId>,
}

/// Why a file cannot be looked at.
#[derive(Debug, thiserror::Error)]
pub enum InspectError {
    /// It is no record, or SQLite refuses.
    #[error(transparent)]
    Open(#[from] OpenError),
    /// Its tables are not those of a record.
    #[error("the record cannot be read: {0}")]
    Read(#[from] rusqlite::Error),
    /// Its entries cannot be put together.
    #[error(transparent)]
    Receive(#[from] ReceiveError),
}

impl Record {
    /// Looks at a record's file. Nothing in it is changed, and nothing in it but its entries is believed.
    ///
    /// # Errors
    /// [`InspectError`] in words.
    pub fn inspect(path: &Path, random: &mut dyn Randomness) -> Result<Inspected, InspectError> {
        let file = store::open_to_look(path)?;
        let (mut entries, mut altered) = (Vec::new(), Vec::new());
        let mut places: BTreeSet<(LogId, Seq)> = BTreeSet::new();
        let mut statement = file.prepare(
            "SELECT envelope, salt, body, log, seq, hash, prev, kind, lamport FROM entry ORDER BY log, seq, hash",
        )?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let place = (LogId(id(row, 3)?), Seq(counter(row.get(4)?)));
            places.insert(place);
            match entry(row) {
                Ok(Ok(entry)) => entries.push(entry),
                Ok(Err(why)) => altered.push((place.0, place.1, why)),
                Err(error) => altered.push((place.0, place.1, error.to_string())),
            }
        }
        let here: BTreeSet<End> = entries.iter().map(|it| (it.envelope().log, it.envelope().seq, it.hash())).collect();
        let (mut cut_off, mut removed) = (BTreeSet::new(), BTreeSet::new());
        for (log, seq, hash) in noted(&file)? {
            if here.contains(&(log, seq, hash)) || places.contains(&(log, seq)) {
                continue;
            }
            if places.iter().any(|(other, _)| *other == log) {
                cut_off.insert((log, seq));
            } else {
                removed.insert(log);
            }
        }
        let mut record = Self::in_memory(random)?;
        record.receive(&entries)?;
        Ok(Inspected {
            record,
            altered,
            cut_off: cut_off.into_iter().collect(),
            removed: removed.into_iter().collect(),
        })
    }
}

/// An entry whose columns say what its bytes say, or why it is none.
fn entry(row: &Row<'_>) -> rusqlite::Result<Result<Entry, String>> {
    let envelope: Vec<u8> = row.get(0)?;
    let salt: Option<[u8; 16]> = row.get(1)?;
    let body: Option<Vec<u8>> = row.get(2)?;
    let entry = match Entry::from_parts(envelope, salt.map(Salt).zip(body)) {
        Ok(entry) => entry,
        Err(error) => return Ok(Err(error.to_string())),
    };
    let own = entry.envelope();
    let agree = own.log == LogId(id(row, 3)?)
        && own.seq.0 == counter(row.get(4)?)
        && entry.hash().0 == row.get::<_, [u8; 32]>(5)?
        && own.prev.0 == row.get::<_, [u8; 32]>(6)?
        && own.kind == counter(row.get(7)?)
        && own.lamport.0 == counter(row.get(8)?);
    Ok(if agree { Ok(entry) } else { Err("a column differs from its entry".to_owned()) })
}

/// The ends the file noted: of every log that was here, and of those this device writes.
fn noted(file: &Connection) -> rusqlite::Result<BTreeSet<End>> {
    let mut ends = BTreeSet::new();
    for sql in ["SELECT log, seq, hash FROM head", "SELECT log, head_seq, head_hash FROM own_log WHERE closed IS NULL"]
    {
        let mut statement = file.prepare(sql)?;
        let found = statement
            .query_map([], |row| Ok((LogId(id(row, 0)?), Seq(counter(row.get(1)?)), Hash(row.get(2)?))))?
            .collect::<rusqlite::Result<Vec<_>>>()?;
        ends.extend(found);
    }
    Ok(ends)
}

fn id(row: &Row<'_>, column: usize) -> rusqlite::Result<Uuid> {
    Ok(Uuid::from_bytes(row.get(column)?))
}
