use crate::scene::{AMMETER, Scene, dec, mega, newest, resistor, sound, volts};
use provenohm_assess::bench::{
    Decision, LoadReading, LoadRole, Measured, MeasuredWhat, MeterReading, RequirementFound, WhyNotTested, WhyUndecided,
};
use provenohm_assess::quantity::Amps;
use provenohm_assess::reference::ReferenceKind;
use provenohm_assess::tester::{Conforms, RequirementName, RequirementResult};

fn requirement(scene: &Scene, name: RequirementName) -> RequirementFound {
    scene.at_500().requirements.into_iter().find(|r| r.name == name).unwrap()
}

fn scene(add: impl FnOnce(&mut Scene) -> &mut Measured) -> Scene {
    let mut scene = Scene::new();
    add(&mut scene);
    scene
}

/// At most 1.25 × 500 V = 625 V with at least 50 MΩ connected (factor memory-M; load seen, IEC 61557-2:2019, 6.3).
#[test]
fn open_circuit_voltage() {
    let name = RequirementName::OpenCircuitVoltage;
    let found = requirement(&scene(|s| s.open_circuit("620")), name);
    assert_eq!((found.result, found.asked), (RequirementResult::Met, dec("625")));
    let found = requirement(&scene(|s| s.open_circuit("626")), name);
    assert_eq!((found.result, found.decision), (RequirementResult::NotMet, Some(Decision::DoesNotConform)));
    assert!(found.source.tag != provenohm_assess::limits::Tag::Seen);
}

/// A 10 MΩ meter is a load of 20 kΩ/V at 500 V: it shows what is too high, never that it is not.
#[test]
fn a_heavy_meter_cannot_show_the_open_circuit_voltage_to_be_low_enough() {
    let at = |v: &str| {
        let mut scene = scene(|s| s.open_circuit(v));
        if let ReferenceKind::HighVoltageProbe { input_resistance_ohm, .. } = &mut scene.references[1].what {
            *input_resistance_ohm = mega("10");
        }
        requirement(&scene, RequirementName::OpenCircuitVoltage)
    };
    let found = at("510");
    assert_eq!(found.result, RequirementResult::NotTested);
    let reason = WhyUndecided::LoadTooHeavy { load_ohm: mega("10"), least_ohm: mega("50") };
    assert_eq!(found.why, [WhyNotTested::Undecided { reason }]);
    assert_eq!(at("700").result, RequirementResult::NotMet);
}

/// At least 1 mA through 500 kΩ at 500 V (resistor seen, IEC 61557-2:2019, 6.4; 1 mA seen in a trade book).
#[test]
fn rated_current() {
    let name = RequirementName::RatedCurrent;
    let at = |v: &str| requirement(&scene(|s| s.at_load(LoadRole::Rated, "0.5", v)), name);
    assert_eq!(at("520").result, RequirementResult::Met);
    assert_eq!(at("480").result, RequirementResult::NotMet);
    assert!((at("480").found.unwrap() - 0.000_96).abs() < 1e-6);
    assert_eq!(requirement(&Scene::new().with(&[("1", "1.00")]), name).why, [WhyNotTested::NotMeasured]);
}

/// With a 10 MΩ meter across, 0.5 MΩ is 0.476 MΩ: 490 V there is 1.03 mA, and no less than 0.98 mA through 0.5 MΩ.
#[test]
fn a_load_that_is_not_the_rated_one_leaves_the_current_open() {
    let at = |v: &str| {
        let mut scene = scene(|s| s.at_load(LoadRole::Rated, "0.5", v));
        if let ReferenceKind::HighVoltageProbe { input_resistance_ohm, .. } = &mut scene.references[1].what {
            *input_resistance_ohm = mega("10");
        }
        requirement(&scene, RequirementName::RatedCurrent)
    };
    assert_eq!(at("490").result, RequirementResult::NotTested);
    assert!(matches!(at("490").why[..], [WhyNotTested::Undecided { reason: WhyUndecided::LoadNotRated { .. } }]));
    assert_eq!(at("501").result, RequirementResult::Met);
    assert_eq!(at("470").result, RequirementResult::NotMet);
}

#[test]
fn the_current_alone_will_do() {
    let at = |amps: &str| {
        let current = Some(MeterReading { reference: AMMETER, shown: Amps(dec(amps)) });
        let reading = LoadReading { role: LoadRole::Rated, load: resistor("0.5"), voltage: None, current };
        requirement(&scene(|s| s.add(MeasuredWhat::AtLoad(reading))), RequirementName::RatedCurrent)
    };
    assert_eq!(at("0.00105").result, RequirementResult::Met);
    assert_eq!(at("0.00095").result, RequirementResult::NotMet);
}

#[test]
fn short_circuit_current_and_ripple() {
    let name = RequirementName::ShortCircuitCurrent;
    let short = |amps: &str| requirement(&scene(|s| s.short_circuit(amps)), name);
    assert_eq!(short("0.0149").result, RequirementResult::Met);
    assert_eq!(short("0.0151").result, RequirementResult::NotMet);
    let mut both = scene(|s| s.short_circuit("0.002"));
    let ripple =
        |amps: &str| MeasuredWhat::Ripple { current: MeterReading { reference: AMMETER, shown: Amps(dec(amps)) } };
    both.add(ripple("0.001"));
    assert_eq!(requirement(&both, name).result, RequirementResult::Met);
    both.add(ripple("0.002"));
    let found = requirement(&both, name);
    assert_eq!((found.result, found.asked), (RequirementResult::NotMet, newest().most_ripple_a.value.0));
    assert_eq!(requirement(&scene(|s| s.add(ripple("0.001"))), name).result, RequirementResult::NotTested);
}

#[test]
fn the_worst_condition_decides() {
    let mut scene = sound();
    let met = |scene: &Scene| requirement(scene, RequirementName::RatedCurrent).result;
    assert_eq!(met(&scene), RequirementResult::Met);
    scene.at_load(LoadRole::Rated, "0.5", "430").conditions.supply = provenohm_assess::bench::Supply::LowestBattery;
    assert_eq!(met(&scene), RequirementResult::NotMet);
    assert_eq!(scene.at_500().conforms, Conforms::No);
}

#[test]
fn the_smallest_load_at_which_the_voltage_held() {
    let mut scene = Scene::new();
    scene.open_circuit("560");
    scene.at_load(LoadRole::Further, "2", "540");
    scene.at_load(LoadRole::Further, "1", "505");
    scene.at_load(LoadRole::Rated, "0.5", "420");
    let load = scene.at_500().voltage_holds_from_ohm.unwrap();
    // 1 MΩ with 1 GΩ across.
    assert_eq!(load.0.round(), dec("999001"));
    let fallen = scene_fallen();
    assert_eq!(fallen.at_500().voltage_holds_from_ohm, None);
}

fn scene_fallen() -> Scene {
    scene(|s| s.open_circuit("499"))
}

#[test]
fn what_is_missing_is_named_and_nothing_is_assumed() {
    let voltage = sound().at_500();
    assert_eq!(voltage.conforms, Conforms::NotAllTested);
    assert_eq!(voltage.test_voltage_v, volts("500"));
    let open: Vec<_> = voltage.requirements.iter().filter(|r| r.result == RequirementResult::NotTested).collect();
    assert_eq!(open.iter().map(|r| r.name).collect::<Vec<_>>(), [RequirementName::OperatingUncertainty]);
    assert_eq!(open[0].why.len(), 3);
    assert_eq!(voltage.statement.operating_uncertainty_percent, None);
}
