//! What an indicated resistance may claim from the intervals in which a statement says that indications hold.

use super::failed::FailedPoints;
use super::{Card, Holds, Interval, Point, ProofKind, Statement};
use crate::quantity::{Comparator, Ohms, Volts};

/// How much of an indication a good statement backs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Claim {
    /// Below the lowest interval: "not above the bottom", which is at or below the limit.
    NotAbove(Ohms),
    /// Above the top of the highest interval: no more than that top.
    AtMost(Ohms),
    /// The indication as it stands.
    Whole,
}

/// Why an indication lies outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Outside {
    /// Outside these intervals.
    Of(Vec<Interval>),
    /// No interval stated, and the card has no range at that voltage.
    NoRange,
    /// A bench that tested neither the leads shorted nor a resistance at or below the limit.
    LowEndNotTested,
}

/// The intervals of one statement, ready to be asked.
#[derive(Clone, Debug)]
pub(super) struct Coverage {
    /// Lowest first, not touching.
    intervals: Vec<Interval>,
    /// The card's range stands in for intervals the paper does not give.
    pub(super) from_card: bool,
    kind: ProofKind,
    points: Vec<Point>,
    shorted: bool,
    /// Points found good or failed; the ends of stated intervals are good.
    failed: FailedPoints,
}

impl Coverage {
    /// Intervals as stated; for a bench that states none, the runs of its good points; else the card's measuring
    /// range at that voltage.
    pub(super) fn new(statement: &Statement, kind: ProofKind, volts: Volts, card: Option<&Card>) -> Self {
        let mut points = statement.points.clone();
        points.sort_by_key(|p| p.reference_ohm);
        let (stated, from_card) = match &statement.holds {
            Holds::In(intervals) => (intervals.clone(), false),
            Holds::NotStated if kind == ProofKind::Bench && !points.is_empty() => (runs(&points), false),
            Holds::NotStated => (card.and_then(|c| measuring_range(c, volts)).into_iter().collect(), true),
        };
        let intervals = merged(stated);
        let ends = intervals.iter().filter(|_| !from_card).flat_map(|i| [i.from_ohm, i.to_ohm]);
        let failed = FailedPoints::new(&points, ends);
        Self { intervals, from_card, kind, points, shorted: statement.leads_shorted_good, failed }
    }

    /// Whether a point failed.
    pub(super) fn has_failed_points(&self) -> bool {
        self.failed.any()
    }

    /// Whether it says anything of where indications hold.
    pub(super) fn says_where(&self) -> bool {
        !self.from_card && !self.intervals.is_empty()
    }

    /// The bottom of the lowest interval that counts lies above the limit: the low end is not shown.
    pub(super) fn low_end_hidden(&self, limit: Option<Ohms>) -> bool {
        self.kind == ProofKind::Calibration
            && self.intervals.first().zip(limit).is_some_and(|(lowest, limit)| lowest.from_ohm > limit)
    }

    /// Whether a resistance was tested and found good: it lies in an interval, or is a good point.
    pub(super) fn found_good_at(&self, ohms: Ohms) -> bool {
        !self.failed.is_failed(ohms)
            && (self.failed.is_good(ohms) || (!self.from_card && self.intervals.iter().any(|i| holds(i, ohms))))
    }

    /// The resistance that must lie in an interval, after its claim is cut: above the top of the highest interval, or
    /// over-range, no more than that top, provided every point tested above it was indicated at or above it.
    /// `< x` lies below x and is never cut.
    pub(super) fn cut(&self, comparator: Comparator, ohms: Ohms, limit: Option<Ohms>) -> (Ohms, bool) {
        let top = self.counted(limit).last().map(|i| i.to_ohm);
        match top {
            Some(top) if comparator != Comparator::LessThan && ohms > top && self.sound_above(top) => (top, true),
            _ => (ohms, false),
        }
    }

    /// The failed point that speaks for an indication, by what it claims once cut.
    pub(super) fn failed_at(&self, comparator: Comparator, cut: Ohms) -> Option<Ohms> {
        self.failed.at(comparator, cut)
    }

    /// The failed point that may have been read as this, the indication as it stands.
    pub(super) fn shown_here(&self, comparator: Comparator, ohms: Ohms) -> Option<Ohms> {
        self.failed.shown_here(comparator, ohms)
    }

