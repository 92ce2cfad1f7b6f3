//! The state of a tester from its history: what bars, what proves, what lapses, what looks back.

use crate::scene::*;
use chrono::{DateTime, FixedOffset};
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterState::{Barred, FoundGoodAfterwards, InDoubt, Lapsed, NotProved, Proved};
use provenohm_assess::judgement::Value::Meets;
use provenohm_assess::judgement::{TesterReason, TesterRemark};
use provenohm_assess::limits::Tag;
use provenohm_assess::moment::When;
use provenohm_assess::policy::TesterPolicy;
use provenohm_assess::tester::{Conforms, Outcome, ProofKind, RequirementName, RequirementResult, Statement};

fn good() -> Statement {
    everywhere()
}

fn failed() -> Statement {
    outcome(Outcome::Failed)
}

/// Proved on 1 January, valid to the end of the year.
fn january() -> Proof {
    Proof::laboratory(10, "2026-01-01", "2026-12-31").left(good())
}

/// A reading of 2.0 MΩ on 1 June at noon.
fn june() -> Scene {
    Scene::bare("2.0")
}

#[test]
fn what_proves_and_what_lapses() {
    check(&[
        case(
            "lapsed",
            "out of date by a day",
            june().proof(Proof::laboratory(10, "2025-05-31", "2026-05-31").left(good())),
            (Meets, Lapsed, Look),
        ),
        case(
            "no last day",
            "without one it is never in date",
            june().proof(january().with(|v| v.valid_until = None)),
            (Meets, Lapsed, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::LapsedOn { valid_until: None, .. }])),
        case(
            "a lapsed one hides no valid one",
            "any in date proves, the later one lapsed or not",
            june().proof(january()).proof(Proof::bench(11, "2026-03-01", "2026-03-31").found(good())),
            (Meets, Proved, Done),
        ),
        case(
            "before it counts",
            "a reading before any verification rests on nothing",
            june().at("2025-12-01T10:00").proof(
                Proof::laboratory(10, "2026-01-01", "2026-12-31")
                    .adjusted()
                    .found_and_left(outcome(Outcome::NotStated), good()),
            ),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::NothingOnRecord, TesterReason::NotConfirmable { .. }])),
        case(
            "recorded later",
            "an earlier-dated verification recorded later clears the flag and says when it was recorded",
            june().proof(january().with(|v| v.recorded_at = moment("2026-07-01T09:00"))),
            (Meets, Proved, Done),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::ProvedBy { recorded_later: Some(_), .. }])),
        case(
            "another voltage",
            "a voltage it does not name is not covered",
            june().volts(250).proof(january()).with(|s| s.wanted.limit = Some(limit("1", 250))),
            (Meets, NotProved, Look),
        )
        .and(|j| j.tester.reasons == [TesterReason::VoltageNotCovered { test_voltage_v: volts(250) }]),
        case(
            "at the very instant",
            "at or before the reading counts",
            june().proof(
                Proof::new(10, ProofKind::Bench, When::At(moment("2026-06-01T12:00")), "2027-05-31").found(good()),
            ),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn days_are_those_of_the_place_where_they_were_recorded() {
    // 3 March in a place nine hours east ends at 15:00 UTC
    let east = || {
        Proof::laboratory(10, "2025-03-04", "2026-03-03")
            .left(good())
            .with(|v| v.made = When::Day { date: day("2025-03-04"), offset_minutes: 540 })
    };
    check(&[
        case(
            "last minute",
            "14:59 UTC is 23:59 there",
            june().at("2026-03-03T14:59").proof(east()),
            (Meets, Proved, Done),
        ),
        case(
            "midnight",
            "15:00 UTC is the next day there",
            june().at("2026-03-03T15:00").proof(east()),
            (Meets, Lapsed, Look),
        ),
        case(
            "the reading's own offset",
            "an instant is an instant",
            june()
                .with(|s| {
                    s.reading.at = DateTime::<FixedOffset>::parse_from_rfc3339("2026-03-03T08:59:00-06:00").unwrap()
                })
                .proof(east()),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn what_bars() {
    let bench = |id: u128, made: &str, s: Statement| Proof::bench(id, made, "2027-12-31").found(s);
    let no_current = |s| requirement(s, RequirementName::RatedCurrent, RequirementResult::NotMet, Tag::Seen);
    let current = |s| requirement(s, RequirementName::RatedCurrent, RequirementResult::Met, Tag::Seen);
    check(&[
        case(
            "failed last",
            "the last statement failed",
            june().proof(january()).proof(bench(11, "2026-02-01", failed())),
            (Meets, Barred, Stop),
        ),
        case(
            "good again",
            "a later good statement finds it good",
            june().proof(bench(11, "2026-02-01", failed())).proof(bench(12, "2026-03-01", good())),
            (Meets, Proved, Done),
        ),
        case(
            "requirement met again",
            "tested again and met",
            june().proof(bench(11, "2026-02-01", no_current(good()))).proof(bench(12, "2026-03-01", current(good()))),
            (Meets, Proved, Done),
        ),
        case(
            "conforms",
            "everything required was tested and met, rated current with it",
            june().proof(bench(11, "2026-02-01", no_current(good()))).proof(bench(
                12,
                "2026-03-01",
                Statement { conforms: Conforms::Yes, ..good() },
            )),
            (Meets, Proved, Done),
        ),
        case(
            "does not conform, without saying in what",
            "only a statement that everything is met mends it",
            june().proof(bench(11, "2026-02-01", Statement { conforms: Conforms::No, ..good() })).proof(bench(
                12,
                "2026-03-01",
                good(),
            )),
            (Meets, Barred, Stop),
        ),
        case(
            "failed beside intervals",
            "it may have failed in what is not an indication",
            june().proof(january()).proof(
                Proof::laboratory(11, "2026-02-01", "2027-01-31")
                    .found(Statement { outcome: Outcome::Failed, ..holds(&[("0.5", "1000")]) }),
            ),
            (Meets, Barred, Stop),
        ),
        case(
            "failed beside intervals, indications only",
            "inside them indications hold",
            june().policy(TesterPolicy::IndicationsOnly).proof(
                Proof::laboratory(11, "2026-02-01", "2027-01-31")
                    .found(Statement { outcome: Outcome::Failed, ..holds(&[("0.5", "1000")]) }),
            ),
            (Meets, Proved, Done),
        ),
        case(
            "a failed whole",
            "no voltage named: at all of them",
            june()
                .proof(january())
                .proof(Proof::bench(11, "2026-02-01", "2027-01-31").with(|v| v.overall = Outcome::Failed)),
            (Meets, Barred, Stop),
        ),
        case(
            "a failed whole that names another voltage",
            "then at every voltage it names, and at no other",
            june().proof(january()).proof(
                Proof::bench(11, "2026-02-01", "2027-01-31")
                    .left_at(250, outcome(Outcome::NotStated))
                    .with(|v| v.overall = Outcome::Failed),
            ),
            (Meets, Proved, Done),
        ),
        case(
            "as left failed",
            "it left the bench failed",
            june()
                .proof(january())
                .proof(Proof::bench(11, "2026-02-01", "2027-01-31").adjusted().found_and_left(good(), failed())),
            (Meets, Barred, Stop),
        ),
        case(
            "two on one day",
            "a tie is never to the tester's favour",
            june()
                .at("2026-02-01T18:00")
                .proof(january())
                .proof(
                    Proof::new(12, ProofKind::Bench, When::At(moment("2026-02-01T10:00")), "2027-01-31").found(good()),
                )
                .proof(
                    Proof::new(11, ProofKind::Bench, When::At(moment("2026-02-01T10:00")), "2027-01-31")
                        .found(failed()),
                ),
            (Meets, Barred, Stop),
        ),
        case(
            "a silent one clears nothing",
            "a conditional fail is passed over",
            june().proof(bench(11, "2026-02-01", failed())).proof(bench(
                12,
                "2026-03-01",
                outcome(Outcome::ConditionalFail),
            )),
            (Meets, Barred, Stop),
        ),
        case(
            "nor takes anything away",
            "a conditional fail is passed over",
            june().proof(january()).proof(bench(12, "2026-03-01", outcome(Outcome::ConditionalFail))),
            (Meets, Proved, Done),
        ),
        case(
            "a conditional fail alone",
            "it proves nothing",
            june().proof(bench(12, "2026-03-01", outcome(Outcome::ConditionalFail))),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::ConditionallyFailed { .. }])),
        case(
            "another voltage failed",
            "a failure at 250 V says nothing of 500 V",
            june().proof(january()).proof(Proof::bench(11, "2026-02-01", "2027-01-31").left_at(250, failed())),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn adjustments() {
    let adjusted = |found: Option<Statement>| {
        let proof = Proof::laboratory(11, "2026-08-01", "2027-07-31").adjusted();
        match found {
            Some(found) => proof.found_and_left(found, good()),
            None => proof.left(good()),
        }
    };
    check(&[
        case(
            "no as found",
            "what it showed before can't be confirmed",
            june().proof(january()).proof(adjusted(None)),
            (Meets, Proved, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::ProvedBy { .. }, TesterReason::NotConfirmable { .. }])),
        case(
            "as found not stated",
            "an empty statement states nothing",
            june().proof(january()).proof(adjusted(Some(outcome(Outcome::NotStated)))),
            (Meets, Proved, Look),
        ),
        case(
            "found good",
            "as found it was good",
            june().proof(january()).proof(adjusted(Some(good()))),
            (Meets, Proved, Done),
        ),
        case(
            "found failed",
            "as found it failed",
            june().proof(january()).proof(adjusted(Some(failed()))),
            (Meets, InDoubt, Look),
        ),
        case(
            "found failed, nothing before",
            "in doubt stands over not proved",
            june().proof(adjusted(Some(failed()))),
            (Meets, InDoubt, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::FailedAfter { .. }, TesterReason::NothingOnRecord])),
        case(
            "as left is not as found",
            "a good one after an adjustment confirms nothing before it",
            june().proof(adjusted(None)),
            (Meets, NotProved, Look),
        ),
        case(
            "adjusted since",
            "an adjustment ends every earlier proof",
            june().proof(january()).proof(Proof::laboratory(11, "2026-04-01", "2027-03-31").adjusted().found(good())),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::AdjustedSince { .. })),
        case(
            "proved again",
            "as left it was good",
            june().proof(january()).proof(Proof::laboratory(11, "2026-04-01", "2027-03-31").adjusted().left(good())),
            (Meets, Proved, Done),
        ),
        case(
            "a look back ends at an adjustment",
            "a failure found after it says nothing of what was shown before it",
            june()
                .proof(january())
                .proof(adjusted(Some(good())))
                .proof(Proof::bench(12, "2026-09-01", "2027-08-31").found(failed())),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn looking_back() {
    let later = |s: Statement| Proof::laboratory(11, "2026-08-01", "2027-07-31").found(s);
    let unproved = || june();
    check(&[
        case(
            "found good afterwards",
            "nothing before, good after",
            unproved().proof(later(good())),
            (Meets, FoundGoodAfterwards, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::GoodAfter { .. }, TesterReason::NothingOnRecord])),
        case(
            "lapsed, then good",
            "found good afterwards stands over lapsed",
            june().proof(january().with(|v| v.valid_until = Some(day("2026-05-31")))).proof(later(good())),
            (Meets, FoundGoodAfterwards, Look),
        ),
        case(
            "proved, then good",
            "a proved reading needs no confirming",
            june().proof(january()).proof(later(good())),
            (Meets, Proved, Done),
        ),
        case(
            "barred stays barred",
            "good afterwards does not lift a bar",
            june().proof(Proof::bench(12, "2026-02-01", "2027-01-31").found(failed())).proof(later(good())),
            (Meets, Barred, Stop),
        ),
        case(
            "the next one decides",
            "good next, failed later",
            june()
                .proof(january())
                .proof(later(good()))
                .proof(Proof::bench(12, "2026-10-01", "2027-09-30").found(failed())),
            (Meets, Proved, Done),
        ),
        case(
            "silent ones are passed over",
            "the next that speaks of 500 V failed",
            june()
                .proof(january())
                .proof(Proof::laboratory(11, "2026-08-01", "2027-07-31").left_at(250, good()))
                .proof(Proof::bench(12, "2026-10-01", "2027-09-30").found(failed())),
            (Meets, InDoubt, Look),
        ),
        case(
            "failed where the reading is not",
            "failed at 500 MΩ, good from 0.5 to 100",
            june().proof(january()).proof(later(point(holds(&[("0.5", "100")]), "500", "440", false))),
            (Meets, Proved, Done),
        ),
    ]);
}

#[test]
fn requirements() {
    let with = |result, tag| january_with(requirement(good(), RequirementName::RatedCurrent, result, tag));
    let seen = Tag::Seen;
    let not_met = || with(RequirementResult::NotMet, seen);
    let untested = || with(RequirementResult::NotTested, seen);
    let all_met =
        || RequirementName::ALL.into_iter().fold(good(), |s, name| requirement(s, name, RequirementResult::Met, seen));
    check(&[
        case("usual, not met", "known to fail", june().proof(not_met()), (Meets, Barred, Stop)),
        case(
            "full, not met",
            "known to fail",
            june().policy(TesterPolicy::Full).proof(not_met()),
            (Meets, Barred, Stop),
        ),
        case(
            "indications only, not met",
            "a known failure is a remark",
            june().policy(TesterPolicy::IndicationsOnly).proof(not_met()),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks == [TesterRemark::RequirementFailed { requirement: RequirementName::RatedCurrent }]),
        case(
            "from memory",
            "judged by a figure from memory: a remark, never failed",
            june().proof(with(RequirementResult::NotMet, Tag::MemoryMedium)),
            (Meets, Proved, Remark),
        ),
        case(
            "from memory, full",
            "never failed, and yet not every requirement met",
            june().policy(TesterPolicy::Full).proof(with(RequirementResult::NotMet, Tag::MemoryMedium)),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[..], [TesterReason::NotAllTested { .. }])),
        case("usual, not tested", "what was not tested is a remark", june().proof(untested()), (Meets, Proved, Remark))
            .and(|j| {
                j.tester.remarks == [TesterRemark::RequirementNotTested { requirement: RequirementName::RatedCurrent }]
            }),
        case(
            "full, not tested",
            "silent",
            june().policy(TesterPolicy::Full).proof(untested()),
            (Meets, NotProved, Look),
        ),
        case(
            "full, all met",
            "every requirement tested and met",
            june().policy(TesterPolicy::Full).proof(january_with(all_met())),
            (Meets, Proved, Done),
        ),
        case(
            "full, conforms",
            "the paper says that it conforms",
            june().policy(TesterPolicy::Full).proof(january_with(Statement { conforms: Conforms::Yes, ..good() })),
            (Meets, Proved, Done),
        ),
        case(
            "full, not stated",
            "the certificate does not say",
            june().policy(TesterPolicy::Full).proof(january()),
            (Meets, NotProved, Look),
        ),
        case(
            "not all tested",
            "the paper does not say which",
            june().proof(january_with(Statement { conforms: Conforms::NotAllTested, ..good() })),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks == [TesterRemark::NotAllTested]),
        case(
            "operating uncertainty of 31 %",
            "above the 30 % of the tester standard",
            june().proof(january_with(operating("31"))),
            (Meets, Barred, Stop),
        ),
        case(
            "operating uncertainty of 30 %",
            "at the 30 % of the tester standard",
            june().proof(january_with(operating("30"))),
            (Meets, Proved, Done),
        ),
        case(
            "still known to fail",
            "indications only: a requirement that failed before and was not tested again stays a remark",
            june()
                .policy(TesterPolicy::IndicationsOnly)
                .proof(not_met())
                .proof(Proof::bench(11, "2026-03-01", "2027-02-28").found(good())),
            (Meets, Proved, Remark),
        ),
        case(
            "does not conform, indications only",
            "in what is not said",
            june()
                .policy(TesterPolicy::IndicationsOnly)
                .proof(january_with(Statement { conforms: Conforms::No, ..good() })),
            (Meets, Proved, Remark),
        )
        .and(|j| j.tester.remarks == [TesterRemark::DoesNotConform]),
    ]);
}

fn january_with(s: Statement) -> Proof {
    Proof::laboratory(10, "2026-01-01", "2026-12-31").left(s)
}

fn operating(percent: &str) -> Statement {
    Statement { operating_uncertainty_percent: Some(provenohm_assess::quantity::Percent(dec(percent))), ..good() }
}
