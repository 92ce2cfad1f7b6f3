//! What was done about accounts: lines that are only ever added, and that hold no secret.

use crate::account::{AccountError, Accounts};
use crate::role::Role;
use provenohm_api::Moment;
use provenohm_words::Words;
use rusqlite::{Connection, Row, params};
use serde::Serialize;

/// Lines of one page.
const PAGE: u32 = 50;

/// What was done, by whom, about whom: names as they were then.
pub(crate) enum Act<'a> {
    Made {
        who: &'a str,
        about: &'a str,
        role: Role,
    },
    Invited {
        who: &'a str,
        about: &'a str,
    },
    Role {
        who: &'a str,
        about: &'a str,
        role: Role,
    },
    TakenAway {
        who: &'a str,
        about: &'a str,
    },
    Password {
        who: &'a str,
    },
    /// Of a name that nobody has nothing is kept: it may be a password in the wrong field.
    Wrong {
        about: Option<&'a str>,
    },
    LoggedIn {
        who: &'a str,
    },
    PhoneCode {
        who: &'a str,
    },
    PhoneEnrolled {
        about: &'a str,
    },
    PhoneRevoked {
        who: &'a str,
        about: &'a str,
    },
}

/// One line as it is told.
#[derive(Serialize)]
pub(crate) struct Line {
    number: i64,
    at: String,
    words: String,
}

/// The latest lines before one, and whether there are earlier ones.
#[derive(Serialize)]
pub(crate) struct Page {
    lines: Vec<Line>,
    more: bool,
}

/// Adds a line, in the change that it is about.
pub(crate) fn note(sqlite: &Connection, at: Moment, act: &Act<'_>) -> Result<(), AccountError> {
    let (what, who, about, role) = match *act {
        Act::Made { who, about, role } => ("made", Some(who), Some(about), Some(role)),
        Act::Invited { who, about } => ("invited", Some(who), Some(about), None),
        Act::Role { who, about, role } => ("role", Some(who), Some(about), Some(role)),
        Act::TakenAway { who, about } => ("taken-away", Some(who), Some(about), None),
        Act::Password { who } => ("password", Some(who), None, None),
        Act::Wrong { about: Some(about) } => ("wrong", None, Some(about), None),
        Act::Wrong { about: None } => ("wrong-nobody", None, None, None),
        Act::LoggedIn { who } => ("logged-in", Some(who), None, None),
        Act::PhoneCode { who } => ("phone-code", Some(who), None, None),
        Act::PhoneEnrolled { about } => ("phone-enrolled", None, Some(about), None),
        Act::PhoneRevoked { who, about } => ("phone-revoked", Some(who), Some(about), None),
    };
    let values = params![at.to_rfc3339(), what, who, about, role.map(Role::key)];
    sqlite.execute("INSERT INTO audit (at, what, who, about, role) VALUES (?1, ?2, ?3, ?4, ?5)", values)?;
    Ok(())
}

impl Accounts {
    /// Adds a line about something that changed no account.
    pub(crate) fn note(&self, at: Moment, act: &Act<'_>) -> Result<(), AccountError> {
        note(&self.sqlite(), at, act)
    }

    /// A page of lines, latest first.
    pub(crate) fn audit(&self, before: Option<i64>, words: &Words) -> Result<Page, AccountError> {
        let sqlite = self.sqlite();
        let mut found = sqlite.prepare(
            "SELECT number, at, what, who, about, role FROM audit WHERE number < ?1 ORDER BY number DESC LIMIT ?2",
        )?;
        let found = found.query_map(params![before.unwrap_or(i64::MAX), PAGE + 1], |row| line(row, words))?;
        let mut lines = found.collect::<Result<Vec<_>, _>>()?;
        let more = lines.len() > PAGE as usize;
        lines.truncate(PAGE as usize);
        Ok(Page { lines, more })
    }
}

fn line(row: &Row<'_>, words: &Words) -> rusqlite::Result<Line> {
    let (at, what): (String, String) = (row.get(1)?, row.get(2)?);
    let named = |column| Ok::<String, rusqlite::Error>(row.get::<_, Option<String>>(column)?.unwrap_or_default());
    let role = Role::named(&named(5)?).map(|role| role.words(words)).unwrap_or_default();
    let args = [("who", named(3)?.into()), ("about", named(4)?.into()), ("role", role.into())];
    Ok(Line {
        number: row.get(0)?,
        at: Moment::parse_from_rfc3339(&at).map_or(at, |at| words.date_time(at)),
        words: words.text_with(&format!("hub-audit-{what}"), &args),
    })
}
