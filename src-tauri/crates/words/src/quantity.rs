//! Quantities as `assess` writes them, in the number style of these words. Units are never translated.

use crate::words::Words;
use provenohm_assess::quantity::{
    Comparator, Digits, Farads, NumberStyle, Ohms, Percent, Seconds, Shown, Typed, Unit, Volts,
};
use rust_decimal::{Decimal, RoundingStrategy};

/// More digits than this are noise in a figure that was worked out.
const WORKED_OUT_DIGITS: u32 = 6;

/// A least resistance is worth no more digits.
const AT_LEAST_DIGITS: u32 = 3;

/// U+00A0, between a comparator and its digits.
const NO_BREAK: char = '\u{a0}';

impl Words {
    /// An indication digit for digit: `487 MΩ`, `> 999 MΩ`, `1.20 MΩ`.
    #[must_use]
    pub fn reading(&self, shown: &Shown) -> String {
        shown.print(self.numbers())
    }

    /// An indication without its unit, for columns whose head names it: `487`, `> 999`.
    #[must_use]
    pub fn indication(&self, shown: &Shown) -> String {
        with_sign(shown.comparator.sign(), &shown.digits.print(self.numbers()))
    }

    /// Half-typed text as it stands on the entry line: `48.`, `> 9`. Never grouped: it goes on being typed.
    #[must_use]
    pub fn typed(&self, typed: &Typed) -> String {
        with_sign(typed.comparator().sign(), &NumberStyle::plain(self.numbers().sign).number(typed.text()))
    }

    /// Digits as read, trailing zeros kept: `1.20`.
    #[must_use]
    pub fn digits(&self, digits: Digits) -> String {
        digits.print(self.numbers())
    }

    /// A resistance in the unit the trade would say it in: `1.0 MΩ`, `69 kΩ`, `0.23 MΩ`.
    #[must_use]
    pub fn ohms(&self, ohms: Ohms) -> String {
        ohms.print(self.numbers())
    }

    /// A resistance in a given unit, exact.
    #[must_use]
    pub fn ohms_in(&self, ohms: Ohms, unit: Unit) -> String {
        ohms.print_in(unit, self.numbers())
    }

    /// One step of a display in the unit it shows: `1 MΩ`, `0.01 MΩ`.
    #[must_use]
    pub fn step(&self, step: Ohms, unit: Unit) -> String {
        step.print_step_in(unit, self.numbers())
    }

    /// One step of a display in the unit such displays are read in: `0.01 MΩ`, not `10 kΩ`.
    #[must_use]
    pub fn step_alone(&self, step: Ohms) -> String {
        let hundredth = |unit: Unit| step.0 * Decimal::ONE_HUNDRED >= unit.ohms();
        let unit = [Unit::MegaOhm, Unit::KiloOhm].into_iter().find(|unit| hundredth(*unit)).unwrap_or(Unit::Ohm);
        self.step(step, unit)
    }

    /// A resistance that is known to lie above or below a figure: `> 999 MΩ`.
    #[must_use]
    pub fn ohms_open(&self, comparator: Comparator, ohms: Ohms) -> String {
        with_sign(comparator.sign(), &self.ohms(ohms))
    }

    /// A figure that was worked out, in a given unit: at most six significant digits, rounded away from zero, so
    /// that a guard never looks smaller than it is.
    #[must_use]
    pub fn ohms_worked_out(&self, ohms: Ohms, unit: Unit) -> String {
        let rounded = ohms.0.round_sf_with_strategy(WORKED_OUT_DIGITS, RoundingStrategy::AwayFromZero);
        self.ohms_in(Ohms(rounded.unwrap_or(ohms.0)), unit)
    }

    /// A least resistance that was worked out: three significant digits, rounded towards zero, so that it never looks
    /// larger than it is.
    #[must_use]
    pub fn ohms_at_least(&self, ohms: Ohms) -> String {
        let rounded = ohms.0.round_sf_with_strategy(AT_LEAST_DIGITS, RoundingStrategy::ToZero);
        self.ohms(Ohms(rounded.unwrap_or(ohms.0)))
    }

    /// A voltage: `500 V`.
    #[must_use]
    pub fn volts(&self, volts: Volts) -> String {
        volts.print(self.numbers())
    }

    /// A capacitance: `0.3 µF`.
    #[must_use]
    pub fn farads(&self, farads: Farads) -> String {
        farads.print(self.numbers())
    }

    /// A time that was worked out: `2.77 s`.
    #[must_use]
    pub fn seconds(&self, seconds: Seconds) -> String {
        seconds.print(self.numbers())
    }

    /// A percentage, rounded away from zero to six significant digits: `3 %`.
    #[must_use]
    pub fn percent(&self, percent: Percent) -> String {
        let rounded = percent.0.round_sf_with_strategy(WORKED_OUT_DIGITS, RoundingStrategy::AwayFromZero);
        Percent(rounded.unwrap_or(percent.0)).print(self.numbers())
    }

    /// A count: `1234`, `12 345`.
    #[must_use]
    pub fn count(&self, count: u64) -> String {
        self.numbers().number(&count.to_string())
    }
}

fn with_sign(sign: &str, number: &str) -> String {
    if sign.is_empty() { number.to_owned() } else { format!("{sign}{NO_BREAK}{number}") }
}
