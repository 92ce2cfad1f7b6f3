//! Quantities, dates and counts as people read them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod made;

use made::{day, megohms, moment, ohms, on, shown, volts};
use proptest::prelude::*;
use provenohm_assess::quantity::{Comparator, DecimalSign, Digits, Display, Percent, Shown, Typed, Unit};
use provenohm_words::{Locale, Words};

fn with_sign(language: &str) -> Words {
    Words::new(Locale::ENGLISH).with_decimal_sign(DecimalSign::of_language(language))
}

/// SI Brochure 5.3.3 (seen): a space between number and unit; it does not break. The unit is U+03A9, not U+2126.
#[test]
fn number_no_break_space_unit() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(words.reading(&megohms("1.20")), "1.20\u{a0}M\u{3a9}");
    assert_eq!(words.reading(&shown(Comparator::MoreThan, "999", Unit::MegaOhm)), ">\u{a0}999\u{a0}MΩ");
    assert_eq!(words.indication(&shown(Comparator::LessThan, "0.05", Unit::MegaOhm)), "<\u{a0}0.05");
    assert_eq!(words.volts(volts(500)), "500\u{a0}V");
    assert_eq!(words.ohms_worked_out(ohms("51500.00"), Unit::MegaOhm), "0.0515\u{a0}MΩ");
}

/// A step has the digits its maker gives it, in the unit displays are read in: 0.01 MΩ and not 10 kΩ, 1 MΩ and not 1.0 MΩ.
#[test]
fn a_step_is_printed_with_its_own_digits() {
    let words = Words::new(Locale::ENGLISH);
    let steps = [
        ("10000", "0.01 MΩ"),
        ("100000", "0.1 MΩ"),
        ("1000000", "1 MΩ"),
        ("10000000", "10 MΩ"),
        ("1000", "1 kΩ"),
        ("100", "0.1 kΩ"),
        ("1", "1 Ω"),
    ];
    for (step, printed) in steps {
        assert_eq!(words.step_alone(ohms(step)).replace('\u{a0}', " "), printed);
    }
    assert_eq!(words.step(ohms("1000000"), Unit::MegaOhm), "1\u{a0}MΩ");
}

/// EA-4/02-like arithmetic gives long tails; shown, they are rounded up and never down. B = 9.1464 % (calc).
#[test]
fn worked_out_figures_are_rounded_away_from_zero() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(words.percent(Percent("9.1463901".parse().unwrap())), "9.1464\u{a0}%");
    assert_eq!(words.ohms_worked_out(ohms("1091463.901"), Unit::MegaOhm), "1.09147\u{a0}MΩ");
}

#[test]
fn typed_text_shows_the_sign_of_the_language_and_no_groups() {
    let typed = Typed::kept(Display::Tester, Comparator::MoreThan, "12345").unwrap();
    assert_eq!(with_sign("en").typed(&typed), ">\u{a0}12345");
    assert_eq!(with_sign("de").typed(&Typed::kept(Display::Tester, Comparator::Exact, "1.").unwrap()), "1,");
}

#[test]
fn dates_and_times_stand_in_the_offset_they_were_recorded_in() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(words.date(day("2026-11-25")), "25 Nov 2026");
    assert_eq!(words.when(on("2026-03-03")), "3 Mar 2026");
    assert_eq!(words.date_time(moment("2026-11-25T10:42:59+13:00")), "25 Nov 2026 10:42");
}

#[test]
fn a_time_of_another_offset_says_so_where_the_usual_one_is_said_once() {
    let usual = *moment("2026-11-25T10:42:00+01:00").offset();
    let words = Words::new(Locale::ENGLISH).with_usual_offset(usual);
    assert_eq!(words.offset(usual), "UTC+01:00");
    assert_eq!(words.date_time(moment("2026-11-25T10:42:00+01:00")), "25 Nov 2026 10:42");
    assert_eq!(words.date_time(moment("2026-07-25T10:42:00+02:00")), "25 Jul 2026 10:42 UTC+02:00");
}

#[test]
fn counts_are_grouped_in_sentences_too() {
    let words = Words::new(Locale::ENGLISH);
    let args = [("count", 12_345.into())];
    assert_eq!(words.text_with("answer-readings-corrected", &args), "Corrected 12\u{2009}345 readings");
    assert_eq!(words.text_with("answer-readings-corrected", &[("count", 1.into())]), "Corrected 1 reading");
}

proptest! {
    /// Whatever was on the display comes back digit for digit, in the signs of four languages.
    #[test]
    fn a_reading_is_shown_digit_for_digit(mantissa in 0u32..=99_999, decimals in 0u8..=4, unit in 0usize..4, sign in 0usize..3) {
        let digits = Digits::new(mantissa, decimals).unwrap();
        let comparator = [Comparator::Exact, Comparator::MoreThan, Comparator::LessThan][sign];
        let read = Shown { comparator, digits, unit: [Unit::Ohm, Unit::KiloOhm, Unit::MegaOhm, Unit::GigaOhm][unit] };
        for (language, decimal) in [("en", '.'), ("de", ','), ("fr", ','), ("pl", ',')] {
            let text = with_sign(language).reading(&read);
            let kept: String = text.chars().filter(char::is_ascii_digit).collect();
            prop_assert_eq!(kept, digits.to_string().replace('.', ""));
            prop_assert_eq!(text.contains(decimal), decimals > 0);
            prop_assert!(!text.contains(' '), "breaks: {}", text);
        }
    }

    /// The pseudo-locale changes words, never what is filled in.
    #[test]
    fn quantities_are_untouched_in_the_pseudo_locale(mantissa in 0u32..=99_999, decimals in 0u8..=4) {
        let read = Shown { comparator: Comparator::Exact, digits: Digits::new(mantissa, decimals).unwrap(), unit: Unit::MegaOhm };
        let words = Words::new(Locale::PSEUDO);
        let line = words.text_with("answer-undone", &[("reading", words.reading(&read).into()), ("pair", "L1–PE".into())]);
        prop_assert!(line.contains(&words.reading(&read)) && line.contains("L1–PE"), "{}", line);
    }
}
