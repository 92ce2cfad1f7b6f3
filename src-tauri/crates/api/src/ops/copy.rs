//! A board as a table of text, to be pasted into a spreadsheet or back onto a board.

use crate::failure::Failure;
use crate::judged::JudgedBoard;
use crate::ops::readings_table::copied;
use crate::read::{circuit_form, write_table};
use crate::state::State;
use crate::views::*;

pub(crate) fn copy_out(state: &mut State, asked: CopyOut) -> Result<CopiedOut, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board: &JudgedBoard = judged.board(asked.board)?;
    let bytes = match asked.what {
        CopiedWhat::Circuits => {
            write_table(board.circuits.iter().map(|one| circuit_form(&one.circuit))).map_err(unwritten)?
        }
        CopiedWhat::Readings => copied(&state.words, &judged, board, state.host.now().date_naive())?,
    };
    Ok(CopiedOut { text: String::from_utf8(bytes).map_err(unwritten)? })
}

fn unwritten(error: impl std::fmt::Display) -> Failure {
    Failure::of("unexpected").because(error)
}
