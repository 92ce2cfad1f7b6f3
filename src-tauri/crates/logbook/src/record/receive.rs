//! Entries from elsewhere. Any order, any number of times; a fork is kept whole.

use super::{Record, own_log};
use crate::entry::{Entry, LogId};
use crate::project::{self, Arrival};
use rusqlite::TransactionBehavior;
use std::collections::BTreeSet;

/// What receiving did.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Received {
    /// Entries that were not here.
    pub new: u64,
    /// Entries that were.
    pub known: u64,
    /// Own logs that were found to have gone on elsewhere and are closed.
    pub closed: BTreeSet<LogId>,
}

/// Why nothing was received.
#[derive(Debug, thiserror::Error)]
pub enum ReceiveError {
    /// A newer version has written this record.
    #[error("this record was written by a newer version: it can be read here, not changed")]
    NewerRecord,
    /// SQLite refuses.
    #[error("the record cannot be written: {0}")]
    Sqlite(#[from] rusqlite::Error),
}

impl Record {
    /// Takes entries into the record as they are: all of them or none. Nobody asks here whose they are:
    /// [`Record::take_in`] does, for what comes from another device.
    ///
    /// # Errors
    /// [`ReceiveError`] in words; then nothing was taken.
    pub fn receive<'e>(&mut self, entries: impl IntoIterator<Item = &'e Entry>) -> Result<Received, ReceiveError> {
        if self.newer {
            return Err(ReceiveError::NewerRecord);
        }
        self.flush_what_was_found()?;
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut received = Received::default();
        for entry in entries {
            match project::arrive(&tx, entry)? {
                Arrival::Known | Arrival::Completed(_) | Arrival::Mended => received.known += 1,
                Arrival::New(_) => {
                    received.new += 1;
                    // Only this device writes its own logs: an entry of one that is new here was written by a copy.
                    if own_log::close(&tx, entry.envelope().log, "forked")? {
                        received.closed.insert(entry.envelope().log);
                    }
                }
            }
        }
        tx.commit()?;
        Ok(received)
    }
}
