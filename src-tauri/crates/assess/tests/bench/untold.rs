use crate::scene::{BOX, Scene, mega, sound, volts};
use provenohm_assess::bench::{DecisionPoint, OperatingPart, Untold, WhyNotTested, read_too_seldom};
use provenohm_assess::quantity::{Celsius, Percent, PpmPerKelvin};
use provenohm_assess::reference::ReferenceKind;
use rust_decimal::Decimal;

/// Lets every resistance of the box state this of its drift, %, and of its temperature coefficient, ppm/K.
fn state(scene: &mut Scene, drift: Option<u32>, coefficient: Option<u32>) {
    for reference in &mut scene.references {
        if let ReferenceKind::DecadeBox { values } = &mut reference.what {
            for value in values {
                value.drift_percent = drift.map(|it| Percent(it.into()));
                value.temperature_coefficient = coefficient.map(|it| PpmPerKelvin(it.into()));
            }
        }
    }
}

/// What nobody stated is not taken for nought unsaid (design: an input not measured is not tested).
#[test]
fn what_a_reference_does_not_state_is_said_once() {
    let mut scene = sound();
    state(&mut scene, None, None);
    assert_eq!(scene.result().untold, [Untold::Drift { reference: BOX }], "at 23 °C no coefficient is needed");
    scene.measured[0].conditions.temperature_c = Some(Celsius(Decimal::from(30)));
    let away = [Untold::Drift { reference: BOX }, Untold::TemperatureCoefficient { reference: BOX }];
    assert_eq!(scene.result().untold, away);
    state(&mut scene, Some(1), Some(25));
    assert_eq!(scene.result().untold, []);
}

#[test]
fn a_temperature_nobody_read_is_said_and_leaves_the_intrinsic_part_untested() {
    let mut scene = sound();
    state(&mut scene, Some(1), Some(25));
    for one in &mut scene.measured {
        one.conditions.temperature_c = None;
    }
    assert_eq!(scene.result().untold, [Untold::Temperature]);
    let untested = |scene: &Scene| {
        let voltage = scene.at_500();
        let why = voltage.requirements.iter().flat_map(|one| one.why.clone());
        why.filter_map(|why| match why {
            WhyNotTested::PartNotTested { part } => Some(part),
            _ => None,
        })
        .collect::<Vec<_>>()
    };
    assert!(untested(&scene).contains(&OperatingPart::Intrinsic), "{:?}", untested(&scene));
    scene.measured[0].conditions.temperature_c = Some(Celsius(Decimal::from(23)));
    assert!(!untested(&scene).contains(&OperatingPart::Intrinsic));
    assert_eq!(scene.result().untold, [Untold::Temperature], "the others still have none");
}

/// At least three repeats where the limit is judged (common practice), whatever the plan asked.
#[test]
fn what_was_read_too_seldom_beside_a_limit_is_said() {
    let decision = DecisionPoint { test_voltage_v: volts("500"), limit_ohm: mega("1") };
    let told = |scene: &Scene| -> Vec<(String, u32)> {
        let all = read_too_seldom(&scene.result(), &[decision]);
        all.iter().map(|one| (one.nominal_ohm.0.to_string(), one.taken)).collect()
    };
    let mut scene = Scene::new();
    for (known, times) in [("0.1", 1), ("0.5", 2), ("1", 3), ("10", 1)] {
        for _ in 0..times {
            scene.shows(known, known);
        }
    }
    assert_eq!(told(&scene), [("500000".to_owned(), 2)], "further away once is enough");
    scene.shows("0.5", "0.5");
    assert_eq!(told(&scene), []);
    let elsewhere = DecisionPoint { test_voltage_v: volts("250"), ..decision };
    assert_eq!(read_too_seldom(&scene.result(), &[elsewhere]), []);
}
