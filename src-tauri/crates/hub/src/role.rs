//! What a person is at a hub.

use provenohm_words::Words;
use serde::{Deserialize, Serialize};

/// What a person is at a hub; `may` says what follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Role {
    /// Reads and records.
    Recorder,
    /// Looks at what was recorded, has it corrected and signs it.
    Reviewer,
    /// Does everything, and keeps the accounts.
    Office,
}

impl Role {
    pub(crate) const ALL: [Self; 3] = [Self::Recorder, Self::Reviewer, Self::Office];

    /// As it is kept.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Recorder => "recorder",
            Self::Reviewer => "reviewer",
            Self::Office => "office",
        }
    }

    pub(crate) fn named(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.key() == key)
    }

    pub(crate) fn words(self, words: &Words) -> String {
        words.text(&format!("hub-role-{}", self.key()))
    }
}
