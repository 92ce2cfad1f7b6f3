//! Between verifications: quick checks, damage, lead checks.

use crate::scene::*;
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterState::{Barred, FoundGoodAfterwards, InDoubt, NotProved, Proved};
use provenohm_assess::judgement::Value::{Below, Meets};
use provenohm_assess::judgement::{MethodReason, TesterReason};
use provenohm_assess::tester::{LeadEnd, Outcome};

fn later_failed() -> Proof {
    Proof::bench(12, "2026-08-01", "2027-07-31").found(outcome(Outcome::Failed))
}

fn later_good() -> Proof {
    Proof::bench(12, "2026-08-01", "2027-07-31").found(everywhere())
}

#[test]
fn quick_checks() {
    check(&[
        case(
            "good proves nothing",
            "it is no verification",
            Scene::bare("2.0").quick(20, "1", "10", "2026-05-31T10:00", true),
            (Meets, NotProved, Look),
        ),
        case(
            "good confirms nothing",
            "it is no verification",
            Scene::bare("2.0").quick(20, "1", "10", "2026-06-02T10:00", true),
            (Meets, NotProved, Look),
        ),
        case(
            "good ends a look back",
            "the failure lies behind it",
            Scene::new("2.0").quick(20, "1", "10", "2026-06-02T10:00", true).proof(later_failed()),
            (Meets, Proved, Done),
        ),
        case(
            "not through leads that were not as expected",
            "what the box was read through is open",
            Scene::new("2.0")
                .quick(20, "1", "10", "2026-06-02T10:00", true)
                .leads(21, LeadEnd::Shorted, "2026-06-02T10:00", false)
                .proof(later_failed()),
            (Meets, InDoubt, Look),
        ),
        case(
            "not elsewhere",
            "2 MΩ was not touched",
            Scene::new("2.0").quick(20, "10", "100", "2026-06-02T10:00", true).proof(later_failed()),
            (Meets, InDoubt, Look),
        ),
        case(
            "not before the reading",
            "it went before",
            Scene::new("2.0").quick(20, "1", "10", "2026-06-01T11:00", true).proof(later_failed()),
            (Meets, InDoubt, Look),
        ),
        case(
            "good takes no confirmation away",
            "a later good statement looks past it",
            Scene::bare("2.0").quick(20, "1", "10", "2026-06-02T10:00", true).proof(later_good()),
            (Meets, FoundGoodAfterwards, Look),
        ),
        case(
            "failed bars there",
            "an as-found failure at 2 MΩ",
            Scene::new("2.0").quick(20, "1", "10", "2026-05-31T10:00", false),
            (Meets, Barred, Stop),
        ),
        case(
            "failed, elsewhere",
            "20 MΩ was not touched",
            Scene::new("20").quick(20, "1", "10", "2026-05-31T10:00", false),
            (Meets, Proved, Done),
        ),
        case(
            "failed looks back",
            "an as-found failure at 2 MΩ",
            Scene::new("2.0").quick(20, "1", "10", "2026-06-02T10:00", false),
            (Meets, InDoubt, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::QuickCheckFailedAfter { .. })),
        case(
            "a good one lifts no bar",
            "a check proves nothing",
            Scene::new("2.0").quick(20, "1", "10", "2026-05-30T10:00", false).quick(
                21,
                "1",
                "10",
                "2026-05-31T10:00",
                true,
            ),
            (Meets, Barred, Stop),
        ),
        case(
            "a verification does",
            "tested again and good",
            Scene::new("2.0")
                .quick(20, "1", "10", "2026-05-01T10:00", false)
                .proof(Proof::bench(12, "2026-05-15", "2027-05-14").found(everywhere())),
            (Meets, Proved, Done),
        ),
        case(
            "a cut claim does not",
            "450 MΩ failed and was not tested again",
            Scene::new("450")
                .quick(20, "1", "500", "2026-05-01T10:00", false)
                .proof(Proof::bench(12, "2026-05-15", "2027-05-14").found(holds(&[("0.5", "100")]))),
            (Meets, Barred, Stop),
        ),
    ]);
}

