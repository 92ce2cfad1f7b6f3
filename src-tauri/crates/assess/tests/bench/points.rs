use crate::scene::{BOX, PROBE, Scene, day, dec, held, mega, reference, resistance, resistor, shown, volts};
use provenohm_assess::bench::{
    Decision, DecisionRule, Influence, IntervalEnd, MeasuredWhat, NoInterval, PointRemark, WhyUndecided,
};
use provenohm_assess::quantity::{Ohms, Percent};
use provenohm_assess::reference::ReferenceKind;
use provenohm_assess::tester::Range;
use rust_decimal::Decimal;

fn decision(known: &str, indicated: &str) -> Decision {
    Scene::new().with(&[(known, indicated)]).point().decision.unwrap()
}

/// A check box with ±(1.5 % of the reading + 3 digits), resolution 0.001 (seen, calc): at 0.497 MΩ what is shown from
/// 0.486700 to 0.507614 is accepted, at 0.996 from 0.978325 to 1.014213, at 2.002 from 1.969458 to 2.035533.
#[test]
fn check_box_bounds() {
    let rows = [
        ("0.497", "0.486", "0.487", "0.507", "0.508"),
        ("0.996", "0.978", "0.979", "1.014", "1.015"),
        ("2.002", "1.969", "1.970", "2.035", "2.036"),
    ];
    for (known, too_low, low, high, too_high) in rows {
        let decide = |indicated: &str| {
            let mut scene = Scene::new().with(&[(known, indicated)]);
            scene.card.voltages[0].ranges = vec![Range {
                from_ohm: mega("0"),
                to_ohm: mega("9.999"),
                resolution_ohm: mega("0.001"),
                accuracy_percent: Some(Percent(dec("1.5"))),
                accuracy_digits: Some(3),
            }];
            scene.references[0] = reference(BOX, "box", ReferenceKind::DecadeBox { values: vec![resistance(known)] });
            scene.point().decision.unwrap()
        };
        assert!(!decide(too_low).is_within(), "{known}: {too_low}");
        assert!(decide(low).is_within(), "{known}: {low}");
        assert!(decide(high).is_within(), "{known}: {high}");
        assert!(!decide(too_high).is_within(), "{known}: {too_high}");
        assert_eq!(decide("0.45"), Decision::DoesNotConform, "{known}");
    }
}

/// ±(2.5 % + 3 digits), resolution 0.01: half-width 0.83 at 32.00 and 0.03225 at 0.09 (seen).
#[test]
fn permitted_error_is_of_the_reading() {
    for (known, indicated, within) in [("32", "32.00", "0.83"), ("0.1", "0.09", "0.03225")] {
        let mut scene = Scene::new().with(&[(known, indicated)]);
        scene.references[0] = reference(BOX, "box", ReferenceKind::DecadeBox { values: vec![resistance(known)] });
        scene.card.voltages[0].ranges[0].to_ohm = mega("99.99");
        scene.card.voltages[0].ranges[0].accuracy_percent = Some(Percent(dec("2.5")));
        scene.card.voltages[0].ranges[0].accuracy_digits = Some(3);
        assert_eq!(scene.point().permitted.unwrap().within_ohm, mega(within));
    }
}

/// 1 MΩ with a 10 MΩ meter across it is 0.909 MΩ (calc), and is judged as that.
#[test]
fn a_meter_across_the_resistor_loads_it() {
    let mut scene = Scene::new();
    if let ReferenceKind::HighVoltageProbe { input_resistance_ohm, .. } = &mut scene.references[1].what {
        *input_resistance_ohm = mega("10");
    }
    scene.add(MeasuredWhat::Indication { resistor: resistor("1"), across: Some(PROBE), shown: shown("0.91") });
    let point = scene.point();
    assert_eq!(point.known_ohm.unwrap().0.round(), Decimal::from(909_091));
    assert_eq!(point.alone_ohm, Some(mega("1")));
    assert!(point.decision.unwrap().is_within());
    let lines = point.budget.unwrap().lines;
    assert!(lines.iter().any(|l| l.input.what == Influence::MeterLoading { reference: PROBE }));
    // Judged as 1 MΩ it would have been 9 % low.
    assert_eq!(decision("1", "0.91"), Decision::DoesNotConform);
}

