//! What the display showed: comparator, digits and unit, kept as read.

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

/// Digits as shown: `1.20` is 120 with two decimals and keeps its zero. At most five digits.
/// In files a string with a decimal point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(try_from = "String", into = "String")]
#[schemars(with = "String")]
#[ts(as = "String")]
pub struct Digits {
    mantissa: u32,
    decimals: u8,
}

impl Digits {
    /// Digits from an integer and the number of decimals: `Digits::new(120, 2)` is `1.20`.
    /// `None` when there are more than five digits before or after the sign together.
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
}

/// Text that is not one to five digits with at most one decimal point among or before them.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not one to five digits with a decimal point")]
pub struct NotDigits(pub String);

impl TryFrom<String> for Digits {
    type Error = NotDigits;

    fn try_from(text: String) -> Result<Self, NotDigits> {
        let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
        let all: String = [whole, fraction].concat();
        let plain = !whole.is_empty() && all.len() <= 5 && all.bytes().all(|b| b.is_ascii_digit());
        let complete = !text.ends_with('.');
        let parsed = all.parse().ok().zip(u8::try_from(fraction.len()).ok());
        match parsed {
            Some((mantissa, decimals)) if plain && complete => Self::new(mantissa, decimals).ok_or(NotDigits(text)),
            _ => Err(NotDigits(text)),
        }
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
pub struct Shown {
    /// Exact, more than, less than.
    pub comparator: Comparator,
    /// The digits, as many as were shown.
    pub digits: Digits,
    /// The unit they were shown in.
    pub unit: Unit,
}
