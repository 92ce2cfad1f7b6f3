//! What is said of how a reading was taken, beside its test voltage.

use super::{Asked, Median};
use crate::circuit::Loads;
use crate::judgement::{GuardSource, MethodReason, Value, ValueJudgement};
use crate::quantity::Comparator;
use crate::tester::Prepared;

/// Every reason, in no particular order.
pub(super) fn method(asked: &Asked<'_>, value: &ValueJudgement) -> Vec<MethodReason> {
    let Asked { reading, wanted, known, .. } = asked;
    let mut said = Vec::new();
    let mut add = |holds: bool, reason: MethodReason| {
        if holds {
            said.push(reason);
        }
    };
    add(known.needs_newer_version, MethodReason::NeedsNewerVersion);
    add(wanted.forbidden, MethodReason::ForbiddenPair);
    add(wanted.no_such_conductor, MethodReason::NoSuchConductor);
    add(reading.conditions.n_isolated == Some(false), MethodReason::NeutralNotIsolated);
    add(reading.conditions.loads != Loads::Out, MethodReason::LoadsConnected);
    add(known.doubtful_clock, MethodReason::DoubtfulClock);
    let reference_conditions = value.guard.as_ref().is_some_and(|g| matches!(g.source, GuardSource::Accuracy { .. }));
    add(reference_conditions, MethodReason::AtReferenceConditions);
    if let Some(median) = known.median.filter(|m| m.is_far_above(reading.shown)) {
        let Median { ohms: median_ohm, comparator, readings } = median;
        add(true, MethodReason::FarBelowOthers { median_ohm, comparator, readings });
    }
    if let Some(days) = asked.policies.quick_check_days.filter(|_| reading.tester.is_some()) {
        let checked = asked.tester.is_some_and(|t| t.checked_within(reading.at, days, reading.test_voltage_v));
        add(!checked, MethodReason::NoQuickCheck { days });
    }
    if let Some(tester) = asked.tester {
        said.extend(leads(asked, tester, value.value));
        said.extend(display(asked, tester));
    }
    said
}

/// What the lead checks of the reading's own tester say of it.
fn leads(asked: &Asked<'_>, tester: &Prepared, value: Value) -> impl Iterator<Item = MethodReason> {
    let reading = asked.reading;
    let doubt = match value {
        Value::Meets => tester.shorted_doubt(reading.at).map(|(check, at)| MethodReason::LeadsInDoubt { check, at }),
        Value::Below | Value::TooClose => {
            tester.open_doubt(reading.at).map(|(check, at)| MethodReason::LeadsMayReadLow { check, at })
        }
        Value::CannotBeJudged => None,
    };
    // over-range is also what an open lead shows
    let over_range = reading.shown.comparator == Comparator::MoreThan;
    let unchecked = over_range && !tester.leads_checked(reading.at);
    doubt.into_iter().chain(unchecked.then_some(MethodReason::LeadsNotChecked))
}

/// What the tester's card says of the digits: coarser or finer than every range that holds them, or above all it can
/// show.
fn display(asked: &Asked<'_>, tester: &Prepared) -> Option<MethodReason> {
    let shown = asked.reading.shown;
    let card = tester.voltage_card(asked.reading.test_voltage_v).filter(|_| shown.comparator == Comparator::Exact)?;
    let ohms = shown.ohms();
    if let Some(limit) = card.over_range.filter(|limit| ohms > limit.ohms()) {
        return Some(MethodReason::AboveTesterLimit { limit });
    }
    let holding = card.ranges.iter().filter(|r| r.from_ohm <= ohms && ohms <= r.to_ohm);
    let steps = holding.map(|r| r.resolution_ohm);
    let (finest, coarsest) = (steps.clone().min()?, steps.max()?);
    if shown.last_digit() > coarsest {
        return Some(MethodReason::FewerDigits { resolution_ohm: coarsest });
    }
    (shown.last_digit() < finest).then_some(MethodReason::MoreDigits { resolution_ohm: finest })
}
