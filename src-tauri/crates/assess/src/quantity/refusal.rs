//! Why a text or a key press is not a quantity.

/// Why something typed or read from a file is not a quantity. Each has a stable code; the words are the catalogue's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, thiserror::Error)]
pub enum Refusal {
    /// A unit, or a text, without digits.
    #[error("no digits")]
    NoDigits,
    /// A second decimal sign.
    #[error("a second decimal sign")]
    SecondDot,
    /// More than five digits. No display of an insulation tester shows more.
    #[error("more than five digits")]
    SixthDigit,
    /// More than nine digits. No meter shows more.
    #[error("more than nine digits")]
    TenthDigit,
    /// A digit after a leading zero: `05` is more often `0.5` with the sign missed than five.
    #[error("a digit after a leading zero")]
    DigitAfterZero,
    /// A decimal sign with no digit after it.
    #[error("no digit after the decimal sign")]
    OpenDot,
    /// The over-range key while something is typed, which it would throw away.
    #[error("something is typed already")]
    ClearFirst,
    /// Backspace with nothing typed.
    #[error("nothing to clear")]
    NothingToClear,
    /// The over-range key of a tester whose limit at that voltage is not on its card.
    #[error("the over-range limit is not set")]
    OverRangeNotSet,
    /// Enter: only a unit key saves.
    #[error("a unit key saves")]
    PressUnit,
    /// Digits without a unit.
    #[error("no unit")]
    NoUnit,
    /// `mΩ`, a thousand million times less than what is meant.
    #[error("milliohm where megohm or kilohm is meant")]
    Milliohm,
    /// A unit that is none of Ω, kΩ, MΩ, GΩ (or V, or %, where that is asked).
    #[error("unknown unit")]
    UnknownUnit,
    /// Digits in groups: a comma or a point always means the decimal sign.
    #[error("digits in groups")]
    Grouping,
    /// A more-than or less-than sign where an exact figure is asked.
    #[error("a comparator where an exact figure is asked")]
    NotExact,
    /// Anything else.
    #[error("not a number")]
    NotANumber,
}

impl Refusal {
    /// Stable code, the same as the message of the catalogue.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::NoDigits => "refused-no-digits",
            Self::SecondDot => "refused-second-dot",
            Self::SixthDigit => "refused-sixth-digit",
            Self::TenthDigit => "refused-tenth-digit",
            Self::DigitAfterZero => "refused-digit-after-zero",
            Self::OpenDot => "refused-open-dot",
            Self::ClearFirst => "refused-clear-first",
            Self::NothingToClear => "refused-nothing-to-clear",
            Self::OverRangeNotSet => "refused-over-range-not-set",
            Self::PressUnit => "refused-press-unit",
            Self::NoUnit => "refused-no-unit",
            Self::Milliohm => "refused-milliohm",
            Self::UnknownUnit => "refused-unknown-unit",
            Self::Grouping => "refused-grouping",
            Self::NotExact => "refused-not-exact",
            Self::NotANumber => "refused-not-a-number",
        }
    }
}
