//! The statement that a bench result makes, for the tester's record.

use super::result::{HeldInterval, OperatingAt, RequirementFound, percent_up};
use super::{Decision, LeadsFound, PointResult};
use crate::quantity::{Percent, Shown};
use crate::tester::{
    Conforms, Holds, Interval, Outcome, Point, Requirement, RequirementName, RequirementResult, Statement,
    VoltageAtLoad,
};
use rust_decimal::Decimal;

/// Everything a statement is made from.
pub(super) struct Found<'a> {
    pub(super) edition: &'a str,
    pub(super) points: &'a [PointResult],
    pub(super) intervals: &'a [HeldInterval],
    pub(super) requirements: &'a [RequirementFound],
    pub(super) operating: &'a [OperatingAt],
    pub(super) shorted: Option<LeadsFound>,
    pub(super) voltages: Vec<VoltageAtLoad>,
}

/// Whether it conforms: a failed requirement says no, an untested one leaves it open.
pub(super) fn conforms(requirements: &[RequirementFound]) -> Conforms {
    let any = |result| requirements.iter().any(|r| r.result == result);
    if any(RequirementResult::NotMet) {
        Conforms::No
    } else if any(RequirementResult::NotTested) {
        Conforms::NotAllTested
    } else {
        Conforms::Yes
    }
}

impl Found<'_> {
    pub(super) fn statement(&self) -> Statement {
        let (decided, undecided): (Vec<_>, Vec<_>) = self.listed().flat_map(listed).partition(|(decided, _)| *decided);
        let [points, undecided] =
            [decided, undecided].map(|all| all.into_iter().map(|(_, point)| point).collect::<Vec<Point>>());
        let failed_point = points.iter().any(|p| !p.good);
        let failed_requirement = self.requirements.iter().any(|r| r.result == RequirementResult::NotMet);
        let failed_for_sure =
            self.requirements.iter().any(|r| r.result == RequirementResult::NotMet && !r.source.tag.is_memory());
        let too_close = self.requirements.iter().any(|r| r.decision == Some(Decision::ConditionalFail));
        let outcome = if failed_point || failed_for_sure {
            Outcome::Failed
        } else if too_close && !failed_requirement {
            Outcome::ConditionalFail
        } else if self.intervals.is_empty() {
            Outcome::NotStated
        } else {
            Outcome::Good
        };
        // A requirement too close to call silences what is not failed: where points failed, they must still be heard.
        let silenced = too_close && failed_point;
        let intervals = self.intervals.iter().filter(|_| !silenced);
        let holds = intervals
            .map(|i| Interval { from_ohm: i.from_ohm, to_ohm: i.to_ohm, conditional: i.conditional })
            .collect();
        Statement {
            outcome,
            conforms: conforms(self.requirements),
            edition: Some(self.edition.to_owned()),
            holds: Holds::In(holds),
            requirements: self
                .requirements
                .iter()
                .map(|r| Requirement { name: r.name, result: r.result, tag: r.source.tag })
                .collect(),
            points,
            undecided,
            leads_shorted_good: self.shorted.is_some_and(|leads| leads.good),
            voltages: self.voltages.clone(),
            operating_uncertainty_percent: self.operating_uncertainty(),
            expanded_uncertainty_percent: self.expanded_uncertainty(),
        }
    }

    /// Reference points, and what fails under other conditions.
    fn listed(&self) -> impl Iterator<Item = &PointResult> {
        self.points.iter().filter(|p| p.base || p.fails_in_use)
    }

    fn base(&self) -> impl Iterator<Item = &PointResult> {
        self.points.iter().filter(|p| p.base)
    }

    /// B, the largest at any resistance, if no part is untested.
    fn operating_uncertainty(&self) -> Option<Percent> {
        let name = RequirementName::OperatingUncertainty;
        let complete =
            self.requirements.iter().find(|r| r.name == name).is_some_and(|r| {
                r.result != RequirementResult::NotTested || r.decision == Some(Decision::ConditionalFail)
            });
        let exact = self.operating.iter().all(|at| !at.at_least);
        let largest = self.operating.iter().map(|at| at.operating).max_by(f64::total_cmp);
        largest.filter(|_| complete && exact && self.untested().is_none()).and_then(percent_up)
    }

    fn untested(&self) -> Option<&OperatingAt> {
        self.operating.iter().find(|at| at.position.is_none() || at.supply.is_none() || at.temperature.is_none())
    }

    /// |error| + U at the conforming point where that is largest, % of the indication: an indication is not corrected by
    /// whoever reads it, so its error belongs to its uncertainty (GUM F.2.4.5, memory-M).
    fn expanded_uncertainty(&self) -> Option<Percent> {
        let within = self.base().filter(|p| p.decision.is_some_and(Decision::is_within));
        let each = within.filter_map(|p| {
            let (error, budget) = (p.error_ohm?, p.budget.as_ref()?);
            let shown = super::known::float(p.indicated_ohm.0);
            let exact = p.comparator == crate::quantity::Comparator::Exact;
            (exact && shown > 0.0).then(|| (super::known::float(error.0.abs()) + budget.expanded) / shown * 100.0)
        });
        each.max_by(f64::total_cmp).and_then(percent_up)
    }
}

/// A point as the record lists it, and whether it was decided. What is neither conforming nor not is covered by no
/// interval. Of its repeats the one furthest off speaks, and the highest one beside it: how high a resistance was shown
/// decides how low another can be that is shown alike.
fn listed(point: &PointResult) -> Vec<(bool, Point)> {
    let good = !point.fails_in_use && point.decision.is_some_and(Decision::is_within);
    let decided = good || point.fails_in_use || point.decision == Some(Decision::DoesNotConform);
    let known = point.known_or_nominal();
    let away = |shown: &Shown| (shown.ohms().0 - known.0).abs();
    let furthest = point.shown.iter().copied().max_by_key(away);
    let highest = point.shown.iter().copied().max_by_key(|shown| shown.ohms());
    let ohms = super::known::float(known.0);
    let uncertainty = point.budget.as_ref().and_then(|budget| percent_up(budget.expanded / ohms * 100.0));
    let of = |indicated| Point { reference_ohm: known, indicated, good, error_uncertainty_percent: uncertainty };
    let higher = highest.filter(|highest| furthest.is_some_and(|furthest| highest.ohms() > furthest.ohms()));
    let both = [furthest, higher].into_iter().flatten().filter(|_| known.0 > Decimal::ZERO);
    both.map(|indicated| (decided, of(indicated))).collect()
}