/// `> x` at a known R conforms iff R + permitted error ≥ x. Permitted at 2000 MΩ: 60 + 2 MΩ.
#[test]
fn over_range_at_a_known_resistance() {
    let over = |known: &str| {
        let mut scene = Scene::new().with(&[(known, "> 2000")]);
        scene.references[0] = reference(BOX, "box", ReferenceKind::DecadeBox { values: vec![resistance(known)] });
        scene.point().decision.unwrap()
    };
    assert_eq!(over("5000"), Decision::Conforms);
    assert!(over("1938").is_within());
    assert!(!over("1937").is_within());
    assert_eq!(over("10"), Decision::DoesNotConform);
}

#[test]
fn resolution_counts_once_and_repeats_give_degrees_of_freedom() {
    let scene = Scene::new().with(&[("1", "1.00"), ("1", "1.02"), ("1", "1.01")]);
    let point = scene.point();
    assert_eq!(point.indicated_ohm, mega("1.01"));
    let budget = point.budget.unwrap();
    let count = |what: Influence| budget.lines.iter().filter(|l| l.input.what == what).count();
    assert_eq!(count(Influence::Resolution), 1);
    assert_eq!(count(Influence::Repeatability { pooled: false }), 1);
    // s = 0.01 MΩ, u = s / √3; half a step of 0.01 MΩ / √3; box 0.1 % and 0.1 % / √3.
    let u = |parts: &[f64]| parts.iter().map(|p| p * p).sum::<f64>().sqrt();
    let expected = u(&[10_000.0 / 3_f64.sqrt(), 5_000.0 / 3_f64.sqrt(), 1_000.0, 1_000.0 / 3_f64.sqrt()]);
    assert!((budget.standard - expected).abs() < 1e-6 * expected, "{} {expected}", budget.standard);
    let dof = expected.powi(4) / ((10_000.0 / 3_f64.sqrt()).powi(4) / 2.0);
    assert!((budget.dof.unwrap() - dof).abs() < 1e-6 * dof);
    assert!(budget.k > 2.0);
}

#[test]
fn what_was_not_repeated_takes_over_the_scatter_of_what_was() {
    let scene = Scene::new().with(&[("1", "1.00"), ("1", "1.02"), ("10", "10.00")]);
    let points = scene.at_500().points;
    let pooled = |i: usize| {
        points[i]
            .budget
            .as_ref()
            .unwrap()
            .lines
            .iter()
            .any(|l| l.input.what == Influence::Repeatability { pooled: true })
    };
    assert!(!pooled(0));
    assert!(pooled(1));
    let alone = Scene::new().with(&[("10", "10.00")]).point();
    assert!(alone.remarks.contains(&PointRemark::RepeatabilityNotTested));
}

#[test]
fn a_guard_makes_what_is_near_the_bound_conditional() {
    let decide = |rule, indicated: &str| {
        let mut scene = Scene::new().with(&[("1", indicated)]);
        scene.run.rule = rule;
        scene.point().decision.unwrap()
    };
    // Permitted at 1.05: 0.0315 + 0.02 = 0.0515 MΩ. U about 0.006 MΩ.
    assert_eq!(decide(DecisionRule::Simple, "1.05"), Decision::Conforms);
    assert_eq!(decide(DecisionRule::GuardU, "1.05"), Decision::ConditionalPass);
    assert_eq!(decide(DecisionRule::GuardPartU, "1.05"), Decision::ConditionalPass);
    assert_eq!(decide(DecisionRule::GuardU, "1.01"), Decision::Conforms);
    // Permitted at 0.95: 0.0485 MΩ; the error is 0.05 MΩ.
    assert_eq!(decide(DecisionRule::Simple, "0.95"), Decision::DoesNotConform);
    assert_eq!(decide(DecisionRule::GuardU, "0.95"), Decision::ConditionalFail);
}

