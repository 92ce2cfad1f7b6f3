//! Saving a reading, or that a pair was not tested: append, flush, judge on what the record says now, answer.

use super::hand::{Hand, Seat};
use super::next::Walk;
use super::{read_back, typed, view, voltage};
use crate::failure::Failure;
use crate::judged::{Judged, Slot};
use crate::state::State;
use crate::views::*;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{BoardId, JobId, PersonId, ReadingId};
use provenohm_assess::quantity::{Key, Pressed, Volts};
use provenohm_assess::reading::Reading;
use provenohm_exchange::entries_of;
use provenohm_logbook::entry::body::{self, ReadingTaken, ReplacedWhy};
use provenohm_logbook::entry::{EntryRef, Fact, Role};
use std::sync::Arc;

/// What saving needs to know of a slot.
struct At {
    job: JobId,
    person: PersonId,
    judged: Arc<Judged>,
    seat: Seat,
    hand: Hand,
    slot: SlotId,
}

impl At {
    fn of(state: &mut State, board: BoardId, slot: &SlotId) -> Result<Self, Failure> {
        let job = state.job_of_board(board)?;
        let person = state.person(job)?;
        let judged = state.judged(job)?;
        let mut seat = Seat::of(state, board)?;
        let (stage, _) = crate::judged::slot_of(slot).ok_or_else(|| Failure::of("not_found"))?;
        seat.stage = stage;
        Ok(Self { job, person, judged, seat, hand: Hand::of(state)?, slot: slot.clone() })
    }
}

pub(crate) fn save_reading(state: &mut State, asked: SaveReading) -> Result<Saved, Failure> {
    let at = At::of(state, asked.board, &asked.slot)?;
    let judged = Arc::clone(&at.judged);
    let walk = Walk::at(&judged, judged.board(asked.board)?, &at.seat);
    let (circuit, slot) = walk.find(&at.slot).ok_or_else(|| Failure::of("not_found"))?;
    let wanted = voltage::asked(&judged, circuit, slot, &at.seat);
    if voltage::must_set(&at.hand, wanted) {
        return Err(Failure::of("voltage_not_said"));
    }
    let volts = at.hand.volts.ok_or_else(|| Failure::of("voltage_not_said"))?;
    let shown = match &asked.indication {
        Indication::Typed(typed) => typed::read(&state.words, typed)?,
        Indication::OverRange => {
            // The key of the pad refuses while digits stand on the line: it would throw them away.
            let line = typed::kept(state, at.person, &at.slot)?;
            match line.press(Key::OverRange(view::over_range(&judged, &at.hand))) {
                Ok(Pressed::Save(shown)) => shown,
                Ok(Pressed::Typing(_)) => return Err(Failure::of("refused")),
                Err(why) => return Err(typed::refused(&state.words, why, line.text())),
            }
        }
    };
    let reading = Reading {
        id: ReadingId(state.host.id()?),
        shown,
        pair: slot.pair.clone(),
        stage: slot.stage,
        test_voltage_v: Volts(volts.into()),
        tester: at.hand.tester,
        person: at.person,
        at: state.host.now(),
        conditions: view::conditions_of(&judged, circuit, slot, &at.seat),
    };
    let replaced = standing(state, &judged, slot)?;
    let why = (!replaced.is_empty()).then_some(ReplacedWhy::Repeated);
    let not_tested = said_not_tested(state, at.job, slot)?;
    let reason = state.words.text("answer-tested-after-all");
    let (id, place) = (reading.id, at.slot.0.clone());
    state.write_readings(at.job, at.person, |writer| {
        writer.append(Fact::naming(ReadingTaken { job: at.job, reading, why }, Role::Replaces, replaced))?;
        if !not_tested.is_empty() {
            writer.withdraw(&not_tested, &reason)?;
        }
        Ok(writer.keep_draft(&place, "")?)
    })?;
    let judged = state.judged(at.job)?;
    let today = state.host.now().date_naive();
    let saved = judged.reading(id).ok_or_else(|| Failure::of("unexpected"))?;
    let saved = read_back::of_reading(&state.words, &judged, saved, at.slot.clone(), circuit.circuit.id, today);
    move_on(state, asked.board, at.seat, &at.slot, saved)
}

