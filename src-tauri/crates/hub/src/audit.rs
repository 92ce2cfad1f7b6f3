//! What was done about accounts: lines that are only ever added, and that hold no secret.

use crate::account::{AccountError, Accounts};
use crate::base::{Line as Row, Tables};
use crate::role::Role;
use provenohm_api::Moment;
use provenohm_words::Words;
use serde::Serialize;

/// Lines of one page.
const PAGE: u8 = 50;

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
    PhoneAccepted {
        who: &'a str,
        about: &'a str,
    },
    /// What waited of a phone was thrown away.
    PhoneDropped {
        who: &'a str,
        about: &'a str,
    },
    TokenMade {
        who: &'a str,
        about: &'a str,
    },
    TokenDropped {
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
pub(crate) fn note(tx: &mut dyn Tables, at: Moment, act: &Act<'_>) -> Result<(), AccountError> {
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
        Act::PhoneAccepted { who, about } => ("phone-accepted", Some(who), Some(about), None),
        Act::PhoneDropped { who, about } => ("phone-dropped", Some(who), Some(about), None),
        Act::TokenMade { who, about } => ("token-made", Some(who), Some(about), None),
        Act::TokenDropped { who, about } => ("token-dropped", Some(who), Some(about), None),
        Act::PhoneRevoked { who, about } => ("phone-revoked", Some(who), Some(about), None),
    };
    let values = [at.into(), what.into(), who.into(), about.into(), role.map(Role::key).into()];
    tx.run("INSERT INTO audit (at, what, who, about, role) VALUES (?1, ?2, ?3, ?4, ?5)", &values)?;
    Ok(())
}

impl Accounts {
    /// Adds a line about something that changed no account.
    pub(crate) fn note(&self, at: Moment, act: &Act<'_>) -> Result<(), AccountError> {
        self.0.change(|tx| note(tx, at, act))
    }

    /// A page of lines, latest first.
    pub(crate) fn audit(&self, before: Option<i64>, words: &Words) -> Result<Page, AccountError> {
        let found = self.0.ask(|tx| {
            let page = "SELECT number, at, what, who, about, role FROM audit
                        WHERE number < ?1 ORDER BY number DESC LIMIT ?2";
            tx.lines(page, &[before.unwrap_or(i64::MAX).into(), (i64::from(PAGE) + 1).into()])
        })?;
        let mut lines = found.iter().map(|row| line(row, words)).collect::<Result<Vec<_>, _>>()?;
        let more = lines.len() > usize::from(PAGE);
        lines.truncate(usize::from(PAGE));
        Ok(Page { lines, more })
    }
}

fn line(row: &Row, words: &Words) -> Result<Line, AccountError> {
    let (at, what) = (row.text(1)?, row.text(2)?);
    let named = |column| Ok::<String, AccountError>(row.text_if(column)?.unwrap_or_default());
    let role = Role::named(&named(5)?).map(|role| role.words(words)).unwrap_or_default();
    let args = [("who", named(3)?.into()), ("about", named(4)?.into()), ("role", role.into())];
    Ok(Line {
        number: row.number(0)?,
        at: Moment::parse_from_rfc3339(&at).map_or(at, |at| words.date_time(at)),
        words: words.text_with(&format!("hub-audit-{what}"), &args),
    })
}
