//! Who may log in, as what, and what was done about it. No bundle carries any of it.

mod change;
mod invite;
pub(crate) mod password;
#[cfg(test)]
mod tests;

pub(crate) use invite::Invited;

use crate::base::{Base, Line, Tables};
use crate::role::Role;
use provenohm_api::{Moment, PersonId};
use provenohm_exchange::hub::StoreError;
use provenohm_logbook::random::NoRandomness;
use std::sync::Arc;
use uuid::Uuid;

/// Accounts cannot be read or kept, or not be changed that way.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// SQLite refuses.
    #[error("the accounts cannot be read or kept: {0}")]
    Sqlite(#[from] rusqlite::Error),
    /// A shared database refuses.
    #[error("the accounts cannot be read or kept: {0}")]
    Database(#[from] tokio_postgres::Error),
    /// It is not reached, or answers too late.
    #[error(transparent)]
    NotReached(#[from] StoreError),
    /// Somebody else's accounts are where they should go.
    #[error("somebody has an account in that database already: move the hub into an empty one")]
    Occupied,
    /// What stands there is not what was written.
    #[error("the accounts cannot be read: something in them is not what was written")]
    Unreadable,
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
    "SELECT a.person, a.name, a.role, a.hash, i.until FROM account a LEFT JOIN invite i ON i.person = a.person";

/// The accounts of one hub.
pub(crate) struct Accounts(pub(crate) Arc<Base>);

impl Accounts {
    /// Everybody, by name.
    pub(crate) fn all(&self) -> Result<Vec<Account>, AccountError> {
        self.0.ask(|tables| {
            let all = tables.lines(&format!("{ACCOUNT} ORDER BY a.name"), &[])?;
            all.iter().map(read).collect()
        })
    }

    pub(crate) fn named(&self, name: &str) -> Result<Option<Account>, AccountError> {
        let named = format!("{ACCOUNT} WHERE a.name = ?1");
        self.0.ask(|tables| tables.line(&named, &[name.into()])?.as_ref().map(read).transpose())
    }
}

/// The account of a person, as it stands within a change.
pub(crate) fn one(tables: &mut dyn Tables, person: PersonId) -> Result<Option<Account>, AccountError> {
    let found = tables.line(&format!("{ACCOUNT} WHERE a.person = ?1"), &[person.0.as_bytes().into()])?;
    found.as_ref().map(read).transpose()
}

fn read(line: &Line) -> Result<Account, AccountError> {
    Ok(Account {
        person: PersonId(Uuid::from_bytes(line.array(0)?)),
        name: line.text(1)?,
        role: Role::named(&line.text(2)?).ok_or(AccountError::Unreadable)?,
        hash: line.text_if(3)?,
        link_until: line.moment_if(4)?,
    })
}
