//! Which readings a failure puts in doubt, and which of them still clear the limit, with worked numbers.

use crate::properties::{history, policy};
use crate::scene::*;
use proptest::prelude::*;
use proptest::sample::Index;
use provenohm_assess::judgement::{TesterState, Value};
use provenohm_assess::limits::Tag;
use provenohm_assess::policy::TesterPolicy;
use provenohm_assess::quantity::Percent;
use provenohm_assess::recall::{Again, Class, FailingEntry, Line, Recall, Unknown};
use provenohm_assess::tester::{
    Outcome, Point, Prepared, ProofEvent, RequirementName, RequirementResult, Statement, VoltageAtLoad,
};

/// Points in MΩ: known resistance, shown, U of the error in %.
fn points(all: &[(&str, &str, &str)]) -> Vec<Point> {
    all.iter()
        .map(|&(reference, indicated, u)| Point {
            reference_ohm: mega(reference),
            indicated: shown(indicated),
            good: false,
            error_uncertainty_percent: (!u.is_empty()).then(|| Percent(dec(u))),
        })
        .collect()
}

/// 12 % high at 1 MΩ, 3 % high at 10 MΩ: factors 1 + 0.12 + 0.02 = 1.14 and 1 + 0.03 + 0.01 = 1.04.
fn high() -> Statement {
    let points = points(&[("1", "1.12", "2"), ("10", "10.3", "1")]);
    Statement { outcome: Outcome::Failed, points, leads_shorted_good: true, ..Statement::default() }
}

/// 1 MΩ and 10 MΩ shown right within 1 %, 2 MΩ shown as 2.30 with U 2 %, too close to call: its factor 1.15 + 0.02 counts
/// all the same. 1.10 / 1.17 = 0.94; by the points that were decided alone it would be 1.10 / 1.01 = 1.089.
#[test]
fn a_point_too_close_to_call_counts_by_its_error() {
    let decided = Statement { points: points(&[("1", "1.00", "1"), ("10", "10.0", "1")]), ..high() };
    assert_eq!(clears(&found("1.10", decided.clone())).0, "1089108");
    let with = Statement { undecided: points(&[("2", "2.30", "2")]), ..decided };
    match class(&found("1.10", with)) {
        Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, .. } } => {
            assert_eq!(lowest_ohm.0.trunc().to_string(), "940170");
        }
        other => panic!("{other:?}"),
    }
}

/// A reading of 1 June with a tester that was proved, and found so on 1 August.
fn found(reading: &str, statement: Statement) -> Scene {
    Scene::new(reading).proof(Proof::bench(11, "2026-08-01", "2027-07-31").found(statement))
}

fn line(scene: &Scene) -> Option<Line> {
    let nothing = Prepared::unknown(TESTER);
    Recall::of_all(&scene.history).line(&scene.asked(&nothing))
}

fn class(scene: &Scene) -> Class {
    line(scene)
        .and_then(|line| line.class().cloned())
        .unwrap_or_else(|| panic!("not put in doubt: {:?}", scene.judge()))
}

/// Ω to the whole ohm, rounded down, and the e + U it was reckoned with.
fn clears(scene: &Scene) -> (String, Option<Percent>) {
    match class(scene) {
        Class::StillClears { lowest_ohm, error_percent } => (lowest_ohm.0.trunc().to_string(), error_percent),
        other => panic!("{other:?}"),
    }
}

fn unknown(scene: &Scene) -> Unknown {
    match class(scene) {
        Class::CannotBeJudged { because } => because,
        other => panic!("{other:?}"),
    }
}

fn again(scene: &Scene) -> Again {
    match class(scene) {
        Class::TestAgain { because } => because,
        other => panic!("{other:?}"),
    }
}

fn percent(text: &str) -> Option<Percent> {
    Some(Percent(dec(text)))
}

#[test]
fn at_a_point_its_own_error_decides() {
    // 1.12 / 1.14 = 0.98245 MΩ < 1.0 MΩ
    let Again::MayBeBelow { lowest_ohm, error_percent } = again(&found("1.12", high())) else { panic!() };
    assert_eq!((lowest_ohm.0.trunc(), error_percent), (dec("982456"), percent("14")));
}

