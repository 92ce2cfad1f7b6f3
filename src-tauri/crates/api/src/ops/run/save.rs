//! Saving a reading, or that a pair was not tested: append, flush, judge on what the record says now, answer.

use super::hand::{Hand, Seat};
use super::next::Walk;
use super::{read_back, typed, view, voltage};
use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading, Slot};
use crate::state::State;
use crate::views::*;
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Key, Pressed, Shown, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_exchange::entries_of;
use provenohm_logbook::entry::body::{self, ReadingTaken, ReplacedWhy};
use provenohm_logbook::entry::{EntryRef, Fact, Role};
use provenohm_logbook::record::Writer;
use std::collections::BTreeSet;

/// What saving needs to know of a slot, and where the person is once it is done.
struct At {
    job: JobId,
    person: PersonId,
    seat: Seat,
    /// Where they are afterwards: circuits tested together are done together.
    next: Seat,
    hand: Hand,
    slot: SlotId,
}

impl At {
    fn of(state: &mut State, board: BoardId, slot: &SlotId) -> Result<Self, Failure> {
        let job = state.job_of_board(board)?;
        let person = state.person(job)?;
        let (stage, pair) = crate::judged::slot_of(slot).ok_or_else(|| Failure::of("not_found"))?;
        let seat = Seat { stage, slot: Some(slot.clone()), done: true, ..Seat::of(state, board)? };
        let mut next = seat.clone();
        if pair.circuits().len() > 1 {
            next.group.clear();
        }
        Ok(Self { job, person, seat, next, hand: Hand::of(state)?, slot: slot.clone() })
    }
}

/// What is said of a reading: on the pad with the tester in hand, or in a line of a table.
pub(crate) struct Told {
    pub(crate) shown: Shown,
    pub(crate) volts: Volts,
    pub(crate) tester: Option<TesterId>,
    pub(crate) person: PersonId,
    pub(crate) at: Moment,
    pub(crate) conditions: Conditions,
}

/// A reading that nothing stands against any more, with what saving it takes back.
pub(crate) struct Ready {
    reading: Reading,
    replaced: Vec<EntryRef>,
    not_tested: Vec<EntryRef>,
}

impl Ready {
    /// What is said of a slot as a reading of its own; it takes the place of those `replaced`.
    pub(crate) fn of(
        state: &mut State,
        judged: &Judged,
        (stage, pair): (Stage, &Pair),
        told: Told,
        replaced: Vec<EntryRef>,
    ) -> Result<Self, Failure> {
        let Told { shown, volts, tester, person, at, conditions } = told;
        let id = ReadingId(state.host.id()?);
        let pair = pair.clone();
        let not_tested = said_not_tested(state, judged, stage, &pair)?;
        let reading = Reading { id, shown, pair, stage, test_voltage_v: volts, tester, person, at, conditions };
        Ok(Self { reading, replaced, not_tested })
    }

    /// Appends it; that the pair was not tested no longer holds then.
    pub(crate) fn append(self, writer: &mut Writer<'_>, job: JobId, tested_after_all: &str) -> Result<(), Failure> {
        let Self { reading, replaced, not_tested } = self;
        let why = (!replaced.is_empty()).then_some(ReplacedWhy::Repeated);
        writer.append(Fact::naming(ReadingTaken { job, reading, why }, Role::Replaces, replaced))?;
        if !not_tested.is_empty() {
            writer.withdraw(&not_tested, tested_after_all)?;
        }
        Ok(())
    }
}

pub(crate) fn save_reading(state: &mut State, asked: SaveReading) -> Result<Saved, Failure> {
    let at = At::of(state, asked.board, &asked.slot)?;
    let (ready, circuit) = ready(state, &at, &asked)?;
    let reason = state.words.text("answer-tested-after-all");
    let (id, kept) = (ready.reading.id, Seat::kept(state, asked.board));
    state.write_readings(at.job, at.person, |writer| {
        ready.append(writer, at.job, &reason)?;
        writer.keep_draft(&at.slot.0, "")?;
        at.next.keep_with(writer, &kept)
    })?;
    let judged = state.judged(at.job)?;
    let today = state.host.now().date_naive();
    let saved = judged.reading(id).ok_or_else(|| Failure::of("unexpected"))?;
    let saved = read_back::of_reading(&state.words, &judged, saved, at.slot.clone(), circuit, today);
    move_on(state, asked.board, &at, saved)
}

