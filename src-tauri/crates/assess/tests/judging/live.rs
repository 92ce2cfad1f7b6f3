//! Two live values: every combination is judged, the least favourable shown, and it is a *Stop*.

use crate::scene::*;
use provenohm_assess::judge::{Known, Live, Median, OfOneKind, Setting, Testers, Wanted, judge_live};
use provenohm_assess::judgement::Judgement;
use provenohm_assess::judgement::{Level, MethodReason, TesterReason, TesterState, Value, ValueReason};
use provenohm_assess::policy::{Policies, ValuePolicy};
use provenohm_assess::quantity::Comparator;
use provenohm_assess::reading::Reading;
use provenohm_assess::tester::Prepared;

fn judged(readings: &[&Reading], wanted: &[&Wanted], policies: &[Policies], histories: Vec<Prepared>) -> Judgement {
    let with = |policies: &Policies| {
        let policies = *policies;
        readings
            .iter()
            .flat_map(move |&reading| wanted.iter().map(move |&wanted| Setting { reading, wanted, policies }))
    };
    let settings: Vec<Setting<'_>> = policies.iter().flat_map(with).collect();
    let testers = Testers::new(histories);
    judge_live(&Live { settings: &settings, testers: &testers, known: Known::default() })
}

fn prepared(scene: &Scene) -> Vec<Prepared> {
    vec![Prepared::new(&scene.history)]
}

#[test]
fn one_value_of_each_is_judged_as_it_is() {
    let scene = Scene::new("2.0");
    let j = judged(&[&scene.reading], &[&scene.wanted], &[scene.policies], prepared(&scene));
    assert_eq!(j, scene.judge());
}

#[test]
fn two_readings_of_one_pair_show_the_lower_one() {
    let (high, low) = (Scene::new("487"), Scene::new("0.30"));
    for readings in [[&high.reading, &low.reading], [&low.reading, &high.reading]] {
        let j = judged(&readings, &[&high.wanted], &[high.policies], prepared(&high));
        assert_eq!((j.value.value, j.level), (Value::Below, Level::Stop));
        assert_eq!(j.method[0], MethodReason::TwoLiveValues);
    }
}

#[test]
fn two_values_of_the_circuit_and_the_policy_are_all_combined() {
    let scene = Scene::new("0.6");
    let extra_low = Wanted { limit: Some(limit("0.5", 500)), ..Wanted::default() };
    let guarded = Policies { value: ValuePolicy::Guarded, ..scene.policies };
    let j = judged(&[&scene.reading], &[&extra_low, &scene.wanted], &[scene.policies, guarded], prepared(&scene));
    assert_eq!((j.value.value, j.level), (Value::Below, Level::Stop));
}

#[test]
fn two_cards_of_one_tester_are_both_asked() {
    let proved = Scene::new("2.0");
    let bare = Scene::bare("2.0");
    let histories = vec![Prepared::new(&proved.history), Prepared::new(&bare.history)];
    let j = judged(&[&proved.reading], &[&proved.wanted], &[proved.policies], histories);
    assert_eq!((j.tester.state, j.level), (TesterState::NotProved, Level::Stop));
    assert!(j.tester.reasons.contains(&TesterReason::LiveValues));
}

#[test]
fn more_than_eight_combinations_cannot_be_judged() {
    let scene = Scene::new("2.0");
    let many = [&scene.wanted; 9];
    let j = judged(&[&scene.reading], &many[..8], &[scene.policies], prepared(&scene));
    assert_eq!(j.value.value, Value::Meets);
    let j = judged(&[&scene.reading], &many, &[scene.policies], prepared(&scene));
    assert_eq!(
        (j.value.value, j.value.reason, j.level),
        (Value::CannotBeJudged, ValueReason::TooManyLiveValues, Level::Stop)
    );
}

#[test]
fn the_decade_hint_compares_with_at_least_five_others_and_never_marks_over_range() {
    let others = ["200", "220", "250", "300", "400"].map(shown);
    let with = |text: &str| OfOneKind::new(others.into_iter().chain([shown(text)]));
    let slip = shown("2.5");
    let median = with("2.5").median_without(slip);
    assert_eq!(median, Some(Median { ohms: mega("250"), comparator: Comparator::Exact, readings: 5 }));
    assert!(median.is_some_and(|m| m.is_far_above(slip) && !m.is_far_above(shown("2.51"))));
    assert!(median.is_some_and(|m| !m.is_far_above(shown("> 0.1"))));
    assert_eq!(OfOneKind::new(others).median_without(shown("200")), None, "four others say nothing");
}

#[test]
fn the_median_of_over_range_readings_lies_above_their_digits() {
    let median = |others: &[&str]| {
        let all = others.iter().copied().chain(["0.5"]).map(shown);
        OfOneKind::new(all).median_without(shown("0.5")).map(|median| (median.ohms, median.comparator))
    };
    let over = median(&["218", "487", "> 999", "> 999", "> 999"]);
    assert_eq!(over, Some((mega("999"), Comparator::MoreThan)));
    let exact = median(&["218", "356", "487", "> 999", "> 999"]);
    assert_eq!(exact, Some((mega("487"), Comparator::Exact)));
    let half = median(&["218", "356", "501", "> 999", "> 999", "> 999"]);
    assert_eq!(half, Some((mega("750"), Comparator::MoreThan)), "half of it is open upwards");
    // Over-range lies above the same digits shown.
    assert_eq!(median(&["10", "10", "999", "> 999", "> 999"]), Some((mega("999"), Comparator::Exact)));
}
