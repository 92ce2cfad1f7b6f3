//! Logging in and out, and the first account.

use crate::Office;
use crate::account::SHORTEST;
use crate::door::office_body;
use crate::refused::Refused;
use crate::secret::Secret;
use axum::Json;
use axum::body::Body;
use axum::extract::State;
use axum::http::header::{COOKIE, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{AppendHeaders, IntoResponse, Response};
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use std::time::Instant;

/// The cookie's name.
const NAME: &str = "provenohm";

/// A name and a password.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Who {
    name: String,
    password: String,
}

/// The same with the code of the link.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct First {
    code: String,
    name: String,
    password: String,
}

/// What a page is told of its session.
#[derive(Serialize)]
struct Told {
    /// Who is logged in.
    name: String,
    /// What the page says with every request.
    page: String,
}

/// The session a page is loaded anew in.
pub(crate) async fn session(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Response, Refused> {
    let going_on = cookie_of(&headers).and_then(|cookie| Some((cookie, office.sessions.hear(cookie, Instant::now())?)));
    match going_on {
        Some((cookie, name)) => {
            Ok(Json(Told { name, page: Secret::of_pages(cookie).told().to_owned() }).into_response())
        }
        None => Err(Refused::of(&office.words, StatusCode::UNAUTHORIZED, "not_logged_in")),
    }
}

/// Sets the first account's password with the code of the link, and logs it in.
pub(crate) async fn first(State(office): State<Arc<Office>>, body: Body) -> Result<Response, Refused> {
    let First { code, name, password } = office_body(&office, body).await?;
    let refuse = |code| Err(Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, code));
    let name = name.trim().to_owned();
    if name.is_empty() {
        return refuse("name_missing");
    }
    if password.chars().count() < SHORTEST {
        return refuse("password_short");
    }
    if !office.sessions.use_first_code(&code) {
        return refuse("link_used");
    }
    let (accounts, first) = (Arc::clone(&office), name.clone());
    let added =
        blocking(&office, move || accounts.accounts.add_first(&first, &password, &mut *accounts.random())).await?;
    if added { opened(&office, name) } else { refuse("link_used") }
}

/// Opens a session for the right password.
pub(crate) async fn login(State(office): State<Arc<Office>>, body: Body) -> Result<Response, Refused> {
    let Who { name, password } = office_body(&office, body).await?;
    if !office.sessions.may_try(Instant::now()) {
        return Err(Refused::of(&office.words, StatusCode::TOO_MANY_REQUESTS, "login_too_often"));
    }
    let (accounts, of) = (Arc::clone(&office), name.trim().to_owned());
    if blocking(&office, move || accounts.accounts.is_password_of(&of, &password)).await? {
        return opened(&office, name.trim().to_owned());
    }
    office.sessions.tried_wrong(Instant::now());
    Err(Refused::of(&office.words, StatusCode::UNAUTHORIZED, "login_wrong"))
}

/// Ends a session. Without one there is nothing to end.
pub(crate) async fn logout(State(office): State<Arc<Office>>, headers: HeaderMap) -> Response {
    if let Some(cookie) = cookie_of(&headers) {
        office.sessions.close(cookie);
    }
    (AppendHeaders([(SET_COOKIE, cookie(&office, "", "; Max-Age=0"))]), Json(())).into_response()
}

/// The session's cookie among those a request has.
pub(crate) fn cookie_of(headers: &HeaderMap) -> Option<&str> {
    let all = headers.get_all(COOKIE).iter().filter_map(|line| line.to_str().ok());
    let mut named = all.flat_map(|line| line.split(';')).filter_map(|one| one.trim().split_once('='));
    named.find(|(name, _)| *name == NAME).map(|(_, value)| value)
}

fn opened(office: &Office, name: String) -> Result<Response, Refused> {
    let secret = Secret::make(&mut *office.random()).map_err(|error| Refused::broke(&office.words, error))?;
    office.sessions.open(&name, Instant::now(), &secret);
    let told = Told { name, page: Secret::of_pages(secret.told()).told().to_owned() };
    Ok((AppendHeaders([(SET_COOKIE, cookie(office, secret.told(), ""))]), Json(told)).into_response())
}

/// Read by no script, sent with no request that another site's page begins, and never as it is where others could read it.
fn cookie(office: &Office, value: &str, more: &str) -> String {
    let secure = if office.reached.is_encrypted() { "; Secure" } else { "" };
    format!("{NAME}={value}; HttpOnly; SameSite=Strict; Path=/{secure}{more}")
}

/// Hashing a password takes long on purpose: off the threads that answer.
async fn blocking<T: Send + 'static, E: std::fmt::Display + Send + 'static>(
    office: &Office,
    work: impl FnOnce() -> Result<T, E> + Send + 'static,
) -> Result<T, Refused> {
    match tokio::task::spawn_blocking(work).await {
        Ok(told) => told.map_err(|error| Refused::broke(&office.words, error)),
        Err(error) => Err(Refused::broke(&office.words, error)),
    }
}
