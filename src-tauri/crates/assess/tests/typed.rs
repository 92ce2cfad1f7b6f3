//! No key sequence drops a digit in silence: each key changes the line, saves it, or is refused with the line kept.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use proptest::prelude::*;
use provenohm_assess::quantity::{Comparator, Display, Key, Pressed, Refusal, Shown, Typed, Unit};

fn limit() -> Shown {
    Shown::parse("> 999 MΩ").unwrap()
}

/// The keys that matter: a zero, another digit, the sign, the comparator, back, enter, a unit, over-range.
fn keys() -> [Key; 8] {
    [
        Key::Digit(0),
        Key::Digit(7),
        Key::DecimalSign,
        Key::Comparator,
        Key::Backspace,
        Key::Enter,
        Key::Unit(Unit::MegaOhm),
        Key::OverRange(Some(limit())),
    ]
}

fn typed(sequence: &[Key]) -> Typed {
    sequence.iter().fold(Typed::default(), |line, key| match line.press(*key) {
        Ok(Pressed::Typing(next)) => next,
        other => panic!("{key:?} on {line:?}: {other:?}"),
    })
}

fn only_digits(text: &str) -> String {
    text.chars().filter(char::is_ascii_digit).collect()
}

/// What each key may do to a line; panics with the sequence where it does anything else.
fn check(line: &Typed, key: Key) -> Option<Typed> {
    let outcome = line.press(key);
    match (&outcome, key) {
        (Ok(Pressed::Typing(next)), Key::Digit(d)) => assert_eq!(next.text(), format!("{}{d}", line.text())),
        (Ok(Pressed::Typing(next)), Key::DecimalSign) => {
            assert!(next.text().ends_with('.') && next.text().starts_with(line.text()));
        }
        (Ok(Pressed::Typing(next)), Key::Comparator) => assert_eq!(next.text(), line.text()),
        (Ok(Pressed::Typing(next)), Key::Backspace) => {
            assert!(next.text().len() + 1 == line.text().len() || next.comparator() != line.comparator());
        }
        (Ok(Pressed::Save(shown)), Key::Unit(unit)) => {
            assert_eq!((shown.comparator, shown.unit), (line.comparator(), unit));
            assert_eq!(shown.digits.to_string(), line.text(), "the reading is what was typed, digit for digit");
        }
        (Ok(Pressed::Save(shown)), Key::OverRange(known)) => {
            assert_eq!(Some(*shown), known);
            assert_eq!(*line, Typed::default(), "the over-range key never throws typed digits away");
        }
        (Err(refusal), _) => assert!(refusal.code().starts_with("refused-")),
        (Ok(pressed), _) => panic!("{key:?} on {line:?} gave {pressed:?}"),
    }
    match outcome {
        Ok(Pressed::Typing(next)) => Some(next),
        Ok(Pressed::Save(_)) => None,
        Err(_) => Some(line.clone()),
    }
}

fn every_sequence(line: &Typed, left: u32, seen: &mut u32) {
    for key in keys() {
        *seen += 1;
        if let Some(next) = check(line, key)
            && left > 1
        {
            every_sequence(&next, left - 1, seen);
        }
    }
}

#[test]
fn no_sequence_of_six_keys_drops_a_digit_in_silence() {
    let mut seen = 0;
    every_sequence(&Typed::default(), 6, &mut seen);
    assert!(seen > 100_000, "{seen} presses looked at");
}

proptest! {
    #[test]
    fn a_long_sequence_keeps_what_was_typed(picks in prop::collection::vec(0..8_usize, 0..60)) {
        let mut line = Typed::default();
        for pick in picks {
            line = check(&line, keys()[pick]).unwrap_or_default();
            prop_assert!(only_digits(line.text()).len() <= 6);
            prop_assert_eq!(Typed::kept(Display::Tester, line.comparator(), line.text()), Ok(line.clone()), "what was kept comes back");
        }
    }
}

