//! The store in a SQLite file of its own, beside the record that is made from it.

use super::cursor::{Cursor, Epoch, Scope};
use super::store::{Erased, Parcel, Store, StoreError, Whole};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef, Hash, LogId, NotAnEntry, Noun, Salt, Seq};
use rusqlite::{Connection, OptionalExtension as _, Transaction, TransactionBehavior, params};
use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;
use uuid::Uuid;

/// A store of one hub on one machine.
#[derive(Debug)]
pub struct SqliteStore(Connection);

impl SqliteStore {
    /// The store of a file; a new one, in this epoch, if there is none.
    ///
    /// # Errors
    /// [`StoreError`].
    pub fn open(file: &Path, new: Epoch) -> Result<Self, StoreError> {
        Self::over(Connection::open(file)?, new)
    }

    /// A store that lives as long as the program.
    ///
    /// # Errors
    /// [`StoreError`].
    pub fn in_memory(new: Epoch) -> Result<Self, StoreError> {
        Self::over(Connection::open_in_memory()?, new)
    }

    fn over(connection: Connection, new: Epoch) -> Result<Self, StoreError> {
        connection.busy_timeout(Duration::from_secs(30))?;
        connection.pragma_update(None, "journal_mode", "wal")?;
        connection.pragma_update(None, "synchronous", "full")?;
        connection.pragma_update(None, "foreign_keys", true)?;
        connection.pragma_update(None, "secure_delete", true)?;
        connection.execute_batch(include_str!("sqlite.sql"))?;
        connection.execute(
            "INSERT OR IGNORE INTO hub (one, epoch, at, mark) VALUES (1, ?1, 0, ?2)",
            params![new.0.as_bytes(), Cursor::default().mark],
        )?;
        Ok(Self(connection))
    }

    fn write<T>(&mut self, change: impl FnOnce(&Transaction<'_>) -> Result<T, StoreError>) -> Result<T, StoreError> {
        let tx = self.0.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let value = change(&tx)?;
        tx.commit()?;
        Ok(value)
    }
}

impl Store for SqliteStore {
    fn end(&mut self) -> Result<(Epoch, Cursor), StoreError> {
        end(&self.0)
    }

    fn append(&mut self, books: &BTreeMap<Book, Vec<Entry>>) -> Result<u64, StoreError> {
        self.write(|tx| {
            let (_, mut cursor) = end(tx)?;
            if tx.query_row("SELECT closed FROM hub", [], |row| row.get(0))? {
                return Err(StoreError::Closed);
            }
            let mut kept = 0;
            for (book, entries) in books {
                let new = lacking(tx, entries)?;
                if !new.is_empty() {
                    cursor = cursor.after(new.iter().map(|entry| entry.hash()));
                    put(tx, cursor, *book, &new)?;
                    kept += new.len() as u64;
                }
            }
            tx.execute("UPDATE hub SET at = ?1, mark = ?2", params![number(cursor.at), cursor.mark])?;
            Ok(kept)
        })
    }

    fn heads(&mut self, logs: &[LogId]) -> Result<BTreeMap<LogId, Vec<(Seq, Hash)>>, StoreError> {
        let mut of = self.0.prepare_cached("SELECT seq, hash FROM head WHERE log = ?1 ORDER BY seq, hash")?;
        let mut heads = BTreeMap::new();
        for log in logs {
            let found = of.query_map([blob(&log.0)], |row| Ok((Seq(counter(row.get(0)?)), Hash(row.get(1)?))))?;
            let found = found.collect::<rusqlite::Result<Vec<_>>>()?;
            if !found.is_empty() {
                heads.insert(*log, found);
            }
        }
        Ok(heads)
    }

    fn holds(&mut self, log: LogId, seq: Seq, hash: Hash) -> Result<bool, StoreError> {
        let mut holds = self.0.prepare_cached("SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 AND hash = ?3")?;
        Ok(holds.exists(params![blob(&log.0), number(seq.0), hash.0])?)
    }

