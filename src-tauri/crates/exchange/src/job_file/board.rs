//! Boards and circuits.

use provenohm_assess::circuit::Electrical;
use provenohm_assess::ids::{BoardId, CircuitId, NoteId, PersonId};
use provenohm_assess::moment::Moment;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A distribution board.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Board {
    /// Id.
    pub id: BoardId,
    /// Name.
    pub name: String,
    /// Where it is.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// It was taken away; it stands here for the readings on its circuits.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub taken_away: bool,
    /// Who does it: a note, not a lock.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<PersonId>,
    /// Circuits in the order one walks.
    pub circuits: Vec<Circuit>,
    /// Circuits taken away; their readings stay.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub removed: Vec<Circuit>,
}

/// A circuit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Circuit {
    /// Id.
    pub id: CircuitId,
    /// Reference at the board.
    pub reference: String,
    /// What it feeds.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub description: String,
    /// What decides its limit and pairs.
    pub electrical: Electrical,
    /// Further live values of that, where two people changed it apart.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub electrical_also: Vec<Electrical>,
    /// Something about it needs a newer version and must not be judged without.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub needs_newer_version: bool,
    /// Notes on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Note>,
}

/// A note.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// Id.
    pub id: NoteId,
    /// In words.
    pub text: String,
    /// Who.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub person: Option<PersonId>,
    /// When.
    pub at: Moment,
}
