//! What page 1 says: what is below, unproved, missing, reduced, not tested, changed. Worst first.

use crate::judged::{Judged, JudgedBoard, JudgedCircuit, JudgedReading, Slot};
use crate::tell;
use provenohm_assess::ids::ReadingId;
use provenohm_assess::judgement::{MethodReason, TesterReason, TesterState, Value};
use provenohm_papers::report::{Finding, FindingPlace, Sign};
use provenohm_words::Words;

type Test = fn(&JudgedReading) -> bool;

/// Each kind of thing to say about readings: its key, its sign, and which readings it is said of.
const OF_READINGS: [(&str, Sign, Test); 19] = [
    ("answer-finding-two-values", Sign::Stop, |it| has(it, |m| matches!(m, MethodReason::TwoLiveValues))),
    ("answer-finding-newer-version", Sign::Stop, |it| has(it, |m| matches!(m, MethodReason::NeedsNewerVersion))),
    ("answer-finding-forbidden", Sign::Stop, |it| has(it, |m| matches!(m, MethodReason::ForbiddenPair))),
    ("answer-finding-no-tester", Sign::Stop, |it| is(it, TesterState::NotChosen)),
    ("answer-finding-barred", Sign::Stop, |it| is(it, TesterState::Barred)),
    ("answer-finding-below", Sign::Look, |it| it.judgement.value.value == Value::Below),
    ("answer-finding-cannot-be-judged", Sign::Look, |it| it.judgement.value.value == Value::CannotBeJudged),
    ("answer-finding-too-close", Sign::Look, |it| it.judgement.value.value == Value::TooClose),
    ("answer-finding-tester-in-doubt", Sign::Look, |it| is(it, TesterState::InDoubt)),
    ("answer-finding-good-afterwards", Sign::Look, |it| is(it, TesterState::FoundGoodAfterwards)),
    ("answer-finding-not-proved", Sign::Look, |it| is(it, TesterState::NotProved)),
    ("answer-finding-lapsed", Sign::Look, |it| is(it, TesterState::Lapsed)),
    ("answer-finding-not-confirmable", Sign::Look, |it| {
        it.judgement.tester.reasons.iter().any(|reason| matches!(reason, TesterReason::NotConfirmable { .. }))
    }),
    ("answer-finding-other-voltage", Sign::Look, |it| {
        has(it, |m| matches!(m, MethodReason::LowerVoltage { .. } | MethodReason::HigherVoltage { .. }))
    }),
    ("answer-finding-leads-in-doubt", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::LeadsInDoubt { .. }))),
    ("answer-finding-odd", Sign::Look, |it| {
        has(it, |m| {
            matches!(
                m,
                MethodReason::FewerDigits { .. }
                    | MethodReason::AboveTesterLimit { .. }
                    | MethodReason::FarBelowOthers { .. }
                    | MethodReason::DoubtfulClock
                    | MethodReason::NoQuickCheck { .. }
                    | MethodReason::NeutralNotIsolated
            )
        })
    }),
    ("answer-finding-reduced", Sign::Done, |it| has(it, |m| matches!(m, MethodReason::ReducedVoltage { .. }))),
    ("answer-finding-leads-not-checked", Sign::Done, |it| has(it, |m| matches!(m, MethodReason::LeadsNotChecked))),
    ("answer-finding-corrected", Sign::Done, |it| !it.taken.corrections.is_empty()),
];

fn has(one: &JudgedReading, test: fn(&MethodReason) -> bool) -> bool {
    one.judgement.method.iter().any(test)
}

fn is(one: &JudgedReading, state: TesterState) -> bool {
    one.judgement.tester.state == state
}

/// Everything page 1 lists.
pub(super) fn findings(words: &Words, judged: &Judged) -> Vec<Finding> {
    let mut findings: Vec<Finding> =
        OF_READINGS.iter().filter_map(|(key, sign, test)| of_readings(words, judged, key, *sign, *test)).collect();
    findings.extend(of_slots(words, judged, "answer-missing-readings", |slot| slot.required && slot.is_open()));
    findings.extend(of_slots(words, judged, "answer-finding-not-tested", |slot| slot.not_tested.is_some()));
    let gone = judged.readings.iter().filter(|one| !one.taken.stands()).count();
    if gone > 0 {
        let sentence = words.text_with("answer-finding-gone", &[("count", gone.into())]);
        findings.push(Finding { sign: Sign::Done, sentence, places: Vec::new() });
    }
    // The sign's order is done, look, stop: a stable sort keeps the order above within each.
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.sign));
    findings
}

fn of_readings(words: &Words, judged: &Judged, key: &str, sign: Sign, test: Test) -> Option<Finding> {
    let mut places = Vec::new();
    for (board, circuit, slot) in judged.slots() {
        for one in slot.readings.iter().filter_map(|index| judged.readings.get(*index)).filter(|one| test(one)) {
            places.push(place(words, judged, (board, circuit, slot), Some(one.reading.id)));
        }
    }
    let sentence = words.text_with(key, &[("count", places.len().into())]);
    // Remarks are counted; their places stand beside the readings.
    let listed = sign >= Sign::Look;
    let found = !places.is_empty();
    found.then(|| Finding { sign, sentence, places: if listed { places } else { Vec::new() } })
}

fn of_slots(words: &Words, judged: &Judged, key: &str, test: fn(&Slot) -> bool) -> Option<Finding> {
    let found: Vec<FindingPlace> =
        judged.slots().filter(|(_, _, slot)| test(slot)).map(|at| place(words, judged, at, None)).collect();
    (!found.is_empty()).then(|| Finding {
        sign: Sign::Look,
        sentence: words.text_with(key, &[("count", found.len().into())]),
        places: found,
    })
}

fn place(
    words: &Words,
    judged: &Judged,
    (board, circuit, slot): (&JudgedBoard, &JudgedCircuit, &Slot),
    reading: Option<ReadingId>,
) -> FindingPlace {
    FindingPlace {
        board: board.name.clone(),
        circuit: circuit.circuit.reference.clone(),
        place: tell::place(words, judged, &board.name, &circuit.circuit, &slot.pair),
        reading,
    }
}
