//! Where indications hold: contiguous conforming points, ends at the inner of reference and indication.

use super::result::{HeldInterval, IntervalEnd, NoInterval};
use super::{Decision, LeadsFound, PointResult};
use crate::quantity::{Comparator, Ohms, Shown};
use crate::tester::VoltageCard;

/// A reference point, ready to be put in order.
#[derive(Clone, Copy)]
struct At<'a> {
    known: Ohms,
    point: &'a PointResult,
}

impl At<'_> {
    fn conforms(&self) -> bool {
        !self.point.fails_in_use && self.point.decision.is_some_and(Decision::is_within)
    }

    /// Why an interval ends before this point.
    fn end(&self) -> IntervalEnd {
        let known_ohm = self.known;
        match self.point.decision {
            _ if self.point.fails_in_use => IntervalEnd::NotConforming { known_ohm },
            Some(Decision::DoesNotConform) => IntervalEnd::NotConforming { known_ohm },
            Some(_) => IntervalEnd::ConditionalFail { known_ohm },
            None => IntervalEnd::Undecided { known_ohm },
        }
    }

    fn highest(&self) -> Ohms {
        self.point.shown.iter().map(|s| s.ohms()).max().unwrap_or(self.known)
    }

    fn lowest(&self) -> Ohms {
        self.point.shown.iter().map(|s| s.ohms()).min().unwrap_or(self.known)
    }
}

/// A run of conforming points and why it ends on either side.
struct Run<'a> {
    points: Vec<At<'a>>,
    below: IntervalEnd,
    above: IntervalEnd,
}

/// The intervals of one test voltage and series, and what makes none.
pub(super) fn intervals(
    points: &[PointResult],
    shorted: Option<LeadsFound>,
    card: Option<&VoltageCard>,
) -> (Vec<HeldInterval>, Vec<NoInterval>) {
    let counts = |p: &&PointResult| p.base || p.fails_in_use;
    let mut at: Vec<At<'_>> =
        points.iter().filter(counts).map(|point| At { known: point.known_or_nominal(), point }).collect();
    at.sort_by_key(|a| a.known);
    if at.is_empty() {
        return (Vec::new(), vec![NoInterval::NothingTested]);
    }
    let (mut held, mut none) = (Vec::new(), Vec::new());
    for run in runs(&at, card) {
        match interval(&run, points, shorted) {
            Ok(interval) => held.push(interval),
            Err(why) => none.push(why),
        }
    }
    if held.is_empty() && none.is_empty() {
        none.push(NoInterval::NoPointConforms);
    }
    (held, none)
}

fn runs<'a>(at: &[At<'a>], card: Option<&VoltageCard>) -> Vec<Run<'a>> {
    let mut runs: Vec<Run<'a>> = Vec::new();
    let mut before: Option<At<'a>> = None;
    // Points at one resistance stand or fall together.
    for same in at.chunk_by(|a, b| a.known == b.known) {
        let Some(worst) = same.iter().copied().max_by_key(severity) else { continue };
        if worst.conforms() {
            let gap = before.filter(At::conforms).map(|b| between(b, worst, card));
            match (runs.last_mut(), before, gap) {
                (Some(run), Some(b), Some(None)) if b.conforms() => run.points.extend(same),
                (last, before, gap) => {
                    let end = match (gap.flatten(), before) {
                        (Some(range), _) => range,
                        (None, Some(b)) => b.end(),
                        (None, None) => IntervalEnd::NothingTested,
                    };
                    if let (Some(run), Some(Some(range))) = (last, gap) {
                        run.above = range;
                    }
                    runs.push(Run { points: same.to_vec(), below: end, above: IntervalEnd::NothingTested });
                }
            }
        } else if let Some(run) = runs.last_mut().filter(|_| before.is_some_and(|b| b.conforms())) {
            run.above = worst.end();
        }
        before = Some(worst);
    }
    runs
}

fn severity(at: &At<'_>) -> u8 {
    match at.point.decision {
        _ if at.point.fails_in_use => 4,
        Some(Decision::Conforms) => 0,
        Some(Decision::ConditionalPass | Decision::OnCondition) => 1,
        None => 2,
        Some(Decision::ConditionalFail) => 3,
        Some(Decision::DoesNotConform) => 4,
    }
}

/// A range of the card that lies between the ranges of two neighbouring points: no point conforms in it.
fn between(a: At<'_>, b: At<'_>, card: Option<&VoltageCard>) -> Option<IntervalEnd> {
    let ranges = &card?.ranges;
    let (from, to) = (ranges.get(a.point.range?)?, ranges.get(b.point.range?)?);
    let inside = ranges.iter().find(|r| r.to_ohm > from.to_ohm && r.to_ohm < to.to_ohm)?;
    Some(IntervalEnd::RangeNotTested { from_ohm: inside.from_ohm, to_ohm: inside.to_ohm })
}

/// The interval of a run, if it counts.
fn interval(run: &Run<'_>, points: &[PointResult], shorted: Option<LeadsFound>) -> Result<HeldInterval, NoInterval> {
    let (Some(first), Some(last)) = (run.points.first(), run.points.last()) else {
        return Err(NoInterval::NoPointConforms);
    };
    let (bottom, top) = (first.known, last.known);
    if bottom == top {
        return Err(NoInterval::SinglePoint { known_ohm: bottom });
    }
    let at_bottom = run.points.iter().filter(|a| a.known == bottom);
    let from_ohm = at_bottom.map(At::highest).max().unwrap_or(bottom).max(bottom);
    let at_top = run.points.iter().filter(|a| a.known == top);
    let mut to_ohm = at_top.map(At::lowest).min().unwrap_or(top).min(top);
    let mut above = run.above;
    for (known_ohm, shown) in others(points, |known| known > top) {
        let low = match shown.comparator {
            Comparator::MoreThan => false,
            Comparator::Exact => shown.ohms() < to_ohm,
            Comparator::LessThan => shown.ohms() <= to_ohm,
        };
        if low {
            to_ohm = shown.ohms();
            above = IntervalEnd::ShownLow { known_ohm, shown };
        }
    }
    if from_ohm > to_ohm {
        return Err(NoInterval::EndsCross { from_ohm: bottom, to_ohm: top });
    }
    let below = others(points, |known| known < bottom);
    let leads = shorted.map(|leads| (Ohms::default(), leads.shown));
    for (known_ohm, shown) in below.chain(leads) {
        let high = match shown.comparator {
            Comparator::MoreThan => true,
            Comparator::Exact => shown.ohms() >= from_ohm,
            Comparator::LessThan => shown.ohms() > from_ohm,
        };
        if high {
            return Err(NoInterval::ShownHigh { from_ohm, to_ohm, known_ohm, shown });
        }
    }
    Ok(HeldInterval {
        from_ohm,
        to_ohm,
        below: run.below,
        above,
        points: run.points.len(),
        conditional: run.points.iter().any(|a| a.point.decision.is_some_and(Decision::is_conditional)),
    })
}

/// Everything shown at resistances elsewhere, under whatever conditions.
fn others(points: &[PointResult], elsewhere: impl Fn(Ohms) -> bool) -> impl Iterator<Item = (Ohms, Shown)> {
    let all = points.iter().map(|p| (p.known_or_nominal(), p));
    let there = all.filter(move |(known, _)| elsewhere(*known));
    there.flat_map(|(known, p)| p.shown.iter().map(move |shown| (known, *shown)))
}
