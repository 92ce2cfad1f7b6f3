//! Judging one reading: its value, its tester, its method.
//!
//! The answer carries reasons with their figures and no sentence; whoever words it finds everything in the reason.
//! A reading taken at a higher voltage than asked carries
//! [`MethodReason::HigherVoltage`](crate::judgement::MethodReason::HigherVoltage); with a value *below* the sentence is
//! "test again at" the voltage asked for.

mod asked;
mod codes;
mod guarding;
mod level;
mod live;
mod median;
mod members;
mod method;
mod value;
mod voltage;

pub use asked::{Asked, Known, Testers, Wanted};
pub use level::Severity;
pub use live::{Live, MOST_COMBINATIONS, Setting, judge_live};
pub use median::{FEWEST_FOR_A_MEDIAN, Median, OfOneKind};

use crate::RULES_VERSION;
use crate::judgement::{Judgement, TesterJudgement, TesterReason, TesterState, Value, ValueJudgement, ValueReason};
use crate::policy::ValuePolicy;
use crate::quantity::Ohms;
use crate::tester::{Claim, Question, Standing};
use guarding::figures;
use value::{Guarding, weigh};
use voltage::at_voltage;

/// Judges one reading.
#[must_use]
pub fn judge(asked: &Asked<'_>) -> Judgement {
    let Asked { reading, wanted, .. } = asked;
    let limit = wanted.limit.as_ref().filter(|_| !wanted.members_differ).map(|l| at_voltage(reading, wanted, l));
    let minimum = limit.as_ref().map(|l| l.limit.minimum_ohm);

    let question = Question::new(reading.test_voltage_v, reading.shown, minimum, asked.policies.tester);
    let standing = asked.tester.filter(|_| reading.tester.is_some()).map(|t| t.standing(reading.at, &question));
    let relied = standing.as_ref().and_then(|s| s.relied);

    let value = match &limit {
        None => {
            let reason = if wanted.members_differ { ValueReason::MembersDiffer } else { ValueReason::NoLimit };
            ValueJudgement { value: Value::CannotBeJudged, reason, limit: None, guard: None }
        }
        Some(at) => {
            let top = relied.and_then(|r| if let Claim::AtMost(top) = r.claim { Some(top) } else { None });
            let known = figures(asked, relied);
            let step = reading.shown.last_digit();
            let guard = |ohms: Ohms| known.guard(at.limit.minimum_ohm, ohms, step);
            let guarding = match asked.policies.value {
                ValuePolicy::Simple => Guarding::Simple,
                ValuePolicy::Guarded => Guarding::Guarded(&guard),
            };
            let mut weighed = weigh(reading.shown, at.limit.minimum_ohm, top, &guarding);
            if let Some(asked_v) = at.too_low.filter(|_| weighed.value != Value::Below) {
                weighed.value = Value::CannotBeJudged;
                weighed.reason = ValueReason::LowerVoltage { asked_v };
                weighed.guard = None;
            }
            let (value, reason, guard) = (weighed.value, weighed.reason, weighed.guard);
            ValueJudgement { value, reason, limit: Some(at.limit.clone()), guard }
        }
    };

    let mut method = method::method(asked, &value);
    method.extend(limit.and_then(|l| l.method));
    method.sort_by_key(|reason| std::cmp::Reverse(reason.level()));

    let tester = tester_judgement(asked, standing);
    let level = level::highest(&value, &tester, &method);
    Judgement { value, tester, method, level, rules: RULES_VERSION }
}

fn tester_judgement(asked: &Asked<'_>, standing: Option<Standing<'_>>) -> TesterJudgement {
    let tester = asked.reading.tester;
    let (state, reasons, remarks) = match (tester, standing) {
        (None, _) => (TesterState::NotChosen, vec![TesterReason::NoTester], Vec::new()),
        (Some(_), None) => (TesterState::NotProved, vec![TesterReason::NothingOnRecord], Vec::new()),
        (Some(_), Some(standing)) => (standing.state, standing.reasons, standing.remarks),
    };
    TesterJudgement { tester, state, reasons, remarks }
}
