//! The events of one tester in the order in which they count for one indication, looking forward and back.

use super::coverage::{Claim, Outside};
use super::prepared::Prepared;
use super::proof::Proof;
use super::statement::{Failing, Question, Says, Silence, Testimony};
use super::{Damage, QuickCheck, RequirementName};
use crate::ids::VerificationId;
use crate::judgement::TesterReason;
use crate::moment::{Instant, When};
use crate::policy::TesterPolicy;
use crate::quantity::Ohms;
use uuid::Uuid;

/// Something that failed, and where that stands.
#[derive(Clone, Copy, Debug)]
pub(super) enum Failure<'a> {
    Found {
        proof: &'a Proof,
        failing: Failing,
    },
    Check {
        check: &'a QuickCheck,
        /// What is asked about may be a resistance that the check was shown too high.
        shown_high: bool,
    },
    Damage(&'a Damage),
}

impl Failure<'_> {
    fn id(&self) -> (Uuid, Failing) {
        match self {
            Failure::Found { proof, failing } => (proof.id.0, *failing),
            Failure::Check { check, .. } => (check.id.0, Failing::Everywhere),
            Failure::Damage(damage) => (damage.id.0, Failing::Everywhere),
        }
    }
}

/// A good statement at or before the reading.
#[derive(Clone, Copy, Debug)]
pub(super) struct Backing<'a> {
    pub(super) proof: &'a Proof,
    pub(super) testimony: &'a Testimony,
    pub(super) claim: Claim,
}

impl Backing<'_> {
    /// Whether it tests again what failed and finds it good. A resistance is tested again when the indication itself
    /// lies in an interval, or the failed resistance was found good; a cut claim ("no more than the top", "not above
    /// the bottom") mends only a failure that named no resistance. One that was shown too high must itself be found
    /// good.
    fn mends(&self, failure: &Failure<'_>) -> bool {
        let whole = self.claim == Claim::Whole;
        let good_at = |ohms: Ohms| self.testimony.found_good_at(ohms);
        match failure {
            Failure::Found { failing: Failing::Everywhere, .. } | Failure::Damage(_) => true,
            Failure::Found { failing: Failing::Point(point), .. } => whole || good_at(*point),
            Failure::Found { failing: Failing::ShownHigh(point), .. } => good_at(*point),
            Failure::Found { failing, .. } => self.testimony.meets_again(*failing),
            Failure::Check { check, shown_high } => {
                (whole && !shown_high) || (good_at(check.from_ohm) && good_at(check.to_ohm))
            }
        }
    }
}

/// What stands at the reading.
#[derive(Default)]
pub(super) struct Past<'a> {
    /// What bars: failures not found good since, the latest first.
    pub(super) open: Vec<Failure<'a>>,
    /// Good statements since the last failed one and since the last adjustment.
    pub(super) good: Vec<Backing<'a>>,
    /// Requirements known to fail that do not bar (indications only, or a figure from memory).
    pub(super) known_failures: Vec<RequirementName>,
    /// The adjustment that ended a proof.
    adjusted: Option<When>,
    /// The last silent statement, and whether any verification stands at or before the reading.
    silent: Option<(VerificationId, Silence)>,
}

/// What comes after the reading.
#[derive(Default)]
pub(super) struct Future<'a> {
    pub(super) failed: Option<Failure<'a>>,
    pub(super) good: Option<&'a Proof>,
    /// The adjustment that came before any as-found statement.
    pub(super) adjusted_by: Option<VerificationId>,
}

