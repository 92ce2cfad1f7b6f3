//! When something was recorded: whole milliseconds since 1970 UTC and the offset the clock on the wall had.

use super::coded::{Coded, Malformed};
use super::value::Value;
use chrono::{DateTime, Datelike, FixedOffset, NaiveDate};
use provenohm_assess::moment::Moment;

/// How far a clock may go back from one entry to the next before it is doubted: clocks that are set by a network
/// step back a little now and then.
pub const CLOCK_JITTER_MS: i64 = 60_000;

/// Milliseconds since 1970 UTC.
#[must_use]
pub fn unix_ms(moment: &Moment) -> i64 {
    moment.timestamp_millis()
}

/// A moment from milliseconds since 1970 UTC and minutes east of UTC; `None` outside what a calendar can show.
#[must_use]
pub fn moment(unix_ms: i64, offset_minutes: i64) -> Option<Moment> {
    let seconds = i32::try_from(offset_minutes.checked_mul(60)?).ok()?;
    Some(DateTime::from_timestamp_millis(unix_ms)?.with_timezone(&FixedOffset::east_opt(seconds)?))
}

/// The moment as the record keeps it: without parts of a millisecond or of an offset's minute.
#[must_use]
pub fn kept(of: &Moment) -> Moment {
    moment(unix_ms(of), offset_minutes(of)).unwrap_or(*of)
}

/// Minutes east of UTC.
#[must_use]
pub fn offset_minutes(moment: &Moment) -> i64 {
    i64::from(moment.offset().local_minus_utc()) / 60
}

/// `[unix ms, minutes east of UTC]`.
impl Coded for Moment {
    fn to_value(&self) -> Value {
        Value::Array(vec![Value::Int(unix_ms(self)), Value::Int(offset_minutes(self))])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Array(items) => match items[..] {
                [Value::Int(ms), Value::Int(offset)] => moment(ms, offset).ok_or(Malformed::OutOfBounds("a moment")),
                _ => Err(Malformed::Expected("a moment")),
            },
            _ => Err(Malformed::Expected("a moment")),
        }
    }
}

/// Days since 1 January of the year 1, which is day 1.
impl Coded for NaiveDate {
    fn to_value(&self) -> Value {
        Value::Int(i64::from(self.num_days_from_ce()))
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Int(days) => i32::try_from(days)
                .ok()
                .and_then(Self::from_num_days_from_ce_opt)
                .ok_or(Malformed::OutOfBounds("a day")),
            _ => Err(Malformed::Expected("a day")),
        }
    }
}
