//! Entries from another device: judged book by book, and looked at or taken, all of them or none. Whether a file, a
//! cable or an office brought them makes no difference.

use super::intake::{Intake, Refusal};
use super::{Record, WriteError, local};
use crate::chain::Gap;
use crate::entry::body::Book;
use crate::entry::{Entry, Lamport, LogId, Seq};
use crate::store::counter;
use crate::view::{ReadError, ToSettle, View};
use rusqlite::{Connection, TransactionBehavior};
use std::collections::BTreeSet;
use std::ops::ControlFlow;

/// What taking entries into a book does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// The book.
    pub book: Book,
    /// The sum.
    pub sum: Sum,
    /// What waits for a person because of them.
    pub to_settle: Vec<ToSettle>,
    /// What the book lacks now.
    pub gaps: Vec<Gap>,
    /// Where its logs part now.
    pub forks: Vec<(LogId, Seq)>,
    /// New entries that need a newer version to be read. They are kept and handed on.
    pub newer: u64,
    /// Entries that were here, not as they were written, and are put right.
    pub mended: u64,
    /// New entries that no seal reaches and another device vouches for.
    pub vouched: u64,
    /// Own logs that were found to have gone on elsewhere, and are closed.
    pub closed: BTreeSet<LogId>,
}

/// In N = joined A + same B + to settle C.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sum {
    /// Entries that came.
    pub came: u64,
    /// New ones, beside nothing that contradicts them.
    pub joined: u64,
    /// Ones that were here already.
    pub same: u64,
    /// New ones that stand beside another value: a person chooses.
    pub to_settle: u64,
}

impl Sum {
    /// Whether every entry that came is in one of the three, and in one only.
    #[must_use]
    pub fn adds_up(&self) -> bool {
        self.joined.checked_add(self.same).and_then(|sum| sum.checked_add(self.to_settle)) == Some(self.came)
    }
}

impl std::ops::Add for Sum {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            came: self.came + other.came,
            joined: self.joined + other.joined,
            same: self.same + other.same,
            to_settle: self.to_settle + other.to_settle,
        }
    }
}

/// Why nothing was taken.
#[derive(Debug, thiserror::Error)]
pub enum TakeInError<S> {
    /// What brought the entries stopped.
    #[error("{0}")]
    Source(S),
    /// They are not what they must be.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// A person stopped it.
    #[error("it was stopped before anything was taken")]
    Stopped,
    /// The record cannot be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// The record cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
}

impl<S> From<rusqlite::Error> for TakeInError<S> {
    fn from(error: rusqlite::Error) -> Self {
        Self::Write(error.into())
    }
}

/// The record while it takes entries in: what came is in it already, and not yet there to stay.
pub struct Taking<'t> {
    tx: &'t Connection,
    highest: Lamport,
    erases: bool,
}

/// Whether what was taken in stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It is on the disk when this returns.
    Kept,
    /// It was only looked at.
    Dropped,
}

impl Record {
    /// Lets `change` take in books, then keeps all of them or none.
    ///
    /// # Errors
    /// Whatever `change` returns; then nothing was taken. [`WriteError`] if the record cannot be written.
    pub fn take_in<T, E: From<WriteError>>(
        &mut self,
        change: impl FnOnce(&mut Taking<'_>) -> Result<(T, Fate), E>,
    ) -> Result<T, E> {
        self.writable()?;
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(WriteError::from)?;
        let highest: i64 = tx
            .query_row("SELECT coalesce(max(lamport), 0) FROM entry", [], |row| row.get(0))
            .map_err(WriteError::from)?;
        let mut taking = Taking { tx: &tx, highest: Lamport(counter(highest)), erases: false };
        let (value, fate) = change(&mut taking)?;
        let erases = taking.erases;
        if fate == Fate::Kept {
            tx.commit().map_err(WriteError::from)?;
            if erases {
                // The dropped bytes leave the write-ahead log too; if a reader is in the way, at the next checkpoint.
                let _ = self.connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()));
            }
        }
        Ok(value)
    }
}

impl Taking<'_> {
    /// What the record says with all that came so far.
    #[must_use]
    pub fn view(&self) -> View<'_> {
        View::new(self.tx)
    }

    /// Keeps a choice of this device together with what comes.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn choose(&mut self, name: &str, value: &str) -> Result<(), WriteError> {
        local::choose(self.tx, name, Some(value))
    }

    /// Takes entries into a book. They come in any order and any number of times; each new one is chained forward to a
    /// seal, or to what a later log names. `watch` hears how far it is, and can stop it: each entry counts once as it comes
    /// and once for what has to be proven of all of them.
    ///
    /// # Errors
    /// [`TakeInError`] in words. What came of this book must not be kept then.
    pub fn book<S>(
        &mut self,
        book: Book,
        entries: impl IntoIterator<Item = Result<Entry, S>>,
        watch: &mut dyn FnMut(u64) -> ControlFlow<()>,
    ) -> Result<Taken, TakeInError<S>> {
        let mut intake = Intake::begin(self.tx, book, self.highest)?;
        for entry in entries {
            intake.take(&entry.map_err(TakeInError::Source)?)?;
            if watch(intake.came()).is_break() {
                return Err(TakeInError::Stopped);
            }
        }
        self.erases |= intake.erases();
        let came = intake.came();
        let taken = intake.finish(&mut |walked| watch(came + walked.min(came)))?;
        if watch(2 * came).is_break() { Err(TakeInError::Stopped) } else { Ok(taken) }
    }
}
