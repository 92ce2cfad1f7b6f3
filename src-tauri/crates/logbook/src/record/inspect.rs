//! A record's file looked at as it is, and left as it is: what its entries say, and what of it is not as it was written.

use super::{ReceiveError, Record};
use crate::entry::{Entry, Hash, LogId, Seq};
use crate::random::Randomness;
use crate::store::{self, OpenError, WRITTEN, as_written, counter};
use crate::view::ReadError;
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
    /// What is wrong with the file's pages, in SQLite's words: entries may be missing that nothing else tells of.
    pub damage: Option<String>,
}

impl Inspected {
    /// Whether every entry is as it was written, in pages that are whole.
    #[must_use]
    pub fn reads_as_written(&self) -> bool {
        self.altered.is_empty() && self.damage.is_none()
    }
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
    /// What was read of it cannot be read again.
    #[error(transparent)]
    Again(#[from] ReadError),
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
        let damage = damage(&file);
        let mut found = Found::default();
        if damage.is_none() {
            found.in_order(&file)?;
        } else {
            found.one_by_one(&file, path);
        }
        let noted = match noted(&file) {
            Err(_) if damage.is_some() => BTreeSet::new(),
            noted => noted?,
        };
        let (cut_off, removed) = found.lacking(noted);
        let mut record = Self::in_memory(random)?;
        record.receive(&found.entries)?;
        Ok(Inspected { record, altered: found.altered, cut_off, removed, damage })
    }
}

/// What is wrong with the pages of a file.
fn damage(file: &Connection) -> Option<String> {
    let told = file.prepare("PRAGMA integrity_check(3)").and_then(|mut check| {
        let lines = check.query_map([], |row| row.get::<_, String>(0))?;
        lines.collect::<rusqlite::Result<Vec<_>>>()
    });
    match told {
        Ok(lines) if lines == ["ok"] => None,
        Ok(lines) => Some(lines.join("; ")),
        Err(error) => Some(error.to_string()),
    }
}

/// What is found of a file's entries.
#[derive(Default)]
struct Found {
    entries: Vec<Entry>,
    altered: Vec<(LogId, Seq, String)>,
    places: BTreeSet<(LogId, Seq)>,
}

impl Found {
    fn in_order(&mut self, file: &Connection) -> rusqlite::Result<()> {
        let mut statement = file.prepare(&format!("SELECT {WRITTEN} FROM entry ORDER BY log, seq, hash"))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            self.row(row)?;
        }
        Ok(())
    }

    /// Each row by itself: a page that cannot be read takes no other's rows with it.
    fn one_by_one(&mut self, file: &Connection, path: &Path) {
        let Ok(mut statement) = file.prepare(&format!("SELECT {WRITTEN} FROM entry WHERE id = ?1")) else { return };
        let highest = |sql| file.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap_or_default();
        let told = highest("SELECT max(id) FROM entry").max(highest("SELECT max(id) FROM entry INDEXED BY entry_kind"));
        // A damaged file may say anything; no entry takes less than a byte.
        let bytes = std::fs::metadata(path).map_or(0, |file| file.len());
        for id in 1..=told.min(i64::try_from(bytes).unwrap_or(i64::MAX)) {
            // What cannot be read is what the damage took.
            let _ = statement.query_row([id], |row| self.row(row));
        }
    }

    fn row(&mut self, row: &Row<'_>) -> rusqlite::Result<()> {
        let place = (LogId(id(row, 3)?), Seq(counter(row.get(4)?)));
        self.places.insert(place);
        match as_written(row) {
            Ok(entry) => self.entries.push(entry),
            Err(why) => self.altered.push((place.0, place.1, why)),
        }
        Ok(())
    }

    /// The noted ends of which the entry is not here, and the logs of which nothing is.
    fn lacking(&self, noted: BTreeSet<End>) -> (Vec<(LogId, Seq)>, Vec<LogId>) {
        let here: BTreeSet<End> =
            self.entries.iter().map(|it| (it.envelope().log, it.envelope().seq, it.hash())).collect();
        let logs: BTreeSet<LogId> = self.places.iter().map(|(log, _)| *log).collect();
        let (mut cut_off, mut removed) = (BTreeSet::new(), BTreeSet::new());
        for (log, seq, hash) in noted {
            if here.contains(&(log, seq, hash)) || self.places.contains(&(log, seq)) {
                continue;
            }
            if logs.contains(&log) {
                cut_off.insert((log, seq));
            } else {
                removed.insert(log);
            }
        }
        (cut_off.into_iter().collect(), removed.into_iter().collect())
    }
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
