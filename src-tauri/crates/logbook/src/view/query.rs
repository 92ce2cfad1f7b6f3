//! Reading entries back: found by what they are about, decoded, and checked against their hashes on the way.

use super::facet::{Acting, Standing, Stated};
use crate::entry::body::{Body, Book, Content};
use crate::entry::time::CLOCK_JITTER_MS;
use crate::entry::{Entry, EntryRef, Fact, Kind, LogId, Malformed, NotAnEntry, Noun, Object, ObjectId, Role, Seq};
use crate::record::ReceiveError;
use crate::store::{OpenError, blob, counter, entry_of, is_damage, number};
use provenohm_assess::ids::DeviceId;
use rusqlite::{Connection, OptionalExtension, Params, Row, params};
use uuid::Uuid;

/// What the record says at this moment.
#[derive(Clone, Copy, Debug)]
pub struct View<'v> {
    pub(super) connection: &'v Connection,
}

/// Why the record cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// Stored bytes are not what was written.
    #[error("an entry of this record was altered: {0}")]
    Altered(#[from] NotAnEntry),
    /// A body that could be read when it was projected cannot be read now.
    #[error("the body of an entry was altered: {0}")]
    Body(#[from] Malformed),
    /// The record as it stood cannot be put together.
    #[error(transparent)]
    Past(#[from] ReceiveError),
    /// The record as it stood cannot be opened.
    #[error(transparent)]
    Open(#[from] OpenError),
    /// SQLite refuses.
    #[error("the record cannot be read: {0}")]
    Sqlite(#[from] rusqlite::Error),
}

impl ReadError {
    /// Whether the record is not what was written: another try changes nothing.
    #[must_use]
    pub fn is_damage(&self) -> bool {
        match self {
            Self::Altered(_) | Self::Body(_) => true,
            Self::Sqlite(error) => is_damage(error),
            Self::Open(error) => error.is_damage(),
            Self::Past(_) => false,
        }
    }
}

impl From<ReadError> for crate::record::WriteError {
    fn from(error: ReadError) -> Self {
        match error {
            ReadError::Sqlite(error) => error.into(),
            other => Self::Unreadable(other.to_string()),
        }
    }
}

/// The reference in three columns `log, seq, hash` from `first` on.
pub(crate) fn reference(row: &Row<'_>, first: usize) -> rusqlite::Result<EntryRef> {
    let hash: [u8; 32] = row.get(first + 2)?;
    Ok(EntryRef {
        log: LogId(Uuid::from_bytes(row.get(first)?)),
        seq: Seq(counter(row.get(first + 1)?)),
        short: crate::entry::Hash(hash).short(),
    })
}

impl<'v> View<'v> {
    pub(crate) fn connection(&self) -> &'v Connection {
        self.connection
    }

    pub(crate) fn new(connection: &'v Connection) -> Self {
        Self { connection }
    }

    /// Everything of a kind stated about an object, in the one order that holds on every device.
    pub(super) fn stated<T: Content>(&self, object: Object) -> Result<Vec<Stated<T>>, ReadError> {
        self.stated_where(
            "JOIN about a ON a.entry = e.id AND a.kind = ?1 WHERE a.noun = ?2 AND a.object = ?3",
            params![number(T::KIND.number()), object.noun.number(), blob(&object.id.0)],
        )
    }

    /// Everything of a kind in the record.
    pub(super) fn all_stated<T: Content>(&self) -> Result<Vec<Stated<T>>, ReadError> {
        self.stated_where("WHERE 1", params![number(T::KIND.number())])
    }

    /// What one entry says, with where it stands; nothing where it is not here or cannot be read.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn said(&self, entry: EntryRef) -> Result<Option<Stated<Body>>, ReadError> {
        let found = self.bodies_where(
            "WHERE e.log = ?1 AND e.seq = ?2 AND substr(e.hash, 1, 8) = ?3",
            params![blob(&entry.log.0), number(entry.seq.0), entry.short],
        )?;
        Ok(found.into_iter().next())
    }

    /// `?1` is the kind.
    fn stated_where<T: Content>(&self, clause: &str, params: impl Params) -> Result<Vec<Stated<T>>, ReadError> {
        let all = self.bodies_where(&format!("{clause} AND e.kind = ?1"), params)?;
        Ok(all.into_iter().filter_map(|one| one.filter_map(T::of)).collect())
    }

    /// What readable entries say, in the one order that holds on every device.
    pub(super) fn bodies_where(&self, clause: &str, params: impl Params) -> Result<Vec<Stated<Body>>, ReadError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT e.envelope, e.salt, e.body, s.withdrawn, s.replaced, s.set_aside,
                    (SELECT min(device) FROM opened o WHERE o.log = e.log),
                    EXISTS (SELECT 1 FROM naming n WHERE n.log = e.log AND n.seq = e.seq),
                    EXISTS (SELECT 1 FROM entry p WHERE p.log = e.log AND p.seq = e.seq - 1 AND p.hash = e.prev
                            AND p.recorded_ms > e.recorded_ms + {CLOCK_JITTER_MS})
             FROM entry e JOIN standing s ON s.entry = e.id {clause} AND s.readable = 1
             ORDER BY e.lamport, e.log, e.seq, e.hash"
        ))?;
        let mut rows = statement.query(params)?;
        let mut found = Vec::new();
        while let Some(row) = rows.next()? {
            let entry = entry_of(row)??;
            let envelope = entry.envelope();
            let Some((_, body)) = entry.body() else { continue };
            let fact = Fact::decode(envelope.kind, envelope.kind_version, body)?;
            let device: Option<[u8; 16]> = row.get(6)?;
            found.push(Stated {
                entry: entry.reference(),
                by: envelope.person,
                device: device.map(|id| DeviceId(Uuid::from_bytes(id))),
                recorded: envelope.recorded,
                standing: Standing { withdrawn: row.get(3)?, replaced: row.get(4)?, set_aside: row.get(5)? },
                reason: fact.reason,
                names: fact.names,
                named: row.get(7)?,
                clock_back: row.get(8)?,
                value: fact.body,
            });
        }
        Ok(found)
    }

    /// Entries of a query that selects `envelope, salt, body`.
    pub(crate) fn entries_where(&self, sql: &str, params: impl Params) -> Result<Vec<Entry>, ReadError> {
        let mut statement = self.connection.prepare_cached(sql)?;
        let mut rows = statement.query(params)?;
        let mut entries = Vec::new();
        while let Some(row) = rows.next()? {
            entries.push(entry_of(row)??);
        }
        Ok(entries)
    }

    /// What names `entry` and acts on it, in order.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn acting_on(&self, entry: EntryRef) -> Result<Vec<Acting>, ReadError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT e.envelope, e.salt, e.body FROM naming n
             JOIN entry e ON e.id = n.entry JOIN standing s ON s.entry = e.id
             WHERE n.log = ?1 AND n.seq = ?2 AND n.short = ?3 AND s.readable = 1 AND s.withdrawn = 0
             GROUP BY e.id ORDER BY e.lamport, e.log, e.seq, e.hash",
        )?;
        let mut rows = statement.query(params![blob(&entry.log.0), number(entry.seq.0), entry.short])?;
        let mut acting = Vec::new();
        while let Some(row) = rows.next()? {
            let from = entry_of(row)??;
            let envelope = from.envelope();
            let (Some((_, body)), Some(kind)) = (from.body(), Kind::from_number(envelope.kind)) else { continue };
            let fact = Fact::decode(envelope.kind, envelope.kind_version, body)?;
            let roles: Vec<Role> = fact.names.iter().filter(|one| one.entry == entry).map(|one| one.role).collect();
            acting.extend(roles.into_iter().map(|role| Acting {
                role,
                entry: from.reference(),
                kind,
                by: envelope.person,
                recorded: envelope.recorded,
                reason: fact.reason.clone(),
            }));
        }
        Ok(acting)
    }

    /// The book a log belongs to, where its first entry is here.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn book_of(&self, log: LogId) -> Result<Option<Book>, ReadError> {
        let found: Option<(i64, [u8; 16])> = self
            .connection
            .prepare_cached("SELECT noun, book FROM opened WHERE log = ?1 ORDER BY noun, book LIMIT 1")?
            .query_row([blob(&log.0)], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        Ok(found.map(|(noun, id)| Book::numbered(noun, Uuid::from_bytes(id))))
    }

    /// What an entry is about.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn objects_of(&self, entry: EntryRef) -> Result<Vec<Object>, ReadError> {
        let found = self
            .connection
            .prepare_cached(
                "SELECT a.noun, a.object FROM entry e JOIN about a ON a.entry = e.id
                 WHERE e.log = ?1 AND e.seq = ?2 AND substr(e.hash, 1, 8) = ?3",
            )?
            .query_map(params![blob(&entry.log.0), number(entry.seq.0), entry.short], |row| {
                Ok((row.get::<_, i64>(0)?, row.get::<_, [u8; 16]>(1)?))
            })?
            .collect::<rusqlite::Result<Vec<_>>>()?;
        Ok(found
            .into_iter()
            .filter_map(|(noun, id)| {
                Noun::from_number(noun).map(|noun| Object { noun, id: ObjectId(Uuid::from_bytes(id)) })
            })
            .collect())
    }

    /// The subjects of readable entries of a kind that stand, each once, by id.
    pub(super) fn subjects(&self, noun: Noun, kind: Kind) -> Result<Vec<Uuid>, ReadError> {
        let ids = self
            .connection
            .prepare_cached(
                "SELECT DISTINCT a.object FROM entry e
                 CROSS JOIN about a ON a.entry = e.id CROSS JOIN standing s ON s.entry = e.id
                 WHERE e.kind = ?1 AND a.noun = ?2 AND a.subject = 1 AND s.readable = 1 AND s.withdrawn = 0
                 ORDER BY a.object",
            )?
            .query_map(params![number(kind.number()), noun.number()], |row| Ok(Uuid::from_bytes(row.get(0)?)))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(ids)
    }

    /// The subjects of one noun that entries about `object` have, each once, by id. The order of the joins is kept: left to
    /// itself SQLite begins with everything that has a subject of that noun, which may be the whole record.
    pub(super) fn related(&self, object: Object, noun: Noun, kinds: [Kind; 2]) -> Result<Vec<Uuid>, ReadError> {
        let ids = self
            .connection
            .prepare_cached(
                "SELECT DISTINCT b.object FROM about a
                 CROSS JOIN about b ON b.entry = a.entry CROSS JOIN standing s ON s.entry = a.entry
                 WHERE a.noun = ?1 AND a.object = ?2 AND a.kind IN (?4, ?5) AND b.noun = ?3 AND s.readable = 1
                 ORDER BY b.object",
            )?
            .query_map(
                params![
                    object.noun.number(),
                    blob(&object.id.0),
                    noun.number(),
                    number(kinds[0].number()),
                    number(kinds[1].number())
                ],
                |row| Ok(Uuid::from_bytes(row.get(0)?)),
            )?
            .collect::<rusqlite::Result<_>>()?;
        Ok(ids)
    }
}
