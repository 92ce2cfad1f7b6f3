//! Quantities as text: refused, or printed and read back as the same quantity, with either decimal sign.
use provenohm_assess::quantity::{Accuracy, DecimalSign, NumberStyle, Ohms, Percent, Refusal, Shown, Unit, Volts};

pub(crate) fn holds(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for style in [DecimalSign::Point, DecimalSign::Comma].map(NumberStyle::plain) {
        if let Ok(shown) = Shown::parse(text) {
            assert_eq!(Shown::parse(&shown.print(style)), Ok(shown), "{text:?}");
        }
        if let Ok(ohms) = Ohms::parse(text) {
            for unit in [Unit::Ohm, Unit::KiloOhm, Unit::MegaOhm, Unit::GigaOhm] {
                same_or_too_long(Ohms::parse(&ohms.print_in(unit, style)), &ohms, text);
            }
        }
        if let Ok(volts) = Volts::parse(text) {
            same_or_too_long(Volts::parse(&volts.print(style)), &volts, text);
        }
        if let Ok(percent) = Percent::parse(text) {
            assert_eq!(Percent::parse(&percent.print(style)), Ok(percent), "{text:?}");
        }
    }
    if let Ok(accuracy) = Accuracy::parse(text) {
        let Accuracy { percent, digits } = accuracy;
        let again = format!("±({} + {digits} digits)", percent.print(NumberStyle::plain(DecimalSign::Comma)));
        assert_eq!(Accuracy::parse(&again), Ok(accuracy), "{text:?}");
    }
}

/// In another unit a quantity can take more digits than are read.
fn same_or_too_long<Q: PartialEq + std::fmt::Debug>(read: Result<Q, Refusal>, quantity: &Q, text: &str) {
    match read {
        Ok(read) => assert_eq!(&read, quantity, "{text:?}"),
        Err(refusal) => assert_eq!(refusal, Refusal::SixthDigit, "{text:?}"),
    }
}
