//! The doors themselves.

use super::token::Scope;
use super::{bearer, seat_of};
use crate::Office;
use crate::refused::Refused;
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse as _, Response};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_api::Seat;
use serde_json::{Value, json};
use std::sync::Arc;

/// More than a job file of the largest job, bytes.
const MOST: usize = 64 * 1024 * 1024;

/// How many files there are of a schedule in parts.
const PARTS: &str = "x-provenohm-parts";

pub(crate) async fn jobs(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Json<Value>, Refused> {
    overview(&office, &headers, "jobs").await
}

pub(crate) async fn testers(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Json<Value>, Refused> {
    overview(&office, &headers, "testers").await
}

pub(crate) async fn recalls(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Json<Value>, Refused> {
    overview(&office, &headers, "recalls").await
}

/// One list of the overview.
async fn overview(office: &Arc<Office>, headers: &HeaderMap, list: &'static str) -> Result<Json<Value>, Refused> {
    let seat = seat_of(office, bearer(headers), Scope::Lists).await?;
    let mut told = call(office, seat, "overview", json!({})).await?;
    Ok(Json(json!({ list: told[list].take() })))
}

pub(crate) async fn unproved(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Json<Value>, Refused> {
    let seat = seat_of(&office, bearer(&headers), Scope::Lists).await?;
    call(&office, seat, "unproved", json!({})).await.map(Json)
}

pub(crate) async fn unproved_of(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Path(job): Path<String>,
) -> Result<Json<Value>, Refused> {
    let seat = seat_of(&office, bearer(&headers), Scope::Lists).await?;
    call(&office, seat, "unproved", json!({ "job": job })).await.map(Json)
}

pub(crate) async fn job_file(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Path(job): Path<String>,
) -> Result<Response, Refused> {
    seat_of(&office, bearer(&headers), Scope::Papers).await?;
    let text = office.blocking(move |office| office.api.job_file(&job).map_err(Refused::by_operation)).await?;
    Ok(([(CONTENT_TYPE, "application/json")], text).into_response())
}

pub(crate) async fn add_job(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<(StatusCode, Json<Value>), Refused> {
    let refuse = |status, code| Refused::of(&office.words, status, code);
    let seat = seat_of(&office, bearer(&headers), Scope::AddJobs).await?;
    let bytes = to_bytes(body, MOST).await.map_err(|_| refuse(StatusCode::PAYLOAD_TOO_LARGE, "too_large"))?;
    let text = String::from_utf8(bytes.to_vec()).map_err(|_| refuse(StatusCode::BAD_REQUEST, "no_request"))?;
    let told = call(&office, seat, "import_job_file", json!({ "text": text })).await?;
    Ok((StatusCode::CREATED, Json(told)))
}

/// A file of a schedule: `1.pdf` is the first, and of most jobs the only one.
pub(crate) async fn schedule(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Path((job, file)): Path<(String, String)>,
) -> Result<Response, Refused> {
    let seat = seat_of(&office, bearer(&headers), Scope::Papers).await?;
    let not_there = || Refused::of(&office.words, StatusCode::NOT_FOUND, "page_not_there");
    let (part, format) = file.split_once('.').ok_or_else(not_there)?;
    let part: usize = part.parse().map_err(|_| not_there())?;
    let asked = json!({ "job": job, "format": format, "as_signed": null });
    let written = call(&office, seat.clone(), "make_schedule", asked).await?;
    let files: Vec<String> = serde_json::from_value(written["files"].clone()).unwrap_or_default();
    let wanted = part.checked_sub(1).and_then(|at| files.get(at)).cloned();
    let file = match wanted {
        Some(path) => Some(call(&office, seat, "written_file", json!({ "path": path })).await?),
        None => None,
    };
    // They were made for this answer alone.
    for path in &files {
        if let Err(error) = tokio::fs::remove_file(path).await {
            tracing::warn!(%error, "a file made for a script stays");
        }
    }
    let file = file.ok_or_else(not_there)?;
    let of = |field: &str| file[field].as_str().unwrap_or_default().to_owned();
    let bytes = BASE64_STANDARD.decode(of("base64")).map_err(|error| Refused::broke(&office.words, error))?;
    let name = of("name").replace(|letter: char| !letter.is_ascii_alphanumeric() && !"-_.".contains(letter), "_");
    let mut answer = bytes.into_response();
    for (header, value) in [
        (CONTENT_TYPE.as_str(), of("media_type")),
        (CONTENT_DISPOSITION.as_str(), format!("attachment; filename=\"{name}\"")),
        (PARTS, files.len().to_string()),
    ] {
        let (header, value) = (header.parse(), value.parse());
        if let (Ok(header), Ok(value)) = (header, value) {
            answer.headers_mut().insert::<axum::http::HeaderName>(header, value);
        }
    }
    Ok(answer)
}

/// One operation, at the seat of whose token it is.
pub(super) async fn call(
    office: &Arc<Office>,
    seat: Seat,
    operation: &'static str,
    input: Value,
) -> Result<Value, Refused> {
    office
        .blocking(move |office| {
            let told = office.api.call_as(&seat, operation, input).map_err(Refused::by_operation)?;
            if office.is_elsewhere {
                crate::step::now(office);
            }
            Ok(told)
        })
        .await
}
