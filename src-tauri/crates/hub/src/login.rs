//! Logging in and out.

use crate::Office;
use crate::account::{Account, password};
use crate::audit::Act;
use crate::may::may;
use crate::refused::Refused;
use crate::request::{asked, blocking, plain_name};
use crate::role::Role;
use crate::secret::Secret;
use crate::serve::Caller;
use axum::Json;
use axum::body::Body;
use axum::extract::{Extension, State};
use axum::http::header::{COOKIE, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{AppendHeaders, IntoResponse, Response};
use provenohm_api::OPERATIONS;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The cookie's name.
const NAME: &str = "provenohm";

/// A name and a password.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Who {
    name: String,
    password: String,
}

/// What a page is told of its session.
#[derive(Serialize)]
struct Told {
    /// Who is logged in.
    name: String,
    role: Role,
    /// The role in words.
    role_words: String,
    /// The operations that are not its to ask for.
    not: Vec<&'static str>,
    /// What the page says with every request.
    page: String,
}

impl Told {
    fn of(office: &Office, account: Account, cookie: &str) -> Self {
        let page = Secret::of_pages(cookie).told().to_owned();
        let not = OPERATIONS.iter().copied().filter(|operation| may(account.role, operation).is_err()).collect();
        Self { name: account.name, role: account.role, role_words: account.role.words(&office.words), not, page }
    }
}

/// The session a page is loaded anew in.
pub(crate) async fn session(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Response, Refused> {
    let cookie = cookie_of(&headers).map(str::to_owned);
    let known = office.blocking(move |office| {
        let account = cookie.as_deref().map(|cookie| office.logged_in(cookie)).transpose()?.flatten();
        Ok(cookie.zip(account))
    });
    let Some((cookie, account)) = known.await? else {
        return Err(Refused::of(&office.words, StatusCode::UNAUTHORIZED, "not_logged_in"));
    };
    Ok(Json(Told::of(&office, account, &cookie)).into_response())
}

/// Opens a session for the right password.
pub(crate) async fn login(
    State(office): State<Arc<Office>>,
    Extension(caller): Extension<Caller>,
    body: Body,
) -> Result<Response, Refused> {
    let Who { name, password } = asked(&office, body).await?;
    let account = try_password(&office, (plain_name(&name), caller), password, "login_wrong").await?;
    let (noting, who) = (Arc::clone(&office), account.name.clone());
    blocking(&office, move || noting.accounts.note(noting.now(), &Act::LoggedIn { who: &who })).await?;
    opened(&office, account).await
}

/// Ends a session. Without one there is nothing to end.
pub(crate) async fn logout(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Response, Refused> {
    if let Some(cookie) = cookie_of(&headers).map(str::to_owned) {
        let closing = Arc::clone(&office);
        blocking(&office, move || closing.sessions.close(&cookie)).await?;
    }
    Ok((AppendHeaders([(SET_COOKIE, cookie(&office, "", "; Max-Age=0"))]), Json(())).into_response())
}

/// The session's cookie among those a request has.
pub(crate) fn cookie_of(headers: &HeaderMap) -> Option<&str> {
    let all = headers.get_all(COOKIE).iter().filter_map(|line| line.to_str().ok());
    let mut named = all.flat_map(|line| line.split(';')).filter_map(|one| one.trim().split_once('='));
    named.find(|(name, _)| *name == NAME).map(|(_, value)| value)
}

/// The account a password is of; a name nobody has takes as long to refuse.
pub(crate) async fn try_password(
    office: &Arc<Office>,
    (name, Caller(from)): (String, Caller),
    password: String,
    wrong: &'static str,
) -> Result<Account, Refused> {
    let refuse = |status, code| Err(Refused::of(&office.words, status, code));
    let trying = Arc::clone(office);
    let tried = name.clone();
    let begun = blocking(office, move || {
        let id = trying.random().id()?;
        trying.tries.begin((&tried, from), trying.now(), id)
    });
    let Some(one) = begun.await? else {
        return refuse(StatusCode::TOO_MANY_REQUESTS, "login_too_often");
    };
    let trying = Arc::clone(office);
    let account = blocking(office, move || {
        let account = trying.accounts.named(&name)?;
        if password::is_of(&password, account.as_ref().and_then(|account| account.hash.as_deref()))? {
            trying.tries.was_right(one)?;
            return Ok(account);
        }
        let about = account.as_ref().map(|account| account.name.as_str());
        trying.accounts.note(trying.now(), &Act::Wrong { about })?;
        Ok(None)
    });
    let Some(account) = account.await? else { return refuse(StatusCode::UNAUTHORIZED, wrong) };
    Ok(account)
}

/// Opens a session, and tells its page of it.
pub(crate) async fn opened(office: &Arc<Office>, account: Account) -> Result<Response, Refused> {
    let opening = Arc::clone(office);
    let opened = blocking(office, move || {
        let secret = Secret::make(&mut *opening.random())?;
        opening.sessions.open(&account, opening.now(), &secret)?;
        Ok((account, secret))
    });
    let (account, secret) = opened.await?;
    let told = Told::of(office, account, secret.told());
    Ok((AppendHeaders([(SET_COOKIE, cookie(office, secret.told(), ""))]), Json(told)).into_response())
}

/// Read by no script, sent with no request that another site's page begins, and never as it is where others could read it.
fn cookie(office: &Office, value: &str, more: &str) -> String {
    let secure = if office.reached.is_encrypted() { "; Secure" } else { "" };
    format!("{NAME}={value}; HttpOnly; SameSite=Strict; Path=/{secure}{more}")
}
