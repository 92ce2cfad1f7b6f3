//! What the record says of a reading after a bench run.

use crate::scene::{Scene, TESTER, day, held, mega, moment, shown, sound, volts};
use provenohm_assess::bench::{Issued, LoadRole, Series};
use provenohm_assess::circuit::{Conductor, End, Pair, Stage, Terminal};
use provenohm_assess::ids::{CircuitId, PersonId, ReadingId, VerificationId};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::judgement::{TesterJudgement, TesterRemark, TesterState};
use provenohm_assess::limits::{Limit, Source, Tag};
use provenohm_assess::moment::When;
use provenohm_assess::policy::{Policies, TesterPolicy};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_assess::tester::{
    Conforms, Holds, Prepared, ProofEvent, RequirementName, RequirementResult, TesterHistory,
};
use std::collections::BTreeSet;
use uuid::Uuid;

/// The state of the tester for a reading.
pub fn state(scene: &Scene, indicated: &str, policy: TesterPolicy) -> TesterState {
    reading(scene, indicated, policy).state
}

/// What is said of the tester for a reading of 1.0 MΩ asked at 500 V, taken the day after the run.
fn reading(scene: &Scene, indicated: &str, policy: TesterPolicy) -> TesterJudgement {
    let verification = scene.result().verification(Issued {
        id: VerificationId(Uuid::from_u128(77)),
        made: When::At(moment("2026-06-01T10:00")),
        valid_until: day("2027-05-31"),
        by: "a bench".to_owned(),
        number: None,
        recorded_at: moment("2026-06-01T10:00"),
    });
    let history = TesterHistory {
        tester: TESTER,
        card: Some(scene.card.clone()),
        events: vec![ProofEvent::Verification(verification)],
        lead_checks: Vec::new(),
    };
    let circuit = CircuitId(Uuid::from_u128(5));
    let live = Terminal::Live { circuit, conductor: Conductor::L1 };
    let reading = Reading {
        id: ReadingId(Uuid::from_u128(6)),
        shown: shown(indicated),
        pair: Pair { a: End(BTreeSet::from([live])), b: End(BTreeSet::from([Terminal::Earth])) },
        stage: Stage::Before,
        test_voltage_v: volts("500"),
        tester: Some(TESTER),
        person: PersonId(Uuid::from_u128(7)),
        at: moment("2026-06-02T10:00"),
        conditions: Conditions::default(),
    };
    let limit = Limit {
        minimum_ohm: mega("1"),
        test_voltage_v: Some(volts("500")),
        set: "a set".to_owned(),
        source: Source { title: "a set".to_owned(), place: String::new(), tag: Tag::User },
    };
    judge(&Asked {
        reading: &reading,
        wanted: &Wanted { limit: Some(limit), ..Wanted::default() },
        tester: Some(&Prepared::new(&history)),
        policies: Policies { tester: policy, ..Policies::default() },
        known: Known::default(),
    })
    .tester
}

/// Right at 10 MΩ and above, 12 % low at 1 MΩ, its voltage falling away at the rated load.
fn wrong_at_the_low_end() -> Scene {
    let mut scene =
        Scene::new().with(&[("1", "0.88"), ("10", "10.00"), ("50", "50"), ("100", "101"), ("1000", "1000")]);
    scene.shorted("0.00");
    scene.open_circuit("560");
    scene.at_load(LoadRole::Rated, "0.5", "310");
    scene.short_circuit("0.0007");
    scene
}

#[test]
fn right_from_ten_megohms_up_with_a_voltage_that_falls_away() {
    let scene = wrong_at_the_low_end();
    let voltage = scene.at_500();
    assert_eq!(voltage.conforms, Conforms::No);
    let not_met: BTreeSet<RequirementName> =
        voltage.requirements.iter().filter(|r| r.result == RequirementResult::NotMet).map(|r| r.name).collect();
    assert_eq!(not_met, BTreeSet::from([RequirementName::RatedCurrent]));
    assert_eq!(held(&voltage), ["10 to 1000"]);

    for policy in [TesterPolicy::Full, TesterPolicy::Usual] {
        for indicated in ["0.50", "1.20", "9.99", "10.00", "450", "> 999"] {
            assert_eq!(state(&scene, indicated, policy), TesterState::Barred, "{indicated} {policy:?}");
        }
    }
    for indicated in ["0.50", "0.95", "1.20", "9.99"] {
        assert_ne!(state(&scene, indicated, TesterPolicy::IndicationsOnly), TesterState::Proved, "{indicated}");
    }
    for indicated in ["10.00", "12.50", "450", "> 999"] {
        assert_eq!(state(&scene, indicated, TesterPolicy::IndicationsOnly), TesterState::Proved, "{indicated}");
    }
}

