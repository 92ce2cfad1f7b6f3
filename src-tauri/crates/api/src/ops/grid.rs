//! A board as a grid to record in, for whoever has a keyboard: circuits down, pairs across.

use crate::failure::Failure;
use crate::judged::{Judged, Slot};
use crate::ops::run::{Seat, Walk, shown};
use crate::state::State;
use crate::tally::Tally;
use crate::tell;
use crate::views::*;
use provenohm_words::Words;

pub(crate) fn grid(state: &mut State, asked: OfBoard) -> Result<GridView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let seat = Seat::of(state, asked.board)?;
    let words = &state.words;
    let mut pairs: Vec<String> = Vec::new();
    let mut rows = Vec::new();
    for (circuit, slots) in Walk::at(&judged, board, &seat).circuits {
        let mut cells = Vec::new();
        for slot in slots {
            let pair = tell::pair_name(words, &judged, circuit.circuit.id, &slot.pair);
            if !pairs.contains(&pair) {
                pairs.push(pair.clone());
            }
            cells.push(cell(words, &judged, &slot, pair));
        }
        let (reference, description) = (circuit.circuit.reference.clone(), circuit.circuit.description.clone());
        rows.push(GridRow { circuit: circuit.circuit.id, reference, description, cells });
    }
    Ok(GridView {
        job,
        board: board.id,
        name: board.name.clone(),
        words: tell::review_sum(words, &Tally::of(&judged, std::iter::once(board))),
        stage: seat.stage,
        stage_words: words.stage(seat.stage),
        pairs,
        rows,
    })
}

fn cell(words: &Words, judged: &Judged, slot: &Slot, pair: String) -> GridCell {
    let held = match slot.readings[..] {
        [one] => judged.readings.get(one),
        _ => None,
    };
    GridCell {
        slot: slot.id(),
        pair,
        sign: slot.sign(judged),
        shown: shown(words, judged, slot),
        asked: !slot.requests.is_empty(),
        open: slot.awaits(),
        holds: held.map(|one| GridHeld {
            reading: one.reading.id,
            text: one.reading.shown.digits.to_string(),
            comparator: one.reading.shown.comparator,
        }),
        // Which of them another one would replace is not for a grid to choose.
        closed: (slot.readings.len() > 1).then(|| words.text("answer-grid-settle-first")),
    }
}
