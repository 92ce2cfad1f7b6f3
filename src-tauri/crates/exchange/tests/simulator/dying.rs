//! The store as an instance has it that dies in the middle of a request: after so many calls none reaches it any more.

use provenohm_exchange::hub::{Cursor, Epoch, Erased, Parcel, Scope, Store, StoreError, Whole};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Hash, LogId, Seq};
use std::collections::BTreeMap;

pub(crate) struct Dying<'s> {
    store: &'s mut dyn Store,
    /// Calls until it dies; never if none.
    left: Option<usize>,
}

impl<'s> Dying<'s> {
    pub(crate) fn after(store: &'s mut dyn Store, left: Option<usize>) -> Self {
        Self { store, left }
    }

    pub(crate) fn is_dead(&self) -> bool {
        self.left == Some(0)
    }

    fn reached(&mut self) -> Result<&mut dyn Store, StoreError> {
        if self.is_dead() {
            return Err(StoreError::Engine("the instance is dead".into()));
        }
        self.left = self.left.map(|left| left - 1);
        Ok(self.store)
    }
}

impl Store for Dying<'_> {
    fn end(&mut self) -> Result<(Epoch, Cursor), StoreError> {
        self.reached()?.end()
    }

    fn append(&mut self, books: &BTreeMap<Book, Vec<Entry>>) -> Result<u64, StoreError> {
        self.reached()?.append(books)
    }

    fn heads(&mut self, logs: &[LogId]) -> Result<BTreeMap<LogId, Vec<(Seq, Hash)>>, StoreError> {
        self.reached()?.heads(logs)
    }

    fn holds(&mut self, log: LogId, seq: Seq, hash: Hash) -> Result<bool, StoreError> {
        self.reached()?.holds(log, seq, hash)
    }

    fn knows(&mut self, cursor: Cursor) -> Result<bool, StoreError> {
        self.reached()?.knows(cursor)
    }

    fn parcels(&mut self, scope: Scope, after: u64, most_bytes: u64) -> Result<Vec<Parcel>, StoreError> {
        self.reached()?.parcels(scope, after, most_bytes)
    }

    fn whole(&mut self) -> Result<Whole, StoreError> {
        self.reached()?.whole()
    }

    fn is_closed(&mut self) -> Result<bool, StoreError> {
        self.reached()?.is_closed()
    }

    fn close(&mut self) -> Result<(), StoreError> {
        self.reached()?.close()
    }

    fn drop_bodies(&mut self, erased: &[Erased]) -> Result<(), StoreError> {
        self.reached()?.drop_bodies(erased)
    }
}
