//! Who is logged in, known to every instance of the hub. Of a cookie its hash alone is kept.

use crate::account::{Account, AccountError, one};
use crate::base::Base;
use crate::secret::{Kept, Secret};
use provenohm_api::{Moment, PersonId};
use std::sync::Arc;
use uuid::Uuid;

/// How long a session lasts without a word, s.
const LASTS: i64 = 12 * 60 * 60;

/// A word sooner than this after the last one is not noted, s.
const NOTED: i64 = 60;

/// The sessions of one hub.
pub(crate) struct Sessions(pub(crate) Arc<Base>);

impl Sessions {
    /// Opens a session for who has logged in, with what goes into its cookie. It is over once they have another password, or
    /// none.
    pub(crate) fn open(&self, account: &Account, now: Moment, cookie: &Secret) -> Result<(), AccountError> {
        let open = "INSERT INTO session (cookie, person, of, heard) VALUES (?1, ?2, ?3, ?4)";
        let (person, of) = (account.person.0.as_bytes().into(), password_of(account).bytes().into());
        let cells = [cookie.kept().bytes().into(), person, of, now.timestamp().into()];
        self.0.change(|tables| {
            tables.run("DELETE FROM session WHERE heard <= ?1", &[(now.timestamp() - LASTS).into()])?;
            tables.run(open, &cells)
        })?;
        Ok(())
    }

    /// Whose session a cookie is of, as their account stands now.
    pub(crate) fn whose(&self, cookie: &str, now: Moment) -> Result<Option<Account>, AccountError> {
        let whose = "SELECT person, of FROM session WHERE cookie = ?1 AND heard > ?2";
        self.0.ask(|tables| {
            let cells = [Kept::of(cookie).bytes().into(), (now.timestamp() - LASTS).into()];
            let Some(line) = tables.line(whose, &cells)? else { return Ok(None) };
            let (person, of) = (PersonId(Uuid::from_bytes(line.array(0)?)), line.array::<32>(1)?);
            let account = one(tables, person)?;
            Ok(account.filter(|account| account.hash.is_some() && *password_of(account).bytes() == of))
        })
    }

    /// A person did something: their session lasts from now on. What a page asks by itself keeps none.
    pub(crate) fn keep(&self, cookie: &str, now: Moment) -> Result<(), AccountError> {
        let now = now.timestamp();
        let due = "SELECT heard FROM session WHERE cookie = ?1 AND heard > ?2 AND heard <= ?3";
        let cells = [Kept::of(cookie).bytes().into(), (now - LASTS).into(), (now - NOTED).into()];
        if self.0.ask(|tables| tables.line(due, &cells))?.is_none() {
            return Ok(());
        }
        let keep = "UPDATE session SET heard = ?2 WHERE cookie = ?1 AND heard > ?3 AND heard <= ?4";
        let cells = [Kept::of(cookie).bytes().into(), now.into(), (now - LASTS).into(), (now - NOTED).into()];
        self.0.change(|tables| tables.run(keep, &cells))?;
        Ok(())
    }

    pub(crate) fn close(&self, cookie: &str) -> Result<(), AccountError> {
        let cells = [Kept::of(cookie).bytes().into()];
        self.0.change(|tables| tables.run("DELETE FROM session WHERE cookie = ?1", &cells))?;
        Ok(())
    }
}

/// Tells one password of an account from the next.
fn password_of(account: &Account) -> Kept {
    Kept::of(account.hash.as_deref().unwrap_or_default())
}
