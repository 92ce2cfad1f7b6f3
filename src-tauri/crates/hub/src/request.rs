//! What a small request asks, and the work it makes.

use crate::Office;
use crate::account::AccountError;
use crate::refused::Refused;
use axum::body::{Body, Bytes, to_bytes};
use axum::http::header::AUTHORIZATION;
use axum::http::{HeaderMap, StatusCode};
use serde::de::DeserializeOwned;
use std::time::Duration;
use tokio::sync::Semaphore;
use tokio::time::timeout;

/// More than a name and a password hold, bytes.
const MOST: usize = 4 * 1024;

/// For a small request of somebody who may be anybody.
const SOON: Duration = Duration::from_secs(10);

/// Hashing takes 19 MiB each, so only this many at once.
static HASHING: Semaphore = Semaphore::const_new(4);

/// What is asked, as JSON.
pub(crate) async fn asked<T: DeserializeOwned>(office: &Office, body: Body) -> Result<T, Refused> {
    let bytes = small(office, body).await?;
    serde_json::from_slice(&bytes).map_err(|_| Refused::of(&office.words, StatusCode::BAD_REQUEST, "no_request"))
}

/// A small body; it comes soon or not at all.
pub(crate) async fn small(office: &Office, body: Body) -> Result<Bytes, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let whole = timeout(SOON, to_bytes(body, MOST)).await;
    let whole = whole.map_err(|_| refuse(StatusCode::REQUEST_TIMEOUT, "no_request"))?;
    whole.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))
}

/// A name as it is kept: without control characters, which not every engine keeps.
pub(crate) fn plain_name(typed: &str) -> String {
    typed.replace(char::is_control, "").trim().to_owned()
}

/// What a request shows that has no session: a phone's secret, a script's token.
pub(crate) fn bearer(headers: &HeaderMap) -> Option<&str> {
    headers.get(AUTHORIZATION)?.to_str().ok()?.strip_prefix("Bearer ")
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
