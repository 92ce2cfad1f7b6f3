//! For which indications a failed point speaks.

use super::Point;
use crate::quantity::{Comparator, Ohms};

/// Known resistances that were found good or failed, ready to be asked.
#[derive(Clone, Debug)]
pub(super) struct FailedPoints {
    /// Resistances known to be good, lowest first.
    good: Vec<Ohms>,
    failed: Vec<Ohms>,
    /// Failed ones that were shown too high: from the known resistance up to what was shown.
    high: Vec<High>,
}

/// A resistance shown higher than it is.
#[derive(Clone, Copy, Debug)]
struct High {
    known: Ohms,
    /// What it was shown as; `None`: over-range.
    shown: Option<Ohms>,
}

impl FailedPoints {
    /// Of points, and further resistances known to be good.
    pub(super) fn new(points: &[Point], good: impl IntoIterator<Item = Ohms>) -> Self {
        let mut good: Vec<Ohms> = points.iter().filter(|p| p.good).map(|p| p.reference_ohm).chain(good).collect();
        good.sort_unstable();
        let failed = || points.iter().filter(|p| !p.good);
        let high = |p: &Point| match p.indicated.comparator {
            Comparator::MoreThan => Some(High { known: p.reference_ohm, shown: None }),
            Comparator::Exact if p.indicated.ohms() > p.reference_ohm => {
                Some(High { known: p.reference_ohm, shown: Some(p.indicated.ohms()) })
            }
            Comparator::Exact | Comparator::LessThan => None,
        };
        Self { good, failed: failed().map(|p| p.reference_ohm).collect(), high: failed().filter_map(high).collect() }
    }

    /// Whether one failed.
    pub(super) fn any(&self) -> bool {
        !self.failed.is_empty()
    }

    /// Whether this resistance is known to be good.
    pub(super) fn is_good(&self, ohms: Ohms) -> bool {
        self.good.contains(&ohms)
    }

    /// Whether this resistance failed.
    pub(super) fn is_failed(&self, ohms: Ohms) -> bool {
        self.failed.contains(&ohms)
    }

    /// The failed point that speaks for a resistance, if one does: it is there, between there and the next good
    /// point, or beyond there with no good one on that side. Above the top the claim was cut before, so "no good one
    /// higher" only bites where nothing was proved below, or where a point above was indicated below the top.
    pub(super) fn at(&self, comparator: Comparator, ohms: Ohms) -> Option<Ohms> {
        self.failed.iter().copied().find(|&point| {
            let next_lower = self.good.iter().rev().find(|&&g| g < point);
            let next_higher = self.good.iter().find(|&&g| g > point);
            let above_lower = next_lower.is_none_or(|&g| ohms > g);
            let below_higher = next_higher.is_none_or(|&g| match comparator {
                // "< x" with x at the good end still lies below it
                Comparator::LessThan => ohms <= g,
                Comparator::Exact | Comparator::MoreThan => ohms < g,
            });
            ohms == point || (above_lower && below_higher)
        })
    }

    /// The failed point that may have been read here, if there is one: shown too high, it speaks for every indication
    /// from itself up to what it was shown as, good points between or not; shown over-range, for all above it.
    pub(super) fn shown_here(&self, comparator: Comparator, ohms: Ohms) -> Option<Ohms> {
        let here = |high: &&High| match comparator {
            Comparator::Exact => high.known <= ohms && high.shown.is_none_or(|shown| ohms <= shown),
            Comparator::MoreThan => high.shown.is_none_or(|shown| ohms < shown),
            Comparator::LessThan => high.known < ohms,
        };
        self.high.iter().filter(here).map(|high| high.known).min()
    }
}
