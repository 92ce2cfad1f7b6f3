//! What a bench must not be talked into: figures far off, in places where nobody looks for them.

use crate::judged::state;
use crate::scene::{AMMETER, Scene, held, mega, resistance, resistor, sound, volts};
use provenohm_assess::bench::{
    Decision, DecisionRule, LoadRole, MeasuredWhat, MeterReading, PlannedPoint, PlannedWhat, PointRemark, Supply,
    TesterPosition, Warmth,
};
use provenohm_assess::judgement::TesterState;
use provenohm_assess::policy::TesterPolicy;
use provenohm_assess::quantity::{Amps, Ohms};
use provenohm_assess::reference::ReferenceKind;
use provenohm_assess::tester::{Outcome, RequirementName, RequirementResult};

const EVERY: [TesterPolicy; 3] = [TesterPolicy::Full, TesterPolicy::Usual, TesterPolicy::IndicationsOnly];

/// 0.5 MΩ shown as over-range: whatever reads over-range may be 0.5 MΩ.
#[test]
fn a_low_resistance_shown_over_range_bars_every_higher_indication() {
    let scene = Scene::new().with(&[("0.5", "> 2000"), ("1", "1.00"), ("10", "10.0"), ("100", "100")]);
    for policy in EVERY {
        assert_eq!(state(&scene, "> 2000", policy), TesterState::Barred);
        assert_eq!(state(&scene, "487", policy), TesterState::Barred);
    }
}

/// 1 MΩ shown as 15 MΩ, 10 MΩ and 100 MΩ right: an indication of 12 MΩ may be 1 MΩ, one of 20 MΩ is not.
#[test]
fn a_resistance_shown_far_too_high_speaks_up_to_what_it_was_shown_as() {
    let scene = Scene::new().with(&[("1", "15.0"), ("10", "10.0"), ("100", "100")]);
    for indicated in ["1.20", "9.00", "12.0", "15.0"] {
        assert_eq!(state(&scene, indicated, TesterPolicy::IndicationsOnly), TesterState::Barred, "{indicated}");
    }
}

/// At the lowest battery voltage 1 MΩ is shown over-range: no standard lets operation add that.
#[test]
fn what_fails_at_the_lowest_battery_voltage_ends_the_interval() {
    let mut scene = sound();
    assert_eq!(state(&scene, "1.50", TesterPolicy::Usual), TesterState::Proved);
    scene.shows("1", "> 2000").conditions.supply = Supply::LowestBattery;
    let at_500 = scene.at_500();
    assert_eq!(at_500.statement.outcome, Outcome::Failed);
    assert_ne!(held(&at_500), held(&sound().at_500()));
    assert_eq!(state(&scene, "1.50", TesterPolicy::Usual), TesterState::Barred);
    assert_eq!(state(&scene, "> 2000", TesterPolicy::IndicationsOnly), TesterState::Barred);
    // A change that operation may add is none.
    let mut weak = sound();
    weak.shows("1", "1.10").conditions.supply = Supply::LowestBattery;
    assert_eq!(held(&weak.at_500()), held(&sound().at_500()));
}

/// A value above its rating is not known, and 2 MΩ shown as 5 MΩ is not passed over.
#[test]
fn a_point_whose_reference_cannot_be_used_ends_the_interval() {
    let mut scene = sound();
    let whole = held(&scene.at_500());
    if let ReferenceKind::DecadeBox { values } = &mut scene.references[0].what {
        let one = values.iter_mut().find(|one| one.nominal_ohm == resistor("1").nominal_ohm).unwrap();
        one.rated_voltage_v = Some(volts("250"));
    }
    assert_ne!(held(&scene.at_500()), whole);
    assert!(scene.at_500().points.iter().any(|point| point.resistor == resistor("1") && point.decision.is_none()));
}

/// Simple acceptance knows no zone between: one repeat outside is outside.
#[test]
fn the_worst_repeat_decides() {
    let scene = Scene::new().with(&[("1", "0.50"), ("1", "1.50"), ("1", "1.00")]);
    assert_eq!(scene.point().decision, Some(Decision::DoesNotConform));
    let scene = Scene::new().with(&[("1", "1.00"), ("1", "1.00"), ("1", "> 2000")]);
    assert_eq!(scene.point().decision, Some(Decision::DoesNotConform));
}

