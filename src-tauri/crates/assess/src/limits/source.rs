//! Where a figure comes from, and how sure that is.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How a figure reached us.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Tag {
    /// Read in a published page.
    Seen,
    /// Recalled; very sure.
    MemoryHigh,
    /// Recalled; fairly sure.
    MemoryMedium,
    /// Recalled; unsure.
    MemoryLow,
    /// Arithmetic on figures given.
    Calculated,
    /// Common practice, without a source.
    Practice,
    /// Entered by the user of a set of their own.
    User,
}

/// A publication, the place in it, and how sure the figure is.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Publication with edition, for example `IEC 60364-6:2016`.
    pub title: String,
    /// Table, clause or regulation, for example `Table 6.1`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// How sure.
    pub tag: Tag,
}
