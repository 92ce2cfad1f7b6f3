//! The worked cases: L = 1.0 MΩ, 500 V asked, policies simple and usual, a tester proved for everything, unless said.

use crate::scene::*;
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterState::{Barred, FoundGoodAfterwards, InDoubt, NotChosen, NotProved, Proved};
use provenohm_assess::judgement::Value::{Below, CannotBeJudged, Meets, TooClose};
use provenohm_assess::judgement::{Judgement, MethodReason, TesterReason, ValueReason};
use provenohm_assess::limits::{ReducedReason, Tag};
use provenohm_assess::quantity::Percent;
use provenohm_assess::tester::{LeadEnd, Outcome, ProofEvent, RequirementName, RequirementResult, VoltageCard};

/// A tester with its budget on record: U and B as given, % of the reading.
fn with_budget(mut scene: Scene, u: Option<&str>, b: Option<&str>) -> Scene {
    scene.history.events.iter_mut().for_each(|event| {
        if let ProofEvent::Verification(v) = event {
            for left in v.findings.iter_mut().filter_map(|f| f.as_left.as_mut()) {
                left.expanded_uncertainty_percent = u.map(|u| Percent(dec(u)));
                left.operating_uncertainty_percent = b.map(|b| Percent(dec(b)));
            }
        }
    });
    scene
}

fn acceptance(j: &Judgement) -> Option<String> {
    j.value.guard.as_ref().map(|g| g.acceptance_ohm.0.normalize().to_string())
}

#[test]
fn values_against_the_limit() {
    check(&[
        case(
            "1",
            "below stands before any guard",
            with_budget(Scene::new("0.98").guarded(), None, Some("30")),
            (Below, Proved, Look),
        )
        .and(|j| j.value.guard.is_none()),
        case("2", "R = L meets", Scene::new("1.00"), (Meets, Proved, Done)),
        case(
            "3",
            "1.05 < 1 + 3 % of 1.05 + 0.02",
            Scene::new("1.05").guarded().with_accuracy(),
            (TooClose, Proved, Look),
        )
        .and(|j| acceptance(j).as_deref() == Some("1051500")),
        case(
            "4",
            "1.06 ≥ 1.0518; at reference conditions",
            Scene::new("1.06").guarded().with_accuracy(),
            (Meets, Proved, Remark),
        )
        .and(|j| acceptance(j).as_deref() == Some("1051800") && j.method == [MethodReason::AtReferenceConditions]),
        case("5a", "1.42 < 1 + 0.426", Scene::new("1.42").guarded().conforming(), (TooClose, Proved, Look)),
        case("5b", "1.43 ≥ 1 + 0.429", Scene::new("1.43").guarded().conforming(), (Meets, Proved, Done)),
        case("6", "over-range above L; the leads were not checked", Scene::new("> 999"), (Meets, Proved, Remark)),
        case("7", "no figures at all", Scene::new("> 999").guarded(), (CannotBeJudged, Proved, Look))
            .and(|j| j.value.reason == ValueReason::NoUncertainty),
        case("8", "below needs no figures", Scene::new("0.40").guarded(), (Below, Proved, Look)),
        case("9a", "x ≤ L", Scene::new("< 0.1"), (Below, Proved, Look)),
        case("9b", "x = L", Scene::new("< 1.0"), (Below, Proved, Look)),
        case("9c", "the limit lies in the open part", Scene::new("< 2"), (CannotBeJudged, Proved, Look)),
        case("10", "x < L", Scene::new("> 0.5"), (CannotBeJudged, Proved, Look))
            .and(|j| j.value.reason == ValueReason::OpenTowardsLimit),
    ]);
}

#[test]
fn test_voltages() {
    check(&[
        case("11", "100 V where the set asks for 500 V", Scene::new("1.2").volts(100), (CannotBeJudged, Proved, Look))
            .and(|j| j.value.reason == ValueReason::LowerVoltage { asked_v: volts(500) }),
        case(
            "12",
            "the set has the rule and the reading its reason",
            Scene::new("1.2")
                .volts(250)
                .reduced_rule()
                .with(|s| s.reading.conditions.reduced = Some(ReducedReason::SurgeProtector)),
            (Meets, Proved, Remark),
        )
        .and(|j| matches!(j.method[..], [MethodReason::ReducedVoltage { reason: ReducedReason::SurgeProtector, .. }])),
        case("13", "a higher voltage is judged and looked at", Scene::new("1.2").volts(1000), (Meets, Proved, Look))
            .and(|j| matches!(j.method[..], [MethodReason::HigherVoltage { .. }])),
        case(
            "14",
            "the row of the circuit being proved",
            Scene::new("0.6").volts(250).with(|s| s.wanted.limit = Some(limit("0.5", 250))),
            (Meets, Proved, Done),
        ),
        case(
            "15",
            "a SELV circuit on earth",
            Scene::new("0.00").volts(250).with(|s| s.wanted.limit = Some(limit("0.5", 250))),
            (Below, Proved, Look),
        ),
        case("16", "joined, 1.03 < 1.0509", Scene::new("1.03").guarded().with_accuracy(), (TooClose, Proved, Look)),
    ]);
}

