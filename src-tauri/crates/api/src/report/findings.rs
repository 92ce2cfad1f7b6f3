//! What page 1 says: what is below, unproved, missing, reduced, not tested, changed. Worst first.

use crate::judged::{Judged, JudgedReading, Slot};
use crate::ops::origin;
use crate::ops::run::reasons;
use crate::tell;
use provenohm_assess::circuit::Pair;
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judgement::{MethodReason, TesterReason, TesterState, Value};
use provenohm_exchange::job_file::Circuit;
use provenohm_papers::report::{Finding, FindingPlace, Sign};
use provenohm_words::Words;
use std::collections::BTreeMap;

type Test = fn(&JudgedReading) -> bool;

/// Each kind of thing to say about readings: its key, its sign, and which readings it is said of.
const OF_READINGS: [(&str, Sign, Test); 26] = [
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
    ("answer-finding-above-limit", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::AboveTesterLimit { .. }))),
    ("answer-finding-far-below", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::FarBelowOthers { .. }))),
    ("answer-finding-fewer-digits", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::FewerDigits { .. }))),
    ("answer-finding-more-digits", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::MoreDigits { .. }))),
    ("answer-finding-no-such-conductor", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::NoSuchConductor))),
    ("answer-finding-neutral", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::NeutralNotIsolated))),
    ("answer-finding-no-quick-check", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::NoQuickCheck { .. }))),
    ("answer-finding-clock", Sign::Look, |it| has(it, |m| matches!(m, MethodReason::DoubtfulClock))),
    ("answer-finding-leads-not-checked", Sign::Done, |it| has(it, |m| matches!(m, MethodReason::LeadsNotChecked))),
    ("answer-finding-from-memory", Sign::Done, |it| {
        it.judgement.value.limit.as_ref().is_some_and(|limit| limit.source.tag.is_memory())
    }),
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
    let finder = Finder { words, judged };
    let of_kind =
        |(key, sign, test): &(&str, Sign, Test)| finder.of_readings(key, *sign, |one| test(one).then_some(None));
    let mut findings: Vec<Finding> = OF_READINGS.iter().filter_map(of_kind).collect();
    findings
        .extend(finder.of_slots("answer-missing-readings", |slot| (slot.required && slot.is_open()).then_some(None)));
    findings.extend(finder.of_slots("answer-finding-not-tested", |slot| reasons(words, slot).map(Some)));
    findings.extend(finder.of_readings("answer-finding-reduced", Sign::Done, |one| finder.reduced(one).map(Some)));
    findings.extend(finder.asked_for());
    findings.extend(finder.accepted());
    findings.extend(finder.gone());
    // The sign's order is done, look, stop: a stable sort keeps the order above within each.
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.sign));
    findings
}

/// What makes a place one of a finding: nothing where it is none, else the reason, if it has one of its own.
type Found = Option<Option<String>>;

struct Finder<'a> {
    words: &'a Words,
    judged: &'a Judged,
}

impl Finder<'_> {
    fn of_readings(&self, key: &str, sign: Sign, found: impl Fn(&JudgedReading) -> Found) -> Option<Finding> {
        let mut places = Vec::new();
        for (board, circuit, slot) in self.judged.slots() {
            for one in slot.readings.iter().filter_map(|index| self.judged.readings.get(*index)) {
                places.extend(found(one).map(|reason| FindingPlace {
                    reading: Some(one.reading.id),
                    ..self.place(&board.name, &circuit.circuit, &slot.pair, reason)
                }));
            }
        }
        self.finding(key, sign, places)
    }

    fn of_slots(&self, key: &str, found: impl Fn(&Slot) -> Found) -> Option<Finding> {
        let places = self.judged.slots().filter_map(|(board, circuit, slot)| {
            found(slot).map(|reason| self.place(&board.name, &circuit.circuit, &slot.pair, reason))
        });
        self.finding(key, Sign::Look, places.collect())
    }

    /// Slots a new reading is asked for.
    fn asked_for(&self) -> Option<Finding> {
        self.of_slots("answer-finding-asked", |slot| {
            (!slot.requests.is_empty()).then(|| tell::asked(self.words, self.judged, &slot.requests))
        })
    }

    /// What asks for a look and was accepted, with who and why.
    fn accepted(&self) -> Option<Finding> {
        let places = self.judged.slots().filter_map(|(board, circuit, slot)| {
            let said = slot.accepted(self.judged)?;
            let reason = self.words.text_with(
                "answer-finding-accepted-why",
                &[("person", self.judged.person(said.person).into()), ("reason", said.reason.as_str().into())],
            );
            let reading = slot.reading(self.judged).map(|one| one.reading.id);
            let place = self.place(&board.name, &circuit.circuit, &slot.pair, Some(reason));
            Some(FindingPlace { reading, ..place })
        });
        self.finding("answer-finding-accepted", Sign::Done, places.collect())
    }

    /// Readings withdrawn, replaced or not chosen, in the order of the boards and their circuits.
    fn gone(&self) -> Option<Finding> {
        let mut gone: BTreeMap<CircuitId, Vec<&JudgedReading>> = BTreeMap::new();
        for one in self.judged.readings.iter().filter(|one| !one.taken.stands()) {
            if let Some(first) = one.reading.pair.circuits().first() {
                gone.entry(*first).or_default().push(one);
            }
        }
        let mut places = Vec::new();
        for board in self.judged.file.boards.iter().filter(|_| !gone.is_empty()) {
            for circuit in board.circuits.iter().chain(&board.removed) {
                places.extend(gone.get(&circuit.id).into_iter().flatten().map(|one| FindingPlace {
                    reading: Some(one.reading.id),
                    ..self.place(&board.name, circuit, &one.reading.pair, origin::past(self.words, self.judged, one))
                }));
            }
        }
        self.finding("answer-finding-gone", Sign::Done, places)
    }

    /// Why a reading was taken at the reduced test voltage, if it was.
    fn reduced(&self, one: &JudgedReading) -> Option<String> {
        one.judgement.method.iter().find_map(|method| match method {
            MethodReason::ReducedVoltage { reason, .. } => Some(self.words.reduced_reason(*reason)),
            _ => None,
        })
    }

    fn finding(&self, key: &str, sign: Sign, places: Vec<FindingPlace>) -> Option<Finding> {
        let sentence = self.words.text_with(key, &[("count", places.len().into())]);
        (!places.is_empty()).then_some(Finding { sign, sentence, places })
    }

    fn place(&self, board: &str, circuit: &Circuit, pair: &Pair, reason: Option<String>) -> FindingPlace {
        FindingPlace {
            board: board.to_owned(),
            circuit: circuit.reference.clone(),
            place: tell::place(self.words, self.judged, board, circuit, pair),
            reading: None,
            reason,
        }
    }
}
