//! Undo on the Run screen: this person's readings on this board, one after the other, without end.

use super::hand::{Kept, Seat};
use super::save::not_tested_entries;
use super::{typed, view};
use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedReading};
use crate::ops::undo::take_back_readings;
use crate::state::State;
use crate::tell;
use crate::views::{OfBoard, SlotId, Undone};
use provenohm_assess::circuit::End;
use provenohm_assess::ids::{CircuitId, PersonId};
use provenohm_assess::quantity::Comparator;
use provenohm_exchange::entries_of;
use provenohm_exchange::job_file::NotTested;

/// The last thing a person recorded on a board.
pub(crate) enum Last<'a> {
    Reading { one: &'a JudgedReading, slot: SlotId, circuit: CircuitId },
    NotTested { said: &'a NotTested, slot: SlotId, circuit: CircuitId },
}

/// The last thing a person recorded on a board that still stands.
pub(crate) fn last_of<'a>(judged: &'a Judged, board: &'a JudgedBoard, person: PersonId) -> Option<Last<'a>> {
    let slots = board.circuits.iter().flat_map(|one| one.slots.iter().map(move |slot| (one.circuit.id, slot)));
    let mut last: Option<(_, Last<'a>)> = None;
    for (circuit, slot) in slots {
        let reading = slot.readings.last().and_then(|index| Some((*index, judged.readings.get(*index)?)));
        let found = match (reading, slot.not_tested.last()) {
            // Readings stand in the order they were recorded, so their place tells the later of one instant.
            (Some((index, one)), _) if one.reading.person == person => {
                ((one.taken.recorded_at, index), Last::Reading { one, slot: slot.id(), circuit })
            }
            (None, Some(said)) if said.person == person => {
                ((said.recorded_at, usize::MAX), Last::NotTested { said, slot: slot.id(), circuit })
            }
            _ => continue,
        };
        if last.as_ref().is_none_or(|(when, _)| found.0 > *when) {
            last = Some(found);
        }
    }
    last.map(|(_, last)| last)
}

pub(crate) fn undo_reading(state: &mut State, asked: OfBoard) -> Result<Undone, Failure> {
    let job = state.job_of_board(asked.board)?;
    let (person, judged) = (state.person(job)?, state.judged(job)?);
    let last = last_of(&judged, judged.board(asked.board)?, person).ok_or_else(|| Failure::of("nothing_to_undo"))?;
    let mut seat = Seat::of(state, asked.board)?;
    let (slot, words) = match last {
        Last::Reading { one, slot, circuit } => {
            let entries = entries_of(&state.record.view(), one.reading.id)?;
            take_back_readings(state, job, person, &entries)?;
            let shown = one.reading.shown;
            let tapped = judged.over_range_of(&one.reading) == Some(shown);
            // What one tap recorded comes back as an empty line: the same tap stays ready.
            let kept = if tapped {
                Kept { text: String::new(), comparator: Comparator::Exact }
            } else {
                Kept { text: shown.digits.to_string(), comparator: shown.comparator }
            };
            typed::keep(state, person, &slot, Some(&kept))?;
            let pair = tell::pair_name(&state.words, &judged, circuit, &one.reading.pair);
            let reading = state.words.reading(&shown);
            let args = [("reading", reading.into()), ("pair", pair.into())];
            (slot, state.words.text_with("answer-undone", &args))
        }
        Last::NotTested { said, slot, circuit } => {
            let entries = not_tested_entries(state, job, said.stage, &said.pair)?;
            take_back_readings(state, job, person, &entries)?;
            let pair = tell::pair_name(&state.words, &judged, circuit, &said.pair);
            (slot, state.words.text_with("answer-undone-not-tested", &[("pair", pair.into())]))
        }
    };
    if let Some((stage, pair)) = crate::judged::slot_of(&slot) {
        seat.stage = stage;
        let circuits = pair.circuits();
        if circuits.len() > 1 && pair.b == End::earth() {
            seat.group = circuits.into_iter().collect();
        }
    }
    seat.go(Some(slot));
    seat.keep(state, asked.board)?;
    drop(judged);
    Ok(Undone { words, run: view::run_view(state, asked.board, None)? })
}
