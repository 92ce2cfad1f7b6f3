//! Tokens for scripts: each of somebody of the office, for some doors and some time. Its hash alone is kept.

use crate::account::{AccountError, Accounts, By, one};
use crate::audit::{Act, note};
use crate::base::Line;
use crate::role::Role;
use crate::secret::{Kept, Secret};
use provenohm_api::{Moment, PersonId};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// What a token opens. None opens what another is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Scope {
    /// The calendar of verifications due, and nothing else.
    Calendar,
    /// Lists: jobs with what they lack, testers with their days, recalls, readings that are not proved.
    Lists,
    /// Schedules and job files.
    Papers,
    /// Adds jobs from job files.
    AddJobs,
}

impl Scope {
    pub(crate) const ALL: [Self; 4] = [Self::Calendar, Self::Lists, Self::Papers, Self::AddJobs];

    /// As it is kept.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Calendar => "calendar",
            Self::Lists => "lists",
            Self::Papers => "papers",
            Self::AddJobs => "add_jobs",
        }
    }

    fn named(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|scope| scope.key() == key)
    }
}

/// How long a token may last at most, days.
pub(crate) const LONGEST_DAYS: u32 = 400;

/// When it was used is noted once an hour, s.
const NOTED: i64 = 60 * 60;

/// A token, as it is kept.
pub(crate) struct Token {
    pub(crate) id: Uuid,
    pub(crate) name: String,
    pub(crate) scope: Scope,
    /// Whose it is: it opens no more than they may, and nothing once they have no login.
    pub(crate) maker: String,
    pub(crate) until: Moment,
    pub(crate) used: Option<Moment>,
}

/// A token to be made.
pub(crate) struct NewToken<'a> {
    pub(crate) id: Uuid,
    pub(crate) name: &'a str,
    pub(crate) scope: Scope,
    pub(crate) person: PersonId,
    pub(crate) until: Moment,
}

impl Accounts {
    /// Makes a token.
    pub(crate) fn make_token(&self, new: &NewToken<'_>, secret: &Secret, by: By<'_>) -> Result<(), AccountError> {
        let keep = "INSERT INTO token (id, secret, name, scope, person, until) VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
        let cells = [
            new.id.as_bytes().into(),
            secret.kept().bytes().into(),
            new.name.into(),
            new.scope.key().into(),
            new.person.0.as_bytes().into(),
            new.until.into(),
        ];
        self.0.change(|tables| {
            tables.run(keep, &cells)?;
            note(tables, by.at, &Act::TokenMade { who: by.who, about: new.name })
        })
    }

    /// Takes a token away.
    ///
    /// # Errors
    /// `not_found`.
    pub(crate) fn drop_token(&self, id: Uuid, by: By<'_>) -> Result<(), AccountError> {
        self.0.change(|tables| {
            let gone = tables.line("DELETE FROM token WHERE id = ?1 RETURNING name", &[id.as_bytes().into()])?;
            let name = gone.ok_or(AccountError::Refused("not_found"))?.text(0)?;
            note(tables, by.at, &Act::TokenDropped { who: by.who, about: &name })
        })
    }

    /// All of them, by name.
    pub(crate) fn tokens(&self) -> Result<Vec<Token>, AccountError> {
        let all = "SELECT t.id, t.name, t.scope, a.name, t.until, t.used FROM token t
                   JOIN account a ON a.person = t.person ORDER BY t.name, t.id";
        self.0.ask(|tables| tables.lines(all, &[])?.iter().map(token).collect())
    }

    /// Whose token opens this door now: of somebody of the office who has a login, and not too old.
    pub(crate) fn of_token(
        &self,
        said: &str,
        scope: Scope,
        now: Moment,
    ) -> Result<Option<crate::account::Account>, AccountError> {
        let kept = Kept::of(said);
        let known = self.0.ask(|tables| {
            let found = "SELECT person, scope, until, used FROM token WHERE secret = ?1";
            let Some(line) = tables.line(found, &[kept.bytes().into()])? else { return Ok(None) };
            let opens = Scope::named(&line.text(1)?) == Some(scope) && now < line.moment(2)?;
            let account = one(tables, PersonId(Uuid::from_bytes(line.array(0)?)))?;
            let account = account.filter(|account| opens && account.hash.is_some() && account.role == Role::Office);
            Ok(account.zip(Some(line.moment_if(3)?)))
        })?;
        let Some((account, used)) = known else { return Ok(None) };
        if used.is_none_or(|used| now.timestamp() - used.timestamp() > NOTED) {
            let cells = [kept.bytes().into(), now.into()];
            self.0.change(|tables| tables.run("UPDATE token SET used = ?2 WHERE secret = ?1", &cells))?;
        }
        Ok(Some(account))
    }
}

fn token(line: &Line) -> Result<Token, AccountError> {
    Ok(Token {
        id: Uuid::from_bytes(line.array(0)?),
        name: line.text(1)?,
        scope: Scope::named(&line.text(2)?).ok_or(AccountError::Unreadable)?,
        maker: line.text(3)?,
        until: line.moment(4)?,
        used: line.moment_if(5)?,
    })
}
