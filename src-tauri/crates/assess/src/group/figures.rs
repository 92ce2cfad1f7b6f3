//! Worked-out figures, with no more digits than they are worth.

use crate::quantity::Ohms;
use rust_decimal::{Decimal, RoundingStrategy};

/// A resistance to some significant digits.
pub(super) fn rounded(ohms: Decimal, digits: u32, strategy: RoundingStrategy) -> Option<Ohms> {
    significant(ohms, digits, strategy).map(Ohms)
}

/// A figure to some significant digits.
pub(super) fn significant(figure: Decimal, digits: u32, strategy: RoundingStrategy) -> Option<Decimal> {
    figure.round_sf_with_strategy(digits, strategy).map(|rounded| rounded.normalize())
}
