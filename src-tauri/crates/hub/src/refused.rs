//! What a browser is told that is refused: as an operation's failure, so that the screens show both alike.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use provenohm_api::Failure;
use provenohm_words::Words;

/// A refusal with its status.
pub(crate) struct Refused {
    status: StatusCode,
    failure: Failure,
}

impl Refused {
    /// With the catalogue's words of this code.
    pub(crate) fn of(words: &Words, status: StatusCode, code: &str) -> Self {
        let failure =
            Failure { code: code.to_owned(), words: words.failure(code), complaints: Vec::new(), detail: None };
        Self { status, failure }
    }

    /// The same, with technical text to copy.
    pub(crate) fn because(mut self, why: &dyn std::fmt::Display) -> Self {
        self.failure.detail = Some(why.to_string());
        self
    }

    /// Something of the hub's own broke.
    pub(crate) fn broke(words: &Words, why: impl std::fmt::Display) -> Self {
        Self::of(words, StatusCode::INTERNAL_SERVER_ERROR, "unexpected").because(&why)
    }

    /// An operation refused, or could not be done.
    pub(crate) fn by_operation(failure: Failure) -> Self {
        Self { status: StatusCode::UNPROCESSABLE_ENTITY, failure }
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        (self.status, Json(self.failure)).into_response()
    }
}
