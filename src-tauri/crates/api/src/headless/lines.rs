//! A judgement in lines for a person.

use super::{JobJudged, PairJudged, words};
use provenohm_words::Words;

/// One line a pair, board by board, and the sums.
#[must_use]
pub fn judgement_lines(told: &JobJudged) -> Vec<String> {
    let words = words();
    let mut lines = vec![told.name.clone()];
    if told.invented {
        lines.push(words.text("answer-demo"));
    }
    for board in &told.boards {
        lines.push(board.name.clone());
        for circuit in &board.circuits {
            for pair in &circuit.pairs {
                let name = format!("{} {}", circuit.reference, circuit.description);
                lines.push(format!("  {}  {}  {}", name.trim(), pair.pair, said(&words, pair)));
            }
        }
    }
    let sums = &told.sums;
    let args = [
        ("required", sums.required.into()),
        ("meets", sums.meets.into()),
        ("below", sums.below.into()),
        ("close", sums.too_close.into()),
        ("unjudged", sums.cannot_be_judged.into()),
        ("missing", sums.without_reading.into()),
        ("unproved", sums.not_proved.into()),
        ("method", sums.method.into()),
    ];
    lines.push(words.text_with("answer-judged-sums", &args));
    lines
}

fn said(words: &Words, pair: &PairJudged) -> String {
    let reading =
        pair.readings.last().map(|one| format!("{}  {}", words.reading(&one.shown), one.sentences.join("; ")));
    let not_tested = || pair.not_tested.map(|reason| words.not_tested(reason, None));
    reading.or_else(not_tested).unwrap_or_else(|| words.text("answer-no-reading"))
}
