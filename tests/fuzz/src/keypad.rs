//! Key sequences: each key does what is printed on it or is refused; no digit is dropped in silence.
use provenohm_assess::quantity::{Comparator, Display, Key, Pressed, Shown, Typed, Unit};

/// Each byte is a key. The first one says whether the tester's over-range limit is known.
pub(crate) fn holds(bytes: &[u8]) {
    let Some((first, keys)) = bytes.split_first() else { return };
    let over_range = (first % 2 == 1).then(|| Shown::parse("> 999 MΩ")).and_then(Result::ok);
    let display = if first & 2 == 2 { Display::Meter } else { Display::Tester };
    let empty = || Typed::kept(display, Comparator::Exact, "").unwrap_or_default();
    let mut line = empty();
    for key in keys.iter().map(|byte| key(*byte, over_range)) {
        let before = line.text().to_owned();
        match line.press(key) {
            Ok(Pressed::Typing(next)) => {
                is_as_pressed(key, &before, &line, &next);
                assert_eq!(
                    Typed::kept(display, next.comparator(), next.text()).as_ref(),
                    Ok(&next),
                    "kept and brought back"
                );
                line = next;
            }
            Ok(Pressed::Save(shown)) => {
                let typed = Key::Unit(shown.unit) == key
                    && shown.digits.to_string() == before
                    && shown.comparator == line.comparator();
                let over = line.is_empty() && Some(shown) == over_range;
                assert!(typed || (over && matches!(key, Key::OverRange(_))), "{key:?} on {line:?} saved {shown:?}");
                line = empty();
            }
            Err(_) => {}
        }
    }
}

fn is_as_pressed(key: Key, before: &str, line: &Typed, next: &Typed) {
    let text = next.text();
    let same_comparator = next.comparator() == line.comparator();
    let fits = match key {
        Key::Digit(digit) => text == format!("{before}{digit}") && same_comparator,
        Key::DecimalSign if before.is_empty() => text == "0." && same_comparator,
        Key::DecimalSign => text == format!("{before}.") && same_comparator,
        Key::Comparator => text == before && !same_comparator,
        Key::Backspace if before.is_empty() => text.is_empty() && next.comparator() == Comparator::Exact,
        Key::Backspace => before.starts_with(text) && text.len() + 1 == before.len() && same_comparator,
        Key::Enter | Key::Unit(_) | Key::OverRange(_) => false,
    };
    assert!(fits, "{key:?} made {next:?} of {line:?}");
}

fn key(byte: u8, over_range: Option<Shown>) -> Key {
    match byte % 20 {
        10 => Key::DecimalSign,
        11 => Key::Comparator,
        12 => Key::Backspace,
        13 => Key::Enter,
        14 => Key::Unit(Unit::Ohm),
        15 => Key::Unit(Unit::KiloOhm),
        16 => Key::Unit(Unit::MegaOhm),
        17 => Key::Unit(Unit::GigaOhm),
        18 => Key::OverRange(over_range),
        // No key of the pad, yet the type allows it.
        19 => Key::Digit(byte),
        digit => Key::Digit(digit),
    }
}
