//! When something happened: an instant with the offset it was recorded in, or only a day.

use chrono::{DateTime, FixedOffset, NaiveDate, NaiveTime, TimeDelta, Utc};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// An instant with the offset from UTC it was recorded in (RFC 3339 in files).
pub type Moment = DateTime<FixedOffset>;

/// A bare instant, for comparing.
pub(crate) type Instant = DateTime<Utc>;

/// The date of a verification: some certificates give a time, most only a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
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

impl When {
    /// The day, in the offset it was recorded in.
    #[must_use]
    pub fn date(self) -> NaiveDate {
        match self {
            Self::At(moment) => moment.date_naive(),
            Self::Day { date, .. } => date,
        }
    }

    /// Whether a verification made then can be valid to the end of this day: not one before it was made.
    #[must_use]
    pub fn can_last_until(self, last: NaiveDate) -> bool {
        last >= self.date()
    }

    /// From when a failure counts: the instant, or 00:00 of the day.
    pub(crate) fn failure_counts_from(self) -> Instant {
        match self {
            Self::At(moment) => moment.to_utc(),
            Self::Day { date, .. } => midnight(Some(date), self.offset()),
        }
    }

    /// From when a good result counts, and when an adjustment is over: the instant, or 00:00 of the next day.
    pub(crate) fn good_counts_from(self) -> Instant {
        match self {
            Self::At(moment) => moment.to_utc(),
            Self::Day { date, .. } => self.end_of(date),
        }
    }

    /// The end of a day, in the offset this was recorded in.
    pub(crate) fn end_of(self, last_day: NaiveDate) -> Instant {
        midnight(last_day.succ_opt(), self.offset())
    }

    fn offset(self) -> TimeDelta {
        match self {
            Self::At(moment) => TimeDelta::seconds(moment.offset().local_minus_utc().into()),
            Self::Day { offset_minutes, .. } => TimeDelta::minutes(offset_minutes.into()),
        }
    }
}

/// The whole day a moment lies in, in its own offset: from 00:00 to the next 00:00.
pub(crate) fn day_of(moment: Moment) -> (Instant, Instant) {
    let day = moment.date_naive();
    let offset = When::At(moment).offset();
    (midnight(Some(day), offset), midnight(day.succ_opt(), offset))
}

/// 00:00 of a day at an offset; past the end of the calendar, the end of time.
fn midnight(day: Option<NaiveDate>, offset: TimeDelta) -> Instant {
    day.and_then(|d| d.and_time(NaiveTime::MIN).checked_sub_signed(offset)).map_or(Instant::MAX_UTC, |n| n.and_utc())
}
