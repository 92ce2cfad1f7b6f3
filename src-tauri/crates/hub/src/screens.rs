//! The app's own screens, as they were built. They hold nothing of the record.

use axum::http::header::CONTENT_TYPE;
use axum::http::{StatusCode, Uri};
use axum::response::{IntoResponse as _, Response};
use rust_embed::RustEmbed;

#[derive(RustEmbed)]
#[folder = "../../../ui/dist"]
#[allow_missing = true]
struct Screens;

/// The page that loads everything else.
const FIRST: &str = "index.html";

/// Whether they were built before this program.
pub(crate) fn are_there() -> bool {
    Screens::get(FIRST).is_some()
}

/// A file of the screens.
pub(crate) async fn screen(place: Uri) -> Response {
    let named = place.path().trim_start_matches('/');
    let named = if named.is_empty() { FIRST } else { named };
    match Screens::get(named) {
        Some(file) => ([(CONTENT_TYPE, file.metadata.mimetype().to_owned())], file.data).into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}
