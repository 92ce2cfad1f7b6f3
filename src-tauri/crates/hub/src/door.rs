//! The one door between the screens and the record, over HTTP.

use crate::Office;
use crate::account::Account;
use crate::held::{Aside, keep_aside};
use crate::login::cookie_of;
use crate::may::{is_of_devices, may};
use crate::refused::Refused;
use crate::request::small;
use crate::role::Role;
use crate::secret::{Kept, Secret};
use crate::step;
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::Seat;
use provenohm_exchange::bundle::Bundle;
use serde::Deserialize;
use serde_json::Value;
use std::sync::Arc;

/// The header of a session's pages.
const PAGE: &str = "x-provenohm-page";

/// The operation that has the words of the screens, the login's among them.
const WORDS: &str = "catalogue";

/// What a page asks by itself, as long as it is open.
const ASKED_BY_ITSELF: &str = "pulse";

/// The operation that takes a file of entries in.
const TAKES_IN: &str = "take_in_bundle";

/// More than any file of ours holds in base64, bytes.
const MOST: usize = 192 * 1024 * 1024;

#[derive(Deserialize)]
struct Asked {
    operation: String,
    input: Value,
}

/// Does one operation for whoever is logged in, at their own seat.
pub(crate) async fn call(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Json<Value>, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let account = account_of(&office, &headers).await;
    let bytes = match &account {
        Ok(_) => to_bytes(body, MOST).await.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?,
        Err(_) => small(&office, body).await?,
    };
    let asked: Option<Asked> = serde_json::from_slice(&bytes).ok();
    let asked = asked.ok_or_else(|| refuse(StatusCode::BAD_REQUEST, "no_request"))?;
    if let (true, Some(cookie)) = (account.is_ok() && asked.operation != ASKED_BY_ITSELF, cookie_of(&headers)) {
        let cookie = cookie.to_owned();
        let keep = move |office: &Office| {
            office.sessions.keep(&cookie, office.now()).map_err(|error| Refused::broke(&office.words, error))
        };
        office.blocking(keep).await?;
    }
    let seat = match account {
        Ok(_) if is_of_devices(&asked.operation) => return Err(refuse(StatusCode::FORBIDDEN, "no_request")),
        Ok(account) => {
            may(account.role, &asked.operation).map_err(|needed| Refused::role(&office.words, needed))?;
            let role = account.role.words(&office.words);
            Some(Seat { person: account.person, name: account.name, role })
        }
        Err(_) if asked.operation == WORDS => None,
        Err(refused) => return Err(refused),
    };
    let by_itself = asked.operation == ASKED_BY_ITSELF;
    let told = office.blocking(move |working| {
        if asked.operation == TAKES_IN {
            without_revoked(working, &asked.input)?;
        }
        let told = match seat {
            Some(seat) => working.api.call_as(&seat, &asked.operation, asked.input),
            None => working.api.call(&asked.operation, asked.input),
        };
        // This instance may be gone tomorrow, its record with it: it is brought into the store at once.
        if working.is_elsewhere && told.is_ok() && !by_itself {
            step::now(working);
        }
        told.map(Json).map_err(Refused::by_operation)
    });
    told.await
}

/// Refuses a bundle that brings what a revoked phone wrote beyond what is here: that is kept aside until somebody accepts it.
fn without_revoked(office: &Office, input: &Value) -> Result<(), Refused> {
    let bytes = input.get("base64").and_then(Value::as_str).and_then(|text| BASE64_STANDARD.decode(text).ok());
    // What is none is refused where bundles are taken in.
    let Some(bundle) = bytes.as_deref().and_then(|bytes| Bundle::open(bytes).ok()) else { return Ok(()) };
    match keep_aside(office, &bundle)? {
        Aside::Nothing => Ok(()),
        Aside::All | Aside::But(_) => Err(Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "bundle_held")),
    }
}

/// Whose session a request is of, if they are of the office.
pub(crate) async fn office_of(office: &Arc<Office>, headers: &HeaderMap) -> Result<Account, Refused> {
    let account = account_of(office, headers).await?;
    if account.role == Role::Office { Ok(account) } else { Err(Refused::role(&office.words, Role::Office)) }
}

/// Whose session a request is of, if its own pages made it.
pub(crate) async fn account_of(office: &Arc<Office>, headers: &HeaderMap) -> Result<Account, Refused> {
    let said = headers.get(PAGE).and_then(|value| value.to_str().ok());
    let known = cookie_of(headers).zip(said).filter(|(cookie, said)| Kept::of(said) == Secret::of_pages(cookie).kept());
    let account = match known.map(|(cookie, _)| cookie.to_owned()) {
        Some(cookie) => office.blocking(move |office| office.logged_in(&cookie)).await?,
        None => None,
    };
    account.ok_or_else(|| Refused::of(&office.words, StatusCode::UNAUTHORIZED, "not_logged_in"))
}
