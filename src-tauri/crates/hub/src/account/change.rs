//! Another role, and a login taken away. The person and their account stay: what they recorded names them.

use super::invite::offices;
use super::{Account, AccountError, Accounts, By, one};
use crate::audit::{Act, note};
use crate::base::Tables;
use crate::role::Role;
use provenohm_api::PersonId;

impl Accounts {
    /// Gives a person another role.
    ///
    /// # Errors
    /// `no_account`; `last_office` if nobody of the office would have a login then.
    pub(crate) fn set_role(&self, person: PersonId, role: Role, by: By<'_>) -> Result<(), AccountError> {
        self.0.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            if role != Role::Office {
                not_the_last(tx, &account)?;
            }
            tx.run("UPDATE account SET role = ?2 WHERE person = ?1", &[person.0.as_bytes().into(), role.key().into()])?;
            note(tx, by.at, &Act::Role { who: by.who, about: &account.name, role })
        })
    }

    /// Takes a person's login away, the link that may wait for them, and their tokens.
    ///
    /// # Errors
    /// As [`Accounts::set_role`].
    pub(crate) fn take_away(&self, person: PersonId, by: By<'_>) -> Result<(), AccountError> {
        self.0.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            not_the_last(tx, &account)?;
            tx.run("UPDATE account SET hash = NULL WHERE person = ?1", &[person.0.as_bytes().into()])?;
            tx.run("DELETE FROM invite WHERE person = ?1", &[person.0.as_bytes().into()])?;
            tx.run("DELETE FROM token WHERE person = ?1", &[person.0.as_bytes().into()])?;
            note(tx, by.at, &Act::TakenAway { who: by.who, about: &account.name })
        })
    }
}

fn not_the_last(tx: &mut dyn Tables, account: &Account) -> Result<(), AccountError> {
    let counts = account.role == Role::Office && account.hash.is_some();
    if counts && offices(tx)? == 1 { Err(AccountError::Refused("last_office")) } else { Ok(()) }
}
