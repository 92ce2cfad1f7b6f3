//! What a browser is told that is refused: as an operation's failure, so that the screens show both alike.

use crate::account::AccountError;
use crate::role::Role;
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
        tracing::error!(%why, "a request could not be answered");
        // Why stands in the log: whoever asks may be anybody.
        Self::of(words, StatusCode::INTERNAL_SERVER_ERROR, "unexpected")
    }

    /// It needs another role: this one.
    pub(crate) fn role(words: &Words, needed: Role) -> Self {
        let mut refused = Self::of(words, StatusCode::FORBIDDEN, "role");
        refused.failure.words = words.text_with("hub-role-needed", &[("role", needed.words(words).into())]);
        refused
    }

    /// Accounts refuse, or cannot be read or kept.
    pub(crate) fn by_accounts(words: &Words, why: AccountError) -> Self {
        match why {
            AccountError::Refused(code) => Self::of(words, StatusCode::UNPROCESSABLE_ENTITY, code),
            why => Self::broke(words, why),
        }
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
