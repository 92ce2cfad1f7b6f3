//! The cells of a line of readings: each read by the rule the forms and the pad have for it, or complained about.

use super::table::{NO, YES, choice};
use crate::ops::run::typed;
use chrono::{DateTime, NaiveDateTime, NaiveTime, TimeZone};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Shown, Unit, Volts};
use provenohm_words::{Arg, Words};
use serde::de::DeserializeOwned;

/// Reads the cells of one line, and gathers what is wrong with them.
pub(super) struct Cells<'a> {
    words: &'a Words,
    wrong: Vec<String>,
}

impl<'a> Cells<'a> {
    pub(super) fn new(words: &'a Words) -> Self {
        Self { words, wrong: Vec::new() }
    }

    pub(super) fn wrong(self) -> Vec<String> {
        self.wrong
    }

    pub(super) fn complain(&mut self, key: &str, args: &[(&str, Arg<'_>)]) {
        self.wrong.push(self.words.text_with(key, args));
    }

    /// Text that may be empty.
    pub(super) fn text(&mut self, text: &str, most: usize) -> String {
        if text.chars().count() > most {
            self.complain("complaint-too-long", &[("most", most.into())]);
            return String::new();
        }
        text.to_owned()
    }

    /// Text that must not be empty.
    pub(super) fn needed(&mut self, column: &str, text: &str, most: usize) -> String {
        if text.is_empty() {
            self.complain("complaint-cell-needed", &[("column", column.into())]);
        }
        self.text(text, most)
    }

    /// A choice written as a word; none where the cell is empty.
    pub(super) fn choice<T: DeserializeOwned>(&mut self, text: &str, choices: &[&str]) -> Option<T> {
        choice(self.words, shortened(text).as_str(), choices, &mut self.wrong)
    }

    /// A choice that has to be made.
    pub(super) fn needed_choice<T: DeserializeOwned>(
        &mut self,
        column: &str,
        text: &str,
        choices: &[&str],
    ) -> Option<T> {
        if text.is_empty() {
            self.complain("complaint-cell-needed", &[("column", column.into())]);
            return None;
        }
        self.choice(text, choices)
    }

    /// `yes` or `no`; none where the cell is empty.
    pub(super) fn yes_or_no(&mut self, text: &str) -> Option<bool> {
        match text.to_lowercase().as_str() {
            "" => None,
            YES => Some(true),
            NO => Some(false),
            _ => self.choice(text, &[YES, NO]),
        }
    }

    /// What the tester showed: the digits as the pad takes them, so that nothing is read here that cannot be typed there.
    pub(super) fn shown(&mut self, comparator: &str, digits: &str, unit: &str) -> Option<Shown> {
        let comparator = match comparator.to_lowercase().as_str() {
            "" | "exact" => Some(Comparator::Exact),
            ">" | "more_than" => Some(Comparator::MoreThan),
            "<" | "less_than" => Some(Comparator::LessThan),
            _ => self.choice(comparator, &[">", "<"]),
        };
        let unit = unit_of(unit);
        if unit.is_none() {
            self.complain("complaint-unit-needed", &[]);
        }
        if digits.is_empty() {
            self.complain("complaint-cell-needed", &[("column", "reading".into())]);
            return None;
        }
        // What is longer cannot be digits, and is not quoted in full.
        let digits = shortened(digits);
        match typed::line(self.words, comparator.unwrap_or_default(), &digits, unit.unwrap_or(Unit::MegaOhm)) {
            Ok(shown) if comparator.is_some() && unit.is_some() => Some(shown),
            Ok(_) => None,
            Err(words) => {
                self.wrong.push(words);
                None
            }
        }
    }

    /// A test voltage.
    pub(super) fn volts(&mut self, text: &str) -> Option<Volts> {
        match Volts::parse(text) {
            Ok(volts) if volts.0 > rust_decimal::Decimal::ZERO => Some(volts),
            Ok(_) => {
                self.complain("complaint-above-zero", &[]);
                None
            }
            Err(_) => {
                self.complain("complaint-test-voltage", &[("example", "500".into())]);
                None
            }
        }
    }
}

/// Spelt in any way that a resistance may be written with.
fn unit_of(text: &str) -> Option<Unit> {
    // A figure before it makes it a resistance, for which there is one rule.
    Shown::parse(&format!("1 {text}"))
        .ok()
        .filter(|_| !text.starts_with(|c: char| c.is_ascii_digit()))
        .map(|it| it.unit)
}

/// Date and time: as files write them, or as people do. A date alone is no time: nothing is filled in.
pub(super) fn moment(words: &Words, date: &str, time: &str, here: Moment) -> Option<Moment> {
    if date.is_empty()
        && let Ok(at) = time.parse::<DateTime<chrono::FixedOffset>>()
    {
        return Some(at);
    }
    let (date, time) = if date.is_empty() {
        let at = time.rfind([' ', '\u{a0}', 'T', ','])?;
        let (date, rest) = time.split_at(at);
        (date, rest.trim_start_matches([' ', '\u{a0}', 'T', ',']))
    } else {
        (date, time)
    };
    let date = words.read_date(date)?;
    let exact = ["%H:%M:%S", "%H:%M:%S%.f"].iter().find_map(|form| NaiveTime::parse_from_str(time, form).ok());
    let time = exact.or_else(|| words.read_time(time))?;
    here.offset().from_local_datetime(&NaiveDateTime::new(date, time)).single()
}

/// As much of a cell as a complaint quotes.
pub(crate) fn shortened(text: &str) -> String {
    const MOST: usize = 40;
    match text.char_indices().nth(MOST) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
