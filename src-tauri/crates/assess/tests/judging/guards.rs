//! Which figure a guard rests on, what a claim is cut to, and the digits a card shows.

use crate::scene::*;
use provenohm_assess::judgement::Level::{Done, Look, Remark};
use provenohm_assess::judgement::TesterState::{Lapsed, NotProved, Proved};
use provenohm_assess::judgement::Value::{Below, CannotBeJudged, Meets, TooClose};
use provenohm_assess::judgement::{GuardSource, Judgement, MethodReason, ValueReason};
use provenohm_assess::quantity::Percent;
use provenohm_assess::tester::{Conforms, Statement, VoltageCard};

fn source(j: &Judgement) -> Option<GuardSource> {
    j.value.guard.as_ref().map(|g| g.source.clone())
}

fn figures(u: Option<&str>, b: Option<&str>) -> Statement {
    let percent = |text: Option<&str>| text.map(|t| Percent(dec(t)));
    Statement { expanded_uncertainty_percent: percent(u), operating_uncertainty_percent: percent(b), ..everywhere() }
}

fn proved_by(s: Statement) -> Proof {
    Proof::laboratory(10, "2026-01-01", "2026-12-31").left(s)
}

/// A card with a stated operating uncertainty of 20 %, and ±(3 % + 2 digits), of a tester that conforms.
fn with_every_figure(text: &str) -> Scene {
    let mut scene = Scene::bare(text).guarded().with_accuracy().conforming();
    scene.card().voltages[0].operating_uncertainty_percent = Some(Percent(dec("20")));
    scene
}

#[test]
fn the_guard_rests_on_the_first_figure_there_is() {
    let bare_card = |text| {
        let mut scene = with_every_figure(text);
        scene.card().voltages[0].operating_uncertainty_percent = None;
        scene
    };
    check(&[
        case(
            "U first",
            "1.06 ≥ 1 + 5 % of 1.06",
            with_every_figure("1.06").proof(proved_by(figures(Some("5"), Some("10")))),
            (Meets, Proved, Done),
        )
        .and(|j| matches!(source(j), Some(GuardSource::Budget { .. }))),
        case(
            "then B",
            "1.06 < 1 + 10 % of 1.06",
            with_every_figure("1.06").proof(proved_by(figures(None, Some("10")))),
            (TooClose, Proved, Look),
        )
        .and(|j| matches!(source(j), Some(GuardSource::OperatingUncertainty { .. }))),
        case(
            "then the stated one",
            "1.24 < 1 + 20 % of 1.24",
            with_every_figure("1.24").proof(proved_by(everywhere())),
            (TooClose, Proved, Look),
        )
        .and(|j| matches!(source(j), Some(GuardSource::StatedOperatingUncertainty { .. }))),
        case(
            "then the accuracy",
            "1.06 ≥ 1 + 3 % of 1.06 + 0.02",
            bare_card("1.06").proof(proved_by(everywhere())),
            (Meets, Proved, Remark),
        )
        .and(|j| matches!(source(j), Some(GuardSource::Accuracy { .. }))),
        case(
            "outside every range of the card",
            "then 30 % for a tester that conforms",
            bare_card("2000").with(|s| s.card().voltages[0].over_range = None).proof(proved_by(everywhere())),
            (Meets, Proved, Done),
        )
        .and(|j| matches!(source(j), Some(GuardSource::Conforming { .. }))),
        case(
            "conforms by its certificate",
            "1.42 < 1 + 30 %",
            Scene::bare("1.42").guarded().proof(proved_by(Statement { conforms: Conforms::Yes, ..everywhere() })),
            (TooClose, Proved, Look),
        ),
        case(
            "a lapsed budget",
            "with that remark",
            Scene::bare("1.06")
                .guarded()
                .proof(Proof::laboratory(10, "2025-01-01", "2025-12-31").left(figures(Some("5"), None))),
            (Meets, Lapsed, Look),
        )
        .and(|j| j.value.guard.as_ref().is_some_and(|g| g.lapsed)),
        case(
            "never from a later one",
            "the budget was made after the reading",
            Scene::bare("1.06")
                .guarded()
                .proof(Proof::laboratory(10, "2026-07-01", "2027-06-30").adjusted().left(figures(Some("5"), None))),
            (CannotBeJudged, NotProved, Look),
        ),
        case(
            "no guard below the limit",
            "below is below",
            with_every_figure("0.99").proof(proved_by(figures(Some("5"), None))),
            (Below, Proved, Look),
        )
        .and(|j| j.value.guard.is_none()),
    ]);
}

#[test]
fn a_claim_is_cut_to_the_top_of_what_was_proved() {
    let top = |text: &'static str, top: &'static str| Scene::bare(text).proof(proved_by(holds(&[("0.1", top)])));
    let cut = |j: &Judgement| matches!(j.value.reason, ValueReason::ClaimCut { .. });
    check(&[
        case("top at L", "no more than 1.0 MΩ is enough", top("5", "1"), (Meets, Proved, Done)),
        case(
            "top below L",
            "no more than 0.8 MΩ does not reach 1.0 MΩ",
            top("5", "0.8"),
            (CannotBeJudged, Proved, Look),
        )
        .and(cut),
        case(
            "top within the guard",
            "no more than 1.05 MΩ lies within L + w",
            top("5", "1.05").guarded().with_accuracy(),
            (TooClose, Proved, Look),
        )
        .and(cut),
        case(
            "top above the guard",
            "1.06 ≥ L + w at 1.06",
            top("5.00", "1.06").guarded().with_accuracy(),
            (Meets, Proved, Remark),
        ),
        case("below stands", "0.9 < L", top("0.9", "0.8"), (Below, Proved, Look)),
        case(
            "over-range",
            "no more than 100 MΩ, and the leads were not checked",
            top("> 999", "100"),
            (Meets, Proved, Remark),
        ),
        case("over-range below L", "no more than 0.8 MΩ", top("> 999", "0.8"), (CannotBeJudged, Proved, Look)).and(cut),
        case("no proof cuts nothing", "not proved is said of the tester", Scene::bare("5"), (Meets, NotProved, Look)),
    ]);
}

#[test]
fn digits() {
    let two_ranges = |text| {
        let mut scene = Scene::new(text);
        scene.card().voltages.push(VoltageCard {
            test_voltage_v: volts(500),
            ranges: vec![range("0", "9.99", "0.01", None), range("10", "999", "0.1", None)],
            over_range: Some(shown("> 999")),
            operating_uncertainty_percent: None,
        });
        scene
    };
    check(&[
        case("a digit left out", "the card shows 1.20", two_ranges("1.2"), (Meets, Proved, Look))
            .and(|j| matches!(j.method[..], [MethodReason::FewerDigits { .. }])),
        case("all digits", "as the card shows", two_ranges("1.20"), (Meets, Proved, Done)),
        case("the next range", "steps of 0.1 there", two_ranges("12.0"), (Meets, Proved, Done)),
        case("more digits", "that display has no such step", two_ranges("12.00"), (Meets, Proved, Look))
            .and(|j| matches!(j.method[..], [MethodReason::MoreDigits { .. }])),
        case("no card", "nothing to compare with", Scene::new("1.2"), (Meets, Proved, Done)),
        case(
            "another voltage of the card",
            "the card says nothing of 1000 V",
            two_ranges("1.2").volts(1000),
            (Meets, Proved, Look),
        )
        .and(|j| matches!(j.method[..], [MethodReason::HigherVoltage { .. }])),
    ]);
}
