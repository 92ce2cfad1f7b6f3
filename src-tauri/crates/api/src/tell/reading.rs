//! What is said of one reading.

use super::tester::about;
use crate::judged::{Judged, JudgedReading};
use crate::views::Sentence;
use chrono::NaiveDate;
use provenohm_assess::judgement::{Level, MethodReason, ValueReason};
use provenohm_exchange::job_file::Past;
use provenohm_words::Words;

/// Why a reading was withdrawn. An undo gives no reason of its own.
pub(crate) fn withdrawn_why(words: &Words, past: &Past) -> String {
    if past.reason.is_empty() { words.text("answer-taken-back") } else { past.reason.clone() }
}

/// Why a reading was not chosen. Who settles need not say it.
pub(crate) fn not_chosen_why(words: &Words, past: &Past) -> String {
    if past.reason.is_empty() { words.text("answer-another-chosen") } else { past.reason.clone() }
}

/// Value, tester, method: one sentence each, the gravest first. What is in order with the tester is said too.
pub(crate) fn sentences(
    words: &Words,
    judged: &Judged,
    one: &JudgedReading,
    today: Option<NaiveDate>,
) -> Vec<Sentence> {
    let JudgedReading { reading, judgement, .. } = one;
    let about = about(judged, reading.tester, today);
    let value = Sentence { level: judgement.value.value.level(), words: words.value_sentence(judgement, reading) };
    let tester =
        Sentence { level: judgement.tester.level(), words: words.tester_sentence(&judgement.tester, &about, reading) };
    let remarks = judgement
        .tester
        .remarks
        .iter()
        .map(|remark| Sentence { level: Level::Remark, words: words.tester_remark(remark) });
    // Why the value cannot be judged is not said a second time as a matter of method.
    let told = |reason: &&MethodReason| {
        let lower = matches!(reason, MethodReason::LowerVoltage { .. });
        !(lower && matches!(judgement.value.reason, ValueReason::LowerVoltage { .. }))
    };
    let method = judgement.method.iter().filter(told);
    let method = method.map(|reason| Sentence { level: reason.level(), words: words.method_sentence(reason) });
    let mut all: Vec<Sentence> = [value, tester].into_iter().chain(method).chain(remarks).collect();
    all.sort_by_key(|sentence| std::cmp::Reverse(sentence.level));
    all
}

/// The one line beside the read-back: the gravest sentence; what the value is, where nothing is graver.
pub(crate) fn judgement_line(
    words: &Words,
    judged: &Judged,
    one: &JudgedReading,
    today: Option<NaiveDate>,
) -> Sentence {
    let value = Sentence { level: one.judgement.level, words: words.value_sentence(&one.judgement, &one.reading) };
    if one.judgement.value.value.level() == one.judgement.level {
        return value;
    }
    let gravest = sentences(words, judged, one, today).into_iter().next();
    gravest.filter(|sentence| sentence.level >= Level::Look).unwrap_or(value)
}
