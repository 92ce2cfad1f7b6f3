//! The office's own tables, beside the entries: accounts, sessions, phones and what was done about them. In SQLite beside the
//! record, or in the database that several instances share; the statements are the same for both.

mod carry;
mod cell;
mod sqlite;
mod steps;

pub(crate) use cell::{Cell, Line};

use crate::account::AccountError;
use crate::postgres::Database;
use provenohm_api::Host;
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// What a change is made with. Places in a statement are `?1`, `?2` …
pub(crate) trait Tables {
    /// Changes rows; how many.
    ///
    /// # Errors
    /// [`AccountError`].
    fn run(&mut self, statement: &str, cells: &[Cell]) -> Result<u64, AccountError>;

    /// Asks for rows.
    ///
    /// # Errors
    /// [`AccountError`].
    fn lines(&mut self, question: &str, cells: &[Cell]) -> Result<Vec<Line>, AccountError>;
}

impl dyn Tables + '_ {
    /// The first row, if there is one.
    pub(crate) fn line(&mut self, question: &str, cells: &[Cell]) -> Result<Option<Line>, AccountError> {
        Ok(self.lines(question, cells)?.into_iter().next())
    }
}

/// The tables of one hub. Calls wait for a disk or a network, so they are made off the threads that answer.
pub(crate) enum Base {
    Sqlite(Mutex<Connection>),
    Postgres(Database),
}

impl Base {
    /// In a file beside the record.
    pub(crate) fn in_file(file: &Path, host: &mut Host) -> Result<Self, AccountError> {
        Ok(Self::Sqlite(Mutex::new(sqlite::open(file, host)?)))
    }

    /// In a database that is shared.
    pub(crate) fn in_database(database: Database) -> Result<Self, AccountError> {
        database.make_office()?;
        Ok(Self::Postgres(database))
    }

    /// Asks, all of it at one and the same moment.
    pub(crate) fn ask<T>(&self, ask: impl Fn(&mut dyn Tables) -> Result<T, AccountError>) -> Result<T, AccountError> {
        match self {
            Self::Sqlite(file) => sqlite::change(&mut lock(file), TransactionBehavior::Deferred, ask),
            Self::Postgres(database) => database.ask_office(ask),
        }
    }

    /// Does all of it or nothing, one after the other. In a shared database it may be begun more than once, until nobody else
    /// was quicker.
    pub(crate) fn change<T>(
        &self,
        change: impl Fn(&mut dyn Tables) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        match self {
            Self::Sqlite(file) => sqlite::change(&mut lock(file), TransactionBehavior::Immediate, change),
            Self::Postgres(database) => database.change_office(change),
        }
    }
}

fn lock(file: &Mutex<Connection>) -> MutexGuard<'_, Connection> {
    file.lock().unwrap_or_else(PoisonError::into_inner)
}
