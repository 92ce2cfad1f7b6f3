//! Links by which a person sets a password of their own: each once, and for a week at most. Only their hash is kept.

use super::{Account, AccountError, Accounts, By, one};
use crate::audit::{Act, note};
use crate::base::{Cell, Tables};
use crate::role::Role;
use crate::secret::{Kept, Secret};
use provenohm_api::{Host, Moment, PersonId};
use std::time::Duration;

/// How long a link works.
const LASTS: Duration = Duration::from_secs(7 * 24 * 60 * 60);

/// Whose link one is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Invited {
    /// The first of the office, who says their name.
    First,
    /// A person who has an account.
    Person(PersonId),
}

impl Accounts {
    /// The link of the first account, while nobody of the office has a password; one made before no longer works.
    pub(crate) fn first_link(&self, host: &mut Host) -> Result<Option<Secret>, AccountError> {
        let (secret, now) = (Secret::make(host)?, host.now());
        self.0
            .change(|tx| {
                tx.run("DELETE FROM invite WHERE person IS NULL", &[])?;
                if offices(tx)? > 0 {
                    return Ok(None);
                }
                keep(tx, &secret, None, now)?;
                Ok(Some(()))
            })
            .map(|made| made.map(|()| secret))
    }

    /// Makes an account, with the link for its password.
    ///
    /// # Errors
    /// `name_taken`.
    pub(crate) fn invite(
        &self,
        (person, name, role): (PersonId, &str, Role),
        secret: &Secret,
        by: By<'_>,
    ) -> Result<(), AccountError> {
        self.0.change(|tx| {
            add(tx, (person, name, role), by)?;
            keep(tx, secret, Some(person), by.at)?;
            note(tx, by.at, &Act::Invited { who: by.who, about: name })
        })
    }

    /// A link for a person who has an account: for one who lost the link or no longer knows the password.
    ///
    /// # Errors
    /// `no_account`.
    pub(crate) fn new_link(&self, person: PersonId, secret: &Secret, by: By<'_>) -> Result<(), AccountError> {
        self.0.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            tx.run("DELETE FROM invite WHERE person = ?1", &[person.0.as_bytes().into()])?;
            keep(tx, secret, Some(person), by.at)?;
            note(tx, by.at, &Act::Invited { who: by.who, about: &account.name })
        })
    }

    /// Whose link a code is of, if it works still.
    pub(crate) fn invited(&self, code: &str, now: Moment) -> Result<Option<Invited>, AccountError> {
        self.0.ask(|tx| waiting(tx, code, now))
    }

    /// Sets a password by a link, which is used up by that. The first account is made here, of this person and name.
    ///
    /// # Errors
    /// `link_used`, `name_taken`.
    pub(crate) fn accept(
        &self,
        (code, hash): (&str, &str),
        first: (PersonId, &str),
        now: Moment,
    ) -> Result<Account, AccountError> {
        self.0.change(|tx| {
            let invited = waiting(tx, code, now)?.ok_or(AccountError::Refused("link_used"))?;
            tx.run("DELETE FROM invite WHERE code = ?1", &[Kept::of(code).bytes().into()])?;
            let person = match invited {
                Invited::Person(person) => person,
                Invited::First => {
                    let (person, name) = first;
                    add(tx, (person, name, Role::Office), By { who: name, at: now })?;
                    person
                }
            };
            tx.run("UPDATE account SET hash = ?2 WHERE person = ?1", &[person.0.as_bytes().into(), hash.into()])?;
            let account = one(tx, person)?.ok_or(AccountError::Refused("link_used"))?;
            note(tx, now, &Act::Password { who: &account.name })?;
            Ok(account)
        })
    }
}

/// How many of the office have a login.
pub(super) fn offices(tx: &mut dyn Tables) -> Result<i64, AccountError> {
    let count = "SELECT count(*) FROM account WHERE role = ?1 AND hash IS NOT NULL";
    tx.line(count, &[Role::Office.key().into()])?.ok_or(AccountError::Unreadable)?.number(0)
}

fn waiting(tx: &mut dyn Tables, code: &str, now: Moment) -> Result<Option<Invited>, AccountError> {
    let found = tx.line("SELECT person, until FROM invite WHERE code = ?1", &[Kept::of(code).bytes().into()])?;
    let Some(line) = found.filter(|line| line.moment(1).is_ok_and(|until| now < until)) else { return Ok(None) };
    let person = line.array_if(0)?.map(|id| PersonId(uuid::Uuid::from_bytes(id)));
    Ok(Some(person.map_or(Invited::First, Invited::Person)))
}

fn add(tx: &mut dyn Tables, (person, name, role): (PersonId, &str, Role), by: By<'_>) -> Result<(), AccountError> {
    let added = tx.run(
        "INSERT INTO account (person, name, role) VALUES (?1, ?2, ?3) ON CONFLICT (name) DO NOTHING",
        &[person.0.as_bytes().into(), name.into(), role.key().into()],
    )?;
    if added == 0 {
        return Err(AccountError::Refused("name_taken"));
    }
    note(tx, by.at, &Act::Made { who: by.who, about: name, role })
}

fn keep(tx: &mut dyn Tables, secret: &Secret, person: Option<PersonId>, now: Moment) -> Result<(), AccountError> {
    let person: Cell = person.as_ref().map(|person| person.0.as_bytes()).into();
    let keep = "INSERT INTO invite (code, person, until) VALUES (?1, ?2, ?3)";
    tx.run(keep, &[secret.kept().bytes().into(), person, (now + LASTS).into()])?;
    Ok(())
}
