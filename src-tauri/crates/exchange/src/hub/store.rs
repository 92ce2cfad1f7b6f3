//! What a hub keeps: entries, each once, in the order in which they came.

use super::cursor::{Cursor, Epoch, Scope};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, EntryRef, Envelope, Fact, Hash, Kind, Lamport, LogId, Role, Seq};
use std::collections::BTreeMap;

/// Entries of one book that came together, which what came before them proves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parcel {
    /// The point behind it.
    pub cursor: Cursor,
    /// The book.
    pub book: Book,
    /// In the order of log, place and hash.
    pub entries: Vec<Entry>,
}

/// Why a store does not keep or give.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// SQLite refuses.
    #[error("the hub's store cannot be read or written: {0}")]
    Sqlite(#[from] rusqlite::Error),
    /// Another engine refuses.
    #[error("the hub's store cannot be read or written: {0}")]
    Engine(String),
    /// It was carried elsewhere and takes nothing more.
    #[error("the hub's store was moved and takes nothing more: use the one it was moved to")]
    Closed,
    /// Bytes in it are not what was written.
    #[error("the hub's store is damaged: {0}")]
    Damaged(String),
}

/// A store of entries. Each call is one transaction: all of it or nothing.
pub trait Store: Send {
    /// The life it is in, and the point behind the last parcel.
    ///
    /// # Errors
    /// [`StoreError`].
    fn end(&mut self) -> Result<(Epoch, Cursor), StoreError>;

    /// Keeps those of these entries that are not here, as one parcel a book. How many those were.
    ///
    /// # Errors
    /// [`StoreError`].
    fn append(&mut self, books: &BTreeMap<Book, Vec<Entry>>) -> Result<u64, StoreError>;

    /// What these logs end with: more than one where one forks or has a gap, none of one that is not here.
    ///
    /// # Errors
    /// [`StoreError`].
    fn heads(&mut self, logs: &[LogId]) -> Result<BTreeMap<LogId, Vec<(Seq, Hash)>>, StoreError>;

    /// Whether an entry is here.
    ///
    /// # Errors
    /// [`StoreError`].
    fn holds(&mut self, log: LogId, seq: Seq, hash: Hash) -> Result<bool, StoreError>;

    /// Whether everything up to that point came as the cursor says.
    ///
    /// # Errors
    /// [`StoreError`].
    fn knows(&mut self, cursor: Cursor) -> Result<bool, StoreError>;

    /// Parcels of a scope behind a point, in their order; whole ones, until they have so many bytes or there are no more.
    ///
    /// # Errors
    /// [`StoreError`].
    fn parcels(&mut self, scope: Scope, after: u64, most_bytes: u64) -> Result<Vec<Parcel>, StoreError>;

    /// How many entries are here, and what every log ends with, in rising order.
    ///
    /// # Errors
    /// [`StoreError`].
    fn whole(&mut self) -> Result<Whole, StoreError>;

    /// Whether it was carried elsewhere and takes nothing more.
    ///
    /// # Errors
    /// [`StoreError`].
    fn is_closed(&mut self) -> Result<bool, StoreError>;

    /// Takes nothing more from now on.
    ///
    /// # Errors
    /// [`StoreError`].
    fn close(&mut self) -> Result<(), StoreError>;

    /// Drops the bodies that erasures name and that [may be dropped](Erased::may_drop).
    ///
    /// # Errors
    /// [`StoreError`].
    fn drop_bodies(&mut self, erased: &[Erased]) -> Result<(), StoreError>;
}

/// A store, summed up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Whole {
    /// Entries.
    pub entries: u64,
    /// Last entries of each log.
    pub heads: Vec<(LogId, Seq, Hash)>,
}

/// An entry that an erasure names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Erased {
    /// The entry.
    pub entry: EntryRef,
    /// The counter of the erasure.
    pub by: Lamport,
}

impl Erased {
    /// What an entry erases.
    #[must_use]
    pub fn by(entry: &Entry) -> Vec<Self> {
        let envelope = entry.envelope();
        let Some((_, body)) = entry.body().filter(|_| envelope.kind == Kind::Erasure.number()) else {
            return Vec::new();
        };
        let names = Fact::decode(envelope.kind, envelope.kind_version, body).map(|fact| fact.names).unwrap_or_default();
        let erased = names.into_iter().filter(|name| name.role == Role::Erases);
        erased.map(|name| Self { entry: name.entry, by: envelope.lamport }).collect()
    }

    /// Whether the entry it names, of this envelope, is personal data from before: nothing measured is ever dropped.
    #[must_use]
    pub fn may_drop(&self, envelope: &Envelope) -> bool {
        Kind::from_number(envelope.kind).is_some_and(Kind::erasable) && self.by > envelope.lamport
    }
}
