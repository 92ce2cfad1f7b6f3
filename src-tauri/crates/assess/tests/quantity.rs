//! What is written is read back as the same digits, in every decimal sign, and nothing is guessed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use proptest::prelude::*;
use provenohm_assess::quantity::{
    Accuracy, Amps, Celsius, Comparator, DecimalSign, Digits, NumberStyle, Ohms, Percent, RULER_NOTCHES, Refusal,
    Shown, Unit, Volts, ruler_place,
};

const LANGUAGES: [&str; 4] = ["en", "de", "fr", "pl"];

fn plain() -> NumberStyle {
    NumberStyle::plain(DecimalSign::Point)
}

fn read(text: &str) -> Shown {
    Shown::parse(text).unwrap_or_else(|refusal| panic!("{text}: {refusal}"))
}

fn any_digits() -> impl Strategy<Value = Digits> {
    (0..=99_999_u32, 0..=5_u8)
        .prop_filter_map("five digits at most", |(mantissa, decimals)| Digits::new(mantissa, decimals))
}

fn any_shown() -> impl Strategy<Value = Shown> {
    let comparator = prop_oneof![Just(Comparator::Exact), Just(Comparator::MoreThan), Just(Comparator::LessThan)];
    let unit = prop_oneof![Just(Unit::Ohm), Just(Unit::KiloOhm), Just(Unit::MegaOhm), Just(Unit::GigaOhm)];
    (comparator, any_digits(), unit).prop_map(|(comparator, digits, unit)| Shown { comparator, digits, unit })
}

proptest! {
    #[test]
    fn what_is_printed_reads_back_as_the_same_digits_in_four_languages(shown in any_shown()) {
        for language in LANGUAGES {
            let text = shown.print(NumberStyle::plain(DecimalSign::of_language(language)));
            prop_assert_eq!(Shown::parse(&text), Ok(shown), "{}", text);
        }
    }

    #[test]
    fn grouped_print_reads_back_or_is_refused_and_never_becomes_another_number(shown in any_shown()) {
        for language in LANGUAGES {
            let text = shown.print(NumberStyle::shown(DecimalSign::of_language(language)));
            let five_whole_digits = shown.digits.decimals() == 0 && shown.digits.mantissa() >= 10_000;
            let expected = if five_whole_digits { Err(Refusal::Grouping) } else { Ok(shown) };
            prop_assert_eq!(Shown::parse(&text), expected, "{}", text);
            let without_thin_spaces = text.replace('\u{2009}', "");
            prop_assert_eq!(Shown::parse(&without_thin_spaces), Ok(shown));
        }
    }

    #[test]
    fn a_quantity_is_number_no_break_space_unit_with_its_leading_zero(shown in any_shown()) {
        let text = shown.print(plain());
        let (number, unit) = text.rsplit_once('\u{a0}').unwrap();
        prop_assert_eq!(unit, shown.unit.symbol());
        let digits = number.trim_start_matches(['>', '<', '\u{a0}']);
        prop_assert!(digits.starts_with(|c: char| c.is_ascii_digit()));
        prop_assert!(!text.contains([' ', '\u{2126}']), "{}", text);
    }

    #[test]
    fn digits_in_a_file_keep_every_zero(shown in any_shown()) {
        let json = serde_json::to_string(&shown).unwrap();
        prop_assert_eq!(serde_json::from_str::<Shown>(&json).unwrap(), shown);
    }

    #[test]
    fn no_text_can_break_the_reader(text in ".{0,24}") {
        let _ = Shown::parse(&text);
        let _ = Volts::parse(&text);
        let _ = Percent::parse(&text);
        let _ = Accuracy::parse(&text);
    }

    #[test]
    fn exact_resistances_read_back_as_the_same_value(mantissa in 1..=99_999_u32, decimals in 0..=3_u8) {
        let digits = Digits::new(mantissa, decimals).unwrap();
        let ohms = Shown { comparator: Comparator::Exact, digits, unit: Unit::KiloOhm }.ohms();
        for language in LANGUAGES {
            let text = ohms.print(NumberStyle::plain(DecimalSign::of_language(language)));
            prop_assert_eq!(Ohms::parse(&text), Ok(ohms), "{}", text);
        }
    }

    #[test]
    fn the_ruler_keeps_the_order_of_resistances(a in any_shown(), b in any_shown()) {
        let (low, high) = if a.ohms() <= b.ohms() { (a, b) } else { (b, a) };
        prop_assert!(ruler_place(low.ohms()) <= ruler_place(high.ohms()));
    }
}

