use crate::scene::{Scene, VALUES, sound};
use proptest::prelude::*;
use provenohm_assess::bench::{Decision, DecisionRule, LoadRole, Supply};
use provenohm_assess::quantity::{Percent, Volts};
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::tester::Conforms;
use rust_decimal::Decimal;

/// Points at any of the box's resistances, shown anywhere from right to far off, some over-range.
fn any_scene() -> impl Strategy<Value = Scene> {
    let point = (0..VALUES.len(), 60_u32..140, 0..12_u32, any::<bool>());
    let rule = prop_oneof![Just(DecisionRule::Simple), Just(DecisionRule::GuardU), Just(DecisionRule::GuardPartU)];
    (proptest::collection::vec(point, 1..14), rule, 400_u32..650, 300_u32..600).prop_map(
        |(points, rule, open, rated)| {
            let mut scene = Scene::new();
            scene.run.rule = rule;
            for (i, percent, over, weak) in points {
                let ohms = VALUES[i].parse::<f64>().unwrap() * f64::from(percent) / 100.0;
                let text = if over == 0 { "> 2000".to_owned() } else { format!("{ohms:.2}") };
                let text = if text.len() > 6 { format!("{ohms:.0}") } else { text };
                let supply = if weak { Supply::LowestBattery } else { Supply::Nominal };
                scene.shows(VALUES[i], &text).conditions.supply = supply;
            }
            scene.open_circuit(&open.to_string());
            scene.at_load(LoadRole::Rated, "0.5", &rated.to_string());
            scene
        },
    )
}

/// Every figure of uncertainty the references have: what is stated, their drift, one step of a meter. What was not
/// stated before is there afterwards.
fn widen(references: &mut [Reference], by: u32) {
    let wider = |figure: Decimal| figure * Decimal::from(by) / Decimal::TEN;
    let share = |percent: &mut Option<Percent>| *percent = percent.map(|p| Percent(wider(p.0)));
    let drift = |percent: &mut Option<Percent>| *percent = Some(Percent(wider(percent.map_or(Decimal::ONE, |p| p.0))));
    for reference in references {
        match &mut reference.what {
            ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values } => {
                for value in values {
                    share(&mut value.within_percent);
                    drift(&mut value.drift_percent);
                }
            }
            ReferenceKind::Voltmeter { ranges, .. } | ReferenceKind::HighVoltageProbe { ranges, .. } => {
                for range in ranges {
                    share(&mut range.within_percent);
                    drift(&mut range.drift_percent);
                    range.resolution_v = Some(Volts(wider(range.resolution_v.map_or(Decimal::ONE, |step| step.0))));
                }
            }
            ReferenceKind::CurrentMeter { ranges } => {
                for range in ranges {
                    share(&mut range.within_percent);
                    drift(&mut range.drift_percent);
                }
            }
        }
    }
}

proptest! {
    #[test]
    fn wider_uncertainty_never_turns_not_conforming_into_conforming(scene in any_scene(), by in 10_u32..500) {
        let mut wider = scene.clone();
        widen(&mut wider.references, by);
        let (before, after) = (scene.at_500(), wider.at_500());
        for (a, b) in before.points.iter().zip(&after.points) {
            prop_assert_eq!(&a.measured, &b.measured);
            if !a.decision.is_some_and(Decision::is_within) {
                prop_assert!(!b.decision.is_some_and(Decision::is_within), "{a:?} {b:?}");
            }
        }
        if before.conforms == Conforms::No {
            prop_assert_ne!(after.conforms, Conforms::Yes);
        }
    }

    #[test]
    fn no_interval_contains_a_point_that_failed(scene in any_scene()) {
        let voltage = scene.at_500();
        for interval in &voltage.intervals {
            prop_assert!(interval.from_ohm <= interval.to_ohm);
            for point in voltage.points.iter().filter(|p| p.base) {
                let known = point.known_ohm.unwrap();
                let inside = interval.from_ohm <= known && known <= interval.to_ohm;
                prop_assert!(!inside || point.decision.unwrap().is_within(), "{interval:?} {point:?}");
            }
        }
    }

    #[test]
    fn the_order_of_the_facts_does_not_matter(
        (scene, shuffled) in any_scene().prop_flat_map(|scene| {
            let measured = Just(scene.measured.clone()).prop_shuffle();
            (Just(scene), measured)
        })
    ) {
        let expected = scene.result();
        let mut other = scene;
        other.measured = shuffled;
        let again = other.measured.clone();
        prop_assert_eq!(&other.result(), &expected);
        other.measured.extend(again);
        prop_assert_eq!(&other.result(), &expected);
    }
}

#[test]
fn a_sound_tester_is_sound() {
    let voltage = sound().at_500();
    assert!(voltage.points.iter().all(|p| p.decision == Some(Decision::Conforms)), "{:#?}", voltage.points);
}
