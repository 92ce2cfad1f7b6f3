//! What a tester's history says of one reading: its state, why, and which statement is relied on.

use super::prepared::Prepared;
use super::timeline::{Backing, Failure, backward, forward};
use super::{Claim, Question, Statement};
use crate::ids::VerificationId;
use crate::judgement::{TesterReason, TesterRemark, TesterState};
use crate::moment::{Instant, Moment};
use crate::quantity::Ohms;

/// The tester's part of a judgement, with the statement that the value may rely on.
#[derive(Clone, Debug)]
pub(crate) struct Standing<'a> {
    pub(crate) state: TesterState,
    /// The deciding reason first.
    pub(crate) reasons: Vec<TesterReason>,
    pub(crate) remarks: Vec<TesterRemark>,
    pub(crate) relied: Option<Relied<'a>>,
}

/// The good statement relied on: never a failed, silent or later one.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Relied<'a> {
    pub(crate) verification: VerificationId,
    pub(crate) statement: &'a Statement,
    pub(crate) claim: Claim,
    pub(crate) lapsed: bool,
}

impl Prepared {
    /// The state of the tester for a reading taken at that moment.
    ///
    /// 1. The last non-silent statement at or before it failed, or what failed was not found good since: *barred*.
    /// 2. Else, of the good ones since the last failed one and the last adjustment: any in date, *proved*; all out of
    ///    date, *lapsed*; none, *not proved*.
    /// 3. The next non-silent as-found statement after it failed: *in doubt*. It is good: *found good afterwards*, for
    ///    lapsed and not proved only. An adjustment that comes first leaves it "not confirmable".
    ///
    /// Shown is the first of barred, in doubt, found good afterwards, not proved, lapsed, proved; the rest stay as
    /// reasons. A good quick check ends the look back of a later failure; a later good statement looks past it, since
    /// a check that confirms nothing takes no confirmation away.
    pub(crate) fn standing(&self, at: Moment, q: &Question) -> Standing<'_> {
        let instant = at.to_utc();
        let past = forward(self, instant, q);
        let future = backward(self, instant, q);

        let mut reasons: Vec<(TesterState, TesterReason)> = Vec::new();
        reasons.extend(past.open.iter().map(|f| (TesterState::Barred, before(f))));
        if let Some(failure) = &future.failed {
            reasons.push((TesterState::InDoubt, after(failure)));
        }

        let mut relied = None;
        let mut remarks = Vec::new();
        if past.open.is_empty() {
            let best = past.good.iter().max_by_key(|b| rank(b, b.proof.in_date(instant)));
            let (state, because) = match best {
                Some(b) => relied_on(b, at),
                None => (TesterState::NotProved, past.why_not(q)),
            };
            if let (Some(proof), TesterState::Lapsed | TesterState::NotProved) = (future.good, state) {
                let reason = TesterReason::GoodAfter { verification: proof.id, made: proof.made };
                reasons.push((TesterState::FoundGoodAfterwards, reason));
            }
            reasons.extend(because.into_iter().map(|r| (state, r)));
            if let Some(b) = best {
                remarks = b.testimony.remarks(q, b.claim);
                let carried = past.known_failures.iter().map(|&r| TesterRemark::RequirementFailed { requirement: r });
                let new: Vec<_> = carried.filter(|r| !remarks.contains(r)).collect();
                remarks.extend(new);
                relied = Some(Relied {
                    verification: b.proof.id,
                    statement: &b.testimony.statement,
                    claim: b.claim,
                    lapsed: state == TesterState::Lapsed,
                });
            }
        }

        reasons.sort_by_key(|(state, _)| std::cmp::Reverse(*state));
        let state = reasons.first().map_or(TesterState::NotProved, |(state, _)| *state);
        let mut reasons: Vec<TesterReason> = reasons.into_iter().map(|(_, reason)| reason).collect();
        if let Some(verification) = future.adjusted_by {
            reasons.push(TesterReason::NotConfirmable { verification });
        }
        Standing { state, reasons, remarks, relied }
    }
}

/// Which of several good statements is relied on: one in date, that backs the indication furthest, the latest made,
/// the last in the order of ids.
fn rank(b: &Backing<'_>, in_date: bool) -> (bool, (u8, Option<Ohms>), Instant, VerificationId) {
    let claim = match b.claim {
        Claim::Whole => (2, None),
        Claim::AtMost(top) => (1, Some(top)),
        Claim::NotAbove(_) => (0, None),
    };
    (in_date, claim, b.proof.good_from, b.proof.id)
}

/// Proved while it is in date, lapsed after.
fn relied_on(b: &Backing<'_>, at: Moment) -> (TesterState, Vec<TesterReason>) {
    let proof = b.proof;
    let verification = proof.id;
    match proof.valid_until.filter(|_| proof.in_date(at.to_utc())) {
        Some(valid_until) => {
            let recorded_later = Some(proof.recorded_at).filter(|recorded| *recorded > at);
            let reason = TesterReason::ProvedBy { verification, made: proof.made, valid_until, recorded_later };
            (TesterState::Proved, vec![reason])
        }
        None => (TesterState::Lapsed, vec![TesterReason::LapsedOn { verification, valid_until: proof.valid_until }]),
    }
}

fn before(failure: &Failure<'_>) -> TesterReason {
    match failure {
        Failure::Found { proof, failing } => TesterReason::FailedBefore {
            verification: proof.id,
            made: proof.made,
            requirement: failing.requirement(),
            point_ohm: failing.point(),
        },
        Failure::Check { check, .. } => TesterReason::QuickCheckFailedBefore { check: check.id, at: check.at },
        Failure::Damage(damage) => {
            TesterReason::DamagedBefore { damage: damage.id, at: damage.happened.unwrap_or(damage.found) }
        }
    }
}

fn after(failure: &Failure<'_>) -> TesterReason {
    match failure {
        Failure::Found { proof, failing } => TesterReason::FailedAfter {
            verification: proof.id,
            made: proof.made,
            requirement: failing.requirement(),
            point_ohm: failing.point(),
        },
        Failure::Check { check, .. } => TesterReason::QuickCheckFailedAfter { check: check.id, at: check.at },
        Failure::Damage(damage) => TesterReason::DamagedAfter { damage: damage.id, at: damage.found },
    }
}
