//! The one door between the screens and the record, over HTTP.

use crate::Office;
use crate::login::cookie_of;
use crate::refused::Refused;
use crate::secret::{Kept, Secret};
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::sync::Arc;
use std::time::Instant;

/// The header of a session's pages.
const PAGE: &str = "x-provenohm-page";

/// The operation that has the words of the screens, the login's among them.
const WORDS: &str = "catalogue";

/// More than any file of ours holds in base64, bytes.
const MOST: usize = 192 * 1024 * 1024;
/// Of somebody who is not logged in.
const MOST_UNKNOWN: usize = 4 * 1024;

#[derive(Deserialize)]
struct Asked {
    operation: String,
    input: Value,
}

/// Does one operation for whoever is logged in.
pub(crate) async fn call(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Json<Value>, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let known = is_of_a_session(&office, &headers);
    let bytes = to_bytes(body, if known { MOST } else { MOST_UNKNOWN }).await;
    let bytes = bytes.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    let asked: Option<Asked> = serde_json::from_slice(&bytes).ok();
    let asked = asked.ok_or_else(|| refuse(StatusCode::BAD_REQUEST, "no_request"))?;
    if !known && asked.operation != WORDS {
        return Err(refuse(StatusCode::UNAUTHORIZED, "not_logged_in"));
    }
    let working = Arc::clone(&office);
    let told = tokio::task::spawn_blocking(move || working.api.call(&asked.operation, asked.input)).await;
    match told {
        Ok(told) => told.map(Json).map_err(Refused::by_operation),
        Err(error) => Err(Refused::broke(&office.words, error)),
    }
}

/// Whether a request is of a session, and made by its pages.
pub(crate) fn is_of_a_session(office: &Office, headers: &HeaderMap) -> bool {
    let said = headers.get(PAGE).and_then(|value| value.to_str().ok());
    let (Some(cookie), Some(said)) = (cookie_of(headers), said) else { return false };
    Kept::of(said) == Secret::of_pages(cookie).kept() && office.sessions.hear(cookie, Instant::now()).is_some()
}

/// What a page asks, where it is no operation.
pub(crate) async fn office_body<T: DeserializeOwned>(office: &Office, body: Body) -> Result<T, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let bytes = to_bytes(body, MOST_UNKNOWN).await.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    serde_json::from_slice(&bytes).map_err(|_| refuse(StatusCode::BAD_REQUEST, "no_request"))
}
