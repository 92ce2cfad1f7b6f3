//! One point: what was shown at a known resistance, its error, its budget, and the decision.

use super::group::Group;
use super::known::{AtTerminals, Used, float};
use super::{Decision, Influence, PointRemark, WhyUndecided, reckonable};
use crate::bench::{Conditions, DecisionRule, Resistor, Warmth};
use crate::ids::{MeasuredId, ReferenceId};
use crate::quantity::{Comparator, Ohms, Percent, Shown};
use crate::tester::{Range, VoltageCard};
use crate::uncertainty::{Budget, Input, count, spread};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, Normal};
use ts_rs::TS;

/// Permitted error over the reference's U (k = 2) is usually asked to be at least this (Z540.3, seen).
const USUAL_RATIO: f64 = 4.0;

/// What is permitted at an indication: p·I + n·d, percentage of the reading (seen).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Permitted {
    /// p.
    pub percent: Percent,
    /// n.
    pub digits: u32,
    /// d.
    pub resolution_ohm: Ohms,
    /// The half-width.
    pub within_ohm: Ohms,
}

/// One point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct PointResult {
    /// The facts, by id.
    pub measured: Vec<MeasuredId>,
    /// Conditions; the temperature is the one furthest from the reference temperature.
    pub conditions: Conditions,
    /// Taken as the reference point of its resistance: the decision rests on it. Others are changes against it.
    pub base: bool,
    /// The resistor.
    pub resistor: Resistor,
    /// A voltmeter across it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub across: Option<ReferenceId>,
    /// The resistor by itself, as its certificate states.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub alone_ohm: Option<Ohms>,
    /// The known resistance at the terminals: R·`R_m` / (R + `R_m`) with a meter across.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub known_ohm: Option<Ohms>,
    /// What was shown, by the ids of the facts.
    pub shown: Vec<Shown>,
    /// Mean of the repeats; over-range or under-range, the bound.
    pub indicated_ohm: Ohms,
    /// How the indication relates to that.
    pub comparator: Comparator,
    /// Indication minus known resistance; over-range, at least that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub error_ohm: Option<Ohms>,
    /// The same, % of the known resistance, rounded to 0.001.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub error_percent: Option<Percent>,
    /// What is permitted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub permitted: Option<Permitted>,
    /// Budget of the error, Ω.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub budget: Option<Budget<Influence>>,
    /// Permitted error over the reference's U (k = 2).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub ratio: Option<f64>,
    /// The decision by the run's rule.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub decision: Option<Decision>,
    /// Why there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub undecided: Option<WhyUndecided>,
    /// Remarks.
    pub remarks: Vec<PointRemark>,
    /// Taken under other than reference conditions, and further off there than operation may add at all.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub fails_in_use: bool,
    /// The card's range it is judged by, by its place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub range: Option<usize>,
}

/// An error and its expanded uncertainty, both in % of the known resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RelativeError {
    /// Error, %.
    pub error_percent: f64,
    /// U of it, %.
    pub expanded_percent: f64,
}

impl PointResult {
    /// Its error as a share of the known resistance; `None` where the reference cannot be used, or nothing is budgeted.
    #[must_use]
    pub fn relative_error(&self) -> Option<RelativeError> {
        let known = self.known_ohm?.0.to_f64().filter(|known| *known > 0.0)?;
        Some(RelativeError {
            error_percent: self.error_ohm?.0.to_f64()? / known * 100.0,
            expanded_percent: self.budget.as_ref()?.expanded / known * 100.0,
        })
    }

    /// The known resistance; where the reference cannot be used, what is marked on it.
    pub(super) fn known_or_nominal(&self) -> Ohms {
        self.known_ohm.unwrap_or(self.resistor.nominal_ohm)
    }

    /// Decides, for a point that is no reference point, whether it is further off than the operating uncertainty may be:
    /// what is permitted at reference conditions is not asked of it.
    pub(super) fn look_at_use(&mut self, most: Percent) {
        let Some(known) = self.known_ohm.filter(|_| !self.base) else { return };
        let off = |shown: &Shown| magnitude(shown.comparator, shown.ohms().0 - known.0);
        let may = |shown: &Shown| shown.ohms().0.checked_mul(most.0)?.checked_div(Decimal::ONE_HUNDRED);
        let permitted = self.permitted.map_or(Decimal::ZERO, |it| it.within_ohm.0);
        self.fails_in_use = self.shown.iter().any(|shown| off(shown) > may(shown).unwrap_or_default().max(permitted));
    }
}

/// Scatter of the repeated points of one test voltage and series, relative to the indication: Σν·s² / Σν.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pooled {
    relative: f64,
    dof: f64,
}

