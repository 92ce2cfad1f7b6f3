//! The guard against a record that was restored or copied: its logs may have gone on elsewhere. They are closed, and
//! new ones opened at the next append, so that no place in a log is ever given twice.

use super::{Record, own_log};
use crate::entry::{Hash, LogId, Seq};
use crate::store::{blob, number};
use rusqlite::{TransactionBehavior, params};
use std::collections::BTreeMap;
use uuid::Uuid;

impl Record {
    /// Compares the open logs with what the device's own file has seen, and closes those that do not fit.
    pub(super) fn guard(&mut self, seen: &BTreeMap<LogId, (Seq, Hash)>) -> rusqlite::Result<()> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let open: Vec<([u8; 16], [u8; 16])> = transaction
            .prepare("SELECT log, device FROM own_log WHERE closed IS NULL")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<rusqlite::Result<_>>()?;
        for (log, device) in open {
            let log = LogId(Uuid::from_bytes(log));
            // An own log the device has never noted was written by this device and cut off before the note.
            let whole = match seen.get(&log) {
                None => true,
                Some((seq, hash)) => transaction.query_row(
                    "SELECT EXISTS (SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 AND hash = ?3)",
                    params![blob(&log.0), number(seq.0), hash.0],
                    |row| row.get(0),
                )?,
            };
            if device != *self.device.id().0.as_bytes() || !whole {
                own_log::close(&transaction, log, "restored")?;
            }
        }
        transaction.commit()?;
        self.note_heads()
    }

    /// Brings the device's own file up to the record, for logs cut off between a commit and its note.
    fn note_heads(&mut self) -> rusqlite::Result<()> {
        let heads: Vec<([u8; 16], i64, [u8; 32])> = self
            .connection
            .prepare("SELECT log, head_seq, head_hash FROM own_log WHERE closed IS NULL")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
            .collect::<rusqlite::Result<_>>()?;
        for (log, seq, hash) in heads {
            self.device.note(LogId(Uuid::from_bytes(log)), Seq(crate::store::counter(seq)), Hash(hash))?;
        }
        Ok(())
    }
}
