//! The office's side of tokens: the list of them, making one, taking one away.

use super::token::{LONGEST_DAYS, NewToken, Scope, Token};
use crate::Office;
use crate::account::{AccountError, By};
use crate::people::by_office;
use crate::secret::Secret;
use crate::set_password::account_name;
use axum::Json;
use axum::body::Body;
use axum::extract::State;
use axum::http::HeaderMap;
use provenohm_api::{Moment, PersonId};
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use std::time::Duration;
use uuid::Uuid;

type Answer = Result<Json<Tokens>, crate::refused::Refused>;

const DAY: Duration = Duration::from_secs(24 * 60 * 60);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Make {
    name: String,
    scope: Scope,
    days: u32,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfToken {
    token: Uuid,
}

/// One token as it is told.
#[derive(Serialize)]
struct TokenLine {
    token: Uuid,
    name: String,
    /// What it opens, whose it is, until when, and when it was used.
    words: String,
}

#[derive(Serialize)]
struct ScopeLine {
    id: Scope,
    words: String,
}

/// All of them, and what one can open.
#[derive(Serialize)]
pub(crate) struct Tokens {
    tokens: Vec<TokenLine>,
    scopes: Vec<ScopeLine>,
    /// The token that was just made, told this once.
    secret: Option<String>,
    /// Of one for the calendar: the address to subscribe to.
    address: Option<String>,
}

pub(crate) async fn list(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer {
    by_office(office, &headers, body, |office, Nothing {}, _, _| told(office, None)).await
}

pub(crate) async fn make(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer {
    by_office(office, &headers, body, |office, Make { name, scope, days }, person, by| {
        let name = account_name(&name).map_err(AccountError::Refused)?;
        if !(1..=LONGEST_DAYS).contains(&days) {
            return Err(AccountError::Refused("token_days"));
        }
        let secret = Secret::make(&mut *office.random())?;
        let id = office.random().id()?;
        let new = NewToken { id, name: &name, scope, person, until: by.at + DAY * days };
        office.accounts.make_token(&new, &secret, by)?;
        told(office, Some((secret, scope)))
    })
    .await
}

pub(crate) async fn drop(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer {
    by_office(office, &headers, body, |office, OfToken { token }, _: PersonId, by: By<'_>| {
        office.accounts.drop_token(token, by)?;
        told(office, None)
    })
    .await
}

fn told(office: &Office, made: Option<(Secret, Scope)>) -> Result<Tokens, AccountError> {
    let now = office.now();
    let tokens = office.accounts.tokens()?.into_iter().map(|token| line(office, token, now)).collect();
    let scopes = Scope::ALL.map(|id| ScopeLine { id, words: scope_words(office, id) }).into();
    let address = made.as_ref().filter(|(_, scope)| *scope == Scope::Calendar);
    let address = address.map(|(secret, _)| format!("{}/calendar/{}.ics", office.reached.address(), secret.told()));
    Ok(Tokens { tokens, scopes, secret: made.map(|(secret, _)| secret.told().to_owned()), address })
}

fn line(office: &Office, token: Token, now: Moment) -> TokenLine {
    let words = &office.words;
    let day = |at: Moment| words.date(at.with_timezone(&now.timezone()).date_naive());
    let key = if token.until <= now { "hub-token-ended" } else { "hub-token" };
    let used = token.used.map_or_else(
        || words.text("hub-token-unused"),
        |at| words.text_with("hub-token-used", &[("used", day(at).into())]),
    );
    let args = [
        ("scope", scope_words(office, token.scope).into()),
        ("maker", token.maker.into()),
        ("until", day(token.until).into()),
        ("used", used.into()),
    ];
    TokenLine { token: token.id, name: token.name, words: words.text_with(key, &args) }
}

fn scope_words(office: &Office, scope: Scope) -> String {
    office.words.text(&format!("hub-scope-{}", scope.key()))
}
