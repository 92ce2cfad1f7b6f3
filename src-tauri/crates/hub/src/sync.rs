//! What phones ask: to be enrolled, and to be kept in step. A phone shows its secret with each request; nothing of a
//! request is read before that.

use crate::Office;
use crate::held::{Aside, keep_aside};
use crate::refused::Refused;
use crate::request::{asked as small, bearer, plain_name};
use crate::secret::Secret;
use axum::Json;
use axum::body::{Body, Bytes, to_bytes};
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse as _, Response};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, Head};
use provenohm_exchange::hub::{
    Ends, HubError, Lacks, PROTOCOL, Pull, Scope, Tell, jobs_there, keep_in_step, lacks, page, read, receive, written,
};
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// More than a phone sends in one piece, bytes: a stretch up to a seal is never longer than 256 entries.
const MOST: usize = 64 * 1024 * 1024;
/// Characters of a phone's name.
const LONGEST_NAME: usize = 100;

/// What a phone says to be enrolled.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Enrol {
    /// What only one that has the code can say of this connection.
    said: String,
    device: uuid::Uuid,
    name: String,
}

/// What it is told.
#[derive(Serialize)]
struct Enrolled {
    /// What only the hub that gave the code can say.
    said: String,
    /// What the phone shows from now on.
    secret: String,
}

/// The versions of the protocol that this hub speaks.
pub(crate) async fn protocols() -> Json<serde_json::Value> {
    Json(serde_json::json!({ "protocols": [PROTOCOL] }))
}

/// Enrols a phone.
pub(crate) async fn enrol(State(office): State<Arc<Office>>, body: Body) -> Result<Response, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let Enrol { said, device, name } = small(&office, body).await?;
    let said = said.parse().map_err(|_| refuse(StatusCode::BAD_REQUEST, "no_request"))?;
    let (device, name) = (DeviceId(device), plain_name(&name).chars().take(LONGEST_NAME).collect::<String>());
    if name.is_empty() {
        return Err(refuse(StatusCode::UNPROCESSABLE_ENTITY, "phone_name_missing"));
    }
    office
        .blocking(move |office| {
            let refuse = |code| Err(Refused::of(&office.words, StatusCode::UNAUTHORIZED, code));
            let pin = office.pin;
            let code = office.phones.use_code(said, pin, device, office.now());
            let Some(code) = code.map_err(|error| Refused::broke(&office.words, error))? else {
                return refuse("enrol_code");
            };
            let secret = Secret::make(&mut *office.random()).map_err(|error| Refused::broke(&office.words, error))?;
            let kept = office.phones.enrol(device, &name, &secret, office.now());
            if !kept.map_err(|error| Refused::broke(&office.words, error))? {
                return refuse("phone_revoked");
            }
            tracing::info!(%device, "a phone was enrolled");
            let said = code.by_hub(pin, device).to_string();
            Ok(Json(Enrolled { said, secret: secret.told().to_owned() }).into_response())
        })
        .await
}

/// One request of a phone that is enrolled.
pub(crate) async fn asked(
    State(office): State<Arc<Office>>,
    Path(what): Path<String>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let secret = bearer(&headers).map(str::to_owned).ok_or_else(|| refuse(StatusCode::UNAUTHORIZED, "not_enrolled"))?;
    let known = office
        .blocking(move |office| office.phones.of_secret(&secret).map_err(|error| Refused::broke(&office.words, error)))
        .await?;
    let device = known.ok_or_else(|| refuse(StatusCode::UNAUTHORIZED, "not_enrolled"))?;
    let bytes = to_bytes(body, MOST).await.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    office.blocking(move |office| answer(office, device, &what, &bytes)).await
}

