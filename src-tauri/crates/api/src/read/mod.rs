//! What people type into forms, read or complained about field by field.

mod card;
mod check;
mod circuit;
mod delimited;
mod reading_cells;
mod readings_table;
mod reference;
mod spreadsheet;
mod table;
mod verification;

pub(crate) use card::{card_form, read_card};
pub(crate) use check::read_quick_check;
pub(crate) use circuit::{circuit_complaint, circuit_form, read_circuit};
pub(crate) use reading_cells::shortened;
pub(crate) use readings_table::{
    Line as ReadingLine, NONE, ReadingLines, Written, WrittenReading, read_readings, write_readings,
};
pub(crate) use reference::{read_reference, reference_form};
pub(crate) use spreadsheet::{NoSheet, first_sheet};
pub(crate) use table::{read_table, write_table};
pub(crate) use verification::{finding_form, read_verification, verification_form};

use crate::failure::Failure;
use crate::views::Complaint;
use provenohm_assess::quantity::{Ohms, Percent, Refusal, Shown, Volts};
use provenohm_words::{Arg, Words};

/// Characters at most in a name, a reference, a title.
pub(crate) const NAME_MOST: usize = 200;

/// Characters at most in a note.
pub(crate) const NOTE_MOST: usize = 2_000;

/// Reads fields and gathers complaints about those that cannot be read.
pub(crate) struct Fields<'a> {
    words: &'a Words,
    complaints: Vec<Complaint>,
}

/// An example that stands in a complaint.
const EXAMPLE_OHMS: &str = "0.5\u{a0}MΩ";

impl<'a> Fields<'a> {
    pub(crate) fn new(words: &'a Words) -> Self {
        Self { words, complaints: Vec::new() }
    }

    /// A complaint by its key.
    pub(crate) fn complain(&mut self, field: &str, key: &str, args: &[(&str, Arg<'_>)]) {
        self.said(field, self.words.text_with(key, args));
    }

    /// A complaint in words.
    pub(crate) fn said(&mut self, field: &str, words: String) {
        self.complaints.push(Complaint { field: field.to_owned(), words });
    }

    /// Text that must not be empty.
    pub(crate) fn needed(&mut self, field: &str, text: &str, key: &str) -> String {
        let text = text.trim();
        if text.is_empty() {
            self.complain(field, key, &[]);
        } else if text.chars().count() > NAME_MOST {
            self.complain(field, "complaint-too-long", &[("most", NAME_MOST.into())]);
        }
        text.to_owned()
    }

    /// Text that may be empty.
    pub(crate) fn optional(&mut self, field: &str, text: &str, most: usize) -> String {
        let text = text.trim();
        if text.chars().count() > most {
            self.complain(field, "complaint-too-long", &[("most", most.into())]);
        }
        text.to_owned()
    }

    /// A voltage.
    pub(crate) fn volts(&mut self, field: &str, text: &str) -> Option<Volts> {
        match Volts::parse(text) {
            Ok(volts) if volts.0 > rust_decimal::Decimal::ZERO => Some(volts),
            Ok(_) => {
                self.complain(field, "complaint-above-zero", &[]);
                None
            }
            Err(_) => {
                self.complain(field, "complaint-volts", &[("example", "230".into())]);
                None
            }
        }
    }

    /// An exact resistance.
    pub(crate) fn ohms(&mut self, field: &str, text: &str) -> Option<Ohms> {
        let read = Ohms::parse(text);
        self.resistance(field, text, read)
    }

    /// An indication.
    pub(crate) fn shown(&mut self, field: &str, text: &str) -> Option<Shown> {
        let read = Shown::parse(text);
        self.resistance(field, text, read)
    }

    fn resistance<T>(&mut self, field: &str, text: &str, read: Result<T, Refusal>) -> Option<T> {
        match read {
            Ok(read) => Some(read),
            Err(Refusal::NoDigits | Refusal::NotANumber) => {
                self.complain(field, "complaint-resistance", &[("example", EXAMPLE_OHMS.into())]);
                None
            }
            Err(refusal) => {
                let words = self.words.refusal(refusal, text);
                self.complaints.push(Complaint { field: field.to_owned(), words });
                None
            }
        }
    }

    /// A percentage; nothing where the field is empty.
    pub(crate) fn percent(&mut self, field: &str, text: &str) -> Option<Percent> {
        if text.trim().is_empty() {
            return None;
        }
        let read = Percent::parse(text).ok();
        if read.is_none() {
            self.complain(field, "complaint-percent", &[("example", "3".into())]);
        }
        read
    }

    /// A whole number; nothing where the field is empty.
    pub(crate) fn whole(&mut self, field: &str, text: &str) -> Option<u32> {
        if text.trim().is_empty() {
            return None;
        }
        let read = text.trim().parse().ok();
        if read.is_none() {
            self.complain(field, "complaint-whole-number", &[]);
        }
        read
    }

    /// A day.
    pub(crate) fn date(&mut self, field: &str, text: &str) -> Option<chrono::NaiveDate> {
        let read = self.words.read_date(text);
        if read.is_none() {
            self.complain(field, "complaint-date", &[("example", "25 Nov 2026".into())]);
        }
        read
    }

    /// A time of day.
    pub(crate) fn time(&mut self, field: &str, text: &str) -> Option<chrono::NaiveTime> {
        let read = self.words.read_time(text);
        if read.is_none() {
            self.complain(field, "complaint-time", &[("example", "10:42".into())]);
        }
        read
    }

    /// What was gathered.
    pub(crate) fn complaints(self) -> Vec<Complaint> {
        self.complaints
    }

    /// The value, if nothing was complained about.
    ///
    /// # Errors
    /// `form` with the complaints.
    pub(crate) fn settle<T>(self, value: Option<T>) -> Result<T, Failure> {
        match value {
            Some(value) if self.complaints.is_empty() => Ok(value),
            _ => Err(Failure::form(self.complaints)),
        }
    }
}
