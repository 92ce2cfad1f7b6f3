//! Where a tester's indications hold, and what a reading outside of it may still claim.

use crate::scene::*;
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterState::{Barred, NotProved, Proved};
use provenohm_assess::judgement::Value::{Below, CannotBeJudged, Meets};
use provenohm_assess::judgement::{TesterReason, TesterRemark, ValueReason};
use provenohm_assess::limits::Tag;
use provenohm_assess::tester::{Holds, RequirementName, RequirementResult, Statement, VoltageCard};

fn laboratory(s: Statement) -> Proof {
    Proof::laboratory(10, "2026-01-01", "2026-12-31").left(s)
}

fn bench(s: Statement) -> Proof {
    Proof::bench(10, "2026-01-01", "2026-12-31").found(s)
}

/// From 0.5 to 2 MΩ, and on condition from 10 to 1000 MΩ.
fn on_condition() -> Statement {
    let mut statement = holds(&[("0.5", "2"), ("10", "1000")]);
    if let Holds::In(intervals) = &mut statement.holds {
        intervals[1].conditional = true;
    }
    statement
}

fn silent() -> Statement {
    Statement { holds: Holds::NotStated, leads_shorted_good: true, ..outcome(provenohm_assess::tester::Outcome::Good) }
}

#[test]
fn a_laboratorys_interval_counts_as_stated() {
    check(&[
        case(
            "above the top",
            "no more than 100 MΩ is claimed, and that is enough",
            Scene::bare("450").proof(laboratory(holds(&[("0.5", "100")]))),
            (Meets, Proved, Done),
        ),
        case(
            "proved from 10 MΩ up backs 450",
            "450 MΩ lies in the interval; the low end is not shown",
            Scene::bare("450").proof(laboratory(holds(&[("10", "1000")]))),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks == [TesterRemark::LowEndNotShown]),
        case(
            "proved from 10 MΩ up does not back 1.8",
            "below the lowest interval it says only: not above 10 MΩ",
            Scene::bare("1.8").proof(laboratory(holds(&[("10", "1000")]))),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::OutsideProvedRange { .. })),
        case(
            "below the lowest, bottom at the limit",
            "not above 1 MΩ is enough for below to stand",
            Scene::bare("0.40").proof(laboratory(holds(&[("1", "1000")]))),
            (Below, Proved, Look),
        ),
        case(
            "between intervals",
            "covered by neither",
            Scene::bare("5.0").proof(laboratory(holds(&[("0.5", "2"), ("10", "1000")]))),
            (Meets, NotProved, Look),
        ),
        case(
            "a top below the limit",
            "no more than 0.5 MΩ is claimed, which says nothing of 1 MΩ",
            Scene::bare("2.0").proof(laboratory(holds(&[("0.1", "0.5")]))),
            (CannotBeJudged, Proved, Look),
        )
        .and(|j| matches!(j.value.reason, ValueReason::ClaimCut { .. })),
        case(
            "on condition where it reads, not elsewhere",
            "the higher of two intervals rests on a conditional pass",
            Scene::bare("450").proof(laboratory(on_condition())),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks == [TesterRemark::HoldsOnCondition]),
        case(
            "in the interval without a condition",
            "nothing to remark",
            Scene::bare("1.8").proof(laboratory(on_condition())),
            (Meets, Proved, Done),
        ),
        case(
            "both ends belong to it",
            "R = 1000 MΩ",
            Scene::bare("1000").proof(laboratory(holds(&[("0.5", "1000")]))),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn a_bench_has_to_show_the_low_end() {
    check(&[
        case(
            "neither shorted nor a point at or below the limit",
            "the low end was not tested",
            Scene::bare("450").proof(bench(holds(&[("10", "1000")]))),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::LowEndNotTested { .. })),
        case(
            "leads shorted, good",
            "that is the low end",
            Scene::bare("450").proof(bench(Statement { leads_shorted_good: true, ..holds(&[("10", "1000")]) })),
            (Meets, Proved, Done),
        ),
        case(
            "a lower point indicated inside the interval",
            "1 MΩ was shown as 12 MΩ, so 12 MΩ may be 1 MΩ",
            Scene::bare("12.0").proof(bench(point(
                Statement { leads_shorted_good: true, ..holds(&[("10", "1000")]) },
                "1",
                "12.0",
                false,
            ))),
            (Meets, Barred, Stop),
        ),
        case(
            "a point above the top was indicated below it",
            "900 MΩ shown as 60 MΩ: over-range of the proof claims nothing",
            Scene::bare("450").proof(bench(point(holds(&[("0.5", "100")]), "900", "60", false))),
            (Meets, Barred, Stop),
        ),
    ]);
}

#[test]
fn a_paper_that_gives_no_interval_stands_for_the_cards_range() {
    let card = |scene: Scene| scene.with_accuracy();
    check(&[
        case(
            "names the voltage",
            "the card's measuring range stands in, with a remark",
            card(Scene::bare("2.00").proof(laboratory(silent()))),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks.contains(&TesterRemark::CardRangeStandsIn)),
        case("no card", "nothing says where", Scene::bare("2.0").proof(laboratory(silent())), (Meets, NotProved, Look))
            .and(|j| matches!(j.tester.reasons[0], TesterReason::NoRangeStated { .. })),
        case(
            "a card without a range there",
            "nothing says where",
            Scene::bare("2.0")
                .with(|s| {
                    s.card().voltages.push(VoltageCard {
                        test_voltage_v: volts(500),
                        ranges: Vec::new(),
                        over_range: None,
                        operating_uncertainty_percent: None,
                    });
                })
                .proof(laboratory(silent())),
            (Meets, NotProved, Look),
        ),
        case(
            "does not name the voltage",
            "silent on 500 V",
            card(Scene::bare("2.0"))
                .proof(Proof::laboratory(10, "2026-01-01", "2026-12-31").left_at(250, everywhere())),
            (Meets, NotProved, Look),
        )
        .and(|j| j.tester.reasons == [TesterReason::VoltageNotCovered { test_voltage_v: volts(500) }]),
    ]);
}

#[test]
fn a_figure_from_memory_gives_a_remark_and_never_a_failure() {
    let of = |tag| requirement(everywhere(), RequirementName::OpenCircuitVoltage, RequirementResult::NotMet, tag);
    check(&[
        case("seen", "a requirement not met", Scene::bare("2.0").proof(bench(of(Tag::Seen))), (Meets, Barred, Stop)),
        case("memory", "remarked", Scene::bare("2.0").proof(bench(of(Tag::MemoryMedium))), (Meets, Proved, Remark))
            .and(|j| {
                let requirement = RequirementName::OpenCircuitVoltage;
                j.tester.remarks == [TesterRemark::RequirementFailed { requirement }]
            }),
    ]);
}
