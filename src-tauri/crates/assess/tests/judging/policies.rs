//! What each policy asks of a verification.

use crate::scene::*;
use provenohm_assess::judgement::Level::{Done, Look, Remark, Stop};
use provenohm_assess::judgement::TesterReason;
use provenohm_assess::judgement::TesterState::{Barred, NotProved, Proved};
use provenohm_assess::judgement::Value::Meets;
use provenohm_assess::limits::Tag;
use provenohm_assess::policy::TesterPolicy::{Full, IndicationsOnly, Usual};
use provenohm_assess::tester::{Conforms, Outcome, RequirementName, RequirementResult, Statement};

fn bench(s: Statement) -> Scene {
    Scene::bare("2.0").proof(Proof::bench(10, "2026-01-01", "2026-12-31").found(s))
}

fn with_all(result: RequirementResult) -> Statement {
    RequirementName::ALL.into_iter().fold(everywhere(), |s, name| requirement(s, name, result, Tag::Seen))
}

#[test]
fn each_policy_asks_its_own() {
    let current = |result| requirement(everywhere(), RequirementName::RatedCurrent, result, Tag::Seen);
    let conforms = |conforms| Statement { conforms, ..everywhere() };
    check(&[
        case("full, all met", "", bench(with_all(RequirementResult::Met)).policy(Full), (Meets, Proved, Done)),
        case(
            "full, conforms",
            "says so of every one",
            bench(conforms(Conforms::Yes)).policy(Full),
            (Meets, Proved, Done),
        ),
        case("full, nothing said", "not all tested", bench(everywhere()).policy(Full), (Meets, NotProved, Look))
            .and(|j| matches!(j.tester.reasons[0], TesterReason::NotAllTested { .. })),
        case(
            "full, one open",
            "not all tested",
            bench(current(RequirementResult::NotTested)).policy(Full),
            (Meets, NotProved, Look),
        ),
        case(
            "usual, one open",
            "a remark",
            bench(current(RequirementResult::NotTested)).policy(Usual),
            (Meets, Proved, Remark),
        ),
        case(
            "usual, one not met",
            "its voltage falls under load",
            bench(current(RequirementResult::NotMet)).policy(Usual),
            (Meets, Barred, Stop),
        ),
        case(
            "full, one not met",
            "its voltage falls under load",
            bench(current(RequirementResult::NotMet)).policy(Full),
            (Meets, Barred, Stop),
        ),
        case(
            "indications only, one not met",
            "a remark",
            bench(current(RequirementResult::NotMet)).policy(IndicationsOnly),
            (Meets, Proved, Remark),
        ),
        case("usual, does not conform", "in what is not said", bench(conforms(Conforms::No)), (Meets, Barred, Stop)),
        case(
            "indications only, does not conform",
            "a remark",
            bench(conforms(Conforms::No)).policy(IndicationsOnly),
            (Meets, Proved, Remark),
        ),
        case(
            "a conditional fail",
            "is silent: it neither proves nor bars",
            bench(Statement { outcome: Outcome::ConditionalFail, ..everywhere() }),
            (Meets, NotProved, Look),
        )
        .and(|j| matches!(j.tester.reasons[0], TesterReason::ConditionallyFailed { .. })),
    ]);
}
