//! The one door between the screens and the record, over HTTP.

use crate::Office;
use crate::account::Account;
use crate::login::cookie_of;
use crate::may::{is_of_devices, may};
use crate::refused::Refused;
use crate::secret::{Kept, Secret};
use crate::step;
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use provenohm_api::Seat;
use serde::Deserialize;
use serde_json::Value;
use std::sync::Arc;
use std::time::Instant;

/// The header of a session's pages.
const PAGE: &str = "x-provenohm-page";

/// The operation that has the words of the screens, the login's among them.
const WORDS: &str = "catalogue";

/// What a page asks by itself, as long as it is open.
const ASKED_BY_ITSELF: &str = "pulse";

/// More than any file of ours holds in base64, bytes.
const MOST: usize = 192 * 1024 * 1024;
/// Of somebody who is not logged in.
const MOST_UNKNOWN: usize = 4 * 1024;

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
    let account = account_of(&office, &headers);
    let bytes = to_bytes(body, if account.is_ok() { MOST } else { MOST_UNKNOWN }).await;
    let bytes = bytes.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    let asked: Option<Asked> = serde_json::from_slice(&bytes).ok();
    let asked = asked.ok_or_else(|| refuse(StatusCode::BAD_REQUEST, "no_request"))?;
    if let (true, Some(cookie)) = (account.is_ok() && asked.operation != ASKED_BY_ITSELF, cookie_of(&headers)) {
        office.sessions.keep(cookie, Instant::now());
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
    let (working, by_itself) = (Arc::clone(&office), asked.operation == ASKED_BY_ITSELF);
    let told = tokio::task::spawn_blocking(move || {
        let told = match seat {
            Some(seat) => working.api.call_as(&seat, &asked.operation, asked.input),
            None => working.api.call(&asked.operation, asked.input),
        };
        // This instance may be gone tomorrow, its record with it: what it answers for is in the store first.
        if working.is_elsewhere && told.is_ok() && !by_itself {
            step::now(&working);
        }
        told
    });
    match told.await {
        Ok(told) => told.map(Json).map_err(Refused::by_operation),
        Err(error) => Err(Refused::broke(&office.words, error)),
    }
}

/// Whose session a request is of, if its own pages made it.
pub(crate) fn account_of(office: &Office, headers: &HeaderMap) -> Result<Account, Refused> {
    let said = headers.get(PAGE).and_then(|value| value.to_str().ok());
    let known = cookie_of(headers).zip(said).filter(|(cookie, said)| Kept::of(said) == Secret::of_pages(cookie).kept());
    let account = known.and_then(|(cookie, _)| office.logged_in(cookie));
    account.ok_or_else(|| Refused::of(&office.words, StatusCode::UNAUTHORIZED, "not_logged_in"))
}
