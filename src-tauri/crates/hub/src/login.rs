//! Logging in and out, and setting a password: by a link, or with the one before.

use crate::Office;
use crate::account::{Account, AccountError, By, Invited, password};
use crate::audit::Act;
use crate::door::account_of;
use crate::refused::Refused;
use crate::role::Role;
use crate::secret::Secret;
use crate::session::LoggedIn;
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::State;
use axum::http::header::{COOKIE, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{AppendHeaders, IntoResponse, Response};
use provenohm_api::PersonId;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use std::time::Instant;
use tokio::sync::Semaphore;

/// The cookie's name.
const NAME: &str = "provenohm";

/// More than a name and a password hold, bytes.
const MOST: usize = 4 * 1024;
/// Longer names are refused, characters.
const LONGEST: usize = 120;

/// Hashing takes 19 MiB each, so only this many at once.
static HASHING: Semaphore = Semaphore::const_new(4);

/// A name and a password.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Who {
    name: String,
    password: String,
}

/// The same with the code of the link. Only the first account says its name here.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct First {
    code: String,
    name: String,
    password: String,
}

/// The password now, and the one in its place.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Change {
    old: String,
    new: String,
}

/// What a page is told of its session.
#[derive(Serialize)]
struct Told {
    /// Who is logged in.
    name: String,
    role: Role,
    /// The role in words.
    role_words: String,
    /// What the page says with every request.
    page: String,
}

impl Told {
    fn of(office: &Office, account: Account, cookie: &str) -> Self {
        let page = Secret::of_pages(cookie).told().to_owned();
        Self { name: account.name, role: account.role, role_words: account.role.words(&office.words), page }
    }
}

