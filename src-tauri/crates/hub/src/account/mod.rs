//! Who may log in, as what, and what was done about it: a file beside the record that no bundle carries.

mod change;
mod invite;
mod migrate;
pub(crate) mod password;
#[cfg(test)]
mod tests;

pub(crate) use invite::Invited;

use crate::role::Role;
use provenohm_api::{Host, Moment, PersonId};
use provenohm_logbook::random::NoRandomness;
use rusqlite::types::Type;
use rusqlite::{Connection, OptionalExtension as _, Row, Transaction, TransactionBehavior};
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};
use uuid::Uuid;

/// Accounts cannot be read or kept, or not be changed that way.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// SQLite refuses.
    #[error("the accounts cannot be read or kept: {0}")]
    Sqlite(#[from] rusqlite::Error),
    /// A password cannot be hashed, or what is kept of one cannot be read.
    #[error("a password cannot be hashed: {0}")]
    Hash(#[from] argon2::password_hash::Error),
    /// The system gives no salt.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
    /// A newer version has written the file.
    #[error("the accounts were written by a newer version of this program")]
    Newer,
    /// The record does not take the person's name.
    #[error("the record does not take the name: {0}")]
    Record(String),
    /// Refused, by the stable code of a failure.
    #[error("refused: {0}")]
    Refused(&'static str),
}

/// One account.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Account {
    pub(crate) person: PersonId,
    pub(crate) name: String,
    pub(crate) role: Role,
    /// Of the password; a person without one has no login. It is another one after every change.
    pub(crate) hash: Option<String>,
    /// Until when a link for a password works, where one waits.
    pub(crate) link_until: Option<Moment>,
}

/// Who does something about accounts, and when.
#[derive(Clone, Copy, Debug)]
pub(crate) struct By<'a> {
    pub(crate) who: &'a str,
    pub(crate) at: Moment,
}

const ACCOUNT: &str =
    "SELECT a.person, a.name, a.role, a.hash, i.until FROM account a LEFT JOIN invite i USING (person)";

/// The accounts of one hub.
pub(crate) struct Accounts(Mutex<Connection>);

impl Accounts {
    pub(crate) fn open(file: &Path, host: &mut Host) -> Result<Self, AccountError> {
        let mut accounts = Connection::open(file)?;
        accounts.pragma_update(None, "journal_mode", "wal")?;
        accounts.pragma_update(None, "synchronous", "full")?;
        accounts.pragma_update(None, "secure_delete", true)?;
        accounts.pragma_update(None, "foreign_keys", true)?;
        migrate::bring_up(&mut accounts, host)?;
        Ok(Self(Mutex::new(accounts)))
    }

    /// Everybody, by name.
    pub(crate) fn all(&self) -> Result<Vec<Account>, AccountError> {
        let sqlite = self.sqlite();
        let mut all = sqlite.prepare(&format!("{ACCOUNT} ORDER BY a.name"))?;
        Ok(all.query_map([], read)?.collect::<Result<_, _>>()?)
    }

    pub(crate) fn of_person(&self, person: PersonId) -> Result<Option<Account>, AccountError> {
        one(&self.sqlite(), person)
    }

    pub(crate) fn named(&self, name: &str) -> Result<Option<Account>, AccountError> {
        let sql = format!("{ACCOUNT} WHERE a.name = ?1");
        Ok(self.sqlite().query_row(&sql, [name], read).optional()?)
    }

    /// Does all of it or nothing.
    pub(crate) fn change<T>(
        &self,
        change: impl FnOnce(&Transaction<'_>) -> Result<T, AccountError>,
    ) -> Result<T, AccountError> {
        let mut sqlite = self.sqlite();
        let tx = sqlite.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let done = change(&tx)?;
        tx.commit()?;
        Ok(done)
    }

    pub(crate) fn sqlite(&self) -> MutexGuard<'_, Connection> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The account of a person, as it stands within a change.
fn one(sqlite: &Connection, person: PersonId) -> Result<Option<Account>, AccountError> {
    let mut found = sqlite.prepare_cached(&format!("{ACCOUNT} WHERE a.person = ?1"))?;
    Ok(found.query_row([person.0.as_bytes()], read).optional()?)
}

fn read(row: &Row<'_>) -> rusqlite::Result<Account> {
    let unreadable = |column, why: Box<dyn std::error::Error + Send + Sync>| {
        rusqlite::Error::FromSqlConversionFailure(column, Type::Text, why)
    };
    let (role, until): (String, Option<String>) = (row.get(2)?, row.get(4)?);
    let until = until.map(|until| Moment::parse_from_rfc3339(&until)).transpose();
    Ok(Account {
        person: PersonId(Uuid::from_bytes(row.get(0)?)),
        name: row.get(1)?,
        role: Role::named(&role).ok_or_else(|| unreadable(2, role.into()))?,
        hash: row.get(3)?,
        link_until: until.map_err(|why| unreadable(4, why.into()))?,
    })
}
