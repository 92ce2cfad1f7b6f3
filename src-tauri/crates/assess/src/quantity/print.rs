//! How a quantity is written: number, no-break space, unit (SI Brochure 5.3.3); digits as read.

use super::{Amps, Celsius, Comparator, Digits, Farads, Ohms, Percent, Seconds, Shown, Unit, Volts};
use rust_decimal::Decimal;

/// U+00A0: the number and its unit stay on one line.
const NO_BREAK_SPACE: char = '\u{a0}';
/// U+2009: groups of three, never a comma or a point (SI Brochure 5.3.4).
const THIN_SPACE: char = '\u{2009}';
/// Whole numbers of this many digits are grouped.
const GROUPED_FROM: usize = 5;

/// The sign between whole and decimals.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DecimalSign {
    /// `1.20`
    #[default]
    Point,
    /// `1,20`
    Comma,
}

impl DecimalSign {
    /// The sign itself.
    #[must_use]
    pub const fn char(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// The sign written in a language (BCP 47 tag); a point where the language is not known here.
    #[must_use]
    pub fn of_language(tag: &str) -> Self {
        match tag.split('-').next() {
            Some("de" | "fr" | "pl") => Self::Comma,
            _ => Self::Point,
        }
    }
}

/// How numbers are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct NumberStyle {
    /// The decimal sign.
    pub sign: DecimalSign,
    /// Whether five and more whole digits are grouped by thin spaces. Off where the text may be read back:
    /// grouping is never accepted on entry.
    pub grouped: bool,
}

impl NumberStyle {
    /// For screens and papers.
    #[must_use]
    pub const fn shown(sign: DecimalSign) -> Self {
        Self { sign, grouped: true }
    }

    /// For text that may be read back.
    #[must_use]
    pub const fn plain(sign: DecimalSign) -> Self {
        Self { sign, grouped: false }
    }

    /// A plain number (`12345.60`) in this style.
    #[must_use]
    pub fn number(self, plain: &str) -> String {
        let (whole, fraction) = plain.split_once('.').map_or((plain, None), |(w, f)| (w, Some(f)));
        let mut text = String::with_capacity(plain.len() + 8);
        for (i, digit) in whole.chars().enumerate() {
            let left = whole.len() - i;
            if self.grouped && whole.len() >= GROUPED_FROM && i > 0 && left.is_multiple_of(3) {
                text.push(THIN_SPACE);
            }
            text.push(digit);
        }
        if let Some(fraction) = fraction {
            text.push(self.sign.char());
            text.push_str(fraction);
        }
        text
    }

    fn with_unit(self, plain: &str, unit: &str) -> String {
        let mut text = self.number(plain);
        text.push(NO_BREAK_SPACE);
        text.push_str(unit);
        text
    }
}

impl Digits {
    /// The digits in a style, every zero kept.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        style.number(&self.to_string())
    }
}

impl Comparator {
    /// `>`, `<`, or nothing for exact digits.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Exact => "",
            Self::MoreThan => ">",
            Self::LessThan => "<",
        }
    }
}

impl Shown {
    /// `1.20 MΩ`, `> 999 MΩ`: digits and unit as read, never rounded, never in another unit.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        let quantity = style.with_unit(&self.digits.to_string(), self.unit.symbol());
        match self.comparator {
            Comparator::Exact => quantity,
            other => format!("{}{NO_BREAK_SPACE}{quantity}", other.sign()),
        }
    }
}

impl Ohms {
    /// An exact resistance in the unit the trade writes it in: `1.0 MΩ`, `0.25 MΩ`, `69 kΩ`, `1.0515 MΩ`.
    /// Megohms start at 0.1, as in the tables of minima, which also write `1.0` and not `1`.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        let unit = if self.0 >= Unit::GigaOhm.ohms() {
            Unit::GigaOhm
        } else if self.0 >= Decimal::from(100_000) {
            Unit::MegaOhm
        } else if self.0 >= Unit::KiloOhm.ohms() {
            Unit::KiloOhm
        } else {
            Unit::Ohm
        };
        self.print_in(unit, style)
    }

    /// The same in a given unit: `0.0515 MΩ`.
    #[must_use]
    pub fn print_in(self, unit: Unit, style: NumberStyle) -> String {
        let mut number = (self.0 / unit.ohms()).normalize();
        let table_writes_a_decimal = matches!(unit, Unit::MegaOhm | Unit::GigaOhm) && number < Decimal::TEN;
        if table_writes_a_decimal && number.scale() == 0 {
            number.rescale(1);
        }
        style.with_unit(&number.to_string(), unit.symbol())
    }

    /// One step of a display in a given unit, with no more decimals than it has: `1 MΩ`, `0.01 MΩ`.
    #[must_use]
    pub fn print_step_in(self, unit: Unit, style: NumberStyle) -> String {
        style.with_unit(&(self.0 / unit.ohms()).normalize().to_string(), unit.symbol())
    }
}

impl Volts {
    /// `500 V`.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        style.with_unit(&self.0.normalize().to_string(), "V")
    }
}

impl Amps {
    /// `1.02 mA`: the currents of insulation testers are written in milliamperes, every digit kept.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        let milli = self.0 * Decimal::ONE_THOUSAND;
        style.with_unit(&milli.normalize().to_string(), "mA")
    }
}

impl Farads {
    /// `0.3 µF`: the capacitance of cables is written in microfarads, every digit kept.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        let micro = self.0 * Decimal::from(1_000_000);
        style.with_unit(&micro.normalize().to_string(), "µF")
    }
}

impl Seconds {
    /// `2.77 s`.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        style.with_unit(&self.0.normalize().to_string(), "s")
    }
}

impl Celsius {
    /// `23 °C`, `−5 °C`.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        let text = style.with_unit(&self.0.abs().normalize().to_string(), "°C");
        if self.0 < Decimal::ZERO { format!("−{text}") } else { text }
    }
}

impl Percent {
    /// `3 %`.
    #[must_use]
    pub fn print(self, style: NumberStyle) -> String {
        style.with_unit(&self.0.normalize().to_string(), "%")
    }
}