/// 1 MΩ shown as 0.80 MΩ once and 1.15 MΩ twice: what is shown as 1.15 MΩ later may be 1 MΩ, so the statement has to
/// hold that error too, whichever is further off (e = +15 %; calc).
#[test]
fn the_highest_repeat_is_on_record_beside_the_one_furthest_off() {
    let listed = |shown: &[(&str, &str)]| -> Vec<Ohms> {
        let statement = Scene::new().with(shown).at_500().statement;
        let at_1 = statement.points.iter().filter(|it| it.reference_ohm == mega("1"));
        at_1.map(|it| it.indicated.ohms()).collect()
    };
    assert_eq!(listed(&[("1", "0.80"), ("1", "1.15"), ("1", "1.15")]), [mega("0.80"), mega("1.15")]);
    assert_eq!(listed(&[("1", "0.95"), ("1", "1.15")]), [mega("1.15")]);
    assert_eq!(listed(&[("1", "1.00"), ("1", "1.00")]), [mega("1.00")]);
}

/// 60 V at 1 MΩ: a voltage does not rise when the load gets heavier, so no more than 0.12 mA flow at the rated load.
#[test]
fn a_lighter_load_can_show_that_the_rated_current_is_not_reached() {
    let found = |scene: &Scene| {
        let at_500 = scene.at_500();
        at_500.requirements.iter().find(|it| it.name == RequirementName::RatedCurrent).unwrap().result
    };
    let mut scene = Scene::new().with(&[("1", "1.00"), ("10", "10.0")]);
    scene.at_load(LoadRole::Further, "1", "60");
    assert_eq!(found(&scene), RequirementResult::NotMet);
    // It never shows that it is reached.
    let mut scene = Scene::new().with(&[("1", "1.00"), ("10", "10.0")]);
    scene.at_load(LoadRole::Further, "1", "560");
    assert_eq!(found(&scene), RequirementResult::NotTested);
}

/// The most ripple is 1.5 mA; 1.505 mA with a guard of U is too close to call.
#[test]
fn a_ripple_too_close_to_call_is_not_met() {
    let mut scene = sound();
    scene.run.rule = DecisionRule::GuardU;
    let ripple = Amps("0.001505".parse().unwrap());
    scene.add(MeasuredWhat::Ripple { current: MeterReading { reference: AMMETER, shown: ripple } });
    let at_500 = scene.at_500();
    let found = at_500.requirements.iter().find(|it| it.name == RequirementName::ShortCircuitCurrent).unwrap();
    assert_eq!((found.result, found.decision), (RequirementResult::NotTested, Some(Decision::ConditionalFail)));
}

/// IEC 61557-2, 6.2: operating uncertainty is asked within the marked measuring range.
#[test]
fn outside_the_marked_range_no_operating_uncertainty_is_asked() {
    let mut scene = sound();
    let before = scene.at_500().operating.len();
    let low = resistance("0.01");
    if let ReferenceKind::DecadeBox { values } = &mut scene.references[0].what {
        values.push(low);
    }
    scene.shows("0.01", "0.03");
    assert_eq!(scene.at_500().operating.len(), before);
}

/// At least three repeats where it is decided (the plan asks for them): fewer are said.
#[test]
fn fewer_repeats_than_planned_are_said() {
    let plan = |scene: &mut Scene| {
        scene.run.plan.push(PlannedPoint {
            warmth: Warmth::Reference,
            test_voltage_v: volts("500"),
            item: PlannedWhat::Indication { resistor: resistor("1") },
            repeats: 3,
            supply: Supply::Nominal,
            position: TesterPosition::Reference,
        });
    };
    let said = |scene: &Scene| {
        scene
            .point()
            .remarks
            .contains(&PointRemark::FewerThanPlanned { taken: scene.measured.len() as u32, planned: 3 })
    };
    let mut once = Scene::new().with(&[("1", "1.00")]);
    plan(&mut once);
    assert!(said(&once));
    let mut thrice = Scene::new().with(&[("1", "1.00"), ("1", "1.00"), ("1", "1.01")]);
    plan(&mut thrice);
    assert!(!said(&thrice));
}