#[test]
fn trailing_zeros_are_kept() {
    assert_eq!(read("1.20 MΩ").print(plain()), "1.20\u{a0}MΩ");
    assert_eq!(read("0,05 MΩ").print(NumberStyle::plain(DecimalSign::Comma)), "0,05\u{a0}MΩ");
    assert_eq!(read("> 999 MΩ").print(plain()), ">\u{a0}999\u{a0}MΩ");
    assert_eq!(read("12345 kΩ").print(NumberStyle::shown(DecimalSign::Comma)), "12\u{2009}345\u{a0}kΩ");
    assert_eq!(read("1234 kΩ").print(NumberStyle::shown(DecimalSign::Comma)), "1234\u{a0}kΩ");
}

#[test]
fn resistances_compare_exactly_across_units() {
    assert!(read("999 kΩ").ohms() < read("1.0 MΩ").ohms());
    assert!(read("1.0 MΩ").ohms() < read("1000.1 kΩ").ohms());
    assert_eq!(read("1.00 MΩ").ohms(), read("1000 kΩ").ohms());
    assert_eq!(read("1.20 MΩ").last_digit(), read("10 kΩ").ohms());
}

#[test]
fn every_unambiguous_unit_is_read() {
    let megohms =
        ["1.2 MΩ", "1.2MΩ", "1,2 Mohm", "1.2 M", "1.2M", "1.2 megohm", "1.2 MOHM", "1.2 M\u{2126}", "1.2\u{a0}MΩ"];
    for text in megohms {
        assert_eq!(read(text), read("1.2 MΩ"), "{text}");
    }
    assert_eq!(read("487 k").unit, Unit::KiloOhm);
    assert_eq!(read("487 Kohm").unit, Unit::KiloOhm);
    assert_eq!(read("2 G").unit, Unit::GigaOhm);
    assert_eq!(read("900 ohm").unit, Unit::Ohm);
    assert_eq!(read(".5 MΩ"), read("0.5 MΩ"));
    assert_eq!(read(">999MΩ"), read("> 999 MΩ"));
}

#[test]
fn what_could_mean_two_things_is_refused_with_its_reason() {
    let refused = [
        ("1.2 mΩ", Refusal::Milliohm),
        ("1.2 m", Refusal::Milliohm),
        ("1.2 mohm", Refusal::Milliohm),
        ("1 000 kΩ", Refusal::Grouping),
        ("1\u{2009}000 kΩ", Refusal::Grouping),
        ("1.000,5 kΩ", Refusal::Grouping),
        ("1'000 kΩ", Refusal::Grouping),
        ("1.2.3 MΩ", Refusal::SecondDot),
        ("48. MΩ", Refusal::OpenDot),
        ("05 MΩ", Refusal::DigitAfterZero),
        ("123456 kΩ", Refusal::SixthDigit),
        ("487", Refusal::NoUnit),
        ("487 µΩ", Refusal::UnknownUnit),
        ("487 V", Refusal::UnknownUnit),
        ("MΩ", Refusal::NoDigits),
        ("> MΩ", Refusal::NoDigits),
        ("", Refusal::NoDigits),
        ("-1 MΩ", Refusal::NotANumber),
        ("≥ 1 MΩ", Refusal::NotANumber),
        ("1e6 Ω", Refusal::UnknownUnit),
    ];
    for (text, refusal) in refused {
        assert_eq!(Shown::parse(text), Err(refusal), "{text}");
    }
    assert_eq!(Ohms::parse("> 1 MΩ"), Err(Refusal::NotExact));
}

