//! What circuits have by themselves, from groups read with them and without them.

use super::{circuit_name, uncertainty_of};
use crate::judged::{Judged, JudgedBoard, JudgedReading};
use provenohm_assess::circuit::Pair;
use provenohm_assess::group::{Alike, NotWorkedOut, OwnResistance, own_resistance};
use provenohm_words::Words;
use std::collections::BTreeMap;

/// A sentence for each circuit of a board whose group was read with it and without it, the latest reading of each that
/// stands, in the order of the board.
pub(crate) fn own(words: &Words, judged: &Judged, board: &JudgedBoard) -> Vec<String> {
    let mut latest: BTreeMap<(Alike, &Pair), &JudgedReading> = BTreeMap::new();
    for one in judged.readings.iter().filter(|one| one.taken.stands()) {
        let reading = &one.reading;
        let place = (Alike::of(reading), &reading.pair);
        let kept = latest.entry(place).or_insert(one);
        if kept.reading.at <= reading.at {
            *kept = one;
        }
    }
    let mut said = Vec::new();
    for circuit in board.circuits.iter().map(|one| &one.circuit) {
        let groups = latest.iter().filter(|((_, pair), _)| pair.circuits().len() > 1);
        for ((alike, pair), with) in groups {
            let Some(rest) = pair.without(circuit.id) else { continue };
            let Some(without) = latest.get(&(*alike, &rest)) else { continue };
            let name = circuit_name(words, circuit);
            said.push(sentence(words, judged, name, with, without));
        }
    }
    said
}

fn sentence(words: &Words, judged: &Judged, name: String, with: &JudgedReading, without: &JudgedReading) -> String {
    let figures = uncertainty_of(judged, with).zip(uncertainty_of(judged, without));
    let Some(((p_with, source), (p_without, _))) = figures else {
        return words.text_with("answer-own-unknown", &[("circuit", name.into())]);
    };
    let told = match own_resistance((with.reading.shown, p_with), (without.reading.shown, p_without)) {
        Ok(own) => own_resistance_words(words, &own),
        Err(why) => not_worked_out(words, why),
    };
    let args = [
        ("circuit", name.into()),
        ("own", told.into()),
        ("with", words.reading(&with.reading.shown).into()),
        ("without", words.reading(&without.reading.shown).into()),
        ("by", words.made_from(&source).into()),
    ];
    words.text_with("answer-own-of", &args)
}

/// What a circuit has by itself: `By itself it has at least 20 MΩ; …`.
pub(crate) fn own_resistance_words(words: &Words, own: &OwnResistance) -> String {
    let least = ("least", words.ohms(own.at_least_ohm).into());
    match own.at_most_ohm {
        Some(most) => words.text_with("answer-own-between", &[least, ("most", words.ohms(most).into())]),
        None => words.text_with("answer-own-at-least", &[least]),
    }
}

/// Why that cannot be worked out.
pub(crate) fn not_worked_out(words: &Words, why: NotWorkedOut) -> String {
    words.text(match why {
        NotWorkedOut::NoLowerEnd => "answer-own-no-lower-end",
        NotWorkedOut::Contradictory => "answer-own-contradictory",
        NotWorkedOut::BeyondArithmetic => "answer-own-beyond",
    })
}