/// Refuses what cannot be saved, before anything is written.
fn ready(state: &mut State, at: &At, asked: &SaveReading) -> Result<(Ready, CircuitId), Failure> {
    let judged = state.judged(at.job)?;
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
    let mut conditions = view::conditions_of(&judged, circuit, slot, &at.seat);
    // Said of the whole board, it holds where there is an N.
    conditions.n_isolated.take_if(|_| !judged.has_neutral(&slot.pair));
    let replaced = replaced_entries(state, &judged, slot, at.person)?;
    let (tester, person) = (at.hand.tester, at.person);
    let told = Told { shown, volts: Volts(volts.into()), tester, person, at: state.host.now(), conditions };
    Ok((Ready::of(state, &judged, (slot.stage, &slot.pair), told, replaced)?, circuit.circuit.id))
}

pub(crate) fn mark_not_tested(state: &mut State, asked: MarkNotTested) -> Result<Saved, Failure> {
    let at = At::of(state, asked.board, &asked.slot)?;
    let judged = state.judged(at.job)?;
    let walk = Walk::at(&judged, judged.board(asked.board)?, &at.seat);
    let (circuit, slot) = walk.find(&at.slot).ok_or_else(|| Failure::of("not_found"))?;
    if slot.pair.circuits().len() > 1 && !slot.required {
        return Err(Failure::of("group_not_tested"));
    }
    let (circuit, stage, pair) = (circuit.circuit.id, slot.stage, slot.pair.clone());
    let words = asked.words.trim().to_owned();
    let fact = body::NotTested {
        job: at.job,
        pair: pair.clone(),
        stage,
        reason: asked.reason,
        words: (!words.is_empty()).then_some(words),
        person: at.person,
        at: state.host.now(),
        beside: slot.readings.iter().filter_map(|at| judged.readings.get(*at)).map(|one| one.reading.id).collect(),
    };
    let former = said_not_tested(state, &judged, stage, &pair)?;
    drop(judged);
    let kept = Seat::kept(state, asked.board);
    state.write_readings(at.job, at.person, |writer| {
        writer.append(Fact::naming(fact, Role::Replaces, former))?;
        at.next.keep_with(writer, &kept)
    })?;
    let judged = state.judged(at.job)?;
    let said = judged.file.not_tested.iter().rfind(|said| said.stage == stage && said.pair == pair);
    let said = said.ok_or_else(|| Failure::of("unexpected"))?;
    let saved = read_back::of_not_tested(&state.words, &judged, said, at.slot.clone(), circuit);
    move_on(state, asked.board, &at, saved)
}

/// The readings of a slot that a new one of a person takes the place of: their own, and any where another asked for a new
/// one. What somebody else read stays beside it, until one is chosen.
pub(super) fn replaced<'a>(
    judged: &'a Judged,
    slot: &'a Slot,
    me: &'a BTreeSet<PersonId>,
) -> impl Iterator<Item = &'a JudgedReading> {
    let standing = slot.readings.iter().filter_map(|index| judged.readings.get(*index));
    standing.filter(move |one| judged.may_change(&one.reading, me))
}

/// The entries of those readings.
fn replaced_entries(state: &State, judged: &Judged, slot: &Slot, me: PersonId) -> Result<Vec<EntryRef>, Failure> {
    let mut entries = Vec::new();
    for one in replaced(judged, slot, &state.ids_of(me)?) {
        entries.extend(entries_of(&state.record.view(), one.reading.id)?);
    }
    Ok(entries)
}

/// The entries that say a slot was not tested.
fn said_not_tested(state: &State, judged: &Judged, stage: Stage, pair: &Pair) -> Result<Vec<EntryRef>, Failure> {
    if judged.file.not_tested.iter().any(|said| said.stage == stage && said.pair == *pair) {
        not_tested_entries(state, judged.file.job.id, stage, pair)
    } else {
        Ok(Vec::new())
    }
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

/// To the next open slot, with what that crosses.
fn move_on(state: &mut State, board: BoardId, at: &At, saved: ReadBack) -> Result<Saved, Failure> {
    let judged = state.judged(at.job)?;
    let walk = Walk::at(&judged, judged.board(board)?, &at.seat);
    let before = walk.find(&at.slot).map(|(circuit, _)| circuit.circuit.id);
    let now = at.seat.here(&walk);
    let after = now.as_ref().and_then(|slot| walk.find(slot)).map(|(circuit, _)| circuit);
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
    Ok(Saved { saved, moved, run: view::run_view(state, board, announce)? })
}