#[test]
fn damage() {
    check(&[
        case(
            "known instant, after it",
            "it bars from then",
            Scene::new("2.0").damage(30, Some("2026-06-01T11:00"), "2026-06-01T18:00"),
            (Meets, Barred, Stop),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::DamagedBefore { .. })),
        case(
            "known instant, before it",
            "it looks back on nothing",
            Scene::new("2.0").damage(30, Some("2026-06-01T13:00"), "2026-06-01T18:00"),
            (Meets, Proved, Done),
        ),
        case(
            "unknown instant, before it was found",
            "an as-found failure everywhere",
            Scene::new("2.0").damage(30, None, "2026-06-01T18:00"),
            (Meets, InDoubt, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::DamagedAfter { .. })),
        case(
            "unknown instant, after it was found",
            "an as-found failure everywhere",
            Scene::new("2.0").damage(30, None, "2026-06-01T08:00"),
            (Meets, Barred, Stop),
        ),
        case(
            "proved again",
            "verified since",
            Scene::new("2.0")
                .damage(30, None, "2026-03-01T08:00")
                .proof(Proof::bench(12, "2026-05-15", "2027-05-14").found(everywhere())),
            (Meets, Proved, Done),
        ),
        case(
            "proved again, over-range",
            "the claim is cut to what was verified since",
            Scene::new("> 999")
                .damage(30, None, "2026-03-01T08:00")
                .proof(Proof::bench(12, "2026-05-15", "2027-05-14").found(holds(&[("0.5", "100")]))),
            (Meets, Proved, Remark),
        ),
        case(
            "a look back ends at a good quick check",
            "2 MΩ was good in between",
            Scene::new("2.0").quick(20, "1", "10", "2026-06-02T10:00", true).damage(30, None, "2026-06-03T18:00"),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn over_range_without_checked_leads() {
    let over = || Scene::new("> 999");
    check(&[
        case("none", "an open lead shows the same", over(), (Meets, Proved, Remark))
            .and(|j| j.method == [MethodReason::LeadsNotChecked]),
        case(
            "after it",
            "that day, before or after",
            over().leads(20, LeadEnd::Shorted, "2026-06-01T17:00", true),
            (Meets, Proved, Done),
        ),
        case(
            "the day before",
            "not that day",
            over().leads(20, LeadEnd::Shorted, "2026-05-31T17:00", true),
            (Meets, Proved, Remark),
        ),
        case(
            "open only",
            "leads open say nothing of an open lead",
            over().leads(20, LeadEnd::Open, "2026-06-01T08:00", true),
            (Meets, Proved, Remark),
        ),
        case(
            "failed",
            "in doubt, and not checked either",
            over().leads(20, LeadEnd::Shorted, "2026-06-01T17:00", false),
            (Meets, Proved, Look),
        )
        .and(|j| matches!(j.method[..], [MethodReason::LeadsInDoubt { .. }, MethodReason::LeadsNotChecked])),
        case(
            "an ordinary reading",
            "only over-range is what an open lead shows",
            Scene::new("800"),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn failed_lead_checks_reach_back_to_the_last_good_one() {
    let failed = |leads| Scene::new("800").leads(20, leads, "2026-06-01T17:00", false);
    check(&[
        case(
            "good in between",
            "the leads were good after the reading",
            failed(LeadEnd::Shorted).leads(21, LeadEnd::Shorted, "2026-06-01T14:00", true),
            (Meets, Proved, Done),
        ),
        case(
            "good before it",
            "nothing between says otherwise",
            failed(LeadEnd::Shorted).leads(21, LeadEnd::Shorted, "2026-06-01T11:00", true),
            (Meets, Proved, Look),
        ),
        case(
            "failed before it",
            "a failed check says nothing of later readings",
            Scene::new("800").leads(20, LeadEnd::Shorted, "2026-06-01T09:00", false),
            (Meets, Proved, Done),
        ),
        case(
            "good at the same instant",
            "counted as made before it",
            failed(LeadEnd::Shorted).leads(21, LeadEnd::Shorted, "2026-06-01T12:00", true),
            (Meets, Proved, Look),
        ),
        case(
            "an earlier job",
            "the job of the check began after the reading",
            failed(LeadEnd::Shorted).with(|s| s.history.lead_checks[0].job_started = Some(moment("2026-06-01T13:00"))),
            (Meets, Proved, Done),
        ),
        case(
            "the same job",
            "the job of the check had begun",
            failed(LeadEnd::Shorted).with(|s| s.history.lead_checks[0].job_started = Some(moment("2026-06-01T08:00"))),
            (Meets, Proved, Look),
        ),
        case(
            "leads open, a reading that meets",
            "a leak in the leads only lowers",
            failed(LeadEnd::Open),
            (Meets, Proved, Done),
        ),
        case(
            "leads open, too close",
            "it may have read low",
            Scene::new("1.05").guarded().with_accuracy().leads(20, LeadEnd::Open, "2026-06-01T17:00", false),
            (provenohm_assess::judgement::Value::TooClose, Proved, Look),
        )
        .and(|j| {
            matches!(j.method[..], [MethodReason::LeadsMayReadLow { .. }, MethodReason::AtReferenceConditions])
                || matches!(j.method[..], [MethodReason::AtReferenceConditions, MethodReason::LeadsMayReadLow { .. }])
        }),
        case(
            "shorted failed, below",
            "an open lead never reads low",
            Scene::new("0.6").leads(20, LeadEnd::Shorted, "2026-06-01T17:00", false),
            (Below, Proved, Look),
        )
        .and(|j| j.method.is_empty()),
    ]);
}

#[test]
fn a_job_may_ask_for_a_quick_check_within_days() {
    let within = |days: u32| Scene::new("2.0").with(|s| s.policies.quick_check_days = Some(days));
    let missing = |scene: Scene| scene.judge().method.contains(&MethodReason::NoQuickCheck { days: 7 });
    assert!(missing(within(7)), "the verification is of January");
    assert!(!within(200).judge().method.iter().any(|m| matches!(m, MethodReason::NoQuickCheck { .. })));
    assert!(!missing(within(7).quick(30, "1", "100", "2026-05-25T12:00", true)), "to the minute");
    assert!(missing(within(7).quick(30, "1", "100", "2026-05-25T11:59", true)));
    assert!(missing(within(7).quick(30, "1", "100", "2026-06-01T13:00", true)), "after it is not before it");
    assert!(missing(within(7).quick(30, "1", "100", "2026-05-28T12:00", false)), "it has to be good");
    assert!(missing(within(7).quick(30, "1", "100", "2026-05-28T12:00", true).volts(250)), "and at that voltage");
    assert_eq!(within(7).judge().level, Look);
}
