//! Dates, times and how long ago.

use crate::words::Words;
use chrono::{Datelike, FixedOffset, Months, NaiveDate};
use fluent_bundle::FluentValue;
use provenohm_assess::moment::{Moment, When};

impl Words {
    /// A day: `25 Nov 2026`.
    #[must_use]
    pub fn date(&self, date: NaiveDate) -> String {
        self.text_with(
            "said-date",
            &[
                ("day", date.day().to_string().into()),
                ("month", self.month_name(date.month()).into()),
                ("year", date.year().to_string().into()),
            ],
        )
    }

    /// The time of day in the offset it was recorded in: `10:42`; with the offset where that is not the usual one of these
    /// words: `10:42 UTC+02:00`.
    #[must_use]
    pub fn time(&self, at: Moment) -> String {
        let time = at.format("%H:%M").to_string();
        match self.usual_offset() {
            Some(usual) if usual != *at.offset() => self
                .text_with("said-time-offset", &[("time", time.into()), ("offset", self.offset(*at.offset()).into())]),
            _ => time,
        }
    }

    /// An offset from UTC: `UTC+01:00`.
    #[must_use]
    pub fn offset(&self, offset: FixedOffset) -> String {
        self.text_with("said-offset", &[("offset", offset.to_string().into())])
    }

    /// Day and time in the offset it was recorded in: `25 Nov 2026 10:42`.
    #[must_use]
    pub fn date_time(&self, at: Moment) -> String {
        self.text_with("said-date-time", &[("date", self.date(at.date_naive()).into()), ("time", self.time(at).into())])
    }

    /// The short name of a month, 1 to 12.
    pub(crate) fn month_name(&self, month: u32) -> String {
        self.text_with("said-month", &[("month", month.into())])
    }

    /// When a verification was made: a day, with the time where one is known.
    #[must_use]
    pub fn when(&self, when: When) -> String {
        match when {
            When::At(at) => self.date_time(at),
            When::Day { date, .. } => self.date(date),
        }
    }

    /// The day of a verification.
    pub(crate) fn day(&self, when: When) -> String {
        match when {
            When::At(at) => self.date(at.date_naive()),
            When::Day { date, .. } => self.date(date),
        }
    }

    /// The message `KEY-days`, `KEY-months` or `KEY-years` with `count` filled in, for the whole time between two days.
    pub(crate) fn text_of_span(
        &self,
        key: &str,
        from: NaiveDate,
        to: NaiveDate,
        args: &[(&str, FluentValue<'_>)],
    ) -> String {
        let (unit, count) = span(from, to);
        let mut filled = args.to_vec();
        filled.push(("count", count.into()));
        self.text_with(&format!("{key}-{unit}"), &filled)
    }
}

/// Days below one month, months below two years, then years; whole ones only.
fn span(from: NaiveDate, to: NaiveDate) -> (&'static str, i64) {
    let days = (to - from).num_days();
    let mut months =
        (i64::from(to.year()) - i64::from(from.year())) * 12 + i64::from(to.month()) - i64::from(from.month());
    // The same day of the month not yet reached (the last one, where that month is shorter).
    let reached = u32::try_from(months).ok().and_then(|n| from.checked_add_months(Months::new(n)));
    if reached.is_none_or(|day| day > to) {
        months -= 1;
    }
    match months {
        ..=0 => ("days", days.max(0)),
        1..=23 => ("months", months),
        _ => ("years", months / 12),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn whole_days_months_and_years() {
        let cases = [
            ("2026-11-24", "2026-11-25", ("days", 1)),
            ("2026-10-26", "2026-11-25", ("days", 30)),
            ("2026-10-25", "2026-11-25", ("months", 1)),
            ("2026-01-31", "2026-02-28", ("months", 1)),
            ("2026-09-20", "2026-11-25", ("months", 2)),
            ("2024-11-26", "2026-11-25", ("months", 23)),
            ("2024-11-25", "2026-11-25", ("years", 2)),
        ];
        for (from, to, expected) in cases {
            assert_eq!(span(day(from), day(to)), expected, "{from} to {to}");
        }
    }
}
