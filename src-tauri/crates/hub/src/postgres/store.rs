//! The store of entries. Several instances of a hub may share one: who appends takes the row of the hub first, so that one
//! comes after the other.

use super::database::{Database, Failed};
use provenohm_exchange::hub::{Cursor, Epoch, Erased, Parcel, Scope, Store, StoreError, Whole};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Hash, LogId, Noun, Salt, Seq};
use std::collections::BTreeMap;
use tokio::runtime::Handle;
use tokio_postgres::error::SqlState;
use tokio_postgres::types::{FromSql, ToSql};
use tokio_postgres::{Row, Transaction};
use uuid::Uuid;

/// A store that several instances share. Its calls wait, so they are made off the threads that answer.
#[derive(Debug)]
pub struct PostgresStore(Database);

impl PostgresStore {
    /// The store of a database, `postgres://…`; a new one, in this epoch, if there is none. To be called off the threads of the
    /// runtime.
    ///
    /// # Errors
    /// [`StoreError`].
    pub fn open(url: &str, new: Epoch, runtime: Handle) -> Result<Self, StoreError> {
        Self::within(Database::of(url, runtime)?, new)
    }

    /// The store that is within a database already, if there is one; none is made.
    pub(crate) fn there(database: Database) -> Result<Option<Self>, StoreError> {
        let there = database.read(async |tx| match tx.query_opt("SELECT one FROM hub WHERE one = 1", &[]).await {
            Ok(row) => Ok(row.is_some()),
            Err(error) if error.code() == Some(&SqlState::UNDEFINED_TABLE) => Ok(false),
            Err(error) => Err(error.into()),
        })?;
        Ok(there.then_some(Self(database)))
    }

    /// The store within a database.
    pub(crate) fn within(database: Database, new: Epoch) -> Result<Self, StoreError> {
        database.make(include_str!("store.sql"))?;
        let mark = Cursor::default().mark;
        let hub = "INSERT INTO hub (one, epoch, at, mark) VALUES (1, $1, 0, $2) ON CONFLICT (one) DO NOTHING";
        database.write(async |tx| Ok(tx.execute(hub, &[&new.0, &mark.as_slice()]).await.map(drop)?))?;
        Ok(Self(database))
    }
}

impl Store for PostgresStore {
    fn end(&mut self) -> Result<(Epoch, Cursor), StoreError> {
        self.0.read(async |tx| end(tx).await.map(|(epoch, cursor, _)| (epoch, cursor)))
    }

    fn append(&mut self, books: &BTreeMap<Book, Vec<Entry>>) -> Result<u64, StoreError> {
        self.0.write(async |tx| {
            // The row is taken by who asks so, and stays so until the end.
            tx.query_one("SELECT one FROM hub WHERE one = 1 FOR UPDATE", &[]).await?;
            let (_, mut cursor, closed) = end(tx).await?;
            if closed {
                return Err(StoreError::Closed.into());
            }
            let mut kept = 0;
            for (book, entries) in books {
                let new = lacking(tx, entries).await?;
                if !new.is_empty() {
                    cursor = cursor.after(new.iter().map(|entry| entry.hash()));
                    put(tx, cursor, *book, &new).await?;
                    kept += new.len() as u64;
                }
            }
            tx.execute("UPDATE hub SET at = $1, mark = $2", &[&number(cursor.at), &cursor.mark.as_slice()]).await?;
            Ok(kept)
        })
    }

    fn heads(&mut self, logs: &[LogId]) -> Result<BTreeMap<LogId, Vec<(Seq, Hash)>>, StoreError> {
        let asked: Vec<Uuid> = logs.iter().map(|log| log.0).collect();
        self.0.read(async |tx| {
            let found = "SELECT log, seq, hash FROM head WHERE log = ANY($1) ORDER BY log, seq, hash";
            let mut heads: BTreeMap<LogId, Vec<(Seq, Hash)>> = BTreeMap::new();
            for row in tx.query(found, &[&asked]).await? {
                let (log, seq, hash) = head(&row)?;
                heads.entry(log).or_default().push((seq, hash));
            }
            Ok(heads)
        })
    }

    fn holds(&mut self, log: LogId, seq: Seq, hash: Hash) -> Result<bool, StoreError> {
        self.0.read(async |tx| {
            let holds = "SELECT 1 FROM entry WHERE log = $1 AND seq = $2 AND hash = $3";
            Ok(tx.query_opt(holds, &[&log.0, &number(seq.0), &hash.0.as_slice()]).await?.is_some())
        })
    }

    fn knows(&mut self, cursor: Cursor) -> Result<bool, StoreError> {
        if cursor.at == 0 {
            return Ok(cursor == Cursor::default());
        }
        self.0.read(async |tx| {
            let knows = "SELECT 1 FROM parcel WHERE at = $1 AND mark = $2";
            Ok(tx.query_opt(knows, &[&number(cursor.at), &cursor.mark.as_slice()]).await?.is_some())
        })
    }