#[test]
fn a_lapsed_reference_is_said_and_leaves_a_condition() {
    let mut scene = Scene::new().with(&[("1", "1.00"), ("10", "12.00")]);
    scene.references[0].valid_until = day("2026-05-31");
    let result = scene.result();
    assert_eq!(result.lapsed, [BOX]);
    let decisions: Vec<_> = result.voltages[0].points.iter().map(|p| p.decision.unwrap()).collect();
    assert_eq!(decisions, [Decision::OnCondition, Decision::DoesNotConform]);
    scene.references[0].valid_until = day("2026-06-01");
    assert!(scene.result().lapsed.is_empty());
}

#[test]
fn a_reference_not_good_enough_is_said_with_what_it_costs() {
    let mut scene = Scene::new().with(&[("10", "10.20")]);
    if let ReferenceKind::DecadeBox { values } = &mut scene.references[0].what {
        values.iter_mut().for_each(|v| v.within_percent = Some(Percent(dec("2"))));
    }
    let point = scene.point();
    let low = point.remarks.iter().find_map(|r| match r {
        PointRemark::LowRatio { ratio, probability } => Some((*ratio, *probability)),
        _ => None,
    });
    let (ratio, probability) = low.unwrap();
    // Permitted 0.306 + 0.02 MΩ over U = 2·√((0.1)² + (0.01/√3)²) MΩ.
    assert!((ratio - 0.326 / (2.0 * (0.01_f64 + 0.0001 / 3.0).sqrt())).abs() < 1e-6, "{ratio}");
    assert!(probability > 0.5 && probability < 1.0);
    assert_eq!(point.decision, Some(Decision::OnCondition));
}

#[test]
fn what_is_not_known_decides_nothing() {
    let undecided = |change: &dyn Fn(&mut Scene)| {
        let mut scene = Scene::new().with(&[("1", "1.00")]);
        change(&mut scene);
        let point = scene.point();
        assert_eq!(point.decision, None);
        assert!(scene.at_500().intervals.is_empty());
        point.undecided.unwrap()
    };
    let values = |scene: &mut Scene, change: &dyn Fn(&mut provenohm_assess::reference::KnownResistance)| {
        if let ReferenceKind::DecadeBox { values } = &mut scene.references[0].what {
            values.iter_mut().for_each(change);
        }
    };
    assert_eq!(undecided(&|s| s.run.references.clear()), WhyUndecided::UnknownReference { reference: BOX });
    assert_eq!(undecided(&|s| values(s, &|v| v.within_percent = None)), WhyUndecided::NoUncertainty { reference: BOX });
    assert_eq!(
        undecided(&|s| values(s, &|v| v.rated_voltage_v = Some(volts("250")))),
        WhyUndecided::AboveRating { resistor: resistor("1"), rated_v: volts("250") }
    );
    assert_eq!(undecided(&|s| s.card.voltages[0].ranges[0].accuracy_percent = None), WhyUndecided::NoStatedAccuracy);
    assert_eq!(undecided(&|s| s.card.voltages.clear()), WhyUndecided::OutsideCard);
}

#[test]
fn intervals_end_at_the_inner_of_reference_and_indication() {
    let scene = Scene::new().with(&[("0.5", "0.51"), ("1", "1.00"), ("10", "9.95")]);
    assert_eq!(held(&scene.at_500()), ["0.51 to 9.95"]);
    let scene = Scene::new().with(&[("0.5", "0.49"), ("1", "1.00"), ("10", "10.05")]);
    assert_eq!(held(&scene.at_500()), ["0.5 to 10"]);
}

