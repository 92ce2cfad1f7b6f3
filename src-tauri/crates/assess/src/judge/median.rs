//! The decade hint: an out-by-ten slip stands out against the other readings of its kind on the board.

use crate::quantity::{Comparator, Ohms, Shown};
use rust_decimal::Decimal;

/// Fewer other readings than this say nothing (common practice).
pub const FEWEST_FOR_A_MEDIAN: usize = 5;

/// The median of some readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Median {
    /// The median, Ω.
    pub ohms: Ohms,
    /// Whether it is that, or lies above or below: over-range counts as its digits and is more than they say.
    pub comparator: Comparator,
    /// How many readings it is taken over.
    pub readings: usize,
}

impl Median {
    /// Two decades or more below the median. Over-range is never marked.
    #[must_use]
    pub fn is_far_above(&self, shown: Shown) -> bool {
        let hundredfold = shown.ohms().0.checked_mul(Decimal::ONE_HUNDRED);
        shown.comparator != Comparator::MoreThan && hundredfold.is_some_and(|h| h <= self.ohms.0)
    }
}

/// The readings of one pair kind on one board, sorted once. Over-range counts as its digits.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OfOneKind(Vec<(Ohms, i8)>);

impl OfOneKind {
    /// Sorts them.
    pub fn new(readings: impl IntoIterator<Item = Shown>) -> Self {
        let mut all: Vec<_> = readings.into_iter().map(key).collect();
        all.sort_unstable();
        Self(all)
    }

    /// Sorts one more in.
    pub fn add(&mut self, shown: Shown) {
        let key = key(shown);
        let at = self.0.binary_search(&key).unwrap_or_else(|at| at);
        self.0.insert(at, key);
    }

    /// Takes one out again.
    pub fn remove(&mut self, shown: Shown) {
        if let Ok(at) = self.0.binary_search(&key(shown)) {
            self.0.remove(at);
        }
    }

    /// The greatest resistance that can be marked for its distance below the others, Ω: no median of all but one lies
    /// above a hundred times this.
    #[must_use]
    pub fn mark_up_to(&self) -> Option<Ohms> {
        let middle = self.0.len() / 2;
        let (greatest, _) = self.0.get(middle + 1).or(self.0.last())?;
        Some(Ohms(greatest.0 / Decimal::ONE_HUNDRED))
    }

    /// The median of all but this one, which must be among them; nothing where fewer than
    /// [`FEWEST_FOR_A_MEDIAN`] are left.
    #[must_use]
    pub fn median_without(&self, shown: Shown) -> Option<Median> {
        let own = self.0.binary_search(&key(shown)).ok()?;
        let readings = self.0.len() - 1;
        if readings < FEWEST_FOR_A_MEDIAN {
            return None;
        }
        let at = |i: usize| self.0.get(if i < own { i } else { i + 1 }).copied();
        let middle = readings / 2;
        let upper = at(middle)?;
        let lower = if readings % 2 == 1 { upper } else { at(middle.checked_sub(1)?)? };
        let ohms = Ohms(((lower.0.0 + upper.0.0) / Decimal::TWO).normalize());
        Some(Median { ohms, comparator: open(lower.1 + upper.1), readings })
    }
}

/// What readings are sorted by: the digits, then which way they are open (-1, 0, 1).
fn key(shown: Shown) -> (Ohms, i8) {
    let open = match shown.comparator {
        Comparator::LessThan => -1,
        Comparator::Exact => 0,
        Comparator::MoreThan => 1,
    };
    (shown.ohms(), open)
}

/// Which way the middle of two readings is open, from both of theirs.
const fn open(sum: i8) -> Comparator {
    match sum {
        ..0 => Comparator::LessThan,
        0 => Comparator::Exact,
        1.. => Comparator::MoreThan,
    }
}