    fn knows(&mut self, cursor: Cursor) -> Result<bool, StoreError> {
        if cursor.at == 0 {
            return Ok(cursor == Cursor::default());
        }
        let mark: Option<[u8; 32]> = self
            .0
            .prepare_cached("SELECT mark FROM parcel WHERE at = ?1")?
            .query_row([number(cursor.at)], |row| row.get(0))
            .optional()?;
        Ok(mark == Some(cursor.mark))
    }

    fn parcels(&mut self, scope: Scope, after: u64, most_bytes: u64) -> Result<Vec<Parcel>, StoreError> {
        let (job, id) = (Noun::Job.number(), of(scope));
        let of_scope = match scope {
            Scope::All => "?2 = ?2 AND ?3 = ?3",
            Scope::Register => "noun <> ?2 AND ?3 = ?3",
            Scope::Job(_) => "noun = ?2 AND book = ?3",
        };
        let tx = self.0.unchecked_transaction()?;
        let mut parcels = tx.prepare_cached(&format!(
            "SELECT at, mark, noun, book FROM parcel WHERE at > ?1 AND {of_scope} ORDER BY at"
        ))?;
        let mut rows = parcels.query(params![number(after), job, id.as_bytes()])?;
        let (mut found, mut bytes) = (Vec::new(), 0);
        while bytes < most_bytes
            && let Some(row) = rows.next()?
        {
            let cursor = Cursor { at: counter(row.get(0)?), mark: row.get(1)? };
            let book = Book::numbered(row.get(2)?, Uuid::from_bytes(row.get(3)?));
            let entries = entries(&tx, cursor.at)?;
            bytes += entries.iter().map(|entry| entry.to_wire().len() as u64).sum::<u64>();
            found.push(Parcel { cursor, book, entries });
        }
        Ok(found)
    }

    fn whole(&mut self) -> Result<Whole, StoreError> {
        let tx = self.0.unchecked_transaction()?;
        let entries: i64 = tx.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))?;
        let mut heads = tx.prepare_cached("SELECT log, seq, hash FROM head ORDER BY log, seq, hash")?;
        let heads = heads.query_map([], |row| {
            Ok((LogId(Uuid::from_bytes(row.get(0)?)), Seq(counter(row.get(1)?)), Hash(row.get(2)?)))
        })?;
        Ok(Whole { entries: counter(entries), heads: heads.collect::<rusqlite::Result<_>>()? })
    }

    fn is_closed(&mut self) -> Result<bool, StoreError> {
        Ok(self.0.query_row("SELECT closed FROM hub", [], |row| row.get(0))?)
    }

    fn close(&mut self) -> Result<(), StoreError> {
        self.0.execute("UPDATE hub SET closed = 1", [])?;
        Ok(())
    }

    fn drop_bodies(&mut self, erased: &[Erased]) -> Result<(), StoreError> {
        self.write(|tx| {
            let mut named = tx.prepare_cached(
                "SELECT rowid, envelope FROM entry WHERE log = ?1 AND seq = ?2 AND substr(hash, 1, 8) = ?3",
            )?;
            let mut drop = tx.prepare_cached("UPDATE entry SET salt = NULL, body = NULL WHERE rowid = ?1")?;
            for one in erased {
                let EntryRef { log, seq, short } = one.entry;
                let mut rows = named.query(params![blob(&log.0), number(seq.0), short])?;
                while let Some(row) = rows.next()? {
                    let entry = Entry::from_parts(row.get(1)?, None).map_err(damaged)?;
                    if one.may_drop(entry.envelope()) {
                        drop.execute([row.get::<_, i64>(0)?])?;
                    }
                }
            }
            Ok(())
        })
    }
}

fn damaged(error: NotAnEntry) -> StoreError {
    StoreError::Damaged(error.to_string())
}

