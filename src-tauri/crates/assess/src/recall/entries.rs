//! The entries of a tester's history that put readings in doubt.

use crate::ids::{CheckId, DamageId, VerificationId};
use crate::judgement::TesterReason;
use crate::moment::{Instant, When};
use crate::tester::{Conforms, Outcome, ProofEvent, Statement, TesterHistory, Verification};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One entry that found a tester failed, or its damage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum FailingEntry {
    /// A verification that found it failed.
    Verification {
        /// Which.
        id: VerificationId,
    },
    /// A quick check that failed.
    QuickCheck {
        /// Which.
        id: CheckId,
    },
    /// Damage.
    Damage {
        /// Which.
        id: DamageId,
    },
}

impl FailingEntry {
    /// Every entry of a history that tells of a failure, the earliest first.
    #[must_use]
    pub fn of(history: &TesterHistory) -> Vec<Self> {
        let mut found: Vec<(Instant, Self)> = history
            .events
            .iter()
            .filter_map(|event| match event {
                ProofEvent::Verification(v) if tells_of_failure(v) => {
                    Some((v.made.failure_counts_from(), Self::of_event(event)))
                }
                ProofEvent::QuickCheck(q) if !q.good => Some((q.at.to_utc(), Self::of_event(event))),
                ProofEvent::Damage(d) => Some((d.happened.unwrap_or(d.found).to_utc(), Self::of_event(event))),
                ProofEvent::Verification(_) | ProofEvent::QuickCheck(_) => None,
            })
            .collect();
        found.sort_unstable();
        found.into_iter().map(|(_, entry)| entry).collect()
    }

    /// The entry an event is.
    pub(super) const fn of_event(event: &ProofEvent) -> Self {
        match event {
            ProofEvent::Verification(v) => Self::Verification { id: v.id },
            ProofEvent::QuickCheck(q) => Self::QuickCheck { id: q.id },
            ProofEvent::Damage(d) => Self::Damage { id: d.id },
        }
    }

    /// The entry a reason speaks of, if it is one that bars or puts in doubt, and when that was.
    pub(super) const fn of_reason(reason: &TesterReason) -> Option<(Self, When)> {
        match reason {
            TesterReason::FailedBefore { verification: id, made, .. }
            | TesterReason::FailedAfter { verification: id, made, .. } => Some((Self::Verification { id: *id }, *made)),
            TesterReason::QuickCheckFailedBefore { check: id, at }
            | TesterReason::QuickCheckFailedAfter { check: id, at } => {
                Some((Self::QuickCheck { id: *id }, When::At(*at)))
            }
            TesterReason::DamagedBefore { damage: id, at } | TesterReason::DamagedAfter { damage: id, at } => {
                Some((Self::Damage { id: *id }, When::At(*at)))
            }
            _ => None,
        }
    }
}

/// As a whole, or at some voltage as found or as left.
fn tells_of_failure(v: &Verification) -> bool {
    let statements = v.findings.iter().flat_map(|f| [&f.as_found, &f.as_left]).flatten();
    v.overall == Outcome::Failed || statements.into_iter().any(statement_fails)
}

fn statement_fails(s: &Statement) -> bool {
    s.outcome == Outcome::Failed
        || s.conforms == Conforms::No
        || s.not_met().next().is_some()
        || s.points.iter().any(|p| !p.good)
}
