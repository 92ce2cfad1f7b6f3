//! What was saved, read back.

use crate::judged::{Judged, JudgedReading, Slot};
use crate::tell;
use crate::views::{ReadBack, Sentence, SlotId};
use chrono::NaiveDate;
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judgement::Level;
use provenohm_exchange::job_file::NotTested;
use provenohm_words::Words;

/// A reading, read back in the row of its circuit.
pub(crate) fn of_reading(
    words: &Words,
    judged: &Judged,
    one: &JudgedReading,
    slot: SlotId,
    circuit: CircuitId,
    today: NaiveDate,
) -> ReadBack {
    let pair = tell::pair_name(words, judged, circuit, &one.reading.pair);
    let shown = words.reading(&one.reading.shown);
    let judgement = tell::judgement_line(words, judged, one, Some(today));
    let announce = words.text_with(
        "answer-announce",
        &[
            ("pair", pair.as_str().into()),
            ("reading", shown.as_str().into()),
            ("judgement", judgement.words.as_str().into()),
        ],
    );
    let sentences = tell::sentences(words, judged, one, Some(today));
    ReadBack { reading: Some(one.reading.id), slot, pair, shown, announce, judgement, sentences }
}

/// That a pair was not tested, read back.
pub(crate) fn of_not_tested(
    words: &Words,
    judged: &Judged,
    said: &NotTested,
    slot: SlotId,
    circuit: CircuitId,
) -> ReadBack {
    let pair = tell::pair_name(words, judged, circuit, &said.pair);
    let shown = words.not_tested(said.reason, (!said.words.is_empty()).then_some(said.words.as_str()));
    let announce =
        words.text_with("answer-not-tested", &[("pair", pair.as_str().into()), ("reason", reason(words, said).into())]);
    let judgement = Sentence { level: Level::Look, words: shown.clone() };
    ReadBack { reading: None, slot, pair, shown, announce, sentences: vec![judgement.clone()], judgement }
}

/// Why nothing stands in a slot, in words; two reasons side by side. Nothing where nobody said so.
pub(crate) fn reasons(words: &Words, slot: &Slot) -> Option<String> {
    let said: Vec<String> = slot.not_tested.iter().map(|said| reason(words, said)).collect();
    (!said.is_empty()).then(|| said.join(" / "))
}

/// Why a pair was not tested, in words.
pub(crate) fn reason(words: &Words, said: &NotTested) -> String {
    if said.words.is_empty() { words.not_tested_reason(said.reason) } else { said.words.clone() }
}