/// What counts at or before the reading.
enum Event<'a> {
    Failed(Failure<'a>, Option<&'a Testimony>),
    Good(Backing<'a>),
    Adjusted(&'a Proof),
    Silent(&'a Proof, Option<&'a Testimony>, Silence),
}

/// What comes after it and speaks of the tester as found.
enum Next<'a> {
    Failed(Failure<'a>),
    Good(&'a Proof),
    Adjusted(&'a Proof),
}

/// Where an event stands. At one instant, earlier begun ones come first; then those that leave the tester good before
/// those that leave it failed (looking back the other way round), so that a tie is never to the tester's favour.
type Place = (Instant, Instant, bool, Uuid, u8);

/// Runs through what counts at or before the reading.
pub(super) fn forward<'a>(tester: &'a Prepared, at: Instant, q: &Question) -> Past<'a> {
    let failed = failures(tester, q, Look::Forward).filter(|(place, _)| place.0 <= at);
    let mut events: Vec<(Place, Event<'a>)> = failed.map(|(place, f)| (place, Event::Failed(f, None))).collect();
    for proof in tester.proofs.iter().filter(|p| p.failure_from <= at) {
        for answer in proof.ask(q) {
            let left = answer.left_says(proof.adjusted);
            let ends_failed = match &left {
                Ok((_, Says::Failed(_))) => true,
                Ok((_, Says::Good(_))) => false,
                _ => answer.found_failing(proof.adjusted).is_some(),
            };
            let mut add = |from: Instant, phase: u8, event: Event<'a>| {
                if from <= at {
                    events.push(((from, proof.failure_from, ends_failed, proof.id.0, phase), event));
                }
            };
            if let Some(failing) = answer.found_failing(proof.adjusted) {
                let testimony = answer.found.as_ref().map(|(t, _)| *t);
                add(proof.failure_from, 0, Event::Failed(Failure::Found { proof, failing }, testimony));
            }
            if proof.adjusted {
                add(proof.good_from, 1, Event::Adjusted(proof));
            }
            match left {
                Ok((t, Says::Failed(failing))) => {
                    add(proof.failure_from, 2, Event::Failed(Failure::Found { proof, failing }, Some(t)));
                }
                Ok((testimony, Says::Good(claim))) => {
                    add(proof.good_from, 2, Event::Good(Backing { proof, testimony, claim }));
                }
                Ok((t, Says::Silent(why))) => add(proof.good_from, 2, Event::Silent(proof, Some(t), why)),
                Err(why) => add(proof.good_from, 2, Event::Silent(proof, None, why)),
            }
        }
    }
    events.sort_by_key(|(place, _)| *place);
    events.into_iter().fold(Walk::default(), |walk, (_, event)| walk.step(event, q)).past()
}

/// The first thing after the reading that speaks of it as found.
pub(super) fn backward<'a>(tester: &'a Prepared, at: Instant, q: &Question) -> Future<'a> {
    let failed = failures(tester, q, Look::Back).filter(|(place, _)| place.0 > at);
    let mut events: Vec<(Place, Next<'a>)> = failed.map(|(place, f)| (place, Next::Failed(f))).collect();
    for proof in tester.proofs.iter().filter(|p| p.good_from > at) {
        for answer in proof.ask(q) {
            let failing = answer.found_failing(proof.adjusted);
            let mut add = |from: Instant, phase: u8, event: Next<'a>| {
                if from > at {
                    events.push(((from, proof.failure_from, failing.is_none(), proof.id.0, phase), event));
                }
            };
            if let Some(failing) = failing {
                add(proof.failure_from, 0, Next::Failed(Failure::Found { proof, failing }));
            } else if answer.found_good(proof.adjusted) {
                add(proof.good_from, 0, Next::Good(proof));
            }
            if proof.adjusted {
                add(proof.good_from, 1, Next::Adjusted(proof));
            }
        }
    }
    match events.into_iter().min_by_key(|(place, _)| *place) {
        Some((place, Next::Failed(failure))) => {
            let ended = tester.checked_good_between(at, place.0, q.volts, q.ohms);
            Future { failed: Some(failure).filter(|_| !ended), ..Future::default() }
        }
        Some((_, Next::Good(proof))) => Future { good: Some(proof), ..Future::default() },
        Some((_, Next::Adjusted(proof))) => Future { adjusted_by: Some(proof.id), ..Future::default() },
        None => Future::default(),
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Look {
    Forward,
    Back,
}

/// Failed quick checks that touch the indication, and damage: with a known instant it bars from it and looks back on
/// nothing, without one it is an as-found failure everywhere.
fn failures<'a>(tester: &'a Prepared, q: &Question, look: Look) -> impl Iterator<Item = (Place, Failure<'a>)> {
    let last = look == Look::Forward;
    let (volts, comparator, ohms) = (q.volts, q.comparator, q.ohms);
    let at_voltage = tester.failed_checks.iter().filter(move |c| c.check.test_voltage_v == volts);
    let checks = at_voltage.filter(move |c| c.speaks_for(comparator, ohms)).map(move |c| {
        let instant = c.check.at.to_utc();
        let shown_high = c.points.shown_here(comparator, ohms).is_some();
        ((instant, instant, last, c.check.id.0, 0), Failure::Check { check: &c.check, shown_high })
    });
    let damages = tester.damages.iter().filter(move |d| last || d.happened.is_none()).map(move |d| {
        let instant = d.happened.unwrap_or(d.found).to_utc();
        ((instant, instant, last, d.id.0, 0), Failure::Damage(d))
    });
    checks.chain(damages)
}

