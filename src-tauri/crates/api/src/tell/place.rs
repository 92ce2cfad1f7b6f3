//! Where something is: pair, circuit, board.

use crate::judged::Judged;
use provenohm_assess::circuit::{Earthing, Pair};
use provenohm_assess::ids::CircuitId;
use provenohm_exchange::job_file::Circuit;
use provenohm_words::{PairNames, Words};

/// `L1–PE`, as named in the row of a circuit.
pub(crate) fn pair_name(words: &Words, judged: &Judged, circuit: CircuitId, pair: &Pair) -> String {
    let earthing = judged.electrical(circuit).map_or(Earthing::Pe, |electrical| electrical.conductors.earthing());
    let reference = |id| judged.circuit(id).map(|circuit| circuit.reference.clone()).unwrap_or_default();
    words.pair(pair, &PairNames { circuit, earthing, reference: &reference })
}

/// `7 Sockets`.
pub(crate) fn circuit_name(words: &Words, circuit: &Circuit) -> String {
    let description = if circuit.description.is_empty() { "none" } else { &circuit.description };
    words.text_with(
        "answer-circuit-name",
        &[("reference", circuit.reference.as_str().into()), ("description", description.into())],
    )
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