    /// What an indication (already cut) claims, or why it is outside.
    pub(super) fn claim(
        &self,
        comparator: Comparator,
        cut: (Ohms, bool),
        limit: Option<Ohms>,
    ) -> Result<Claim, Outside> {
        let (ohms, was_cut) = cut;
        let counted: Vec<&Interval> = self.counted(limit).collect();
        let outside = || Outside::Of(counted.iter().map(|i| **i).collect());
        let (Some(lowest), Some(highest)) = (counted.first(), counted.last()) else {
            return Err(match (self.intervals.is_empty(), self.from_card) {
                (true, true) => Outside::NoRange,
                (true, false) => outside(),
                (false, _) if !self.low_end_tested(limit) => Outside::LowEndNotTested,
                (false, _) => outside(),
            });
        };
        if was_cut {
            return Ok(Claim::AtMost(ohms));
        }
        if comparator == Comparator::MoreThan && !self.sound_above(highest.to_ohm) {
            return Err(outside());
        }
        let below = ohms < lowest.from_ohm || (comparator == Comparator::LessThan && ohms == lowest.from_ohm);
        if below && comparator != Comparator::MoreThan {
            let bottom = lowest.from_ohm;
            return if limit.is_some_and(|l| bottom <= l) { Ok(Claim::NotAbove(bottom)) } else { Err(outside()) };
        }
        if counted.iter().any(|i| holds(i, ohms)) { Ok(Claim::Whole) } else { Err(outside()) }
    }

    /// Whether what an indication claims lies in an interval that rests on a conditional pass.
    pub(super) fn is_conditional(&self, claim: Claim, ohms: Ohms) -> bool {
        let ohms = match claim {
            Claim::Whole => ohms,
            Claim::AtMost(end) | Claim::NotAbove(end) => end,
        };
        self.intervals.iter().any(|i| i.conditional && holds(i, ohms))
    }

    /// The intervals that count: a laboratory's as stated; a bench's only where its low end was tested and every point
    /// below the interval was indicated below it.
    fn counted(&self, limit: Option<Ohms>) -> impl DoubleEndedIterator<Item = &Interval> {
        let bench = self.kind == ProofKind::Bench;
        let low_end = !bench || self.low_end_tested(limit);
        self.intervals.iter().filter(move |i| {
            low_end && (!bench || self.points.iter().all(|p| p.reference_ohm >= i.from_ohm || indicated_below(p, i)))
        })
    }

    /// Leads shorted, or a resistance at or below the limit, was tested at that voltage. The bottom of a stated
    /// interval is a resistance that was tested. Without a limit only shorted leads are low enough.
    fn low_end_tested(&self, limit: Option<Ohms>) -> bool {
        let low = |ohms: Ohms| limit.is_some_and(|l| ohms <= l);
        self.shorted
            || self.points.iter().any(|p| low(p.reference_ohm))
            || (!self.from_card && self.intervals.iter().any(|i| low(i.from_ohm)))
    }

    /// Every point tested above the top was indicated at or above it; over-range is above all a display can show.
    fn sound_above(&self, top: Ohms) -> bool {
        self.points.iter().filter(|p| p.reference_ohm > top).all(|p| match p.indicated.comparator {
            Comparator::MoreThan => true,
            Comparator::Exact => p.indicated.ohms() >= top,
            Comparator::LessThan => false,
        })
    }
}

fn holds(interval: &Interval, ohms: Ohms) -> bool {
    (interval.from_ohm..=interval.to_ohm).contains(&ohms)
}

/// A good point may have been indicated at the very bottom: where the lowest point of an interval was shown high, the
/// interval starts at that indication.
fn indicated_below(point: &Point, interval: &Interval) -> bool {
    let shown = point.indicated.ohms();
    match point.indicated.comparator {
        Comparator::Exact => shown < interval.from_ohm || (point.good && shown == interval.from_ohm),
        Comparator::LessThan => shown <= interval.from_ohm,
        Comparator::MoreThan => false,
    }
}

/// Runs of neighbouring good points, points lowest first.
fn runs(points: &[Point]) -> Vec<Interval> {
    points
        .chunk_by(|a, b| a.good == b.good)
        .filter_map(|run| match run {
            [first, ..] if first.good => {
                let (from_ohm, last) = (first.reference_ohm, run.last());
                last.map(|last| Interval { from_ohm, to_ohm: last.reference_ohm, conditional: false })
            }
            _ => None,
        })
        .collect()
}

/// From the bottom of the lowest to the top of the highest range of the card at that voltage.
fn measuring_range(card: &Card, volts: Volts) -> Option<Interval> {
    let ranges = || card.voltages.iter().filter(|v| v.test_voltage_v == volts).flat_map(|v| &v.ranges);
    let from_ohm = ranges().map(|r| r.from_ohm).min()?;
    let to_ohm = ranges().map(|r| r.to_ohm).max()?;
    Some(Interval { from_ohm, to_ohm, conditional: false })
}

/// Lowest first, overlapping and touching ones made one, empty ones left out.
fn merged(mut intervals: Vec<Interval>) -> Vec<Interval> {
    intervals.retain(|i| i.from_ohm <= i.to_ohm);
    intervals.sort_by_key(|i| i.from_ohm);
    let mut out: Vec<Interval> = Vec::with_capacity(intervals.len());
    for next in intervals {
        match out.last_mut() {
            Some(last) if next.from_ohm <= last.to_ohm => {
                last.to_ohm = last.to_ohm.max(next.to_ohm);
                last.conditional |= next.conditional;
            }
            _ => out.push(next),
        }
    }
    out
}