#[test]
fn between_two_points_the_larger_error_decides() {
    // 1.20 / 1.14 = 1.05263 MΩ, and not 1.20 / 1.04 = 1.15385 MΩ
    assert_eq!(clears(&found("1.20", high())), ("1052631".to_owned(), percent("14")));
    assert_eq!(clears(&found("5.00", high())), ("4385964".to_owned(), percent("14")));
}

#[test]
fn exactly_the_limit_still_clears_it() {
    // 1.14 / 1.14 = 1.0 MΩ
    assert_eq!(clears(&found("1.14", high())).0, "1000000");
}

#[test]
fn above_the_topmost_point_a_reading_is_taken_as_that_point() {
    // 10.3 / 1.04 = 9.90385 MΩ, whatever was shown
    for reading in ["10.3", "50.0", "> 999"] {
        assert_eq!(clears(&found(reading, high())), ("9903846".to_owned(), percent("4")), "{reading}");
    }
}

#[test]
fn over_range_stands_for_the_lowest_resistance_that_showed_it() {
    let shows = |extra: &[(&str, &str, &str)]| {
        let mut s = high();
        s.points.extend(points(extra));
        s
    };
    let over = shows(&[("200", "> 999", ""), ("500", "> 999", "")]);
    assert_eq!(clears(&found("> 999", over)), ("200000000".to_owned(), None));
    // A resistance below the limit that showed over-range: an over-range reading may be just that.
    let open = shows(&[("0.5", "> 999", "")]);
    let Again::MayBeBelow { lowest_ohm, .. } = again(&found("> 999", open)) else { panic!() };
    assert_eq!(lowest_ohm, mega("0.5"));
}

#[test]
fn a_reading_above_a_figure_within_the_points_takes_the_least_it_can_stand_for() {
    // > 1.20 may be just above 1.20 (1.0526), and wherever it is above that stands for more.
    assert_eq!(clears(&found("> 1.20", high())).0, "1052631");
    // Worse higher up: 8 MΩ shown as 10, factor 1.27; > 9 may be 9 / 1.27 = 7.08661
    let worse = Statement { points: points(&[("1", "1", "2"), ("8", "10", "2")]), ..high() };
    assert_eq!(clears(&found("> 9", worse)).0, "7086614");
}

#[test]
fn below_the_lowest_point_and_without_figures_it_cannot_be_judged() {
    assert_eq!(unknown(&found("1.05", high())), Unknown::BelowLowestPoint);
    let without_u = Statement { points: points(&[("1", "1.12", ""), ("10", "10.3", "1")]), ..high() };
    assert_eq!(unknown(&found("1.20", without_u.clone())), Unknown::UncertaintyNotKnown);
    // Only the errors a reading needs have to be known.
    assert_eq!(clears(&found("50.0", without_u.clone())).0, "9903846");
    // The U of the whole budget stands in: (1.12 + 0.05) → 1.20 / 1.17 = 1.02564
    let budget = Statement { expanded_uncertainty_percent: percent("5"), ..without_u };
    assert_eq!(clears(&found("1.20", budget)).0, "1025641");
    assert_eq!(unknown(&found("2.0", outcome(Outcome::Failed))), Unknown::NotSaidInWhat);
}

#[test]
fn a_tester_that_read_low_leaves_more_not_less() {
    // 12 % low at 1 MΩ: 1.20 / (1 − 0.12 + 0.02) = 1.33333 MΩ
    let low = Statement { points: points(&[("1", "0.88", "2"), ("10", "9.9", "1")]), ..high() };
    // between 0.88 and 9.9 the larger factor is 1 − 0.01 + 0.01 = 1.00
    assert_eq!(clears(&found("1.20", low.clone())), ("1200000".to_owned(), percent("0")));
    // What did not meet as read is to be tested again, whatever the error would make of it.
    assert_eq!(again(&found("0.95", low)), Again::DidNotMeet);
}

/// Its voltage falls away at the rated load of 500 kΩ and holds from 2 MΩ up.
fn falling() -> Statement {
    let at = |load: &str, volts: &str, held| VoltageAtLoad {
        load_ohm: mega(load),
        measured_v: provenohm_assess::quantity::Volts(dec(volts)),
        held,
    };
    let s = Statement {
        points: points(&[("0.5", "0.50", "2"), ("10", "10.0", "2")])
            .into_iter()
            .map(|p| Point { good: true, ..p })
            .collect(),
        voltages: vec![at("2", "502", true), at("0.5", "430", false), at("1", "480", false), at("50", "540", true)],
        leads_shorted_good: true,
        ..Statement::default()
    };
    requirement(s, RequirementName::RatedCurrent, RequirementResult::NotMet, Tag::Seen)
}

