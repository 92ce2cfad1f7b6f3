//! The value beside guards, sets without a row, and groups.

use crate::scene::*;
use provenohm_assess::circuit::{Conductor, End, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterState::{NotChosen, NotProved, Proved};
use provenohm_assess::judgement::Value::{Below, CannotBeJudged, Meets, TooClose};
use provenohm_assess::judgement::{GuardSource, MethodReason, TesterReason, ValueReason};
use provenohm_assess::limits::ReducedReason;
use uuid::Uuid;

#[test]
fn limits_and_guards() {
    check(&[
        case(
            "no row",
            "the set says nothing of this circuit",
            Scene::new("2.0").with(|s| s.wanted.limit = None),
            (CannotBeJudged, Proved, Look),
        )
        .and(|j| j.value.reason == ValueReason::NoLimit && j.value.limit.is_none()),
        case(
            "members differ",
            "one reading cannot be taken at two test voltages",
            Scene::new("2.0").with(|s| s.wanted.members_differ = true),
            (CannotBeJudged, Proved, Look),
        )
        .and(|j| j.value.reason == ValueReason::MembersDiffer),
        case(
            "> between L and L + w",
            "1.01 < 1 + 0.0503",
            Scene::new("> 1.01").guarded().with_accuracy().leads(
                9,
                provenohm_assess::tester::LeadEnd::Shorted,
                "2026-06-01T08:00",
                true,
            ),
            (TooClose, Proved, Look),
        ),
        case(
            "smallest indication",
            "the strict form: (1 + 0.02) / 0.97 = 1.0515…, one step up",
            Scene::new("2.00").guarded().with_accuracy(),
            (Meets, Proved, Remark),
        )
        .and(|j| {
            let guard = j.value.guard.as_ref();
            guard.and_then(|g| g.smallest_ohm).is_some_and(|s| s.0 == dec("1060000"))
                && guard.is_some_and(|g| matches!(g.source, GuardSource::Accuracy { digits: 2, .. }))
        }),
        case(
            "fewer digits than the card shows",
            "2.0 where the card steps by 0.01",
            Scene::new("2.0").with_accuracy(),
            (Meets, Proved, Look),
        )
        .and(|j| matches!(j.method[..], [MethodReason::FewerDigits { .. }])),
        case(
            "more digits than the card shows",
            "2.000 where the card steps by 0.01",
            Scene::new("2.000").with_accuracy(),
            (Meets, Proved, Look),
        )
        .and(|j| matches!(j.method[..], [MethodReason::MoreDigits { .. }])),
        case(
            "no tester chosen",
            "a Stop",
            Scene::new("2.0").with(|s| s.reading.tester = None),
            (Meets, NotChosen, Stop),
        )
        .and(|j| j.tester.reasons == [TesterReason::NoTester]),
        case("nothing on record", "flagged", Scene::bare("2.0"), (Meets, NotProved, Look))
            .and(|j| j.tester.reasons == [TesterReason::NothingOnRecord]),
    ]);
}

#[test]
fn how_it_was_taken() {
    let reason = |s: &mut Scene| s.reading.conditions.reduced = Some(ReducedReason::SurgeProtector);
    check(&[
        case(
            "a forbidden pair",
            "electronics were connected",
            Scene::new("2.0").with(|s| s.wanted.forbidden = true),
            (Meets, Proved, Stop),
        )
        .and(|j| j.method[0] == MethodReason::ForbiddenPair),
        case("below at a lower voltage", "stands", Scene::new("0.5").volts(250), (Below, Proved, Look)),
        case(
            "the reason without the rule",
            "a set that has no reduced voltage allows none",
            Scene::new("2.0").volts(250).with(reason),
            (CannotBeJudged, Proved, Look),
        ),
        case(
            "the rule without the reason",
            "nobody said why",
            Scene::new("2.0").volts(250).reduced_rule(),
            (CannotBeJudged, Proved, Look),
        ),
        case(
            "lower than the reduced voltage",
            "100 V is not 250 V",
            Scene::new("2.0").volts(100).reduced_rule().with(reason),
            (CannotBeJudged, Proved, Look),
        ),
        case(
            "a clock that cannot be right",
            "looked at",
            Scene::new("2.0").with(|s| s.known.doubtful_clock = true),
            (Meets, Proved, Look),
        ),
        case(
            "an entry this version cannot read",
            "a Stop",
            Scene::new("2.0").with(|s| s.known.needs_newer_version = true),
            (Meets, Proved, Stop),
        ),
        case(
            "N stated as isolated",
            "nothing to say",
            Scene::new("2.0").with(|s| s.reading.conditions.n_isolated = Some(true)),
            (Meets, Proved, Done),
        ),
        case(
            "N stated as not isolated",
            "looked at",
            Scene::new("2.0").with(|s| s.reading.conditions.n_isolated = Some(false)),
            (Meets, Proved, Look),
        ),
    ]);
}

#[test]
fn a_joined_reading_that_meets_gives_its_judgement_to_each_member_and_any_other_to_none() {
    let circuit = CircuitId(Uuid::from_u128(7));
    let joined = Pair::between(End::joined(circuit, &[Conductor::L, Conductor::N]), End::earth()).unwrap();
    let meets = Scene::new("200").judge();
    let singles = [Conductor::L, Conductor::N].map(|one| Pair::between(End::live(circuit, one), End::earth()).unwrap());
    assert_eq!(meets.members_proved(&joined), singles, "L–PE and N–PE; L–N is missing");
    for other in [Scene::new("0.5"), Scene::new("> 0.5"), Scene::new("1.03").guarded().with_accuracy()] {
        assert!(other.judge().members_proved(&joined).is_empty());
    }
}
