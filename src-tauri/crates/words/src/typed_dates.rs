//! Reading dates and times as people type them: every unambiguous form, nothing guessed.

use crate::words::Words;
use chrono::{NaiveDate, NaiveTime};

impl Words {
    /// Reads a day: `25 Nov 2026`, `25 november 2026`, `Nov 25, 2026`, `25.11.2026`, `2026-11-25`. With slashes and
    /// both numbers up to twelve nobody can tell day from month, so `3/4/2026` is none.
    #[must_use]
    pub fn read_date(&self, typed: &str) -> Option<NaiveDate> {
        let parts: Vec<&str> = typed.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
        let [a, b, c] = parts[..] else { return None };
        if let Some(year) = year(a) {
            return NaiveDate::from_ymd_opt(year, number(b).or_else(|| self.month(b))?, number(c)?);
        }
        let year = year(c)?;
        match (self.month(a), self.month(b)) {
            (None, Some(month)) => NaiveDate::from_ymd_opt(year, month, number(a)?),
            (Some(month), None) => NaiveDate::from_ymd_opt(year, month, number(b)?),
            _ => {
                let (first, second) = (number(a)?, number(b)?);
                let day_first = NaiveDate::from_ymd_opt(year, second, first);
                let month_first = NaiveDate::from_ymd_opt(year, first, second);
                match (day_first, month_first) {
                    (Some(day), Some(other)) if day != other && typed.contains('/') => None,
                    (Some(day), _) => Some(day),
                    (None, Some(day)) if typed.contains('/') => Some(day),
                    _ => None,
                }
            }
        }
    }

    /// Reads a time of day: `10:42`, `10.42`, `1042`, `9:05`.
    #[must_use]
    pub fn read_time(&self, typed: &str) -> Option<NaiveTime> {
        let typed = typed.trim();
        let (hour, minute) = match typed.split_once([':', '.', 'h']) {
            Some((hour, minute)) => (hour, minute),
            None if typed.len() == 4 => typed.split_at_checked(2)?,
            None => return None,
        };
        if minute.len() != 2 || hour.is_empty() || hour.len() > 2 {
            return None;
        }
        NaiveTime::from_hms_opt(number(hour)?, number(minute)?, 0)
    }

    /// The month whose short name the text begins with.
    fn month(&self, typed: &str) -> Option<u32> {
        let typed = typed.to_lowercase();
        (1..=12).find(|month| {
            let name = self.month_name(*month).to_lowercase();
            typed.starts_with(&name)
        })
    }
}

fn number(digits: &str) -> Option<u32> {
    let plain = digits.len() <= 2 && digits.bytes().all(|b| b.is_ascii_digit());
    if plain { digits.parse().ok() } else { None }
}

/// Four digits, and none before the year 1000: nobody means those.
fn year(digits: &str) -> Option<i32> {
    let plain = digits.len() == 4 && digits.bytes().all(|b| b.is_ascii_digit()) && !digits.starts_with('0');
    if plain { digits.parse().ok() } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Locale;

    #[test]
    fn every_unambiguous_form_is_read() {
        let words = Words::new(Locale::ENGLISH);
        let day = NaiveDate::from_ymd_opt(2026, 11, 25);
        for typed in [
            "25 Nov 2026",
            "25 november 2026",
            "Nov 25, 2026",
            " 25.11.2026 ",
            "25/11/2026",
            "11/25/2026",
            "2026-11-25",
            "2026 Nov 25",
            "25-11-2026",
        ] {
            assert_eq!(words.read_date(typed), day, "{typed}");
        }
        assert_eq!(words.read_date("3.4.2026"), NaiveDate::from_ymd_opt(2026, 4, 3));
        assert_eq!(words.read_date("4/4/2026"), NaiveDate::from_ymd_opt(2026, 4, 4));
        assert_eq!(words.read_date("1 Sept 2026"), NaiveDate::from_ymd_opt(2026, 9, 1));
    }

    #[test]
    fn what_could_mean_two_days_or_none_is_not_read() {
        let words = Words::new(Locale::ENGLISH);
        for typed in [
            "",
            "3/4/2026",
            "25.11.26",
            "31.2.2026",
            "25 Nov",
            "11.25.2026",
            "yesterday",
            "25 Nov 2026 10:42",
            "１.1.2026",
            "0026-11-25",
        ] {
            assert_eq!(words.read_date(typed), None, "{typed}");
        }
    }

    #[test]
    fn times_are_read_to_the_minute() {
        let words = Words::new(Locale::ENGLISH);
        for typed in ["9:05", "09:05", "09.05", "0905", " 9h05 "] {
            assert_eq!(words.read_time(typed), NaiveTime::from_hms_opt(9, 5, 0), "{typed}");
        }
        for typed in ["", "9", "905", "24:00", "9:5", "9:61", "é:05", "aé b"] {
            assert_eq!(words.read_time(typed), None, "{typed}");
        }
    }
}