#[test]
fn testers() {
    let certificate = || Proof::laboratory(10, "2026-01-01", "2026-12-31").left(holds(&[("0.5", "1000")]));
    let low_end_lost = || point(point(holds(&[("10", "1000")]), "1", "0.88", false), "10", "10.0", true);
    let failed_requirement =
        requirement(everywhere(), RequirementName::RatedCurrent, RequirementResult::NotMet, Tag::Seen);
    let failed = || outcome(Outcome::Failed);
    let repaired = |time: &str| {
        let before = Proof::laboratory(10, "2026-01-01", "2026-12-31").left(everywhere());
        let repair =
            Proof::laboratory(11, "2026-03-03", "2027-03-02").adjusted().found_and_left(failed(), everywhere());
        Scene::bare("2.0").at(time).proof(before).proof(repair)
    };
    check(&[
        case(
            "18",
            "between a failed point and the next good one, at a later bench",
            Scene::bare("1.2")
                .proof(certificate())
                .proof(Proof::bench(11, "2026-05-01", "2027-05-01").found(low_end_lost())),
            (Meets, Barred, Stop),
        )
        .and(|j| {
            matches!(j.tester.reasons[0], TesterReason::FailedBefore { point_ohm: Some(_), requirement: None, .. })
        }),
        case(
            "19",
            "any good statement in date proves",
            Scene::bare("1.2")
                .at("2026-08-10T10:00")
                .proof(certificate())
                .proof(Proof::bench(11, "2026-02-01", "2026-06-30").found(holds(&[("0.5", "1000")]))),
            (Meets, Proved, Done),
        ),
        case(
            "20",
            "rated current was not tested again",
            Scene::bare("1.2")
                .at("2026-03-10T10:00")
                .proof(Proof::bench(10, "2026-01-10", "2027-01-10").found(failed_requirement))
                .proof(Proof::bench(11, "2026-02-10", "2027-02-10").found(everywhere())),
            (Meets, Barred, Stop),
        )
        .and(|j| {
            matches!(
                j.tester.reasons[0],
                TesterReason::FailedBefore { requirement: Some(RequirementName::RatedCurrent), .. }
            )
        }),
        case(
            "21",
            "at a failed point between two intervals",
            Scene::bare("2.0").proof(Proof::bench(10, "2026-01-10", "2027-01-10").found(point(
                holds(&[("0.5", "1"), ("10", "1000")]),
                "2",
                "1.7",
                false,
            ))),
            (Meets, Barred, Stop),
        ),
        case("22a", "found failed the next day", repaired("2026-03-02T12:00"), (Meets, InDoubt, Look)),
        case("22b", "the failure counts from that day 00:00", repaired("2026-03-03T12:00"), (Meets, Barred, Stop)),
        case("22c", "as left counts from the next day 00:00", repaired("2026-03-04T12:00"), (Meets, Proved, Done)),
        case("26", "no tester chosen", Scene::new("2.0").with(|s| s.reading.tester = None), (Meets, NotChosen, Stop)),
        case(
            "27",
            "a good result counts from the next day",
            Scene::bare("2.0")
                .at("2026-03-03T15:00")
                .proof(Proof::laboratory(10, "2026-03-03", "2027-03-02").left(everywhere())),
            (Meets, FoundGoodAfterwards, Look),
        ),
        case(
            "28",
            "valid to the end of its last day",
            Scene::bare("2.0")
                .at("2026-03-03T23:30")
                .proof(Proof::laboratory(10, "2025-03-04", "2026-03-03").left(everywhere())),
            (Meets, Proved, Done),
        ),
        case("29", "nothing on record", Scene::bare("2.0"), (Meets, NotProved, Look))
            .and(|j| j.tester.reasons == [TesterReason::NothingOnRecord]),
    ]);
}

#[test]
fn lead_checks() {
    let checked = |text| Scene::new(text).leads(20, LeadEnd::Shorted, "2026-06-01T08:00", true);
    let open_failed = |text| checked(text).at("2026-06-01T11:00").leads(21, LeadEnd::Open, "2026-06-01T12:00", false);
    let shorted_failed =
        |text| checked(text).at("2026-06-01T11:00").leads(21, LeadEnd::Shorted, "2026-06-01T12:00", false);
    check(&[
        case("23", "shorted and good that morning", checked("> 999"), (Meets, Proved, Done)),
        case("24a", "the leads may have read low", open_failed("0.6"), (Below, Proved, Look))
            .and(|j| matches!(j.method[..], [MethodReason::LeadsMayReadLow { .. }])),
        case("24b", "a leak in the leads takes nothing from over-range", open_failed("> 999"), (Meets, Proved, Done)),
        case("25a", "an open lead reads high", shorted_failed("800"), (Meets, Proved, Look))
            .and(|j| matches!(j.method[..], [MethodReason::LeadsInDoubt { .. }])),
        case("25b", "an open lead never reads low", shorted_failed("0.6"), (Below, Proved, Look))
            .and(|j| j.method.is_empty()),
    ]);
}

#[test]
fn the_over_range_limit_of_the_card_is_never_exceeded_in_silence() {
    let mut scene = Scene::new("1000");
    scene.card().voltages.push(VoltageCard {
        test_voltage_v: volts(500),
        ranges: Vec::new(),
        over_range: Some(shown("> 999")),
        operating_uncertainty_percent: None,
    });
    assert_eq!(scene.judge().method, [MethodReason::AboveTesterLimit { limit: shown("> 999") }]);
}
