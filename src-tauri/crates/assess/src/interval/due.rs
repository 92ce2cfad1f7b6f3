//! The last day of a verification, and how near it is.

use crate::judgement::{TesterJudgement, TesterReason, TesterState};
use crate::moment::When;
use chrono::{Months, NaiveDate};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Months from one verification to the next, where nothing else was chosen for the tester (12 months is common; seen).
pub const USUAL_MONTHS: u32 = 12;

/// Days ahead of the last one from which it is said that the tester is due (common practice).
pub const WARN_DAYS: u32 = 30;

/// How near the last day of a tester's verification is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Due {
    /// Not within the days of warning.
    Later {
        /// Days to the last one.
        days: u32,
    },
    /// Within the days of warning; 0: today is the last day.
    Soon {
        /// Days to the last one.
        days: u32,
    },
    /// Past it.
    Past {
        /// Days since the last one.
        days: u32,
    },
}

/// When a tester that was ever verified is to be verified again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// By the last day of the verification relied on; of several test voltages the first of those days.
    By(NaiveDate),
    /// At once: at some test voltage nothing on record proves it.
    Now,
}

/// When the next verification has to be there, by what is judged of a tester now at each of its test voltages: what failed,
/// was adjusted or was withdrawn since sets no day.
#[must_use]
pub fn next_verification<'j>(judgements: impl IntoIterator<Item = &'j TesterJudgement>) -> Next {
    let day = |one: &TesterJudgement| {
        one.reasons.iter().find_map(|reason| match (one.state, reason) {
            (TesterState::Proved, TesterReason::ProvedBy { valid_until, .. }) => Some(*valid_until),
            (TesterState::Lapsed, TesterReason::LapsedOn { valid_until, .. }) => *valid_until,
            _ => None,
        })
    };
    let days: Option<Vec<NaiveDate>> = judgements.into_iter().map(day).collect();
    days.and_then(|days| days.into_iter().min()).map_or(Next::Now, Next::By)
}

/// The last day of a verification by a policy in months: the same day of the month, or the month's last where it has
/// none. `None` past the end of the calendar.
#[must_use]
pub fn last_day(made: When, months: u32) -> Option<NaiveDate> {
    made.date().checked_add_months(Months::new(months))
}

/// How near a last day is, seen from a day.
#[must_use]
pub fn due(last_day: NaiveDate, today: NaiveDate, warn_days: u32) -> Due {
    let left = last_day.signed_duration_since(today).num_days();
    let days = u32::try_from(left.unsigned_abs()).unwrap_or(u32::MAX);
    match left {
        ..0 => Due::Past { days },
        _ if days <= warn_days => Due::Soon { days },
        _ => Due::Later { days },
    }
}
