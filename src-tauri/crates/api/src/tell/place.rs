//! Where something is: pair, circuit, board.

use crate::judged::Judged;
use provenohm_assess::circuit::{Earthing, Electrical, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_exchange::job_file::{Board, Circuit};
use provenohm_words::{PairNames, Words};

/// `L1–PE`, as named in the row of a circuit.
pub(crate) fn pair_name(words: &Words, judged: &Judged, circuit: CircuitId, pair: &Pair) -> String {
    let earthing = judged.electrical(circuit).map_or(Earthing::Pe, |electrical| electrical.conductors.earthing());
    let reference = |id| judged.circuit(id).map(|circuit| circuit.reference.clone()).unwrap_or_default();
    words.pair(pair, &PairNames { circuit, earthing, reference: &reference })
}

/// `7 Sockets`.
pub(crate) fn circuit_name(words: &Words, circuit: &Circuit) -> String {
    named(words, &circuit.reference, &circuit.description)
}

/// `7 Sockets`, by reference and description.
pub(crate) fn named(words: &Words, reference: &str, description: &str) -> String {
    let description = if description.is_empty() { "none" } else { description };
    words.text_with("answer-circuit-name", &[("reference", reference.into()), ("description", description.into())])
}

/// `DB-2 · 7 Sockets · L1–PE`.
pub(crate) fn place(words: &Words, judged: &Judged, board: &str, circuit: &Circuit, pair: &Pair) -> String {
    words.text_with(
        "answer-place",
        &[
            ("board", board.into()),
            ("circuit", circuit_name(words, circuit).into()),
            ("pair", pair_name(words, judged, circuit.id, pair).into()),
        ],
    )
}

/// The same, by the pair alone; nothing where its circuit is on no board.
pub(crate) fn place_of_pair(words: &Words, judged: &Judged, pair: &Pair) -> Option<String> {
    let id = pair.circuits().first().copied()?;
    let on = |board: &&Board| board.circuits.iter().chain(&board.removed).any(|circuit| circuit.id == id);
    let board = judged.file.boards.iter().find(on)?;
    Some(place(words, judged, &board.name, judged.circuit(id)?, pair))
}

/// What holds for a circuit beside its voltage, measure and conductors.
pub(crate) fn beside_conductors(words: &Words, electrical: &Electrical) -> Vec<String> {
    let spd = electrical.spd_stays.then(|| words.text("answer-spd-stays"));
    let item = electrical.item.map(|item| words.item(item));
    let location = electrical.location.map(|location| words.location(location));
    std::iter::once(words.loads(electrical.loads)).chain(spd).chain(item).chain(location).collect()
}

/// What decides a circuit's limit and pairs, in one line.
pub(crate) fn electrical(words: &Words, electrical: &Electrical) -> String {
    let all: Vec<String> =
        std::iter::once(words.electrical(electrical)).chain(beside_conductors(words, electrical)).collect();
    all.join(", ")
}
