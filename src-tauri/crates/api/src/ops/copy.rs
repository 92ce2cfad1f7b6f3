//! A board as a table of text, to be pasted into a spreadsheet or back onto a board.

use crate::failure::Failure;
use crate::judged::JudgedBoard;
use crate::read::{circuit_form, write_table};
use crate::report;
use crate::state::State;
use crate::views::*;
use provenohm_papers::report::Parts;

pub(crate) fn copy_out(state: &mut State, asked: CopyOut) -> Result<CopiedOut, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board: &JudgedBoard = judged.board(asked.board)?;
    let bytes = match asked.what {
        CopiedWhat::Circuits => {
            write_table(board.circuits.iter().map(|one| circuit_form(&one.circuit))).map_err(unwritten)?
        }
        CopiedWhat::Readings => {
            let parts = Parts::of(&report::schedule(&state.words, &judged)?).map_err(unwritten)?;
            parts.tsv_of(&board.name, &state.words).map_err(unwritten)?
        }
    };
    Ok(CopiedOut { text: String::from_utf8(bytes).map_err(unwritten)? })
}

fn unwritten(error: impl std::fmt::Display) -> Failure {
    Failure::of("unexpected").because(error)
}
