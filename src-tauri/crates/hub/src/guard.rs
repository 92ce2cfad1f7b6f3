//! What holds for every request and every answer, whoever asks.

use crate::Office;
use crate::refused::Refused;
use axum::extract::{Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HOST, HeaderName, ORIGIN, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use std::net::SocketAddr;
use std::sync::Arc;

/// The app's own policy, with this origin in the place of its shell's channel.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const HEADERS: [(HeaderName, &str); 4] = [
    (CONTENT_SECURITY_POLICY, POLICY),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (REFERRER_POLICY, "no-referrer"),
    // What a record says stays in no cache of a shared machine.
    (CACHE_CONTROL, "no-store"),
];

/// Refuses what is meant for another address or comes from another page; a name that only resolves to this machine is
/// another address.
pub(crate) async fn guard(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let mut answer = if is_meant(request.headers(), office.address) {
        next.run(request).await
    } else {
        Refused::of(&office.words, StatusCode::FORBIDDEN, "not_this_page").into_response()
    };
    for (name, value) in HEADERS {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    answer
}

fn is_meant(headers: &HeaderMap, address: SocketAddr) -> bool {
    let here = [address.to_string(), format!("localhost:{}", address.port())];
    let once = |name: HeaderName| {
        let mut all = headers.get_all(name).iter();
        (all.next(), all.next())
    };
    let host = matches!(once(HOST), (Some(host), None) if here.iter().any(|one| host == one.as_str()));
    let origin = match once(ORIGIN) {
        (None, _) => true,
        (Some(origin), None) => here.iter().any(|one| origin == format!("http://{one}").as_str()),
        (Some(_), Some(_)) => false,
    };
    host && origin
}
