//! The doors themselves.

use super::seat_of;
use super::token::Scope;
use crate::Office;
use crate::refused::Refused;
use crate::request::bearer;
use axum::Json;
use axum::body::{Body, to_bytes};
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse as _, Response};
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
    // To take it back is a person's.
    Ok((StatusCode::CREATED, Json(json!({ "job": told["job"], "words": told["done"]["words"] }))))
}

/// A file of a schedule: `1.pdf` is the first, and of most jobs the only one.
pub(crate) async fn schedule(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Path((job, file)): Path<(String, String)>,
) -> Result<Response, Refused> {
    seat_of(&office, bearer(&headers), Scope::Papers).await?;
    office.blocking(move |office| file_of(office, &job, &file)).await
}

/// Made for this answer alone, in a folder that goes with it.
fn file_of(office: &Office, job: &str, file: &str) -> Result<Response, Refused> {
    let not_there = || Refused::of(&office.words, StatusCode::NOT_FOUND, "page_not_there");
    let broke = |error: std::io::Error| Refused::broke(&office.words, error);
    let (part, format) = file.split_once('.').ok_or_else(not_there)?;
    let part: usize = part.parse().map_err(|_| not_there())?;
    let kind = match format {
        "pdf" => "application/pdf",
        "xlsx" => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        "csv" => "text/csv; charset=utf-8",
        _ => return Err(not_there()),
    };
    let folder = tempfile::tempdir().map_err(broke)?;
    let files = office.api.schedule_files(job, format, folder.path()).map_err(Refused::by_operation)?;
    let path = part.checked_sub(1).and_then(|at| files.get(at)).ok_or_else(not_there)?;
    let bytes = std::fs::read(path).map_err(broke)?;
    let headers = [
        (CONTENT_TYPE.as_str(), kind.to_owned()),
        (CONTENT_DISPOSITION.as_str(), format!("attachment; filename=\"schedule-{part}.{format}\"")),
        (PARTS, files.len().to_string()),
    ];
    Ok((headers, bytes).into_response())
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