#[test]
fn a_failed_point_parts_two_intervals() {
    let scene =
        Scene::new().with(&[("0.1", "0.10"), ("0.25", "0.25"), ("0.5", "0.70"), ("1", "1.00"), ("10", "10.00")]);
    let voltage = scene.at_500();
    // 0.5 MΩ shown as 0.70 is below the upper interval, and above the lower one.
    assert_eq!(held(&voltage), ["0.1 to 0.25", "1 to 10"]);
    assert_eq!(voltage.intervals[0].above, IntervalEnd::NotConforming { known_ohm: mega("0.5") });
    assert_eq!(voltage.intervals[1].below, IntervalEnd::NotConforming { known_ohm: mega("0.5") });
    assert_eq!(voltage.intervals[1].above, IntervalEnd::NothingTested);
}

#[test]
fn an_interval_never_crosses_a_range_without_a_conforming_point() {
    let mut scene = Scene::new().with(&[("1", "1.00"), ("2", "2.00"), ("100", "100"), ("1000", "1000")]);
    let upper = scene.card.voltages[0].ranges[1].clone();
    scene.card.voltages[0].ranges = vec![
        Range { to_ohm: mega("2"), ..scene.card.voltages[0].ranges[0].clone() },
        Range { from_ohm: mega("2"), to_ohm: mega("20"), ..scene.card.voltages[0].ranges[0].clone() },
        upper,
    ];
    let voltage = scene.at_500();
    assert_eq!(held(&voltage), ["1 to 2", "100 to 1000"]);
    let range = IntervalEnd::RangeNotTested { from_ohm: mega("2"), to_ohm: mega("20") };
    assert_eq!(voltage.intervals[0].above, range);
    assert_eq!(voltage.intervals[1].below, range);
    scene.shows("10", "10.00");
    assert_eq!(held(&scene.at_500()), ["1 to 1000"]);
}

#[test]
fn no_interval_where_something_lower_was_shown_high() {
    let scene = Scene::new().with(&[("0.1", "55"), ("50", "50"), ("100", "100")]);
    let voltage = scene.at_500();
    assert!(voltage.intervals.is_empty());
    assert_eq!(
        voltage.no_intervals,
        [NoInterval::ShownHigh {
            from_ohm: mega("50"),
            to_ohm: mega("100"),
            known_ohm: mega("0.1"),
            shown: shown("55")
        }]
    );
    let mut scene = Scene::new().with(&[("50", "50"), ("100", "100")]);
    scene.shorted("> 2000");
    assert!(scene.at_500().intervals.is_empty());
}

#[test]
fn an_interval_ends_below_what_a_higher_resistance_was_shown_as() {
    let scene = Scene::new().with(&[("1", "1.00"), ("10", "10.00"), ("100", "7.00")]);
    let voltage = scene.at_500();
    assert_eq!(held(&voltage), ["1 to 7"]);
    assert_eq!(voltage.intervals[0].above, IntervalEnd::ShownLow { known_ohm: mega("100"), shown: shown("7.00") });
}

#[test]
fn one_point_spans_nothing() {
    let voltage = Scene::new().with(&[("1", "1.00")]).at_500();
    assert_eq!(voltage.no_intervals, [NoInterval::SinglePoint { known_ohm: mega("1") }]);
    assert_eq!(voltage.statement.points.len(), 1);
    let empty = Scene::new();
    assert!(empty.result().voltages.is_empty());
}

#[test]
fn figures_beyond_all_arithmetic_are_left_out_and_named() {
    let mut scene = Scene::new().with(&[("1", "1.00")]);
    scene.open_circuit("7000000000000000000000000000");
    let id = scene.measured[1].id;
    assert_eq!(scene.result().unusable, [id]);
    let mut scene = Scene::new().with(&[("1", "1.00")]);
    if let ReferenceKind::DecadeBox { values } = &mut scene.references[0].what {
        values.iter_mut().for_each(|v| v.stated_ohm = Ohms(Decimal::MAX));
    }
    assert_eq!(scene.point().undecided, Some(WhyUndecided::UnknownResistance { resistor: resistor("1") }));
}
