//! What must hold of every reading and every history.

use crate::scene::*;
use proptest::prelude::*;
use proptest::sample::Index;
use provenohm_assess::judgement::{TesterState, Value};
use provenohm_assess::policy::TesterPolicy;
use provenohm_assess::quantity::{Comparator, Digits, Percent, Shown, Unit};
use provenohm_assess::tester::{Conforms, Holds, LeadEnd, Outcome, ProofEvent, Statement};

fn exact(hundredths: u32) -> Shown {
    Shown { comparator: Comparator::Exact, digits: Digits::new(hundredths, 2).expect("small"), unit: Unit::MegaOhm }
}

/// From the least to the most favourable.
fn rank(value: Value) -> u8 {
    match value {
        Value::Below => 0,
        Value::TooClose => 1,
        Value::Meets => 2,
        Value::CannotBeJudged => u8::MAX,
    }
}

fn statement() -> impl Strategy<Value = Statement> {
    let outcome = prop_oneof![
        4 => Just(Outcome::Good),
        2 => Just(Outcome::Failed),
        1 => Just(Outcome::ConditionalFail),
        1 => Just(Outcome::NotStated),
    ];
    let holds = prop_oneof![Just("0.1"), Just("1"), Just("10")].prop_map(|from| holds(&[(from, "1000")]).holds);
    let holds = prop_oneof![2 => holds, 1 => Just(Holds::NotStated)];
    let conforms = prop_oneof![3 => Just(Conforms::NotStated), 1 => Just(Conforms::Yes), 1 => Just(Conforms::No)];
    (outcome, holds, conforms, any::<bool>()).prop_map(|(outcome, holds, conforms, leads_shorted_good)| Statement {
        outcome,
        holds,
        conforms,
        leads_shorted_good,
        ..Statement::default()
    })
}

fn event(id: u128) -> impl Strategy<Value = Scene> {
    let month = 1_u32..=12;
    prop_oneof![
        4 => (month.clone(), any::<bool>(), statement(), statement()).prop_map(move |(m, adjusted, found, left)| {
            let proof = Proof::bench(id, &format!("2026-{m:02}-01"), "2026-09-30").found_and_left(found, left);
            Scene::bare("2.0").proof(if adjusted { proof.adjusted() } else { proof })
        }),
        1 => (month.clone(), any::<bool>()).prop_map(move |(m, good)| {
            Scene::bare("2.0").quick(id, "1", "100", &format!("2026-{m:02}-03T10:00"), good)
        }),
        1 => (month.clone(), any::<bool>()).prop_map(move |(m, known)| {
            let time = format!("2026-{m:02}-05T10:00");
            Scene::bare("2.0").damage(id, known.then_some(time.as_str()), &time)
        }),
        1 => (month, any::<bool>(), any::<bool>()).prop_map(move |(m, good, shorted)| {
            let leads = if shorted { LeadEnd::Shorted } else { LeadEnd::Open };
            Scene::bare("2.0").leads(id, leads, &format!("2026-{m:02}-07T10:00"), good)
        }),
    ]
}

pub fn history() -> impl Strategy<Value = Scene> {
    prop::collection::vec(any::<()>(), 0..7)
        .prop_flat_map(|slots| (0..slots.len()).map(|i| event(20 + i as u128).boxed()).collect::<Vec<_>>())
        .prop_map(|scenes| {
            scenes.into_iter().fold(Scene::bare("2.0"), |mut all, one| {
                all.history.events.extend(one.history.events);
                all.history.lead_checks.extend(one.history.lead_checks);
                all
            })
        })
}

pub fn policy() -> impl Strategy<Value = TesterPolicy> {
    prop_oneof![Just(TesterPolicy::Full), Just(TesterPolicy::Usual), Just(TesterPolicy::IndicationsOnly)]
}

proptest! {
    #[test]
    fn judging_is_monotonic_in_the_reading_within_one_range(a in 0_u32..99_999, b in 0_u32..99_999, guarded: bool) {
        let value = |hundredths| {
            let scene = Scene::new("2.00").with_accuracy().with(|s| s.reading.shown = exact(hundredths));
            let scene = if guarded { scene.guarded() } else { scene };
            rank(scene.judge().value.value)
        };
        prop_assert!(value(a.min(b)) <= value(a.max(b)));
    }

    #[test]
    fn a_larger_guard_never_turns_below_or_too_close_into_meets(r in 0_u32..500, p in 0_u32..60, more in 0_u32..60) {
        let value = |percent: u32| {
            let scene = Scene::new("2.00").guarded().with_accuracy().with(|s| {
                s.reading.shown = exact(r);
                let range = &mut s.card().voltages[0].ranges[0];
                range.accuracy_percent = Some(Percent(percent.into()));
            });
            rank(scene.judge().value.value)
        };
        prop_assert!(value(p + more) <= value(p));
    }

    #[test]
    fn simple_never_says_less_than_guarded(r in 0_u32..500) {
        let scene = Scene::new("2.00").with_accuracy().with(|s| s.reading.shown = exact(r));
        prop_assert!(rank(scene.clone().guarded().judge().value.value) <= rank(scene.judge().value.value));
    }

    #[test]
    fn the_order_of_arrival_does_not_matter(scene in history(), policy in policy(), swaps: Vec<(Index, Index)>) {
        let scene = scene.policy(policy);
        let mut shuffled = scene.clone();
        for (a, b) in swaps {
            if !shuffled.history.events.is_empty() {
                let n = shuffled.history.events.len();
                shuffled.history.events.swap(a.index(n), b.index(n));
            }
        }
        shuffled.history.lead_checks.reverse();
        prop_assert_eq!(scene.judge(), shuffled.judge());
    }

    #[test]
    fn without_a_good_statement_nothing_is_proved(scene in history(), policy in policy()) {
        let mut scene = scene.policy(policy);
        scene.history.events.retain(|e| match e {
            ProofEvent::Verification(v) => v.findings.iter().flat_map(|f| [&f.as_found, &f.as_left]).flatten()
                .all(|s| matches!(s.outcome, Outcome::Failed | Outcome::ConditionalFail)
                    && s.holds == Holds::NotStated),
            _ => true,
        });
        let state = scene.judge().tester.state;
        prop_assert!(!matches!(state, TesterState::Proved | TesterState::Lapsed | TesterState::FoundGoodAfterwards));
    }

    #[test]
    fn a_later_failure_never_makes_a_state_more_favourable(scene in history(), policy in policy()) {
        let scene = scene.policy(policy);
        let before = scene.judge().tester.state;
        let failed = Proof::bench(90, "2026-06-02", "2027-06-01").found(outcome(Outcome::Failed));
        let after = scene.proof(failed).judge().tester.state;
        prop_assert!(after >= before.min(TesterState::InDoubt) || before == TesterState::FoundGoodAfterwards, "{before:?} {after:?}");
    }
}