#[test]
fn where_the_voltage_fell_the_load_at_which_it_held_decides() {
    assert_eq!(again(&found("1.50", falling())), Again::VoltageFell { held_from_ohm: mega("2") });
    // 2.04 / 1.02 = 2.0 MΩ, where it held
    assert_eq!(clears(&found("2.04", falling())).0, "2000000");
    let no_loads = Statement { voltages: Vec::new(), ..falling() };
    assert_eq!(unknown(&found("2.04", no_loads)), Unknown::LoadNotKnown);
    // Held nowhere from some load up: a voltage too high with nothing connected.
    let mut too_high = falling();
    too_high.voltages[3].held = false;
    assert_eq!(unknown(&found("450", too_high)), Unknown::LoadNotKnown);
}

#[test]
fn a_paper_that_says_where_indications_hold_needs_no_points_for_a_voltage_failure() {
    let paper = Statement { points: Vec::new(), holds: holds(&[("0.5", "100")]).holds, ..falling() };
    assert_eq!(clears(&found("3.0", paper.clone())), ("3000000".to_owned(), None));
    assert_eq!(clears(&found("> 999", paper.clone())), ("100000000".to_owned(), None));
    assert_eq!(again(&found("1.50", paper)), Again::VoltageFell { held_from_ohm: mega("2") });
}

#[test]
fn the_example_of_a_tester_wrong_at_the_low_end_and_falling_under_load() {
    // Right at 10 MΩ and above, 12 % low at 1 MΩ, its voltage falling away at the rated load.
    let example = |reading: &str, policy| {
        let mut s = falling();
        s.points = points(&[("1", "0.88", "2"), ("10", "10.0", "2"), ("100", "100", "2")]);
        s.points.iter_mut().skip(1).for_each(|p| p.good = true);
        line(&found(reading, s).policy(policy)).is_some()
    };
    for policy in [TesterPolicy::Full, TesterPolicy::Usual] {
        assert!(["1.20", "9.00", "10.0", "450", "> 999"].iter().all(|reading| example(reading, policy)), "{policy:?}");
    }
    let only = TesterPolicy::IndicationsOnly;
    assert!(["1.20", "9.00"].iter().all(|reading| example(reading, only)));
    assert!(["10.0", "450", "> 999"].iter().all(|reading| !example(reading, only)));
}

#[test]
fn quick_checks_and_damage() {
    let checked = |reading: &str| Scene::new(reading).quick(30, "1", "100", "2026-07-01T10:00", false);
    assert_eq!(unknown(&checked("2.0")), Unknown::NothingMeasured);
    assert_eq!(line(&checked("0.9")), None, "it touched nothing below 1 MΩ");
    let mut box_read = checked("2.0");
    if let Some(ProofEvent::QuickCheck(check)) = box_read.history.events.last_mut() {
        check.points = points(&[("1", "1.12", "2"), ("10", "10.3", "1")]);
    }
    // 2.0 / 1.14
    assert_eq!(clears(&box_read).0, "1754385");
    let dropped = Scene::new("2.0").damage(31, None, "2026-07-01T10:00");
    assert_eq!(unknown(&dropped), Unknown::NothingMeasured);
    let known = |happened: &str| Scene::new("2.0").damage(31, Some(happened), "2026-07-01T10:00");
    assert_eq!(line(&known("2026-06-20T10:00")), None, "a known instant looks back on nothing");
    let after = line(&known("2026-05-20T10:00")).unwrap();
    assert_eq!((after.judgement.tester.state, after.before), (TesterState::Barred, TesterState::Proved));
}

/// A check box of one resistor: 1 MΩ shown as 1.40, and as over-range.
#[test]
fn a_failed_quick_check_speaks_for_what_it_may_have_been_shown_as() {
    let checked = |reading: &str, indicated: &str| {
        let mut scene = Scene::new(reading).quick(30, "1", "1", "2026-07-01T10:00", false);
        if let Some(ProofEvent::QuickCheck(check)) = scene.history.events.last_mut() {
            check.points = points(&[("1", indicated, "2")]);
        }
        scene
    };
    for reading in ["1.05", "1.40", "> 999"] {
        assert!(line(&checked(reading, "1.40")).is_some(), "{reading}");
    }
    // As low as that resistance, which is the limit itself.
    assert_eq!(clears(&checked("> 999", "> 999")).0, "1000000");
}

