//! The calendar of verifications due, as any calendar program subscribes to it (iCalendar, RFC 5545). Such programs send no header,
//! so the token stands in the address; it opens nothing else.

use super::answer::call;
use super::seat_of;
use super::token::Scope;
use crate::Office;
use crate::refused::Refused;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse as _, Response};
use icalendar::{Calendar, Component as _, Event, EventLike as _, Property};
use provenohm_api::Moment;
use provenohm_words::Words;
use serde::Deserialize;
use serde_json::json;
use std::sync::Arc;

/// Of the overview, what a calendar needs of a tester.
#[derive(Deserialize)]
pub(super) struct Due {
    id: uuid::Uuid,
    name: String,
    serial: String,
    /// The last day of the verification relied on, ISO 8601; none: it is due now.
    day: Option<chrono::NaiveDate>,
    due: Said,
}

#[derive(Deserialize)]
struct Said {
    words: String,
}

pub(crate) async fn feed(State(office): State<Arc<Office>>, Path(asked): Path<String>) -> Result<Response, Refused> {
    let seat = seat_of(&office, asked.strip_suffix(".ics"), Scope::Calendar).await?;
    let mut told = call(&office, seat, "overview", json!({})).await?;
    let testers: Vec<Due> =
        serde_json::from_value(told["testers"].take()).map_err(|error| Refused::broke(&office.words, error))?;
    let text = calendar(&office.words, &testers, office.now());
    Ok(([(CONTENT_TYPE, "text/calendar; charset=utf-8")], text).into_response())
}

/// A day for each tester: the last one of its verification, or today where nothing proves it any more.
pub(super) fn calendar(words: &Words, testers: &[Due], now: Moment) -> String {
    let mut calendar = Calendar::new();
    calendar.name(&words.text("hub-calendar")).ttl(&chrono::Duration::hours(6));
    for tester in testers {
        let name =
            if tester.serial.is_empty() { tester.name.clone() } else { format!("{} ({})", tester.name, tester.serial) };
        let mut event = Event::new();
        event
            // One event a tester: with a new verification it moves.
            .uid(&format!("{}@provenohm", tester.id))
            .timestamp(now.to_utc())
            .summary(&words.text_with("hub-calendar-event", &[("tester", name.into())]))
            .description(&tester.due.words)
            .all_day(tester.day.unwrap_or_else(|| now.date_naive()))
            // It keeps nobody's day busy.
            .append_property(Property::new("TRANSP", "TRANSPARENT"));
        calendar.push(event.done());
    }
    calendar.done().to_string()
}