#[test]
fn a_sound_tester_is_proved_as_usual_and_not_in_full() {
    let scene = sound();
    for indicated in ["0.50", "1.20", "450", "> 2000"] {
        assert_eq!(state(&scene, indicated, TesterPolicy::Usual), TesterState::Proved, "{indicated}");
    }
    assert_eq!(state(&scene, "1.20", TesterPolicy::Full), TesterState::NotProved);
}

/// An interval starts at the indication where the lowest point was shown high; that very indication is within it.
#[test]
fn the_lowest_point_shown_high_still_counts() {
    let mut scene = Scene::new().with(&[("1", "1.02"), ("10", "10.00"), ("100", "100")]);
    scene.shorted("0.00");
    assert_eq!(held(&scene.at_500()), ["1.02 to 100"]);
    assert_eq!(state(&scene, "1.02", TesterPolicy::Usual), TesterState::Proved);
    assert_eq!(state(&scene, "5.00", TesterPolicy::Usual), TesterState::Proved);
}

#[test]
fn as_left_looks_forward_where_the_tester_was_adjusted() {
    let mut scene = wrong_at_the_low_end();
    scene.run.adjusted = true;
    let left = sound();
    for mut one in left.measured {
        one.series = Series::AsLeft;
        one.id = provenohm_assess::ids::MeasuredId(Uuid::from_u128(one.id.0.as_u128() + 1000));
        scene.measured.push(one);
    }
    assert_eq!(scene.result().voltages.len(), 2);
    assert_eq!(state(&scene, "1.20", TesterPolicy::Usual), TesterState::Proved);
}

/// A conditional fail of a requirement proves nothing and fails nothing.
#[test]
fn a_requirement_too_close_to_call_is_silent() {
    let mut scene = sound();
    scene.run.rule = provenohm_assess::bench::DecisionRule::GuardU;
    scene.measured.retain(|m| !matches!(m.item, provenohm_assess::bench::MeasuredWhat::AtLoad(_)));
    scene.at_load(LoadRole::Rated, "0.5", "499").id.0 = Uuid::from_u128(4000);
    assert_eq!(state(&scene, "1.20", TesterPolicy::Usual), TesterState::NotProved);
}

/// A conditional pass counts with a remark: at the readings it backs, and at no others.
#[test]
fn an_interval_that_rests_on_a_conditional_pass_is_remarked() {
    let mut scene = sound();
    assert!(!reading(&scene, "1.20", TesterPolicy::Usual).remarks.contains(&TesterRemark::HoldsOnCondition));
    scene.references[0].valid_until = day("2026-05-31");
    let voltage = scene.at_500();
    assert!(voltage.intervals.iter().all(|i| i.conditional) && !voltage.intervals.is_empty());
    let Holds::In(holds) = &voltage.statement.holds else { panic!("a bench states where") };
    assert!(holds.iter().all(|i| i.conditional));
    for indicated in ["0.05", "1.20", "> 2000"] {
        let judged = reading(&scene, indicated, TesterPolicy::Usual);
        assert_eq!(judged.state, TesterState::Proved, "{indicated}");
        assert!(judged.remarks.contains(&TesterRemark::HoldsOnCondition), "{indicated}");
    }
}

/// What a recall needs: the uncertainty of each error, and the loads at which the voltage held.
#[test]
fn the_statement_carries_what_sorts_a_recalled_reading() {
    let voltage = wrong_at_the_low_end().at_500();
    let statement = voltage.statement;
    assert!(!statement.points.is_empty());
    assert!(
        statement.points.iter().all(|p| p.error_uncertainty_percent.is_some_and(|u| u.0 > rust_decimal::Decimal::ZERO))
    );
    let held: Vec<bool> = statement.voltages.iter().map(|v| v.held).collect();
    assert_eq!(held, [true, false], "open circuit within bounds, the rated load not: {:?}", statement.voltages);
}
