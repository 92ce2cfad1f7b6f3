//! What the display showed: comparator, digits and unit, kept as read.

use super::{Ohms, Refusal};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How the true indication relates to the digits shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Comparator {
    /// The digits are the indication.
    #[default]
    Exact,
    /// The indication lies above the digits (over-range).
    MoreThan,
    /// The indication lies below the digits.
    LessThan,
}

/// Unit of a resistance on the display.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
pub enum Unit {
    /// Ω
    #[serde(rename = "ohm")]
    Ohm,
    /// kΩ
    #[serde(rename = "kohm")]
    KiloOhm,
    /// MΩ
    #[serde(rename = "Mohm")]
    MegaOhm,
    /// GΩ
    #[serde(rename = "Gohm")]
    GigaOhm,
}

impl Unit {
    /// Its symbol; Ω is U+03A9, upright, never translated.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Ohm => "Ω",
            Self::KiloOhm => "kΩ",
            Self::MegaOhm => "MΩ",
            Self::GigaOhm => "GΩ",
        }
    }

    /// One of it in ohms.
    #[must_use]
    pub fn ohms(self) -> Decimal {
        Decimal::from(match self {
            Self::Ohm => 1,
            Self::KiloOhm => 1_000,
            Self::MegaOhm => 1_000_000,
            Self::GigaOhm => 1_000_000_000,
        })
    }
}

/// Digits as shown: `1.20` is 120 with two decimals and keeps its zero. At most five digits, not counting the zero
/// before a decimal sign. In files a string with a decimal point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(try_from = "String", into = "String")]
#[schemars(with = "String")]
#[ts(as = "String")]
pub struct Digits {
    mantissa: u32,
    decimals: u8,
}

impl Digits {
    /// No display of an insulation tester shows more digits.
    pub const MOST: usize = 5;

    /// Digits from an integer and the number of decimals: `Digits::new(120, 2)` is `1.20`.
    /// `None` when there are more than five digits.
    #[must_use]
    pub const fn new(mantissa: u32, decimals: u8) -> Option<Self> {
        if mantissa > 99_999 || decimals > 5 { None } else { Some(Self { mantissa, decimals }) }
    }

    /// The digits without their decimal sign.
    #[must_use]
    pub const fn mantissa(self) -> u32 {
        self.mantissa
    }

    /// How many of them stand behind the decimal sign.
    #[must_use]
    pub const fn decimals(self) -> u8 {
        self.decimals
    }

    /// The number they stand for, without a unit.
    #[must_use]
    pub fn value(self) -> Decimal {
        Decimal::new(self.mantissa.into(), self.decimals.into())
    }

    /// Digits that count towards [`Self::MOST`] in a text: all but the zero before a decimal point.
    pub(super) fn counted(text: &str) -> usize {
        text.strip_prefix("0.").unwrap_or(text).bytes().filter(u8::is_ascii_digit).count()
    }

    /// Reads digits with at most one point. A zero may be missing before the point, nothing after it.
    pub(super) fn read(text: &str) -> Result<Self, Refusal> {
        let parts = Self::parts(text)?;
        parts.and_then(|(mantissa, decimals)| Self::new(mantissa, decimals)).ok_or(Refusal::SixthDigit)
    }

    /// Digits without their decimal sign, and how many stand behind it; nothing where there are too many to hold.
    pub(super) fn parts(text: &str) -> Result<Option<(u32, u8)>, Refusal> {
        let (whole, fraction) = text.split_once('.').map_or((text, None), |(w, f)| (w, Some(f)));
        if fraction.is_some_and(|f| f.contains('.')) {
            return Err(Refusal::SecondDot);
        }
        let all = [whole, fraction.unwrap_or_default()].concat();
        if all.is_empty() {
            return Err(Refusal::NoDigits);
        }
        if !all.bytes().all(|b| b.is_ascii_digit()) {
            return Err(Refusal::NotANumber);
        }
        if fraction == Some("") {
            return Err(Refusal::OpenDot);
        }
        if whole.len() > 1 && whole.starts_with('0') {
            return Err(Refusal::DigitAfterZero);
        }
        let decimals = fraction.map_or(0, str::len);
        Ok(all.parse().ok().zip(u8::try_from(decimals).ok()))
    }
}

/// Text that is not one to five digits with at most one decimal point among them.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not one to five digits with a decimal point: {why}")]
pub struct NotDigits {
    /// The text.
    pub text: String,
    /// Why not.
    pub why: Refusal,
}

impl TryFrom<String> for Digits {
    type Error = NotDigits;

    fn try_from(text: String) -> Result<Self, NotDigits> {
        let naked = text.starts_with('.');
        let read = if naked { Err(Refusal::NotANumber) } else { Self::read(&text) };
        read.map_err(|why| NotDigits { text, why })
    }
}

impl From<Digits> for String {
    fn from(digits: Digits) -> Self {
        digits.to_string()
    }
}

impl std::fmt::Display for Digits {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let decimals = usize::from(self.decimals);
        let text = format!("{:0width$}", self.mantissa, width = decimals + 1);
        let (whole, fraction) = text.split_at(text.len() - decimals);
        if fraction.is_empty() { f.write_str(whole) } else { write!(f, "{whole}.{fraction}") }
    }
}

/// An indication as it stood on the display.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// Exact, more than, less than.
    pub comparator: Comparator,
    /// The digits, as many as were shown.
    pub digits: Digits,
    /// The unit they were shown in.
    pub unit: Unit,
}

impl Shown {
    /// The resistance the digits stand for, exact; the comparator says whether the indication is it, above or below.
    #[must_use]
    pub fn ohms(self) -> Ohms {
        Ohms((self.digits.value() * self.unit.ohms()).normalize())
    }

    /// Whether a display in steps of this size, above zero, can show it.
    #[must_use]
    pub fn is_in_steps_of(self, step: Ohms) -> bool {
        self.ohms().0.checked_rem(step.0).is_some_and(|rest| rest.is_zero())
    }

    /// One step of the last digit shown, exact.
    #[must_use]
    pub fn last_digit(self) -> Ohms {
        Ohms((Decimal::new(1, self.digits.decimals().into()) * self.unit.ohms()).normalize())
    }
}
