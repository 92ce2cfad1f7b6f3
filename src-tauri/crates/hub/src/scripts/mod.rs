//! What scripts and calendars ask: a few doors under `/api/1`, each opened by a token of its own scope, described by the hub
//! itself in OpenAPI. They give what operations tell, and hold nothing of their own.

mod answer;
mod calendar;
mod describe;
mod made;
mod token;

use crate::Office;
use crate::refused::Refused;
use axum::Router;
use axum::http::StatusCode;
use axum::routing::{get, post};
use provenohm_api::Seat;
use std::sync::Arc;
use token::Scope;

pub(crate) fn routes() -> Router<Arc<Office>> {
    Router::new()
        .route("/tokens", post(made::list))
        .route("/tokens/make", post(made::make))
        .route("/tokens/drop", post(made::drop))
        .route("/calendar/{token}", get(calendar::feed))
        .route("/api/1", get(describe::description))
        .route("/api/1/jobs", get(answer::jobs).post(answer::add_job))
        .route("/api/1/jobs/{job}", get(answer::job_file))
        .route("/api/1/jobs/{job}/schedule/{file}", get(answer::schedule))
        .route("/api/1/jobs/{job}/unproved", get(answer::unproved_of))
        .route("/api/1/testers", get(answer::testers))
        .route("/api/1/recalls", get(answer::recalls))
        .route("/api/1/unproved", get(answer::unproved))
}

/// The seat of whose token opens this door.
async fn seat_of(office: &Arc<Office>, said: Option<&str>, scope: Scope) -> Result<Seat, Refused> {
    let refuse = |office: &Office| Refused::of(&office.words, StatusCode::UNAUTHORIZED, "no_token");
    let said = said.ok_or_else(|| refuse(office))?.to_owned();
    office
        .blocking(move |office| {
            let account = office.accounts.of_token(&said, scope, office.now());
            let account = account.map_err(|error| Refused::broke(&office.words, error))?;
            let account = account.ok_or_else(|| refuse(office))?;
            let role = account.role.words(&office.words);
            Ok(Seat { person: account.person, name: account.name, role })
        })
        .await
}
