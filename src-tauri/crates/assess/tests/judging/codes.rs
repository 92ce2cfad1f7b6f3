//! The codes of what asks for a look: stable, the same as in JSON, and of nothing else.

use crate::scene::*;
use provenohm_assess::judgement::{Level, MethodReason, TesterState, Value};
use provenohm_assess::tester::Outcome;
use serde_json::json;

fn codes(scene: &Scene) -> Vec<&'static str> {
    scene.judge().look_codes().into_iter().collect()
}

#[test]
fn every_reason_to_look_has_its_code_and_a_remark_has_none() {
    let lapsed = Proof::laboratory(10, "2025-01-01", "2025-12-31").left(everywhere());
    let fails_later = Proof::bench(11, "2026-08-01", "2027-07-31").found(outcome(Outcome::Failed));
    assert_eq!(codes(&Scene::new("2.0")), Vec::<&str>::new());
    assert_eq!(Scene::new("> 999").judge().level, Level::Remark);
    assert_eq!(codes(&Scene::new("> 999")), Vec::<&str>::new());
    assert_eq!(codes(&Scene::new("0.4")), ["below"]);
    assert_eq!(codes(&Scene::new("> 0.5")), ["cannot_be_judged"]);
    assert_eq!(codes(&Scene::bare("0.4")), ["below", "not_proved"]);
    assert_eq!(codes(&Scene::bare("2.0").proof(lapsed)), ["lapsed"]);
    assert_eq!(codes(&Scene::new("2.0").proof(fails_later)), ["in_doubt"]);
}

#[test]
fn what_stops_has_no_code_to_be_accepted_by() {
    let no_tester = Scene::new("2.0").with(|scene| scene.reading.tester = None).judge();
    assert_eq!((no_tester.level, no_tester.look_codes().len()), (Level::Stop, 0));
}

#[test]
fn codes_are_what_json_says() {
    for value in [Value::Meets, Value::TooClose, Value::CannotBeJudged, Value::Below] {
        assert_eq!(json!(value), value.code());
    }
    use TesterState::{Barred, FoundGoodAfterwards, InDoubt, Lapsed, NotChosen, NotProved, Proved};
    for tester in [Proved, Lapsed, NotProved, FoundGoodAfterwards, InDoubt, Barred, NotChosen] {
        assert_eq!(json!(tester), tester.code());
    }
    let (taken_v, asked_v, resolution_ohm) = (volts(250), volts(500), mega("0.01"));
    for reason in [
        MethodReason::LowerVoltage { taken_v, asked_v },
        MethodReason::HigherVoltage { taken_v, asked_v },
        MethodReason::NoQuickCheck { days: 7 },
        MethodReason::NeutralNotIsolated,
        MethodReason::FewerDigits { resolution_ohm },
        MethodReason::MoreDigits { resolution_ohm },
        MethodReason::NoSuchConductor,
        MethodReason::AboveTesterLimit { limit: shown("999") },
        MethodReason::DoubtfulClock,
        MethodReason::TwoLiveValues,
        MethodReason::ForbiddenPair,
        MethodReason::LeadsNotChecked,
        MethodReason::LoadsConnected,
        MethodReason::AtReferenceConditions,
        MethodReason::NeedsNewerVersion,
    ] {
        assert_eq!(json!(reason)["kind"], reason.code());
    }
}
