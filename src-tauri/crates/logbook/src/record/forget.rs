//! A book is removed from this device. Its own log is closed; its id and head stay, so that its places are never
//! given again if the book comes back.

use super::local::{self, WORKED_OUT};
use super::{Record, WriteError};
use crate::entry::Object;
use crate::entry::body::Book;
use crate::project;
use crate::store::blob;
use rusqlite::{TransactionBehavior, params};

impl Record {
    /// Removes a book from this device, with the choices about it and what was worked out from books. What exists nowhere else is lost: the caller has asked.
    ///
    /// # Errors
    /// [`WriteError`] in words; then nothing was removed.
    pub fn forget(&mut self, book: Book) -> Result<(), WriteError> {
        self.writable()?;
        let Object { noun, id } = book.object();
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        tx.execute(
            "UPDATE own_log SET closed = 'returned' WHERE noun = ?1 AND book = ?2 AND closed IS NULL",
            params![noun.number(), blob(&id.0)],
        )?;
        tx.execute(
            "CREATE TEMP TABLE gone AS SELECT id FROM entry
             WHERE log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)",
            params![noun.number(), blob(&id.0)],
        )?;
        project::clear(&tx)?;
        tx.execute_batch(
            "DELETE FROM own_act WHERE entry IN (SELECT id FROM gone);
             DELETE FROM entry WHERE id IN (SELECT id FROM gone);
             DROP TABLE gone;",
        )?;
        // What was worked out may speak of what is gone.
        for gone in [WORKED_OUT, &local::before(book)] {
            tx.execute("DELETE FROM setting WHERE substr(name, 1, length(?1)) = ?1", [gone])?;
        }
        // Entries of other books may have been named from this one.
        project::rebuild(&tx)?;
        tx.commit()?;
        Ok(())
    }
}
