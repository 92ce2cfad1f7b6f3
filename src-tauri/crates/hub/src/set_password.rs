//! Setting a password: by a link, or with the one before.

use crate::Office;
use crate::account::{Account, AccountError, By, Invited, password};
use crate::door::account_of;
use crate::login::{opened, try_password};
use crate::refused::Refused;
use crate::request::{asked, blocking, plain_name};
use crate::serve::Caller;
use axum::body::Body;
use axum::extract::{Extension, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use provenohm_api::PersonId;
use serde::Deserialize;
use std::sync::Arc;

/// Longer names are refused, characters.
const LONGEST: usize = 120;

/// The code of a link, and a password. Only the first account says its name here.
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
    opened(&office, account.await?).await
}

/// Another password for whoever is logged in. Where else they are logged in, they no longer are.
pub(crate) async fn change(
    State(office): State<Arc<Office>>,
    Extension(caller): Extension<Caller>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let account = account_of(&office, &headers).await?;
    let Change { old, new } = asked(&office, body).await?;
    long_enough(&office, &new)?;
    let account = try_password(&office, (account.name, caller), old, "password_wrong").await?;
    let setting = Arc::clone(&office);
    let account = blocking(&office, move || {
        let salt = password::salt(&mut *setting.random())?;
        let hash = password::hash(&new, &salt)?;
        let by = By { who: &account.name, at: setting.now() };
        setting.accounts.set_password(account.person, account.hash.as_deref().unwrap_or_default(), &hash, by)?;
        Ok(Account { hash: Some(hash), ..account })
    });
    opened(&office, account.await?).await
}

fn long_enough(office: &Office, password: &str) -> Result<(), Refused> {
    let short = || Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "password_short");
    if password.chars().count() < password::SHORTEST { Err(short()) } else { Ok(()) }
}

/// A name for an account, or the code of what is wrong with it.
pub(crate) fn account_name(typed: &str) -> Result<String, &'static str> {
    match plain_name(typed) {
        name if name.is_empty() => Err("name_missing"),
        name if name.chars().count() > LONGEST => Err("name_long"),
        name => Ok(name),
    }
}
