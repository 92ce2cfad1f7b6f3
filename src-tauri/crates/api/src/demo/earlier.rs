//! An earlier job, where the tester that fails later was used as well: what it leaves in doubt lies on two jobs.

use super::Clock;
use super::recorder::Recorder;
use crate::failure::Failure;
use crate::ops::{cautions, circuits, jobs};
use crate::state::State;
use crate::views::{AddBoard, AddManyCircuits, CircuitForm, OfJob, StartJob};
use provenohm_assess::circuit::{Conductors, Current, Loads};
use provenohm_assess::ids::{BoardId, TesterId};
use provenohm_assess::limits::MeasureName;
use provenohm_logbook::entry::body::Origin;

/// Opens it with one board of two circuits.
pub(super) fn open(state: &mut State) -> Result<BoardId, Failure> {
    let start = StartJob {
        name: state.words.text("demo-job-earlier"),
        place: state.words.text("demo-place"),
        person: state.words.text("demo-recorder"),
        role: state.words.text("demo-recorder-role"),
    };
    let job = jobs::open_job(state, &start, Origin::Invented)?;
    cautions::confirm_cautions(state, OfJob { job })?;
    let name = state.words.text("demo-board-annex");
    let view = jobs::add_board(state, AddBoard { job, name })?;
    let board = view.boards.first().map(|board| board.id).ok_or_else(|| Failure::of("unexpected"))?;
    let form = CircuitForm {
        reference: String::new(),
        description: String::new(),
        nominal: "230".to_owned(),
        current: Current::Ac,
        to_earth: String::new(),
        measure: MeasureName::None,
        felv_supply: String::new(),
        conductors: Conductors::SinglePhase,
        loads: Loads::Out,
        joined_to_earth: false,
        spd_stays: false,
        item: None,
        location: None,
        notes: String::new(),
    };
    circuits::add_many_circuits(state, AddManyCircuits { board, count: "2".to_owned(), form })?;
    Ok(board)
}

/// Reads both circuits with one tester. Invented.
pub(super) fn record(state: &mut State, clock: &Clock, board: BoardId, tester: TesterId) -> Result<(), Failure> {
    let mut at = Recorder { state, clock, board };
    at.take(tester)?;
    at.through(2, |circuit, pair| match (circuit, pair) {
        (1, "L–PE") => Some("1.90"),
        (2, "L–PE") => Some("57.0"),
        _ => None,
    })
}