/// 1 MΩ shown as 15 MΩ between 0.5 MΩ and 10 MΩ shown right: 1.20 / (15 + 0.02) = 0.0799 MΩ, by its neighbours alone it
/// would be 1.19. 0.5 MΩ shown over-range: "> 999 MΩ" may be 0.5 MΩ.
#[test]
fn what_was_shown_far_too_high_bears_on_everything_up_to_there() {
    let far = Statement { points: points(&[("0.5", "0.50", "2"), ("1", "15.0", "2"), ("10", "10.0", "2")]), ..high() };
    match class(&found("1.20", far)) {
        Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, .. } } => {
            assert_eq!(lowest_ohm.0.trunc().to_string(), "79893");
        }
        other => panic!("{other:?}"),
    }
    let mut over =
        Statement { points: points(&[("0.5", "> 999", "2"), ("10", "10.0", "2"), ("1000", "1000", "2")]), ..high() };
    over.points.iter_mut().skip(1).for_each(|point| point.good = true);
    match class(&found("> 999", over)) {
        Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, .. } } => assert_eq!(lowest_ohm, mega("0.5")),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_good_quick_check_moves_the_start_of_the_window() {
    let failing = found("2.0", high()).quick(30, "1", "100", "2026-06-15T10:00", true);
    assert_eq!(line(&failing), None, "taken before it, at a resistance it touched");
    assert!(line(&failing.clone().at("2026-06-16T10:00")).is_some());
    assert!(line(&found("200", high()).quick(30, "1", "100", "2026-06-15T10:00", true)).is_some());
}

#[test]
fn proving_the_tester_afterwards_ends_the_bar_and_not_the_doubt() {
    let proved_again = found("2.0", high()).proof(Proof::bench(12, "2026-09-01", "2027-08-31").found(everywhere()));
    assert_eq!(line(&proved_again).unwrap().judgement.tester.state, TesterState::InDoubt);
    let between = proved_again.clone().at("2026-08-15T10:00");
    assert_eq!(line(&between).unwrap().judgement.tester.state, TesterState::Barred);
    assert_eq!(line(&proved_again.at("2026-09-02T10:00")), None);
}

#[test]
fn after_an_adjustment_what_it_was_left_with_counts() {
    // As found 12 % high; adjusted, and as left still 5 % high at 1 MΩ.
    let left = Statement { points: points(&[("1", "1.05", "1"), ("10", "10.0", "1")]), ..high() };
    let adjusted = |reading: &str| {
        Scene::new(reading)
            .proof(Proof::bench(11, "2026-08-01", "2027-07-31").adjusted().found_and_left(high(), left.clone()))
    };
    // before: 2.0 / 1.14; after: 2.0 / 1.06
    assert_eq!(clears(&adjusted("2.0")).0, "1754385");
    assert_eq!(clears(&adjusted("2.0").at("2026-08-15T10:00")).0, "1886792");
}

#[test]
fn two_failures_hide_no_reading() {
    let twice =
        found("2.0", high()).proof(Proof::bench(12, "2026-10-01", "2027-09-30").found(outcome(Outcome::Failed)));
    let entries = FailingEntry::of(&twice.history);
    assert_eq!(entries.len(), 2);
    let nothing = Prepared::unknown(TESTER);
    let asked = twice.asked(&nothing);
    // Without the first the second would put it in doubt, so by itself neither changes its state.
    assert!(entries.iter().all(|entry| Recall::new(&twice.history, &[*entry]).line(&asked).is_none()));
    assert_eq!(line(&twice).unwrap().causes[0].entry, entries[0]);
}