/// The walk through the events up to the reading.
#[derive(Default)]
struct Walk<'a> {
    past: Past<'a>,
    /// The last non-silent statement, if it failed.
    last: Option<Failure<'a>>,
}

impl<'a> Walk<'a> {
    fn step(mut self, event: Event<'a>, q: &Question) -> Self {
        let past = &mut self.past;
        match event {
            Event::Failed(failure, testimony) => {
                if let Some(t) = testimony {
                    past.learn(t, q.policy);
                }
                past.open.retain(|f| f.id() != failure.id());
                past.open.push(failure);
                past.good.clear();
                past.silent = None;
                self.last = Some(failure);
            }
            Event::Good(backing) => {
                past.learn(backing.testimony, q.policy);
                past.open.retain(|f| !backing.mends(f));
                past.good.push(backing);
                self.last = None;
            }
            Event::Adjusted(proof) => {
                if !past.good.is_empty() {
                    past.adjusted = Some(proof.made);
                }
                past.good.clear();
                past.silent = None;
            }
            Event::Silent(proof, testimony, why) => {
                if let Some(t) = testimony.filter(|_| why != Silence::ConditionalFail) {
                    past.learn(t, q.policy);
                    past.open.retain(|f| !matches!(f, Failure::Found { failing, .. } if t.meets_again(*failing)));
                }
                let names_more = why != Silence::VoltageNotNamed;
                if names_more || past.silent.is_none() {
                    past.silent = Some((proof.id, why));
                }
            }
        }
        self
    }

    /// The last statement bars by itself, even where a silent one has found its requirement met since.
    fn past(self) -> Past<'a> {
        let mut past = self.past;
        past.open.reverse();
        if let Some(last) = self.last.filter(|last| past.open.iter().all(|f| f.id() != last.id())) {
            past.open.insert(0, last);
        }
        past
    }
}

impl Past<'_> {
    /// Keeps the requirements known to fail that do not make a statement failed.
    fn learn(&mut self, t: &Testimony, policy: TesterPolicy) {
        let s = &t.statement;
        self.known_failures.retain(|&name| !s.finds_met(name));
        for (name, tag) in s.not_met() {
            let only_a_remark = tag.is_memory() || policy == TesterPolicy::IndicationsOnly;
            if only_a_remark && !self.known_failures.contains(&name) {
                self.known_failures.push(name);
            }
        }
    }

    /// Why the tester is not proved, the nearest to a proof first.
    pub(super) fn why_not(&self, q: &Question) -> Vec<TesterReason> {
        let silent = self.silent.as_ref().map(|(verification, why)| {
            let verification = *verification;
            match why {
                Silence::VoltageNotNamed => TesterReason::VoltageNotCovered { test_voltage_v: q.volts },
                Silence::Outside(Outside::Of(holds)) => TesterReason::OutsideProvedRange { holds: holds.clone() },
                Silence::Outside(Outside::NoRange) => TesterReason::NoRangeStated { verification },
                Silence::Outside(Outside::LowEndNotTested) => TesterReason::LowEndNotTested { verification },
                Silence::ConditionalFail => TesterReason::ConditionallyFailed { verification },
                Silence::NotAllTested => TesterReason::NotAllTested { verification },
            }
        });
        let adjusted = self.adjusted.map(|made| TesterReason::AdjustedSince { made });
        let mut reasons: Vec<TesterReason> = silent.into_iter().chain(adjusted).collect();
        // an adjustment says more than a paper that does not name the voltage
        reasons.sort_by_key(|r| matches!(r, TesterReason::VoltageNotCovered { .. }));
        if reasons.is_empty() { vec![TesterReason::NothingOnRecord] } else { reasons }
    }
}

impl Failing {
    pub(super) const fn requirement(self) -> Option<RequirementName> {
        if let Self::Requirement(name) = self { Some(name) } else { None }
    }

    pub(super) const fn point(self) -> Option<Ohms> {
        if let Self::Point(ohms) | Self::ShownHigh(ohms) = self { Some(ohms) } else { None }
    }
}