fn end(tx: &Connection) -> Result<(Epoch, Cursor), StoreError> {
    Ok(tx.query_row("SELECT epoch, at, mark FROM hub", [], |row| {
        let cursor = Cursor { at: counter(row.get(1)?), mark: row.get(2)? };
        Ok((Epoch(Uuid::from_bytes(row.get(0)?)), cursor))
    })?)
}

/// Those that are not here, in the order of log, place and hash.
fn lacking<'e>(tx: &Transaction<'_>, entries: &'e [Entry]) -> Result<Vec<&'e Entry>, StoreError> {
    let mut here = tx.prepare_cached("SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 AND hash = ?3")?;
    let mut lacking = BTreeMap::new();
    for entry in entries {
        let envelope = entry.envelope();
        if !here.exists(params![blob(&envelope.log.0), number(envelope.seq.0), entry.hash().0])? {
            lacking.insert((envelope.log, envelope.seq, entry.hash()), entry);
        }
    }
    Ok(lacking.into_values().collect())
}

fn put(tx: &Transaction<'_>, cursor: Cursor, book: Book, entries: &[&Entry]) -> Result<(), StoreError> {
    let object = book.object();
    tx.prepare_cached("INSERT INTO parcel (at, mark, noun, book) VALUES (?1, ?2, ?3, ?4)")?.execute(params![
        number(cursor.at),
        cursor.mark,
        object.noun.number(),
        blob(&object.id.0)
    ])?;
    let mut insert = tx.prepare_cached(
        "INSERT INTO entry (log, seq, hash, prev, parcel, envelope, salt, body) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
    )?;
    let mut no_end = tx.prepare_cached("DELETE FROM head WHERE log = ?1 AND seq = ?2 AND hash = ?3")?;
    let mut is_end = tx.prepare_cached(
        "INSERT OR IGNORE INTO head (log, seq, hash) SELECT ?1, ?2, ?3
         WHERE NOT EXISTS (SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 + 1 AND prev = ?3)",
    )?;
    for entry in entries {
        let envelope = entry.envelope();
        let (log, seq, body) = (blob(&envelope.log.0), number(envelope.seq.0), entry.body());
        insert.execute(params![
            log,
            seq,
            entry.hash().0,
            envelope.prev.0,
            number(cursor.at),
            entry.envelope_bytes(),
            body.map(|(salt, _)| salt.0),
            body.map(|(_, body)| body)
        ])?;
        no_end.execute(params![log, seq - 1, envelope.prev.0])?;
        is_end.execute(params![log, seq, entry.hash().0])?;
    }
    Ok(())
}

fn entries(tx: &Connection, parcel: u64) -> Result<Vec<Entry>, StoreError> {
    let mut of =
        tx.prepare_cached("SELECT envelope, salt, body FROM entry WHERE parcel = ?1 ORDER BY log, seq, hash")?;
    let mut rows = of.query([number(parcel)])?;
    let mut entries = Vec::new();
    while let Some(row) = rows.next()? {
        let (salt, body): (Option<[u8; 16]>, Option<Vec<u8>>) = (row.get(1)?, row.get(2)?);
        let entry = Entry::from_parts(row.get(0)?, salt.map(Salt).zip(body));
        entries.push(entry.map_err(damaged)?);
    }
    Ok(entries)
}

fn of(scope: Scope) -> Uuid {
    match scope {
        Scope::Job(job) => job.0,
        Scope::All | Scope::Register => Uuid::nil(),
    }
}

fn blob(id: &Uuid) -> &[u8] {
    id.as_bytes().as_slice()
}

/// A counter as it is stored. Counters are refused long before 2⁶³ when an entry is read.
fn number(counter: u64) -> i64 {
    i64::try_from(counter).unwrap_or(i64::MAX)
}

fn counter(stored: i64) -> u64 {
    stored.unsigned_abs()
}
