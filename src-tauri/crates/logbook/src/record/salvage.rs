//! A record that was damaged: its file is set aside, never deleted, and what of it is as it was written goes on in a new
//! one.

use super::{InspectError, Inspected, Record, WORKED_OUT};
use crate::random::Randomness;
use crate::store;
use rusqlite::{Connection, TransactionBehavior, params};
use std::io;
use std::path::{Path, PathBuf};

/// The files SQLite keeps beside one of its own.
const BESIDE: [&str; 2] = ["-wal", "-shm"];

/// What came back of a damaged record.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Salvaged {
    /// Entries that are here again.
    pub entries: u64,
    /// Entries found there that are not as they were written.
    pub altered: u64,
    /// Its pages are damaged: there may have been more.
    pub damaged: bool,
}

/// Renames a file that SQLite wrote, with what SQLite keeps beside it. No program may have it open. Its new path.
///
/// # Errors
/// What the system says; then the file is where it was.
pub fn set_aside(file: &Path, stamp: &str) -> io::Result<PathBuf> {
    let of = |path: &Path, ending: &str| PathBuf::from(format!("{}{ending}", path.display()));
    let stem = file.file_stem().unwrap_or_default().to_string_lossy();
    let ending = file.extension().unwrap_or_default().to_string_lossy();
    let names = (1..).map(|number| match number {
        1 => format!("{stem}-set-aside-{stamp}.{ending}"),
        _ => format!("{stem}-set-aside-{stamp}-{number}.{ending}"),
    });
    let mut paths = names.map(|name| file.with_file_name(name));
    let aside = paths.find(|path| !path.exists()).unwrap_or_default();
    std::fs::rename(file, &aside)?;
    for ending in BESIDE {
        match std::fs::rename(of(file, ending), of(&aside, ending)) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
    }
    Ok(aside)
}

impl Record {
    /// Takes over every entry of a damaged record's file that is as it was written, with the people and the choices of
    /// the device. The logs this device wrote there stay closed: what was lost of them nobody knows.
    ///
    /// # Errors
    /// [`InspectError`] in words; then nothing was taken over.
    pub fn salvage(&mut self, from: &Path, random: &mut dyn Randomness) -> Result<Salvaged, InspectError> {
        let Inspected { record, altered, damage, .. } = Self::inspect(from, random)?;
        let entries = record.view().entries_where("SELECT envelope, salt, body FROM entry ORDER BY id", [])?;
        let received = self.receive(&entries)?;
        let file = store::open_to_look(from)?;
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        take_over_logs(&tx, &file, &self.device)?;
        take_over(&file, &tx, "local_person", 3, "1");
        take_over(&file, &tx, "setting", 2, &format!("name NOT LIKE '{WORKED_OUT}%'"));
        tx.commit()?;
        Ok(Salvaged { entries: received.new, altered: altered.len() as u64, damaged: damage.is_some() })
    }
}

/// Notes which logs were this device's own, as closed: the next one of a book then names where the last one ended, and
/// so vouches for what no seal reached.
fn take_over_logs(tx: &Connection, file: &Connection, device: &store::device::Device) -> rusqlite::Result<()> {
    // The file's word where it can still be read: a copied record's logs are those of the device it was copied from.
    let noted: Vec<[u8; 16]> = file
        .prepare("SELECT log FROM own_log")
        .and_then(|mut own| own.query_map([], |row| row.get(0))?.collect())
        .unwrap_or_default();
    let mut opened = tx.prepare(
        "SELECT o.log, o.device, o.key, o.noun, o.book FROM opened o JOIN entry e ON e.id = o.entry ORDER BY e.lamport",
    )?;
    let mut rows = opened.query([])?;
    while let Some(row) = rows.next()? {
        let (log, by): ([u8; 16], [u8; 16]) = (row.get(0)?, row.get(1)?);
        let own = by == *device.id().0.as_bytes() && row.get::<_, [u8; 32]>(2)? == device.key().public();
        if own || noted.contains(&log) {
            tx.execute(
                "INSERT OR IGNORE INTO own_log (log, device, noun, book, closed, head_seq, head_hash, sealed_to)
                 SELECT ?1, ?2, ?3, ?4, 'restored', seq, hash, 0 FROM entry WHERE log = ?1 ORDER BY seq DESC LIMIT 1",
                params![log, by, row.get::<_, i64>(3)?, row.get::<_, [u8; 16]>(4)?],
            )?;
        }
    }
    Ok(())
}

/// Takes over the rows of a table of this device alone, as far as they can be read: none of them is worth a refusal.
fn take_over(file: &Connection, tx: &Connection, table: &str, columns: usize, which: &str) {
    let places = vec!["?"; columns].join(", ");
    let copy = || -> rusqlite::Result<()> {
        let mut put = tx.prepare(&format!("INSERT OR IGNORE INTO {table} VALUES ({places})"))?;
        let mut statement = file.prepare(&format!("SELECT * FROM {table} WHERE {which}"))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let values = (0..columns).map(|at| row.get::<_, rusqlite::types::Value>(at));
            put.execute(rusqlite::params_from_iter(values.collect::<rusqlite::Result<Vec<_>>>()?))?;
        }
        Ok(())
    };
    let _ = copy();
}
