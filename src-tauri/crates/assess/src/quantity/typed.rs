//! What stands on the entry line while a reading is typed, and what each key makes of it.

use super::{Comparator, Digits, Refusal, Shown, Unit};
use rust_decimal::Decimal;

/// What the digits are read on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Display {
    /// An insulation tester's.
    #[default]
    Tester,
    /// A voltmeter's or current meter's, at the bench.
    Meter,
}

impl Display {
    /// The most digits it shows, not counting the zero before a decimal sign. No meter shows more than nine (8½ digits:
    /// common practice).
    #[must_use]
    pub const fn most_digits(self) -> usize {
        match self {
            Self::Tester => Digits::MOST,
            Self::Meter => 9,
        }
    }

    const fn one_too_many(self) -> Refusal {
        match self {
            Self::Tester => Refusal::SixthDigit,
            Self::Meter => Refusal::TenthDigit,
        }
    }
}

/// Half-typed text: nothing, `4`, `48.`, with a comparator or without. A key either changes it, saves it or is
/// refused with a reason; a digit is never dropped in silence.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typed {
    display: Display,
    comparator: Comparator,
    text: String,
}

/// A key of the pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// 0 to 9.
    Digit(u8),
    /// The decimal sign.
    DecimalSign,
    /// None, more than, less than, and round again.
    Comparator,
    /// Takes the last character back.
    Backspace,
    /// Saves nothing.
    Enter,
    /// Saves what is typed in this unit.
    Unit(Unit),
    /// Saves the over-range indication of the tester's card, if that is known.
    OverRange(Option<Shown>),
}

/// What a key made of the entry line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pressed {
    /// The line changed.
    Typing(Typed),
    /// The reading is complete.
    Save(Shown),
}

impl Typed {
    /// An entry line as it was kept: digits with at most one point, one digit at least before it.
    ///
    /// # Errors
    /// The [`Refusal`] of the first key that could not have been typed.
    pub fn kept(display: Display, comparator: Comparator, text: &str) -> Result<Self, Refusal> {
        let empty = Self { display, comparator, text: String::new() };
        text.chars().try_fold(empty, |typed, c| match c {
            '.' | ',' => typed.decimal_sign(),
            _ => typed.digit(c.to_digit(10).ok_or(Refusal::NotANumber)?),
        })
    }

    /// What the digits are read on.
    #[must_use]
    pub const fn display(&self) -> Display {
        self.display
    }

    /// The comparator.
    #[must_use]
    pub const fn comparator(&self) -> Comparator {
        self.comparator
    }

    /// The digits so far, with a decimal point.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What a key makes of it.
    ///
    /// # Errors
    /// A [`Refusal`]; the line stays as it was.
    pub fn press(&self, key: Key) -> Result<Pressed, Refusal> {
        match key {
            Key::Digit(digit) if digit <= 9 => self.clone().digit(digit.into()).map(Pressed::Typing),
            Key::Digit(_) => Err(Refusal::NotANumber),
            Key::DecimalSign => self.clone().decimal_sign().map(Pressed::Typing),
            Key::Comparator => Ok(Pressed::Typing(self.with_next_comparator())),
            Key::Backspace => self.shorter().map(Pressed::Typing),
            Key::Enter if self.text.is_empty() => Err(Refusal::NoDigits),
            Key::Enter => Err(Refusal::PressUnit),
            Key::Unit(unit) => self.shown(unit).map(Pressed::Save),
            Key::OverRange(_) if !self.is_empty() => Err(Refusal::ClearFirst),
            Key::OverRange(limit) => limit.map(Pressed::Save).ok_or(Refusal::OverRangeNotSet),
        }
    }

    /// The reading it would be with this unit.
    ///
    /// # Errors
    /// [`Refusal::NoDigits`], or [`Refusal::OpenDot`] after a decimal sign without a digit.
    pub fn shown(&self, unit: Unit) -> Result<Shown, Refusal> {
        Ok(Shown { comparator: self.comparator, digits: Digits::read(&self.text)?, unit })
    }

    /// The bare number it would be: of a meter, whose digits need not be kept as shown.
    ///
    /// # Errors
    /// As [`Self::shown`].
    pub fn number(&self) -> Result<Decimal, Refusal> {
        let (mantissa, decimals) = Digits::parts(&self.text)?.ok_or(self.display.one_too_many())?;
        Ok(Decimal::new(mantissa.into(), decimals.into()))
    }

    /// Nothing typed yet, not even a comparator.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.text.is_empty() && self.comparator == Comparator::Exact
    }

    fn digit(mut self, digit: u32) -> Result<Self, Refusal> {
        if self.text == "0" {
            return Err(Refusal::DigitAfterZero);
        }
        if Digits::counted(&self.text) >= self.display.most_digits() {
            return Err(self.display.one_too_many());
        }
        self.text.extend(char::from_digit(digit, 10));
        Ok(self)
    }

    /// Never a naked decimal sign: a point that is overlooked is a reading out by a power of ten.
    fn decimal_sign(mut self) -> Result<Self, Refusal> {
        if self.text.contains('.') {
            return Err(Refusal::SecondDot);
        }
        self.text.push_str(if self.text.is_empty() { "0." } else { "." });
        Ok(self)
    }

    fn with_next_comparator(&self) -> Self {
        let comparator = match self.comparator {
            Comparator::Exact => Comparator::MoreThan,
            Comparator::MoreThan => Comparator::LessThan,
            Comparator::LessThan => Comparator::Exact,
        };
        Self { comparator, ..self.clone() }
    }

    fn shorter(&self) -> Result<Self, Refusal> {
        let mut shorter = self.clone();
        if shorter.text.pop().is_none() {
            if self.comparator == Comparator::Exact {
                return Err(Refusal::NothingToClear);
            }
            shorter.comparator = Comparator::Exact;
        }
        Ok(shorter)
    }
}
