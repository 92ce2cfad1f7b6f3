//! How the next readings are taken: tester, test voltage, stage, conditions, joined lives, notes.

use super::hand::{Hand, Seat};
use super::next::Walk;
use super::view::run_view;
use super::voltage;
use crate::failure::Failure;
use crate::ops::circuits::{amend, put_note};
use crate::read::circuit_form;
use crate::state::State;
use crate::views::*;
use provenohm_assess::ids::NoteId;
use provenohm_logbook::entry::body::CircuitElectrical;

pub(crate) fn choose_tester(state: &mut State, asked: ChooseTester) -> Result<RunView, Failure> {
    if state.record.view().tester(asked.tester)?.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    let hand = Hand::of(state)?;
    if hand.tester != Some(asked.tester) {
        // Another tester: how it is set has to be said anew.
        Hand { tester: Some(asked.tester), volts: None, asked: None }.keep(state)?;
        state.forget_judged();
    }
    run_view(state, asked.board, None)
}

pub(crate) fn set_volts(state: &mut State, asked: SetVolts) -> Result<RunView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let seat = Seat::of(state, asked.board)?;
    let walk = Walk::at(&judged, judged.board(asked.board)?, &seat);
    let slot = seat.here(&walk);
    let here = slot.as_ref().and_then(|slot| walk.find(slot));
    let wanted = here.and_then(|(circuit, slot)| voltage::asked(&judged, circuit, slot, &seat));
    let hand = Hand::of(state)?;
    Hand { volts: Some(asked.volts), asked: wanted.or(Some(asked.volts)), ..hand }.keep(state)?;
    run_view(state, asked.board, None)
}

pub(crate) fn set_stage(state: &mut State, asked: SetStage) -> Result<RunView, Failure> {
    let mut seat = Seat::of(state, asked.board)?;
    if seat.stage != asked.stage {
        seat.stage = asked.stage;
        seat.go(None);
        seat.keep(state, asked.board)?;
    }
    run_view(state, asked.board, None)
}

pub(crate) fn set_conditions(state: &mut State, asked: SetConditions) -> Result<RunView, Failure> {
    let seat = Seat::of(state, asked.board)?;
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let slot = seat.here(&Walk::at(&judged, judged.board(asked.board)?, &seat));
    let pair = slot.as_ref().and_then(crate::judged::slot_of).map(|(_, pair)| pair);
    // Loads are said of the circuit in hand: the next one has its own.
    let loads = pair.and_then(|pair| pair.circuits().first().copied()).map(|circuit| (circuit, asked.loads));
    Seat { loads, n_isolated: asked.n_isolated, reduced: asked.reduced, ..seat }.keep(state, asked.board)?;
    run_view(state, asked.board, None)
}

pub(crate) fn set_joined(state: &mut State, asked: SetJoined) -> Result<RunView, Failure> {
    let job = state.job_of_circuit(asked.circuit)?;
    let circuits = state.record.view().circuits(job)?;
    let found =
        circuits.into_iter().find(|one| one.circuit == asked.circuit).ok_or_else(|| Failure::of("not_found"))?;
    let board = found.place.first().map(|place| place.board).ok_or_else(|| Failure::of("not_found"))?;
    let electrical = found.electrical.one().ok_or_else(|| Failure::of("to_settle"))?.electrical.clone();
    let person = state.person(job)?;
    if electrical.joined_to_earth != asked.joined {
        let current = found.electrical.current();
        let electrical = provenohm_assess::circuit::Electrical { joined_to_earth: asked.joined, ..electrical };
        state.write(person, |writer| {
            let body = CircuitElectrical { job, circuit: asked.circuit, electrical };
            amend(writer, &found, &body.into(), &current)
        })?;
        let judged = state.judged(job)?;
        let mut seat = Seat::of(state, board)?;
        let first = Walk::at(&judged, judged.board(board)?, &seat).first_of(asked.circuit);
        seat.go(first);
        seat.keep(state, board)?;
    }
    run_view(state, board, None)
}

pub(crate) fn set_note(state: &mut State, asked: SetNote) -> Result<RunView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let (_, pair) = crate::judged::slot_of(&asked.slot).ok_or_else(|| Failure::of("not_found"))?;
    let first = pair.circuits().first().copied().ok_or_else(|| Failure::of("not_found"))?;
    let circuit = judged.circuit(first).ok_or_else(|| Failure::of("not_found"))?;
    let old = circuit_form(circuit).notes;
    let text = asked.text.trim().to_owned();
    let (person, note) = (state.person(job)?, NoteId(state.host.id()?));
    state.write(person, |writer| put_note(writer, job, circuit.id, note, &old, &text))?;
    run_view(state, asked.board, None)
}
