use crate::scene::{Scene, VALUES, sound};
use proptest::prelude::*;
use provenohm_assess::bench::{Decision, DecisionRule, LoadRole, Measured, MeasuredWhat, Supply, VoltageResult};
use provenohm_assess::ids::MeasuredId;
use provenohm_assess::quantity::{Amps, Comparator, Ohms, Percent, PpmPerKelvin, PpmPerVolt, Shown, Volts};
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::tester::{Conforms, RequirementResult};
use rust_decimal::Decimal;
use uuid::Uuid;

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
                    let fixed = value.within_ohm.map_or(Decimal::ONE, |ohms| ohms.0);
                    value.within_ohm = Some(Ohms(wider(fixed)));
                    let per_volt = value.voltage_coefficient.map_or(Decimal::ONE, |ppm| ppm.0);
                    value.voltage_coefficient = Some(PpmPerVolt(wider(per_volt)));
                    let per_kelvin = value.temperature_coefficient.map_or(Decimal::ONE, |ppm| ppm.0);
                    value.temperature_coefficient = Some(PpmPerKelvin(wider(per_kelvin)));
                }
            }
            ReferenceKind::Voltmeter { ranges, .. } | ReferenceKind::HighVoltageProbe { ranges, .. } => {
                for range in ranges {
                    share(&mut range.within_percent);
                    drift(&mut range.drift_percent);
                    range.within_v = Some(Volts(wider(range.within_v.map_or(Decimal::ONE, |volts| volts.0))));
                    range.resolution_v = Some(Volts(wider(range.resolution_v.map_or(Decimal::ONE, |step| step.0))));
                }
            }
            ReferenceKind::CurrentMeter { ranges } => {
                for range in ranges {
                    share(&mut range.within_percent);
                    drift(&mut range.drift_percent);
                    let milliamp = Decimal::new(1, 3);
                    range.within_a = Some(Amps(wider(range.within_a.map_or(milliamp, |amps| amps.0))));
                    range.resolution_a = Some(Amps(wider(range.resolution_a.map_or(milliamp, |step| step.0))));
                }
            }
        }
    }
}

/// Repeats scattered further about the mean they had: each exact indication once higher and once lower by some steps.
fn scatter(scene: &Scene, steps: i64) -> Scene {
    let mut wider = scene.clone();
    wider.measured.clear();
    for (number, one) in scene.measured.iter().enumerate() {
        let MeasuredWhat::Indication { resistor, across, shown } = one.item else {
            wider.measured.push(*one);
            continue;
        };
        let digits: Decimal = shown.digits.to_string().parse().unwrap();
        let step = Decimal::new(steps, digits.scale());
        let exact = shown.comparator == Comparator::Exact && digits > step;
        for (twin, digits) in [digits + step, digits - step].into_iter().enumerate().take(if exact { 2 } else { 1 }) {
            let shown = if exact { Shown::parse(&format!("{digits} MΩ")).unwrap() } else { shown };
            let id = MeasuredId(Uuid::from_u128(10_000 + 2 * number as u128 + twin as u128));
            wider.measured.push(Measured { id, item: MeasuredWhat::Indication { resistor, across, shown }, ..*one });
        }
    }
    wider
}

/// Points in their order, requirements and the whole: what was not within its bound is not within it afterwards.
fn none_conforms_that_did_not(before: &VoltageResult, after: &VoltageResult) -> Result<(), TestCaseError> {
    prop_assert_eq!(before.points.len(), after.points.len());
    for (a, b) in before.points.iter().zip(&after.points) {
        prop_assert_eq!((a.resistor, a.conditions), (b.resistor, b.conditions));
        if !a.decision.is_some_and(Decision::is_within) {
            prop_assert!(!b.decision.is_some_and(Decision::is_within), "{a:?} {b:?}");
        }
    }
    for (a, b) in before.requirements.iter().zip(&after.requirements) {
        prop_assert_eq!(a.name, b.name);
        if a.result == RequirementResult::NotMet {
            prop_assert!(b.result != RequirementResult::Met, "{a:?} {b:?}");
        }
    }
    if before.conforms == Conforms::No {
        prop_assert_ne!(after.conforms, Conforms::Yes);
    }
    Ok(())
}

proptest! {
    #[test]
    fn wider_uncertainty_never_turns_not_conforming_into_conforming(scene in any_scene(), by in 10_u32..500) {
        let mut wider = scene.clone();
        widen(&mut wider.references, by);
        let (before, after) = (scene.at_500(), wider.at_500());
        for (a, b) in before.points.iter().zip(&after.points) {
            prop_assert_eq!(&a.measured, &b.measured);
        }
        none_conforms_that_did_not(&before, &after)?;
    }

    /// All there are at once: certificates, drift, voltage, temperature, meters, the tester's own scatter.
    #[test]
    fn all_uncertainties_wider_turn_nothing_into_conforming(scene in any_scene(), by in 10_u32..500, steps in 0_i64..40) {
        let mut wider = scatter(&scene, steps);
        widen(&mut wider.references, by);
        none_conforms_that_did_not(&scene.at_500(), &wider.at_500())?;
    }

    #[test]
    fn no_interval_contains_a_point_that_failed(scene in any_scene()) {
        let voltage = scene.at_500();
        for interval in &voltage.intervals {
            prop_assert!(interval.from_ohm <= interval.to_ohm);
            // Reference points, and those that fail under other conditions, as at the lowest battery voltage.
            for point in voltage.points.iter().filter(|p| p.base || p.fails_in_use) {
                let known = point.known_ohm.unwrap();
                let inside = interval.from_ohm <= known && known <= interval.to_ohm;
                let holds = !point.fails_in_use && point.decision.is_some_and(Decision::is_within);
                prop_assert!(!inside || holds, "{interval:?} {point:?}");
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