    fn parcels(&mut self, scope: Scope, after: u64, most_bytes: u64) -> Result<Vec<Parcel>, StoreError> {
        let (job, id) = match scope {
            Scope::Job(job) => (Noun::Job.number(), job.0),
            Scope::All | Scope::Register => (Noun::Job.number(), Uuid::nil()),
        };
        let next = match scope {
            Scope::All => "SELECT at, mark, noun, book FROM parcel WHERE at > $1 AND $2 = $2 AND $3 = $3",
            Scope::Register => "SELECT at, mark, noun, book FROM parcel WHERE at > $1 AND noun <> $2 AND $3 = $3",
            Scope::Job(_) => "SELECT at, mark, noun, book FROM parcel WHERE at > $1 AND noun = $2 AND book = $3",
        };
        self.0.read(async |tx| {
            let next = tx
                .prepare_typed(
                    &format!("{next} ORDER BY at LIMIT 1"),
                    &[
                        tokio_postgres::types::Type::INT8,
                        tokio_postgres::types::Type::INT8,
                        tokio_postgres::types::Type::UUID,
                    ],
                )
                .await?;
            let (mut at, mut found, mut bytes) = (number(after), Vec::new(), 0);
            while bytes < most_bytes
                && let Some(row) = tx.query_opt(&next, &[&at, &job, &id]).await?
            {
                at = get(&row, 0)?;
                let cursor = Cursor { at: counter(at), mark: array(get(&row, 1)?)? };
                let book = Book::numbered(get(&row, 2)?, get(&row, 3)?);
                let entries = entries(tx, at).await?;
                bytes += entries.iter().map(|entry| entry.to_wire().len() as u64).sum::<u64>();
                found.push(Parcel { cursor, book, entries });
            }
            Ok(found)
        })
    }

    fn whole(&mut self) -> Result<Whole, StoreError> {
        self.0.read(async |tx| {
            let entries = get(&tx.query_one("SELECT count(*) FROM entry", &[]).await?, 0)?;
            let heads = tx.query("SELECT log, seq, hash FROM head ORDER BY log, seq, hash", &[]).await?;
            let heads = heads.iter().map(head).collect::<Result<_, _>>()?;
            Ok(Whole { entries: counter(entries), heads })
        })
    }

    fn is_closed(&mut self) -> Result<bool, StoreError> {
        self.0.read(async |tx| end(tx).await.map(|(_, _, closed)| closed))
    }

    fn close(&mut self) -> Result<(), StoreError> {
        self.0.write(async |tx| Ok(tx.execute("UPDATE hub SET closed = true", &[]).await.map(drop)?))
    }

    fn drop_bodies(&mut self, erased: &[Erased]) -> Result<(), StoreError> {
        self.0.write(async |tx| {
            for one in erased {
                let named = "SELECT hash, envelope FROM entry WHERE log = $1 AND seq = $2";
                for row in tx.query(named, &[&one.entry.log.0, &number(one.entry.seq.0)]).await? {
                    let hash: Vec<u8> = get(&row, 0)?;
                    let entry = Entry::from_parts(get(&row, 1)?, None).map_err(damaged)?;
                    if entry.reference() == one.entry && one.may_drop(entry.envelope()) {
                        let drop =
                            "UPDATE entry SET salt = NULL, body = NULL WHERE log = $1 AND seq = $2 AND hash = $3";
                        tx.execute(drop, &[&one.entry.log.0, &number(one.entry.seq.0), &hash]).await?;
                    }
                }
            }
            Ok(())
        })
    }
}

/// The life it is in, the point behind the last parcel, and whether it takes nothing more.
async fn end(tx: &Transaction<'_>) -> Result<(Epoch, Cursor, bool), Failed> {
    let row = tx.query_one("SELECT epoch, at, mark, closed FROM hub WHERE one = 1", &[]).await?;
    let cursor = Cursor { at: counter(get(&row, 1)?), mark: array(get(&row, 2)?)? };
    Ok((Epoch(get(&row, 0)?), cursor, get(&row, 3)?))
}

/// Those that are not here, in the order of log, place and hash.
async fn lacking<'e>(tx: &Transaction<'_>, entries: &'e [Entry]) -> Result<Vec<&'e Entry>, Failed> {
    let place = |entry: &Entry| (entry.envelope().log.0, number(entry.envelope().seq.0), entry.hash().0.to_vec());
    let mut lacking: BTreeMap<_, _> = entries.iter().map(|entry| (place(entry), entry)).collect();
    let (logs, seqs): (Vec<Uuid>, Vec<i64>) = lacking.keys().map(|(log, seq, _)| (*log, *seq)).unzip();
    let here = "SELECT e.log, e.seq, e.hash FROM entry e
                JOIN (SELECT DISTINCT * FROM unnest($1::uuid[], $2::int8[]) AS asked (log, seq)) a
                  ON e.log = a.log AND e.seq = a.seq";
    for row in tx.query(here, &[&logs, &seqs]).await? {
        lacking.remove(&(get(&row, 0)?, get(&row, 1)?, get(&row, 2)?));
    }
    Ok(lacking.into_values().collect())
}

