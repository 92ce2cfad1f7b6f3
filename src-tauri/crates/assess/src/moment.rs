//! When something happened: an instant with the offset it was recorded in, or only a day.

use chrono::{DateTime, FixedOffset, NaiveDate};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// An instant with the offset from UTC it was recorded in (RFC 3339 in files).
pub type Moment = DateTime<FixedOffset>;

/// The date of a verification: some certificates give a time, most only a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// A known instant.
    At(Moment),
    /// A day without a time. A failure counts from its 00:00, a good result from the next day's 00:00.
    Day {
        /// The day as written.
        date: NaiveDate,
        /// Minutes east of UTC of the place it was recorded in.
        offset_minutes: i32,
    },
}