/// The session a page is loaded anew in.
pub(crate) async fn session(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Response, Refused> {
    let Some((cookie, account)) = cookie_of(&headers).and_then(|cookie| Some((cookie, office.logged_in(cookie)?)))
    else {
        return Err(Refused::of(&office.words, StatusCode::UNAUTHORIZED, "not_logged_in"));
    };
    Ok(Json(Told::of(&office, account, cookie)).into_response())
}

/// Sets a password by a link, and logs in.
pub(crate) async fn first(State(office): State<Arc<Office>>, body: Body) -> Result<Response, Refused> {
    let First { code, name, password } = asked(&office, body).await?;
    long_enough(&office, &password)?;
    let name = account_name(&name);
    let setting = Arc::clone(&office);
    let account = blocking(&office, move || {
        let now = setting.now();
        let (person, name) = match setting.accounts.invited(&code, now)? {
            None => return Err(AccountError::Refused("link_used")),
            Some(Invited::First) => (PersonId(setting.random().id()?), name.map_err(AccountError::Refused)?),
            Some(Invited::Person(person)) => (person, String::new()),
        };
        let salt = password::salt(&mut *setting.random())?;
        let hash = password::hash(&password, &salt)?;
        setting.accounts.accept((&code, &hash), (person, &name), now)
    });
    opened(&office, account.await?)
}

/// Opens a session for the right password.
pub(crate) async fn login(State(office): State<Arc<Office>>, body: Body) -> Result<Response, Refused> {
    let Who { name, password } = asked(&office, body).await?;
    let account = try_password(&office, name.trim().to_owned(), password, "login_wrong").await?;
    let (noting, who) = (Arc::clone(&office), account.name.clone());
    blocking(&office, move || noting.accounts.note(noting.now(), &Act::LoggedIn { who: &who })).await?;
    opened(&office, account)
}

/// Another password for whoever is logged in. Where else they are logged in, they no longer are.
pub(crate) async fn password(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let account = account_of(&office, &headers)?;
    let Change { old, new } = asked(&office, body).await?;
    long_enough(&office, &new)?;
    let account = try_password(&office, account.name, old, "password_wrong").await?;
    let setting = Arc::clone(&office);
    let account = blocking(&office, move || {
        let salt = password::salt(&mut *setting.random())?;
        let hash = password::hash(&new, &salt)?;
        let by = By { who: &account.name, at: setting.now() };
        setting.accounts.set_password(account.person, account.hash.as_deref().unwrap_or_default(), &hash, by)?;
        Ok(Account { hash: Some(hash), ..account })
    });
    opened(&office, account.await?)
}

/// Ends a session. Without one there is nothing to end.
pub(crate) async fn logout(State(office): State<Arc<Office>>, headers: HeaderMap) -> Response {
    if let Some(cookie) = cookie_of(&headers) {
        office.sessions.close(cookie);
    }
    (AppendHeaders([(SET_COOKIE, cookie("", "; Max-Age=0"))]), Json(())).into_response()
}

/// The session's cookie among those a request has.
pub(crate) fn cookie_of(headers: &HeaderMap) -> Option<&str> {
    let all = headers.get_all(COOKIE).iter().filter_map(|line| line.to_str().ok());
    let mut named = all.flat_map(|line| line.split(';')).filter_map(|one| one.trim().split_once('='));
    named.find(|(name, _)| *name == NAME).map(|(_, value)| value)
}

/// The account a password is of; a name nobody has takes as long to refuse.
async fn try_password(
    office: &Arc<Office>,
    name: String,
    password: String,
    wrong: &'static str,
) -> Result<Account, Refused> {
    let refuse = |status, code| Err(Refused::of(&office.words, status, code));
    let Some(one) = office.tries.begin(&name, Instant::now()) else {
        return refuse(StatusCode::TOO_MANY_REQUESTS, "login_too_often");
    };
    let trying = Arc::clone(office);
    let account = blocking(office, move || {
        let account = trying.accounts.named(&name)?;
        if password::is_of(&password, account.as_ref().and_then(|account| account.hash.as_deref()))? {
            return Ok(account);
        }
        let about = account.as_ref().map(|account| account.name.as_str());
        trying.accounts.note(trying.now(), &Act::Wrong { about })?;
        Ok(None)
    });
    let Some(account) = account.await? else { return refuse(StatusCode::UNAUTHORIZED, wrong) };
    office.tries.was_right(one);
    Ok(account)
}

fn opened(office: &Office, account: Account) -> Result<Response, Refused> {
    let secret = Secret::make(&mut *office.random()).map_err(|error| Refused::broke(&office.words, error))?;
    office.sessions.open(LoggedIn::of(&account), Instant::now(), &secret);
    let told = Told::of(office, account, secret.told());
    Ok((AppendHeaders([(SET_COOKIE, cookie(secret.told(), ""))]), Json(told)).into_response())
}

/// Read by no script, sent with no request that another site's page begins.
fn cookie(value: &str, more: &str) -> String {
    format!("{NAME}={value}; HttpOnly; SameSite=Strict; Path=/{more}")
}

fn long_enough(office: &Office, password: &str) -> Result<(), Refused> {
    let short = || Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "password_short");
    if password.chars().count() < password::SHORTEST { Err(short()) } else { Ok(()) }
}

/// A name for an account, or the code of what is wrong with it.
pub(crate) fn account_name(typed: &str) -> Result<String, &'static str> {
    match typed.trim() {
        "" => Err("name_missing"),
        name if name.chars().count() > LONGEST => Err("name_long"),
        name => Ok(name.to_owned()),
    }
}

pub(crate) async fn asked<T: DeserializeOwned>(office: &Office, body: Body) -> Result<T, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let bytes = to_bytes(body, MOST).await.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    serde_json::from_slice(&bytes).map_err(|_| refuse(StatusCode::BAD_REQUEST, "no_request"))
}

/// What takes long on purpose or waits for the disk: off the threads that answer, and only a few at once.
pub(crate) async fn blocking<T: Send + 'static>(
    office: &Office,
    work: impl FnOnce() -> Result<T, AccountError> + Send + 'static,
) -> Result<T, Refused> {
    let _turn = HASHING.acquire().await.map_err(|error| Refused::broke(&office.words, error))?;
    match tokio::task::spawn_blocking(work).await {
        Ok(told) => told.map_err(|error| Refused::by_accounts(&office.words, error)),
        Err(error) => Err(Refused::broke(&office.words, error)),
    }
}
