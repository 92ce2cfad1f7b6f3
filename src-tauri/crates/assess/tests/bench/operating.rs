use crate::scene::{Scene, dec, sound};
use provenohm_assess::bench::{OperatingPart, Supply, TesterPosition, WhyNotTested};
use provenohm_assess::quantity::{Celsius, Percent};
use provenohm_assess::tester::{Conforms, RequirementName, RequirementResult};

/// A = 1 % low of a reading of 10.00, nothing by position, 2 % by supply, 3 % by temperature.
fn complete() -> Scene {
    let mut scene = sound();
    scene.measured.retain(|m| !matches!(m.item, provenohm_assess::bench::MeasuredWhat::Indication { .. }));
    for (known, shown) in [("1", "1.00"), ("10", "10.00")] {
        scene.shows(known, shown);
    }
    scene.shows("10", "10.00").conditions.position = TesterPosition::TurnedLeft;
    scene.shows("10", "10.00").conditions.position = TesterPosition::TurnedRight;
    scene.shows("10", "9.80").conditions.supply = Supply::LowestBattery;
    scene.shows("10", "10.10").conditions.temperature_c = Some(Celsius(dec("0")));
    scene.shows("10", "9.70").conditions.temperature_c = Some(Celsius(dec("35")));
    // Distinct ids after the retained ones.
    for (i, one) in scene.measured.iter_mut().enumerate() {
        one.id = provenohm_assess::ids::MeasuredId(uuid::Uuid::from_u128(500 + i as u128));
    }
    scene
}

/// B = |A| + 1.15·√(E1² + E2² + E3²) = 0 + 1.15·√(2² + 3²) = 4.1464 % (IEC 61557-1, formula memory-H).
#[test]
fn b_from_its_parts() {
    let voltage = complete().at_500();
    let at_10 = voltage.operating.iter().find(|at| at.known_ohm == crate::scene::mega("10")).unwrap();
    assert!((at_10.operating - 4.146_4).abs() < 1e-4, "{}", at_10.operating);
    assert!((at_10.supply.unwrap() + 2.0).abs() < 1e-9, "signed");
    assert!((at_10.temperature.unwrap() + 3.0).abs() < 1e-9, "the larger of the two");
    assert_eq!(voltage.conforms, Conforms::Yes);
    assert_eq!(voltage.statement.operating_uncertainty_percent, Some(Percent(dec("4.15"))));
    // Taken over where it was not tested.
    let at_1 = voltage.operating.iter().find(|at| at.known_ohm == crate::scene::mega("1")).unwrap();
    assert_eq!(at_1.temperature, at_10.temperature);
}

#[test]
fn each_condition_not_tested_is_named() {
    let left_out = |keep: &dyn Fn(&provenohm_assess::bench::Measured) -> bool| {
        let mut scene = complete();
        scene.measured.retain(|m| keep(m));
        let voltage = scene.at_500();
        assert_eq!(voltage.conforms, Conforms::NotAllTested);
        assert_eq!(voltage.statement.operating_uncertainty_percent, None);
        let name = RequirementName::OperatingUncertainty;
        voltage.requirements.into_iter().find(|r| r.name == name).unwrap().why
    };
    let part = |part| [WhyNotTested::PartNotTested { part }];
    assert_eq!(left_out(&|m| m.conditions.supply == Supply::Nominal), part(OperatingPart::Supply));
    assert_eq!(left_out(&|m| m.conditions.position != TesterPosition::TurnedLeft), part(OperatingPart::Position));
    assert_eq!(left_out(&|m| m.conditions.temperature_c != Some(Celsius(dec("35")))), part(OperatingPart::Temperature));
}

/// More than 30 % (IEC 61557-2:2019, 6.2, seen) fails, whatever else was not tested.
#[test]
fn more_than_thirty_per_cent_fails_by_itself() {
    let scene = Scene::new().with(&[("1", "1.00"), ("10", "7.00")]);
    let voltage = scene.at_500();
    let name = RequirementName::OperatingUncertainty;
    let found = voltage.requirements.iter().find(|r| r.name == name).unwrap();
    assert_eq!(found.result, RequirementResult::NotMet);
    assert!((found.found.unwrap() - 3.0 / 7.0 * 100.0).abs() < 1e-9);
}
