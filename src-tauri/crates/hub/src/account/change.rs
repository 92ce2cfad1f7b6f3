//! Another role, and a login taken away. The person and their account stay: what they recorded names them.

use super::invite::offices;
use super::{Account, AccountError, Accounts, By, one};
use crate::audit::{Act, note};
use crate::role::Role;
use provenohm_api::PersonId;
use rusqlite::{Transaction, params};

impl Accounts {
    /// Gives a person another role.
    ///
    /// # Errors
    /// `no_account`; `last_office` if nobody of the office would have a login then.
    pub(crate) fn set_role(&self, person: PersonId, role: Role, by: By<'_>) -> Result<(), AccountError> {
        self.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            if role != Role::Office {
                not_the_last(tx, &account)?;
            }
            tx.execute("UPDATE account SET role = ?2 WHERE person = ?1", params![person.0.as_bytes(), role.key()])?;
            note(tx, by.at, &Act::Role { who: by.who, about: &account.name, role })
        })
    }

    /// Takes a person's login away, and the link that may wait for them.
    ///
    /// # Errors
    /// As [`Accounts::set_role`].
    pub(crate) fn take_away(&self, person: PersonId, by: By<'_>) -> Result<(), AccountError> {
        self.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            not_the_last(tx, &account)?;
            tx.execute("UPDATE account SET hash = NULL WHERE person = ?1", [person.0.as_bytes()])?;
            tx.execute("DELETE FROM invite WHERE person = ?1", [person.0.as_bytes()])?;
            note(tx, by.at, &Act::TakenAway { who: by.who, about: &account.name })
        })
    }
}

fn not_the_last(tx: &Transaction<'_>, account: &Account) -> Result<(), AccountError> {
    let counts = account.role == Role::Office && account.hash.is_some();
    if counts && offices(tx)? == 1 { Err(AccountError::Refused("last_office")) } else { Ok(()) }
}