#[test]
fn limits_are_written_as_the_trade_writes_them() {
    let written = [
        ("1000000 ", "1.0\u{a0}MΩ"),
        ("500000", "0.5\u{a0}MΩ"),
        ("250000", "0.25\u{a0}MΩ"),
        ("69000", "69\u{a0}kΩ"),
        ("230000", "0.23\u{a0}MΩ"),
        ("10000", "10\u{a0}kΩ"),
        ("1051500", "1.0515\u{a0}MΩ"),
        ("999000000", "999\u{a0}MΩ"),
        ("2000000000", "2.0\u{a0}GΩ"),
        ("0", "0\u{a0}Ω"),
    ];
    for (ohms, text) in written {
        assert_eq!(Ohms(ohms.trim().parse().unwrap()).print(plain()), text);
    }
}

#[test]
fn voltages_and_accuracies_are_read() {
    assert_eq!(Volts::parse("230"), Volts::parse("230 V"));
    assert_eq!(Volts::parse("0,5 kV"), Volts::parse("500 V"));
    assert_eq!(Volts::parse("230 MΩ"), Err(Refusal::UnknownUnit));
    let accuracy = |percent: &str, digits| Ok(Accuracy { percent: Percent(percent.parse().unwrap()), digits });
    assert_eq!(Accuracy::parse("3 % + 2"), accuracy("3", 2));
    assert_eq!(Accuracy::parse("±(2,5 % + 3 digits)"), accuracy("2.5", 3));
    assert_eq!(Accuracy::parse("3%+2 dgt"), accuracy("3", 2));
    assert_eq!(Accuracy::parse("30 %"), accuracy("30", 0));
    assert_eq!(Accuracy::parse("3"), Err(Refusal::NoUnit));
    assert_eq!(Accuracy::parse("3 % + 0.2"), Err(Refusal::NotANumber));
    assert_eq!(Accuracy::parse("3 % + "), Err(Refusal::NoDigits));
}

#[test]
fn the_ruler_has_one_notch_a_decade() {
    for (i, (number, unit)) in RULER_NOTCHES.into_iter().enumerate() {
        let shown = Shown { comparator: Comparator::Exact, digits: Digits::new(number, 0).unwrap(), unit };
        let place = f64::from(u32::try_from(i).unwrap()) / 7.0;
        assert!((ruler_place(shown.ohms()) - place).abs() < 1e-12, "{number} {unit:?}");
    }
    assert!(ruler_place(read("0.00 MΩ").ohms()).abs() < f64::EPSILON);
}

#[test]
fn a_current_needs_its_unit_and_prints_in_milliamperes() {
    let amps = |text| Amps::parse(text).map(|a| a.0.normalize().to_string());
    assert_eq!(amps("1.02 mA"), Ok("0.00102".to_owned()));
    assert_eq!(amps("980 µA"), Ok("0.00098".to_owned()));
    assert_eq!(amps("0,001 A"), Ok("0.001".to_owned()));
    assert_eq!(amps("1.02"), Err(Refusal::NoUnit));
    assert_eq!(amps("1.02 mV"), Err(Refusal::UnknownUnit));
    assert_eq!(Amps::parse("980 µA").unwrap().print(NumberStyle::default()), "0.98\u{a0}mA");
}

#[test]
fn a_temperature_may_lie_below_zero() {
    let celsius = |text| Celsius::parse(text).map(|t| t.print(NumberStyle::default()));
    assert_eq!(celsius("23,5 °C"), Ok("23.5\u{a0}°C".to_owned()));
    assert_eq!(celsius("−5"), Ok("−5\u{a0}°C".to_owned()));
    assert_eq!(celsius("-5 °F"), Err(Refusal::UnknownUnit));
}
