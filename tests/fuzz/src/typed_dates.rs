//! Dates and times as people type them: not read, or read back the same from how they are printed.
use std::sync::OnceLock;

use provenohm_words::{Locale, Words};

pub(crate) fn holds(bytes: &[u8]) {
    static WORDS: OnceLock<Words> = OnceLock::new();
    let words = WORDS.get_or_init(|| Words::new(Locale::ENGLISH));
    let Ok(typed) = std::str::from_utf8(bytes) else { return };
    if let Some(date) = words.read_date(typed) {
        assert_eq!(words.read_date(&words.date(date)), Some(date), "{typed:?} is printed as {:?}", words.date(date));
        assert_eq!(words.read_date(&date.to_string()), Some(date), "{typed:?}");
    }
    if let Some(time) = words.read_time(typed) {
        let midday = chrono::NaiveDate::default().and_time(time).and_utc().fixed_offset();
        assert_eq!(words.read_time(&words.time(midday)), Some(time), "{typed:?}");
    }
}
