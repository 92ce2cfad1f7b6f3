//! The requirements of the tester standard, from what was measured.

use super::known::{Used, float};
use super::load::{LoadKind, most_open_circuit};
use super::operating::Operating;
use super::result::{CurrentResult, RequirementFound, WhyNotTested};
use super::{Decision, LoadResult, WhyUndecided};
use crate::bench::{DecisionRule, Supply};
use crate::limits::Source;
use crate::tester::{RequirementName, RequirementResult};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

/// One measurement that speaks for a requirement.
struct Candidate {
    decision: Decision,
    found: f64,
    expanded: f64,
    /// Under conditions at which a requirement may be called met.
    counts: bool,
}

/// All requirements, in the order of [`RequirementName::ALL`].
pub(super) fn requirements(
    used: &Used<'_>,
    rule: DecisionRule,
    operating: &Operating,
    loads: &[LoadResult],
    currents: &[CurrentResult],
    undecided_currents: &[WhyUndecided],
) -> Vec<RequirementFound> {
    let edition = used.edition;
    let open_circuit = most_open_circuit(used).unwrap_or_default();
    vec![
        by_operating(used, rule, operating),
        by_load(
            RequirementName::OpenCircuitVoltage,
            (open_circuit, &edition.open_circuit_factor.source),
            loads.iter().filter(|l| l.kind == LoadKind::OpenCircuit),
            |l| l.voltage_v.as_ref().map(|v| (v.value, v.budget.expanded)),
        ),
        by_load(
            RequirementName::RatedCurrent,
            (edition.rated_current_a.value.0, &edition.rated_current_a.source),
            loads.iter().filter(|l| l.kind == LoadKind::Rated || (l.kind == LoadKind::Further && l.decision.is_some())),
            |l| l.least_current_a.as_ref().map(|c| (c.value, c.budget.expanded)),
        ),
        by_current(used, currents, undecided_currents),
    ]
}

fn by_operating(used: &Used<'_>, rule: DecisionRule, operating: &Operating) -> RequirementFound {
    let asked = &used.edition.operating_uncertainty_percent;
    let candidates = operating.at.iter().map(|at| {
        let b = Decimal::from_f64(at.operating).unwrap_or(Decimal::MAX);
        let decision = rule.at_most(b, asked.value.0, at.expanded);
        Candidate {
            decision,
            found: at.operating,
            expanded: at.expanded,
            counts: operating.untested.is_empty() && !at.at_least,
        }
    });
    let why = operating.untested.iter().map(|part| WhyNotTested::PartNotTested { part: *part });
    let name = RequirementName::OperatingUncertainty;
    found(name, (asked.value.0, &asked.source), candidates.collect(), why.collect())
}

fn by_load<'a>(
    name: RequirementName,
    asked: (Decimal, &Source),
    loads: impl Iterator<Item = &'a LoadResult>,
    figure: impl Fn(&LoadResult) -> Option<(f64, f64)>,
) -> RequirementFound {
    let (mut candidates, mut why) = (Vec::new(), Vec::new());
    for load in loads {
        why.extend(load.undecided.map(|reason| WhyNotTested::Undecided { reason }));
        let figures = load.decision.zip(figure(load));
        let counts = load.conditions.supply == Supply::Nominal;
        candidates.extend(figures.map(|(decision, (found, expanded))| Candidate { decision, found, expanded, counts }));
    }
    found(name, asked, candidates, why)
}

fn by_current(used: &Used<'_>, currents: &[CurrentResult], undecided: &[WhyUndecided]) -> RequirementFound {
    let edition = used.edition;
    // Too much ripple, or so much that it is too close to call, is what the measuring current is judged by; little of it
    // alone proves nothing.
    let worst = |ripple: bool| currents.iter().filter(|c| c.ripple == ripple).map(|c| c.decision).max();
    let ripple = worst(true).filter(|ripple| !ripple.is_within() && Some(*ripple) >= worst(false));
    let (figure, counts_ripple) = ripple.map_or((&edition.most_current_a, false), |_| (&edition.most_ripple_a, true));
    let candidates = currents.iter().filter(|c| c.ripple == counts_ripple).map(|c| Candidate {
        decision: c.decision,
        found: c.current_a.value,
        expanded: c.current_a.budget.expanded,
        counts: true,
    });
    let why = undecided.iter().map(|reason| WhyNotTested::Undecided { reason: *reason }).collect();
    let name = RequirementName::ShortCircuitCurrent;
    found(name, (figure.value.0, &figure.source), candidates.collect(), why)
}

/// The worst measurement decides; met only by one that counts.
fn found(
    name: RequirementName,
    (asked, source): (Decimal, &Source),
    candidates: Vec<Candidate>,
    mut why: Vec<WhyNotTested>,
) -> RequirementFound {
    let far = |c: &Candidate| (c.found - float(asked)).abs();
    let worst = candidates.iter().max_by(|a, b| {
        // The larger figure is worse where a most is asked, the smaller one where a least is; past the bound, the further.
        let by_figure = if name == RequirementName::RatedCurrent {
            b.found.total_cmp(&a.found)
        } else {
            a.found.total_cmp(&b.found)
        };
        a.decision.cmp(&b.decision).then(by_figure).then(far(a).total_cmp(&far(b)))
    });
    let decision = worst.map(|c| c.decision);
    let result = match decision {
        Some(Decision::DoesNotConform) => RequirementResult::NotMet,
        Some(Decision::ConditionalFail) => RequirementResult::NotTested,
        Some(_) if candidates.iter().any(|c| c.counts) => RequirementResult::Met,
        _ => RequirementResult::NotTested,
    };
    if decision == Some(Decision::ConditionalFail) {
        why.push(WhyNotTested::TooCloseToCall);
    } else if result == RequirementResult::NotTested && why.is_empty() {
        why.push(WhyNotTested::NotMeasured);
    } else if result != RequirementResult::NotTested {
        why.clear();
    }
    RequirementFound {
        name,
        result,
        decision,
        found: worst.map(|c| c.found),
        expanded: worst.map(|c| c.expanded),
        asked,
        source: source.clone(),
        why,
    }
}
