//! Links by which a person sets a password of their own: each once, and for a week at most. Only their hash is kept.

use super::{Account, AccountError, Accounts, By, one};
use crate::audit::{Act, note};
use crate::role::Role;
use crate::secret::{Kept, Secret};
use provenohm_api::{Host, Moment, PersonId};
use rusqlite::{Connection, OptionalExtension as _, Transaction, params};
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
        self.change(|tx| {
            tx.execute("DELETE FROM invite WHERE person IS NULL", [])?;
            if offices(tx)? > 0 {
                return Ok(None);
            }
            keep(tx, &secret, None, now)?;
            Ok(Some(secret))
        })
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
        self.change(|tx| {
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
        self.change(|tx| {
            let account = one(tx, person)?.ok_or(AccountError::Refused("no_account"))?;
            tx.execute("DELETE FROM invite WHERE person = ?1", [person.0.as_bytes()])?;
            keep(tx, secret, Some(person), by.at)?;
            note(tx, by.at, &Act::Invited { who: by.who, about: &account.name })
        })
    }

    /// Whose link a code is of, if it works still.
    pub(crate) fn invited(&self, code: &str, now: Moment) -> Result<Option<Invited>, AccountError> {
        waiting(&self.sqlite(), code, now)
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
        self.change(|tx| {
            let invited = waiting(tx, code, now)?.ok_or(AccountError::Refused("link_used"))?;
            tx.execute("DELETE FROM invite WHERE code = ?1", [Kept::of(code).bytes()])?;
            let person = match invited {
                Invited::Person(person) => person,
                Invited::First => {
                    let (person, name) = first;
                    add(tx, (person, name, Role::Office), By { who: name, at: now })?;
                    person
                }
            };
            tx.execute("UPDATE account SET hash = ?2 WHERE person = ?1", params![person.0.as_bytes(), hash])?;
            let account = one(tx, person)?.ok_or(AccountError::Refused("link_used"))?;
            note(tx, now, &Act::Password { who: &account.name })?;
            Ok(account)
        })
    }
}

/// How many of the office have a login.
pub(super) fn offices(sqlite: &Connection) -> Result<u32, AccountError> {
    let sql = "SELECT count(*) FROM account WHERE role = ?1 AND hash IS NOT NULL";
    Ok(sqlite.query_row(sql, [Role::Office.key()], |row| row.get(0))?)
}

fn waiting(sqlite: &Connection, code: &str, now: Moment) -> Result<Option<Invited>, AccountError> {
    let sql = "SELECT person, until FROM invite WHERE code = ?1";
    let read = |row: &rusqlite::Row<'_>| Ok((row.get::<_, Option<[u8; 16]>>(0)?, row.get::<_, String>(1)?));
    let found = sqlite.query_row(sql, [Kept::of(code).bytes()], read).optional()?;
    let works = |until: &str| Moment::parse_from_rfc3339(until).is_ok_and(|until| now < until);
    Ok(found.filter(|(_, until)| works(until)).map(|(person, _)| match person {
        Some(person) => Invited::Person(PersonId(uuid::Uuid::from_bytes(person))),
        None => Invited::First,
    }))
}

fn add(tx: &Transaction<'_>, (person, name, role): (PersonId, &str, Role), by: By<'_>) -> Result<(), AccountError> {
    let added = tx.execute(
        "INSERT INTO account (person, name, role) VALUES (?1, ?2, ?3) ON CONFLICT (name) DO NOTHING",
        params![person.0.as_bytes(), name, role.key()],
    )?;
    if added == 0 {
        return Err(AccountError::Refused("name_taken"));
    }
    note(tx, by.at, &Act::Made { who: by.who, about: name, role })
}

fn keep(tx: &Transaction<'_>, secret: &Secret, person: Option<PersonId>, now: Moment) -> Result<(), AccountError> {
    let person = person.as_ref().map(|person| person.0.as_bytes());
    let (code, until) = (secret.kept(), (now + LASTS).to_rfc3339());
    let sql = "INSERT INTO invite (code, person, until) VALUES (?1, ?2, ?3)";
    tx.execute(sql, params![code.bytes(), person, until])?;
    Ok(())
}