fn answer(office: &Office, device: DeviceId, what: &str, bytes: &Bytes) -> Result<Response, Refused> {
    let no_request = |_| Refused::of(&office.words, StatusCode::BAD_REQUEST, "no_request");
    match what {
        "tell" => told(office, device, &read(bytes).map_err(no_request)?),
        "send" => sent(office, device, bytes),
        "pull" => pulled(office, device, &read(bytes).map_err(no_request)?),
        "jobs" => {
            let jobs = jobs_there(&mut office.api.desk()).map_err(|error| Refused::broke(&office.words, error))?;
            Ok(cbor(written(&jobs)))
        }
        _ => Err(Refused::of(&office.words, StatusCode::NOT_FOUND, "no_request")),
    }
}

fn told(office: &Office, device: DeviceId, tell: &Tell) -> Result<Response, Refused> {
    let mut lacks = lacks(&mut **office.store(), tell).map_err(|error| Refused::broke(&office.words, error))?;
    let held = office.phones.held(tell).map_err(|error| Refused::broke(&office.words, error))?;
    let is_lacking = |ends: &Ends| {
        let mut told = tell.heads.iter().filter(|head| head.log == ends.log);
        let waits = |head: &Head| held.iter().any(|waits| waits.behind(head, &ends.heads));
        // A log of which nothing waits, or not all that leads to its end, may lack something before that.
        !told.clone().any(waits) || told.any(|head| !waits(head) && !ends.heads.contains(head))
    };
    if !held.is_empty() {
        lacks.logs.retain(is_lacking);
    }
    let heard = office.phones.heard(device, office.now(), alone(tell, &lacks));
    heard.map_err(|error| Refused::broke(&office.words, error))?;
    Ok(cbor(written(&lacks)))
}

/// Entries that were told of and are not here: places behind the last one here, log by log.
fn alone(tell: &Tell, lacks: &Lacks) -> u64 {
    let of = |ends: &Ends| {
        let here = ends.heads.iter().map(|head| head.seq.0 + 1).max().unwrap_or(0);
        let there = tell.heads.iter().filter(|head| head.log == ends.log).map(|head| head.seq.0 + 1).max().unwrap_or(0);
        there.saturating_sub(here)
    };
    lacks.logs.iter().map(of).sum()
}

fn sent(office: &Office, device: DeviceId, bytes: &Bytes) -> Result<Response, Refused> {
    let not_taken = |error: &dyn std::fmt::Display| {
        Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "not_taken").because(error)
    };
    let bundle = Bundle::open(bytes).map_err(|error| not_taken(&error))?;
    let aside = keep_aside(office, &bundle)?;
    let bundle = match &aside {
        Aside::All => return Ok(cbor(Vec::new())),
        Aside::But(rest) => Bundle::open(rest).map_err(|error| not_taken(&error))?,
        Aside::Nothing => bundle,
    };
    match receive(&mut office.api.desk(), &mut **office.store(), &bundle) {
        Ok(joined) => {
            let sum = joined.sum();
            tracing::info!(%device, came = sum.came, new = sum.came - sum.same, "entries were taken in");
            Ok(cbor(Vec::new()))
        }
        Err(HubError::NotTaken(error)) => {
            tracing::warn!(%device, %error, "what a phone sent was not taken in");
            Err(not_taken(&error))
        }
        Err(error) => Err(Refused::broke(&office.words, error)),
    }
}

fn pulled(office: &Office, device: DeviceId, pull: &Pull) -> Result<Response, Refused> {
    // Everything is for instances of the hub, not for phones.
    if pull.wants.iter().any(|want| want.scope == Scope::All) {
        return Err(Refused::of(&office.words, StatusCode::FORBIDDEN, "no_request"));
    }
    let broke = |error: &dyn std::fmt::Display| Refused::broke(&office.words, error);
    // It has sent what it had: it asks afterwards.
    office.phones.heard(device, office.now(), 0).map_err(|error| broke(&error))?;
    let mut store = office.store();
    keep_in_step(&mut office.api.desk(), &mut **store).map_err(|error| broke(&error))?;
    let page = page(&mut **store, pull).map_err(|error| broke(&error))?;
    Ok(cbor(written(&page)))
}

fn cbor(bytes: Vec<u8>) -> Response {
    ([(CONTENT_TYPE, "application/cbor")], bytes).into_response()
}