proptest! {
    #[test]
    fn exactly_the_difference_of_tester_states(
        scene in history(), policy in policy(), day in 1_u32..=365, hidden: Vec<Index>, reading in 0_usize..4,
    ) {
        let at = chrono::NaiveDate::from_yo_opt(2026, day).unwrap();
        let scene = scene.policy(policy).at(&format!("{at}T12:00"))
            .with(|s| s.reading.shown = shown(["0.4", "2.0", "40", "> 999"][reading]));
        let mut entries = FailingEntry::of(&scene.history);
        for index in hidden.iter().take(2).filter(|_| entries.len() > 1).collect::<Vec<_>>() {
            entries.remove(index.index(entries.len()));
            if entries.is_empty() { break; }
        }
        let mut without = scene.clone();
        without.history.events.retain(|event| !entries.contains(&match event {
            ProofEvent::Verification(v) => FailingEntry::Verification { id: v.id },
            ProofEvent::QuickCheck(q) => FailingEntry::QuickCheck { id: q.id },
            ProofEvent::Damage(d) => FailingEntry::Damage { id: d.id },
        }));
        let (after, before) = (scene.judge().tester.state, without.judge().tester.state);
        let expected = after != before && matches!(after, TesterState::InDoubt | TesterState::Barred);
        let nothing = Prepared::unknown(TESTER);
        let line = Recall::new(&scene.history, &entries).line(&scene.asked(&nothing));
        prop_assert_eq!(line.is_some(), expected, "{:?} {:?}", before, after);
        if let Some(line) = line {
            prop_assert_eq!(line.before, before);
            prop_assert!(!line.causes.is_empty());
        }
    }

    #[test]
    fn together_the_failures_put_every_barred_and_doubted_reading_on_the_list(
        scene in history(), policy in policy(), day in 1_u32..=365,
    ) {
        let at = chrono::NaiveDate::from_yo_opt(2026, day).unwrap();
        let scene = scene.policy(policy).at(&format!("{at}T12:00"));
        let state = scene.judge().tester.state;
        prop_assert_eq!(line(&scene).is_some(), matches!(state, TesterState::InDoubt | TesterState::Barred));
    }

    #[test]
    fn the_order_of_arrival_does_not_matter_to_a_recall(scene in history(), swaps: Vec<(Index, Index)>) {
        let mut shuffled = scene.clone();
        for (a, b) in swaps {
            let n = shuffled.history.events.len();
            if n > 0 {
                shuffled.history.events.swap(a.index(n), b.index(n));
            }
        }
        prop_assert_eq!(FailingEntry::of(&scene.history), FailingEntry::of(&shuffled.history));
        prop_assert_eq!(line(&scene), line(&shuffled));
    }

    #[test]
    fn a_wider_uncertainty_never_makes_a_reading_clear_the_limit(
        reading in 100_u32..9_999, low in 50_u32..200, high in 300_u32..3_000, u in 0_u32..50, more in 0_u32..50,
    ) {
        let class_with = |u: u32| {
            let text = |hundredths: u32| format!("{}.{:02}", hundredths / 100, hundredths % 100);
            let points = points(&[("1", &text(low), &u.to_string()), ("10", &text(high), &u.to_string())]);
            line(&found(&text(reading), Statement { points, ..self::high() })).and_then(|l| l.class().cloned())
        };
        let clear = |class: &Option<Class>| matches!(class, Some(Class::StillClears { .. }));
        let (narrow, wide) = (class_with(u), class_with(u + more));
        prop_assert!(clear(&narrow) || !clear(&wide), "{:?} {:?}", narrow, wide);
    }

    #[test]
    fn a_larger_reading_never_stands_for_less(
        a in 100_u32..20_000, b in 100_u32..20_000, low in 50_u32..200, high in 300_u32..3_000, u in 0_u32..50,
    ) {
        // Within one gap, and above the topmost point; across a point the worse neighbour may change.
        let same_place = (a.min(b) > low && a.max(b) < high) || a.min(b) > high;
        prop_assume!(same_place);
        let text = |hundredths: u32| format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let lowest = |reading: u32| {
            let points = points(&[("1", &text(low), &u.to_string()), ("10", &text(high), &u.to_string())]);
            let line = line(&found(&text(reading), Statement { points, ..self::high() }));
            match line.and_then(|l| l.class().cloned()) {
                Some(Class::StillClears { lowest_ohm, .. } | Class::TestAgain { because: Again::MayBeBelow { lowest_ohm, .. } }) => Some(lowest_ohm),
                _ => None,
            }
        };
        prop_assert!(lowest(a.min(b)) <= lowest(a.max(b)));
    }
}

#[test]
fn a_reading_that_cannot_be_judged_stays_so() {
    let scene = found("> 0.5", high());
    assert_eq!(scene.judge().value.value, Value::CannotBeJudged);
    assert_eq!(unknown(&scene), Unknown::NotJudgedBefore);
}
