//! A judgement in lines for a person.

use super::{JobJudged, PairJudged, ReadingJudged, words};
use provenohm_assess::circuit::Stage;
use provenohm_words::Words;
use std::collections::{BTreeMap, BTreeSet};

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
                let stage = match pair.stage {
                    Stage::Before => String::new(),
                    Stage::After => format!(" ({})", words.stage(pair.stage)),
                };
                let said = said(&words, pair).into_iter();
                lines.extend(said.map(|said| format!("  {}  {}{stage}  {said}", name.trim(), pair.pair)));
            }
        }
    }
    lines.extend(unsure(&words, told));
    lines.extend(sums(&words, told));
    lines
}

/// Why `strict` does not hold, in one line.
#[must_use]
pub fn not_strict_because(told: &JobJudged) -> String {
    let words = words();
    if told.sums.required == 0 {
        return words.text("answer-judged-nothing-required");
    }
    let because = sums(&words, told).join(". ");
    format!("{}: {because}", words.text("answer-judged-not-strict"))
}

fn sums(words: &Words, told: &JobJudged) -> Vec<String> {
    let sums = &told.sums;
    let args = [
        ("required", sums.required.into()),
        ("meets", sums.meets.into()),
        ("below", sums.below.into()),
        ("close", sums.too_close.into()),
        ("unjudged", sums.cannot_be_judged.into()),
        ("missing", sums.without_reading.into()),
    ];
    let mut lines = vec![words.text_with("answer-judged-sums", &args)];
    let states = sums.testers.counted().into_iter().filter(|(_, count)| *count > 0).map(|(state, count)| {
        let args = [("count", count.into()), ("state", words.tester_state(state).into())];
        words.text_with("answer-judged-state", &args)
    });
    let states: Vec<String> = states.collect();
    if !states.is_empty() {
        lines.push(words.text_with("answer-judged-testers", &[("states", states.join(", ").into())]));
    }
    let counted = [
        ("answer-judged-method", sums.method),
        ("answer-judged-stops", sums.stop),
        ("answer-judged-beside", sums.beside_not_meeting),
        ("answer-judged-after", sums.after_not_meeting),
    ];
    let counted = counted.into_iter().filter(|(_, count)| *count > 0);
    lines.extend(counted.map(|(key, count)| words.text_with(key, &[("count", count.into())])));
    lines
}

/// Where limits rest on less than a published page, one line a publication and tag, with the circuits: other rows of
/// the same table may have been read.
fn unsure(words: &Words, told: &JobJudged) -> Vec<String> {
    let mut circuits: BTreeMap<(String, String), BTreeSet<&str>> = BTreeMap::new();
    for circuit in told.boards.iter().flat_map(|board| &board.circuits) {
        let sources = circuit.pairs.iter().filter_map(|pair| pair.source.as_ref());
        for source in sources.filter(|source| source.tag.is_memory()) {
            let said = (words.source(source), words.tag(source.tag));
            circuits.entry(said).or_default().insert(&circuit.reference);
        }
    }
    let line = |((source, tag), circuits): ((String, String), BTreeSet<&str>)| {
        let count = circuits.len().into();
        let named = circuits.into_iter().collect::<Vec<_>>().join(", ");
        let args = [("source", source.into()), ("tag", tag.into()), ("count", count), ("circuits", named.into())];
        words.text_with("answer-judged-unsure", &args)
    };
    circuits.into_iter().map(line).collect()
}

/// What stands for a pair, one text a reading: of two live values both are said.
fn said(words: &Words, pair: &PairJudged) -> Vec<String> {
    if pair.readings.is_empty() {
        let not_tested = pair.not_tested.map(|reason| words.not_tested(reason, None));
        return vec![not_tested.unwrap_or_else(|| words.text("answer-no-reading"))];
    }
    let one = |one: &ReadingJudged| format!("{}  {}", words.reading(&one.shown), one.sentences.join("; "));
    pair.readings.iter().map(one).collect()
}
