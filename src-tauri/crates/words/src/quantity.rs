//! Quantities: number, no-break space, unit (SI Brochure 5.3.3). Units are never translated.

use crate::words::Words;
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Percent, Shown, Unit, Volts};
use rust_decimal::{Decimal, RoundingStrategy};

/// U+00A0, so that a number and its unit stay on one line.
const NO_BREAK: char = '\u{a0}';

/// More digits than this are noise in a figure that was worked out.
const WORKED_OUT_DIGITS: u32 = 6;

impl Words {
    /// An indication digit for digit: `487 MΩ`, `> 999 MΩ`, `1.20 MΩ`.
    #[must_use]
    pub fn reading(&self, shown: &Shown) -> String {
        format!("{}{NO_BREAK}{}", self.indication(shown), unit(shown.unit))
    }

    /// An indication without its unit: `487`, `> 999`. For columns whose head names the unit.
    #[must_use]
    pub fn indication(&self, shown: &Shown) -> String {
        let number = self.digits(shown.digits);
        comparator_sign(shown.comparator).map_or(number.clone(), |sign| format!("{sign}{NO_BREAK}{number}"))
    }

    /// Digits as read, trailing zeros kept: `1.20`.
    #[must_use]
    pub fn digits(&self, digits: Digits) -> String {
        self.numbers().shown(&digits.to_string())
    }

    /// A resistance in the unit the trade would say it in: `1.0 MΩ`, `69 kΩ`, `0.23 MΩ`, `1 GΩ`.
    #[must_use]
    pub fn ohms(&self, ohms: Ohms) -> String {
        let unit = if ohms.0 >= Decimal::from(1_000_000_000) {
            Unit::GigaOhm
        } else if ohms.0 >= Decimal::from(100_000) {
            Unit::MegaOhm
        } else if ohms.0 >= Decimal::from(1_000) {
            Unit::KiloOhm
        } else {
            Unit::Ohm
        };
        self.ohms_in(ohms, unit)
    }

    /// A resistance in a given unit, exact; whole megohms below ten keep one zero, as limits are written: `1.0 MΩ`.
    #[must_use]
    pub fn ohms_in(&self, ohms: Ohms, in_unit: Unit) -> String {
        let mut number = (ohms.0 / factor(in_unit)).normalize();
        if in_unit == Unit::MegaOhm && number.scale() == 0 && number < Decimal::TEN {
            number.rescale(1);
        }
        format!("{}{NO_BREAK}{}", self.numbers().shown(&number.to_string()), unit(in_unit))
    }

    /// A figure that was worked out, in a given unit: at most six significant digits, rounded away from zero, so
    /// that a guard never looks smaller than it is.
    #[must_use]
    pub fn ohms_worked_out(&self, ohms: Ohms, in_unit: Unit) -> String {
        let rounded = ohms.0.round_sf_with_strategy(WORKED_OUT_DIGITS, RoundingStrategy::AwayFromZero);
        self.ohms_in(Ohms(rounded.unwrap_or(ohms.0)), in_unit)
    }

    /// A voltage: `500 V`.
    #[must_use]
    pub fn volts(&self, volts: Volts) -> String {
        format!("{}{NO_BREAK}V", self.numbers().shown(&volts.0.normalize().to_string()))
    }

    /// A percentage: `3 %`.
    #[must_use]
    pub fn percent(&self, percent: Percent) -> String {
        let rounded = percent.0.round_sf_with_strategy(WORKED_OUT_DIGITS, RoundingStrategy::AwayFromZero);
        let number = rounded.unwrap_or(percent.0).normalize();
        format!("{}{NO_BREAK}%", self.numbers().shown(&number.to_string()))
    }

    /// A count: `1234`, `12 345`.
    #[must_use]
    pub fn count(&self, count: u64) -> String {
        self.numbers().shown(&count.to_string())
    }
}

/// The symbol of a unit. `Ω` is U+03A9.
#[must_use]
pub const fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Ohm => "Ω",
        Unit::KiloOhm => "kΩ",
        Unit::MegaOhm => "MΩ",
        Unit::GigaOhm => "GΩ",
    }
}

/// `>` or `<`; nothing where the digits are the indication.
#[must_use]
pub const fn comparator_sign(comparator: Comparator) -> Option<char> {
    match comparator {
        Comparator::Exact => None,
        Comparator::MoreThan => Some('>'),
        Comparator::LessThan => Some('<'),
    }
}

fn factor(unit: Unit) -> Decimal {
    Decimal::from(match unit {
        Unit::Ohm => 1,
        Unit::KiloOhm => 1_000,
        Unit::MegaOhm => 1_000_000,
        Unit::GigaOhm => 1_000_000_000,
    })
}