pub(super) fn pooled(groups: &[Group<'_>]) -> Option<Pooled> {
    let repeated = groups.iter().filter_map(|group| {
        let (mean, s) = spread(&exact(group)?)?;
        (mean > 0.0).then(|| (s / mean, count(group.items.len()) - 1.0))
    });
    let (sum, dof) = repeated.fold((0.0, 0.0), |(sum, dof), (s, nu)| (nu.mul_add(s * s, sum), dof + nu));
    (dof > 0.0).then(|| Pooled { relative: (sum / dof).sqrt(), dof })
}

/// The indications of a group as numbers, where all are exact.
fn exact(group: &Group<'_>) -> Option<Vec<f64>> {
    let all = group.items.iter();
    all.map(|(_, s)| (s.comparator == Comparator::Exact).then(|| float(s.ohms().0))).collect()
}

/// What a group comes to.
pub(super) fn point(
    group: &Group<'_>,
    used: &Used<'_>,
    card: Option<&VoltageCard>,
    rule: DecisionRule,
    pooled: Option<Pooled>,
) -> PointResult {
    let (comparator, indicated) = indicated(group);
    let conditions = Conditions { supply: group.supply, position: group.position, temperature_c: used.temperature };
    let mut result = PointResult {
        measured: group.items.iter().map(|(one, _)| one.id).collect(),
        conditions,
        base: false,
        resistor: group.resistor,
        across: group.across,
        alone_ohm: None,
        known_ohm: None,
        shown: group.items.iter().map(|(_, shown)| *shown).collect(),
        indicated_ohm: Ohms(indicated),
        comparator: comparator.unwrap_or_default(),
        error_ohm: None,
        error_percent: None,
        permitted: None,
        budget: None,
        ratio: None,
        decision: None,
        undecided: None,
        remarks: Vec::new(),
        fails_in_use: false,
        range: None,
    };
    let meter = group.across.map(|id| used.reference(id)).transpose();
    match meter.and_then(|meter| used.at_terminals(Some(group.resistor), meter)) {
        Err(why) => result.undecided = Some(why),
        Ok(known) => {
            let temperature = used.temperature.filter(|_| group.warmth == Warmth::Other);
            result.remarks.clone_from(&known.remarks);
            result
                .remarks
                .extend(temperature.map(|temperature_c| PointRemark::OutsideReferenceTemperature { temperature_c }));
            result.alone_ohm = known.alone;
            result.known_ohm = Some(known.ohm);
            let error = indicated - known.ohm.0;
            result.error_ohm = Some(Ohms(error));
            result.error_percent = (error / known.ohm.0)
                .checked_mul(Decimal::ONE_HUNDRED)
                .map(|percent| Percent(percent.round_dp(3).normalize()));
            judge_point(&mut result, group, &known, card, rule, pooled);
            // One repeat that does not conform by itself decides, whatever the others showed.
            if comparator.is_none() && result.decision != Some(Decision::DoesNotConform) {
                result.decision = None;
                result.undecided = Some(WhyUndecided::MixedRepeats);
            }
        }
    }
    result
}

/// Fills in what is permitted, the budget and the decision.
fn judge_point(
    result: &mut PointResult,
    group: &Group<'_>,
    known: &AtTerminals,
    card: Option<&VoltageCard>,
    rule: DecisionRule,
    pooled: Option<Pooled>,
) {
    let indicated = result.indicated_ohm.0;
    let range = card.and_then(|card| range(card, group, known.ohm));
    result.range = range.map(|(i, _)| i);
    let last_digit = group.items.iter().map(|(_, shown)| shown.last_digit().0).max().unwrap_or_default();
    let step = range.map_or(last_digit, |(_, range)| range.resolution_ohm.0.max(last_digit));

    let mut inputs: Vec<Input<Influence>> = known.inputs.clone();
    if result.comparator == Comparator::Exact {
        inputs.push(Input::rectangular(Influence::Resolution, 0.0, float(step) / 2.0));
        let own = exact(group).and_then(|v| Input::repeated(Influence::Repeatability { pooled: false }, &v));
        let taken_over = || {
            let pooled = pooled?;
            let what = Influence::Repeatability { pooled: true };
            Some(Input::normal(what, 0.0, pooled.relative * float(indicated), 1.0).with_dof(pooled.dof))
        };
        match own.or_else(taken_over) {
            Some(input) => inputs.push(input),
            None => result.remarks.push(PointRemark::RepeatabilityNotTested),
        }
    }
    let of_reference: f64 = known.inputs.iter().map(|i| (i.sensitivity * i.standard).powi(2)).sum::<f64>().sqrt();
    let budget = Budget::combine(inputs);

    let permitted = range.ok_or(WhyUndecided::OutsideCard).and_then(|(_, range)| permitted(range, indicated));
    match permitted {
        Err(why) => result.undecided = Some(why),
        Ok(permitted) => {
            let allowed = permitted.within_ohm.0;
            let decide =
                |shown: Decimal, comparator, u| rule.at_most(magnitude(comparator, shown - known.ohm.0), allowed, u);
            let mut decision = decide(indicated, result.comparator, budget.expanded);
            let each = group.items.iter().map(|(_, s)| decide(s.ohms().0, s.comparator, budget.expanded));
            if let Some(worst) = each.max().filter(|worst| decision.is_within() && !worst.is_within()) {
                decision = worst;
                result.remarks.push(PointRemark::RepeatOutside);
            }
            let ratio = float(allowed) / (2.0 * of_reference);
            if ratio < USUAL_RATIO {
                let error = float(magnitude(result.comparator, indicated - known.ohm.0));
                let probability = within(error, float(allowed), budget.standard);
                result.remarks.push(PointRemark::LowRatio { ratio, probability });
            }
            // Simple acceptance leans on a reference that is good enough; a guard has its uncertainty in it already.
            let leans = rule == DecisionRule::Simple && ratio < USUAL_RATIO;
            result.ratio = ratio.is_finite().then_some(ratio);
            result.permitted = Some(permitted);
            result.decision = Some(if known.lapsed || leans { decision.conditional() } else { decision });
        }
    }
    result.budget = Some(budget);
}

/// Mean and comparator of the repeats; over- or under-range, the bound furthest from the rest. `None`: exact ones and
/// others are mixed.
fn indicated(group: &Group<'_>) -> (Option<Comparator>, Decimal) {
    let ohms = || group.items.iter().map(|(_, shown)| shown.ohms().0);
    let first = group.items.first().map(|(_, shown)| shown.comparator);
    let same = group.items.iter().all(|(_, shown)| Some(shown.comparator) == first);
    let figure = match first {
        Some(Comparator::MoreThan) => ohms().max(),
        Some(Comparator::LessThan) => ohms().min(),
        // A sum of repeats is no larger than the largest times their number.
        _ => ohms()
            .try_fold(Decimal::ZERO, |sum, ohm| sum.checked_add(ohm))
            .map(|sum| (sum / Decimal::from(group.items.len().max(1))).normalize()),
    };
    (first.filter(|_| same), figure.unwrap_or_default())
}

/// How far an error reaches. `> x` errs only where x is above the known resistance (it conforms where R + permitted ≥ x),
/// `< x` only where x is below it.
fn magnitude(comparator: Comparator, error: Decimal) -> Decimal {
    match comparator {
        Comparator::Exact => error.abs(),
        Comparator::MoreThan => error.max(Decimal::ZERO),
        Comparator::LessThan => (-error).max(Decimal::ZERO),
    }
}

/// Permitted at an indication; undecided where the card states no accuracy.
fn permitted(range: &Range, indicated: Decimal) -> Result<Permitted, WhyUndecided> {
    let percent = range.accuracy_percent.ok_or(WhyUndecided::NoStatedAccuracy)?;
    let digits = range.accuracy_digits.unwrap_or(0);
    let resolution_ohm = range.resolution_ohm;
    let share = indicated.checked_mul(percent.0).and_then(|p| p.checked_div(Decimal::ONE_HUNDRED));
    let steps = resolution_ohm.0.checked_mul(Decimal::from(digits));
    let within = share.zip(steps).and_then(|(share, steps)| share.checked_add(steps));
    let within_ohm = Ohms(within.ok_or(WhyUndecided::BeyondArithmetic)?);
    Ok(Permitted { percent, digits, resolution_ohm, within_ohm })
}

/// The card's range an indication was shown in: of those that hold it, the one with its last digit, else the first. An
/// indication no range holds is judged by the range that holds the known resistance; over-range, by the highest. Repeats
/// on both sides of a range change are judged by the finer one, which permits less.
fn range<'a>(card: &'a VoltageCard, group: &Group<'_>, known: Ohms) -> Option<(usize, &'a Range)> {
    let ranges = || card.ranges.iter().enumerate().filter(|(_, r)| reckonable_range(r));
    let holding = |ohms: Ohms| ranges().filter(move |(_, r)| r.from_ohm <= ohms && ohms <= r.to_ohm);
    let of = |shown: Shown| {
        let in_its_step = holding(shown.ohms()).find(|(_, r)| r.resolution_ohm == shown.last_digit());
        let highest = || ranges().max_by_key(|(_, r)| r.to_ohm).filter(|(_, r)| shown.ohms() > r.to_ohm);
        in_its_step
            .or_else(|| holding(shown.ohms()).next())
            .or_else(|| holding(known).next())
            .or_else(|| if shown.comparator == Comparator::MoreThan { highest() } else { None })
    };
    let each = group.items.iter().filter_map(|(_, shown)| of(*shown));
    each.min_by_key(|(place, r)| (r.resolution_ohm, *place))
}

fn reckonable_range(range: &Range) -> bool {
    let figures = [range.from_ohm.0, range.to_ohm.0, range.resolution_ohm.0];
    figures.into_iter().chain(range.accuracy_percent.map(|p| p.0)).all(reckonable)
}

/// How sure it is that an error is within ±permitted, normal distribution (JCGM 106:2012, memory-H).
fn within(error: f64, permitted: f64, standard: f64) -> f64 {
    let Ok(normal) = Normal::new(error, standard) else { return if error <= permitted { 1.0 } else { 0.0 } };
    normal.cdf(permitted) - normal.cdf(-permitted)
}