#[test]
fn a_reading_costs_its_characters_and_the_unit_key() {
    let line = typed(&[Key::Digit(4), Key::Digit(8), Key::Digit(7)]);
    assert_eq!(line.press(Key::Unit(Unit::MegaOhm)), Ok(Pressed::Save(Shown::parse("487 MΩ").unwrap())));
}

#[test]
fn each_refusal_says_its_own_reason() {
    let empty = Typed::default();
    let refused = |line: &Typed, key| line.press(key).unwrap_err();
    assert_eq!(refused(&empty, Key::Unit(Unit::MegaOhm)), Refusal::NoDigits);
    assert_eq!(refused(&empty, Key::Enter), Refusal::NoDigits);
    assert_eq!(refused(&empty, Key::Backspace), Refusal::NothingToClear);
    assert_eq!(refused(&empty, Key::OverRange(None)), Refusal::OverRangeNotSet);
    assert_eq!(refused(&typed(&[Key::Digit(4)]), Key::Enter), Refusal::PressUnit);
    assert_eq!(refused(&typed(&[Key::Digit(4)]), Key::OverRange(Some(limit()))), Refusal::ClearFirst);
    assert_eq!(refused(&typed(&[Key::Comparator]), Key::OverRange(Some(limit()))), Refusal::ClearFirst);
    assert_eq!(refused(&typed(&[Key::Digit(0)]), Key::Digit(5)), Refusal::DigitAfterZero);
    let open = typed(&[Key::Digit(4), Key::Digit(8), Key::DecimalSign]);
    assert_eq!(open.text(), "48.");
    assert_eq!(refused(&open, Key::DecimalSign), Refusal::SecondDot);
    assert_eq!(refused(&open, Key::Unit(Unit::MegaOhm)), Refusal::OpenDot);
    assert_eq!(refused(&typed(&[Key::Digit(1); 5]), Key::Digit(1)), Refusal::SixthDigit);
}

/// Nine digits: a meter of 8½ digits shows 1.00023456 mA (common practice).
#[test]
fn a_meter_shows_more_digits_than_a_tester() {
    let line = Typed::kept(Display::Meter, Comparator::Exact, "1.00023456").unwrap();
    assert_eq!(line.number().unwrap().to_string(), "1.00023456");
    assert_eq!(line.press(Key::Digit(7)), Err(Refusal::TenthDigit));
    assert_eq!(Typed::kept(Display::Meter, Comparator::Exact, "0.123456789").unwrap().text(), "0.123456789");
    assert_eq!(Typed::kept(Display::Tester, Comparator::Exact, "1.00023"), Err(Refusal::SixthDigit));
    let largest = Typed::kept(Display::Meter, Comparator::Exact, "999999999").unwrap();
    assert_eq!(largest.number().unwrap().to_string(), "999999999");
    let open = Typed::kept(Display::Meter, Comparator::Exact, "500.").unwrap();
    assert_eq!(open.number(), Err(Refusal::OpenDot));
}

#[test]
fn the_comparator_goes_round_and_the_sign_is_never_naked() {
    let mut line = typed(&[Key::DecimalSign]);
    assert_eq!(line.text(), "0.");
    for expected in [Comparator::MoreThan, Comparator::LessThan, Comparator::Exact] {
        let Ok(Pressed::Typing(next)) = line.press(Key::Comparator) else { panic!("the comparator is always taken") };
        assert_eq!(next.comparator(), expected);
        line = next;
    }
}

#[test]
fn a_kept_line_that_could_not_have_been_typed_is_refused() {
    assert_eq!(Typed::kept(Display::Tester, Comparator::Exact, "007"), Err(Refusal::DigitAfterZero));
    assert_eq!(Typed::kept(Display::Tester, Comparator::Exact, "1.2.3"), Err(Refusal::SecondDot));
    assert_eq!(Typed::kept(Display::Tester, Comparator::Exact, "4x"), Err(Refusal::NotANumber));
    assert_eq!(Typed::kept(Display::Tester, Comparator::Exact, "48,5").unwrap().text(), "48.5");
}