pub(crate) fn mark_not_tested(state: &mut State, asked: MarkNotTested) -> Result<Saved, Failure> {
    let at = At::of(state, asked.board, &asked.slot)?;
    let judged = Arc::clone(&at.judged);
    let walk = Walk::at(&judged, judged.board(asked.board)?, &at.seat);
    let (circuit, slot) = walk.find(&at.slot).ok_or_else(|| Failure::of("not_found"))?;
    if slot.pair.circuits().len() > 1 && !slot.required {
        return Err(Failure::of("group_not_tested"));
    }
    let words = asked.words.trim().to_owned();
    let fact = body::NotTested {
        job: at.job,
        pair: slot.pair.clone(),
        stage: slot.stage,
        reason: asked.reason,
        words: (!words.is_empty()).then_some(words),
        person: at.person,
        at: state.host.now(),
    };
    let former = said_not_tested(state, at.job, slot)?;
    state
        .write_readings(at.job, at.person, |writer| Ok(writer.append(Fact::naming(fact, Role::Replaces, former))?))?;
    let judged = state.judged(at.job)?;
    let (stage, pair) = (slot.stage, &slot.pair);
    let said = judged.file.not_tested.iter().rfind(|said| said.stage == stage && said.pair == *pair);
    let said = said.ok_or_else(|| Failure::of("unexpected"))?;
    let saved = read_back::of_not_tested(&state.words, &judged, said, at.slot.clone(), circuit.circuit.id);
    move_on(state, asked.board, at.seat, &at.slot, saved)
}

/// The entries of the readings that stand in a slot.
fn standing(state: &State, judged: &Judged, slot: &Slot) -> Result<Vec<EntryRef>, Failure> {
    let mut entries = Vec::new();
    for one in slot.readings.iter().filter_map(|index| judged.readings.get(*index)) {
        entries.extend(entries_of(&state.record.view(), one.reading.id)?);
    }
    Ok(entries)
}

/// The entries that say a slot was not tested.
pub(crate) fn said_not_tested(state: &State, job: JobId, slot: &Slot) -> Result<Vec<EntryRef>, Failure> {
    not_tested_entries(state, job, slot.stage, &slot.pair)
}

/// The live entries that say a pair was not tested at a stage.
pub(crate) fn not_tested_entries(
    state: &State,
    job: JobId,
    stage: Stage,
    pair: &Pair,
) -> Result<Vec<EntryRef>, Failure> {
    let all = state.record.view().not_tested(job)?;
    let here = all.iter().filter(|one| one.is_live() && one.value.stage == stage && one.value.pair == *pair);
    Ok(here.map(|one| one.entry).collect())
}

/// Moving on is part of saving: to the next open slot, with what that crosses.
fn move_on(
    state: &mut State,
    board: BoardId,
    mut seat: Seat,
    from: &SlotId,
    saved: ReadBack,
) -> Result<Saved, Failure> {
    let job = state.job_of_board(board)?;
    let judged = state.judged(job)?;
    let on = judged.board(board)?;
    let walk = Walk::at(&judged, on, &seat);
    seat.slot = walk.open_after(Some(from));
    let before = walk.find(from).map(|(circuit, _)| circuit.circuit.id);
    let after = seat.slot.as_ref().and_then(|slot| walk.find(slot)).map(|(circuit, _)| circuit);
    let moved = match after {
        None => Moved::End,
        Some(circuit) if Some(circuit.circuit.id) == before => Moved::Pair,
        Some(_) => Moved::Circuit,
    };
    let announce = after.filter(|_| moved == Moved::Circuit).map(|circuit| {
        let description = &circuit.circuit.description;
        let description = if description.is_empty() { "none" } else { description };
        state.words.text_with(
            "answer-now-circuit",
            &[("circuit", circuit.circuit.reference.as_str().into()), ("description", description.into())],
        )
    });
    seat.keep(state, board)?;
    Ok(Saved { saved, moved, run: view::run_view(state, board, announce)? })
}