async fn put(tx: &Transaction<'_>, cursor: Cursor, book: Book, entries: &[&Entry]) -> Result<(), Failed> {
    let (object, at) = (book.object(), number(cursor.at));
    let parcel = "INSERT INTO parcel (at, mark, noun, book) VALUES ($1, $2, $3, $4)";
    tx.execute(parcel, &[&at, &cursor.mark.as_slice(), &object.noun.number(), &object.id.0]).await?;
    let of = |column: fn(&Entry) -> Vec<u8>| entries.iter().map(|entry| column(entry)).collect::<Vec<_>>();
    let optional = |column: fn(&Entry) -> Option<Vec<u8>>| entries.iter().map(|one| column(one)).collect::<Vec<_>>();
    let logs: Vec<Uuid> = entries.iter().map(|entry| entry.envelope().log.0).collect();
    let seqs: Vec<i64> = entries.iter().map(|entry| number(entry.envelope().seq.0)).collect();
    let (hashes, prevs) = (of(|entry| entry.hash().0.to_vec()), of(|entry| entry.envelope().prev.0.to_vec()));
    let envelopes = of(|entry| entry.envelope_bytes().to_vec());
    let salts = optional(|entry| entry.body().map(|(salt, _)| salt.0.to_vec()));
    let bodies = optional(|entry| entry.body().map(|(_, body)| body.to_vec()));
    let columns: [&(dyn ToSql + Sync); 8] = [&logs, &seqs, &hashes, &prevs, &envelopes, &salts, &bodies, &at];
    let insert = "INSERT INTO entry (log, seq, hash, prev, envelope, salt, body, parcel)
                  SELECT n.*, $8 FROM unnest($1::uuid[], $2::int8[], $3::bytea[], $4::bytea[], $5::bytea[], $6::bytea[],
                      $7::bytea[]) AS n (log, seq, hash, prev, envelope, salt, body)";
    tx.execute(insert, &columns).await?;
    // What was an end and is followed now is none any more; of what came, what nothing here follows is one.
    let ends: [&(dyn ToSql + Sync); 3] = [&logs, &seqs, &prevs];
    let no_end = "DELETE FROM head h USING unnest($1::uuid[], $2::int8[], $3::bytea[]) AS n (log, seq, prev)
                  WHERE h.log = n.log AND h.seq = n.seq - 1 AND h.hash = n.prev";
    tx.execute(no_end, &ends).await?;
    let came: [&(dyn ToSql + Sync); 3] = [&logs, &seqs, &hashes];
    let is_end = "INSERT INTO head (log, seq, hash)
                  SELECT n.log, n.seq, n.hash FROM unnest($1::uuid[], $2::int8[], $3::bytea[]) AS n (log, seq, hash)
                  WHERE NOT EXISTS (SELECT 1 FROM entry e WHERE e.log = n.log AND e.seq = n.seq + 1 AND e.prev = n.hash)
                  ON CONFLICT (log, seq, hash) DO NOTHING";
    tx.execute(is_end, &came).await?;
    Ok(())
}

async fn entries(tx: &Transaction<'_>, parcel: i64) -> Result<Vec<Entry>, Failed> {
    let of = "SELECT envelope, salt, body FROM entry WHERE parcel = $1 ORDER BY log, seq, hash";
    let rows = tx.query(of, &[&parcel]).await?;
    let entry = |row: &Row| {
        let salt: Option<Vec<u8>> = get(row, 1)?;
        let salt = salt.map(|salt| array(salt).map(Salt)).transpose()?;
        Ok(Entry::from_parts(get(row, 0)?, salt.zip(get(row, 2)?)).map_err(damaged)?)
    };
    rows.iter().map(entry).collect()
}

fn head(row: &Row) -> Result<(LogId, Seq, Hash), Failed> {
    Ok((LogId(get(row, 0)?), Seq(counter(get(row, 1)?)), Hash(array(get(row, 2)?)?)))
}

fn get<'r, T: FromSql<'r>>(row: &'r Row, at: usize) -> Result<T, Failed> {
    Ok(row.try_get(at)?)
}

fn array<const N: usize>(bytes: Vec<u8>) -> Result<[u8; N], Failed> {
    bytes.try_into().map_err(|_| damaged("a column has another length").into())
}

fn damaged(what: impl ToString) -> StoreError {
    StoreError::Damaged(what.to_string())
}

/// A counter as it is stored. Counters are refused long before 2⁶³ when an entry is read.
fn number(counter: u64) -> i64 {
    i64::try_from(counter).unwrap_or(i64::MAX)
}

fn counter(stored: i64) -> u64 {
    stored.unsigned_abs()
}
