//! What each verification of a tester found, as a share of what is permitted.

use crate::ids::VerificationId;
use crate::moment::When;
use crate::quantity::{Comparator, Ohms, Percent};
use crate::tester::{Card, Outcome, Point, ProofEvent, Statement, TesterHistory, Verification};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One verification, as found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct AsFound {
    /// The verification.
    pub verification: VerificationId,
    /// When made.
    pub made: When,
    /// The largest |error| over the permitted error, %, among its points within a range of the card whose accuracy is
    /// stated; absent: no such point.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub worst_share_percent: Option<Percent>,
    /// It found something failed.
    pub failed: bool,
}

/// What each verification of a tester says as found, the earliest first. One that states nothing as found, or only a
/// conditional fail, is left out.
#[must_use]
pub fn as_found(history: &TesterHistory) -> Vec<AsFound> {
    let mut all: Vec<AsFound> = history
        .events
        .iter()
        .filter_map(|event| match event {
            ProofEvent::Verification(v) => of_verification(v, history.card.as_ref()),
            ProofEvent::QuickCheck(_) | ProofEvent::Damage(_) => None,
        })
        .collect();
    all.sort_by_key(|one| (one.made.failure_counts_from(), one.verification));
    all
}

fn of_verification(v: &Verification, card: Option<&Card>) -> Option<AsFound> {
    let found = v.findings.iter().filter_map(|f| {
        let statement = f.as_found.as_ref().or_else(|| f.as_left.as_ref().filter(|_| !v.adjusted))?;
        Some((f.test_voltage_v, statement))
    });
    let (mut failed, mut stated, mut worst) = (v.overall == Outcome::Failed, v.overall == Outcome::Failed, None);
    for (volts, statement) in found {
        failed |= fails(statement);
        stated |= fails(statement) || statement.outcome == Outcome::Good || !statement.points.is_empty();
        let ranges = || card.into_iter().flat_map(|c| &c.voltages).filter(|c| c.test_voltage_v == volts);
        let shares = statement.points.iter().filter_map(|p| {
            let ranges = ranges().flat_map(|c| &c.ranges);
            let range = ranges.into_iter().find(|r| (r.from_ohm..=r.to_ohm).contains(&p.indicated.ohms()))?;
            let steps = range.resolution_ohm.0.checked_mul(range.accuracy_digits.unwrap_or(0).into())?;
            let permitted =
                p.indicated.ohms().0.checked_mul(range.accuracy_percent?.0)?.checked_div(Decimal::ONE_HUNDRED)?;
            share(p, Ohms(permitted.checked_add(steps)?))
        });
        worst = shares.chain(worst).max();
    }
    stated.then_some(AsFound {
        verification: v.id,
        made: v.made,
        worst_share_percent: worst.map(|share| Percent(share.normalize())),
        failed,
    })
}

fn fails(s: &Statement) -> bool {
    s.outcome == Outcome::Failed || s.points.iter().any(|p| !p.good) || s.not_met().next().is_some()
}

/// |error| over the permitted error, % to one decimal; over-range has no error.
fn share(point: &Point, permitted: Ohms) -> Option<Decimal> {
    if point.indicated.comparator != Comparator::Exact {
        return None;
    }
    let error = point.indicated.ohms().0.checked_sub(point.reference_ohm.0)?.abs();
    Some(error.checked_mul(Decimal::ONE_HUNDRED)?.checked_div(permitted.0)?.round_dp(1))
}
