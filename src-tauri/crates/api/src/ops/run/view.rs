//! Everything Run shows.

use super::hand::{Hand, Seat};
use super::next::{self, Walk};
use super::{group, leads, read_back, typed, voltage};
use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, Slot};
use crate::ops::circuits::sign_of;
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::{BoardId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_assess::quantity::{Shown, Typed, Volts};
use provenohm_assess::reading::{Conditions, NotTestedReason};
use provenohm_words::Words;
use std::borrow::Cow;
use std::collections::BTreeSet;

pub(crate) fn run(state: &mut State, asked: RunAsk) -> Result<RunView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let mut seat = Seat::of(state, asked.board)?;
    if let Some(slot) = &asked.slot {
        let (stage, _) = crate::judged::slot_of(slot).ok_or_else(|| Failure::of("not_found"))?;
        seat.stage = stage;
        seat.go(Some(slot.clone()));
    }
    if let Some(circuit) = asked.circuit {
        let first = Walk::at(&judged, judged.board(asked.board)?, &seat).first_of(circuit);
        seat.go(first);
    }
    if asked.slot.is_some() || asked.circuit.is_some() {
        seat.keep(state, asked.board)?;
    }
    run_view(state, asked.board, None)
}

/// The screen now. `announce` is what moving on crossed, said for two seconds.
pub(crate) fn run_view(state: &mut State, id: BoardId, announce: Option<String>) -> Result<RunView, Failure> {
    let job = state.job_of_board(id)?;
    let judged = state.judged(job)?;
    let board = judged.board(id)?;
    let me = state.me(job)?;
    let now = state.host.now();
    let seat = Seat::of(state, id)?;
    let mut hand = Hand::of(state)?;
    let walk = Walk::at(&judged, board, &seat);
    let slot = seat.here(&walk);
    let here = slot.as_ref().and_then(|slot| walk.find(slot));
    let asked = here.and_then(|(circuit, slot)| voltage::asked(&judged, circuit, slot, &seat));
    if hand.volts.is_some() && hand.volts == asked && hand.asked != asked {
        hand.asked = asked;
        hand.keep(state)?;
    }
    let draft = match (me, &slot) {
        (Some(person), Some(slot)) => typed::kept(state, person, slot)?,
        _ => Typed::default(),
    };
    let words = &state.words;
    let over_range = over_range(&judged, &hand);
    let ask_volts = here.and_then(|_| voltage::ask(words, &judged, &hand, asked));
    let back = read_back(words, &judged, board, me, now.date_naive());
    let ids = me.map(|me| state.ids_of(me)).transpose()?.unwrap_or_default();
    Ok(RunView {
        job,
        job_name: judged.file.job.name.clone(),
        cautions_confirmed: judged.file.cautions_read.iter().any(|read| Some(read.person) == me),
        board: id,
        board_name: board.name.clone(),
        stage: seat.stage,
        stage_words: words.stage(seat.stage),
        circuit: here.map(|(circuit, _)| run_circuit(words, board, circuit)),
        circuits: walk.circuits.iter().map(|(one, slots)| circuit_line(words, &judged, one, slots)).collect(),
        voltage: match (hand.volts, asked) {
            (Some(volts), _) | (None, Some(volts)) => words.volts(Volts(volts.into())),
            (None, None) => String::new(),
        },
        volts: hand.volts,
        volts_choices: voltage::choices(words, &judged, &hand),
        announce,
        ahead: here.and_then(|(circuit, slot)| ahead(words, &judged, &walk, (circuit, slot), &seat, &hand)),
        tester: run_tester(words, &judged, &hand, now),
        slots: here.map(|(circuit, _)| slots(words, &judged, &walk, circuit)).unwrap_or_default(),
        slot: here.map(|(_, slot)| slot.id()),
        progress: here.map(|(circuit, slot)| progress(words, &walk, circuit, slot)).unwrap_or_default(),
        draft: typed::draft_view(words, &draft),
        over_range: OverRangeKey {
            label: over_range.map_or_else(|| words.text("answer-over-range-not-set"), |shown| words.reading(&shown)),
            ready: over_range.is_some() && ask_volts.is_none(),
        },
        ask_volts,
        asked: here.and_then(|(_, slot)| tell::asked(words, &judged, &slot.requests)),
        hint: here.and_then(|(_, slot)| hint(words, &judged, slot, &hand, (&ids, now))),
        can_undo: me.is_some_and(|me| super::undo::last_of(&judged, board, me).is_some()),
        read_back: back,
        not_tested_reasons: reasons(words),
        lead_check: leads::standing(words, &judged, &hand, now),
        joined: here.is_some_and(|(circuit, _)| circuit.circuit.electrical.joined_to_earth),
        group: group::now(words, &judged, board, &seat),
        conditions: conditions(words, &judged, here, &seat),
        note: here.map(|(circuit, _)| notes(circuit)).filter(|note| !note.is_empty()),
        ended: here.is_none().then(|| end_card(words, &judged, board)),
        ruler_notches: typed::notches(),
    })
}

/// What the tester in hand shows above its limit, at the voltage it is set to.
pub(crate) fn over_range(judged: &Judged, hand: &Hand) -> Option<Shown> {
    let card = judged.history(hand.tester?)?.card.as_ref()?;
    let volts = Volts(hand.volts?.into());
    card.voltages.iter().find(|one| one.test_voltage_v == volts)?.over_range
}

/// The other test voltage the tester has to be set to when the next circuit comes. Nothing while the pad asks for one.
fn ahead(
    words: &Words,
    judged: &Judged,
    walk: &Walk<'_>,
    here: (&JudgedCircuit, &Slot),
    seat: &Seat,
    hand: &Hand,
) -> Option<String> {
    let (circuit, slot) = here;
    if voltage::must_set(hand, voltage::asked(judged, circuit, slot, seat)) {
        return None;
    }
    let (next, slot) = walk.next_circuit(circuit.circuit.id)?;
    let asked = voltage::asked(judged, next, slot, seat).filter(|asked| voltage::must_set(hand, Some(*asked)))?;
    let volts = words.volts(Volts(asked.into()));
    let args = [("volts", volts.into()), ("circuit", next.circuit.reference.as_str().into())];
    Some(words.text_with("answer-volts-from-circuit", &args))
}

fn run_circuit(words: &Words, board: &JudgedBoard, one: &JudgedCircuit) -> RunCircuit {
    let place = board.circuits.iter().position(|other| other.circuit.id == one.circuit.id).unwrap_or(0);
    RunCircuit {
        id: one.circuit.id,
        reference: one.circuit.reference.clone(),
        description: one.circuit.description.clone(),
        position: words
            .text_with("answer-progress", &[("done", (place + 1).into()), ("of", board.circuits.len().into())]),
        notes: notes(one),
    }
}

fn notes(one: &JudgedCircuit) -> String {
    one.circuit.notes.iter().map(|note| note.text.as_str()).collect::<Vec<_>>().join("\n")
}

fn circuit_line(words: &Words, judged: &Judged, one: &JudgedCircuit, slots: &[Cow<'_, Slot>]) -> RunCircuitLine {
    let done = slots.iter().filter(|slot| !slot.is_open()).count();
    RunCircuitLine {
        id: one.circuit.id,
        reference: one.circuit.reference.clone(),
        description: one.circuit.description.clone(),
        sign: sign_of(judged, one),
        slot: next::first_open(slots),
        progress: words.text_with("answer-progress", &[("done", done.into()), ("of", slots.len().into())]),
        asked: slots.iter().any(|slot| !slot.requests.is_empty()),
    }
}

fn run_tester(words: &Words, judged: &Judged, hand: &Hand, now: provenohm_assess::moment::Moment) -> RunTester {
    match hand.tester.and_then(|id| judged.tester(id)) {
        Some(tester) => {
            let volts = hand.volts.map(|volts| Volts(volts.into()));
            let Sentence { level, words } = tell::header(words, tester, volts, judged.file.job.policies, now);
            RunTester { id: Some(tester.id), words, level }
        }
        None => RunTester { id: None, words: words.text("said-header-none"), level: Level::Stop },
    }
}

fn slots(words: &Words, judged: &Judged, walk: &Walk<'_>, circuit: &JudgedCircuit) -> Vec<SlotView> {
    let own = walk.all().filter(|(one, _)| one.circuit.id == circuit.circuit.id);
    own.map(|(_, slot)| {
        let name = tell::pair_name(words, judged, circuit.circuit.id, &slot.pair);
        SlotView {
            id: slot.id(),
            spoken: name.replace('–', " – "),
            name,
            sign: slot.sign(judged),
            shown: shown(words, judged, slot),
            asked: !slot.requests.is_empty(),
        }
    })
    .collect()
}

/// What was read in a slot, or that it was not tested.
pub(crate) fn shown(words: &Words, judged: &Judged, slot: &Slot) -> Option<String> {
    let reading = slot.reading(judged).map(|one| words.reading(&one.reading.shown));
    let said = || slot.not_tested.iter().map(|said| words.not_tested_reason(said.reason)).collect::<Vec<_>>();
    reading.or_else(|| Some(said().join(" / ")).filter(|said| !said.is_empty()))
}

fn progress(words: &Words, walk: &Walk<'_>, circuit: &JudgedCircuit, slot: &Slot) -> String {
    let own: Vec<&Slot> =
        walk.all().filter(|(one, _)| one.circuit.id == circuit.circuit.id).map(|(_, slot)| slot).collect();
    let at = own.iter().position(|one| one.id() == slot.id()).unwrap_or(0);
    words.text_with("answer-progress", &[("done", (at + 1).into()), ("of", own.len().into())])
}

fn read_back(
    words: &Words,
    judged: &Judged,
    board: &JudgedBoard,
    me: Option<PersonId>,
    today: chrono::NaiveDate,
) -> Option<ReadBack> {
    match super::undo::last_of(judged, board, me?)? {
        super::undo::Last::Reading { one, slot, circuit } => {
            Some(read_back::of_reading(words, judged, one, slot, circuit, today))
        }
        super::undo::Last::NotTested { said, slot, circuit } => {
            Some(read_back::of_not_tested(words, judged, said, slot, circuit))
        }
    }
}

fn reasons(words: &Words) -> Vec<Choice> {
    use NotTestedReason::{Joined, Live, LoadConnected, NoAccess, NotPresent, Other};
    let code = |reason: NotTestedReason| match reason {
        Live => "live",
        NoAccess => "no_access",
        LoadConnected => "load_connected",
        Joined => "joined",
        NotPresent => "not_present",
        Other => "other",
    };
    [Live, NoAccess, LoadConnected, Joined, NotPresent, Other]
        .into_iter()
        .map(|reason| Choice { id: code(reason).to_owned(), words: words.not_tested_reason(reason) })
        .collect()
}

fn conditions(words: &Words, judged: &Judged, here: Option<(&JudgedCircuit, &Slot)>, seat: &Seat) -> ConditionsView {
    let conditions = here.map(|(circuit, slot)| conditions_of(judged, circuit, slot, seat)).unwrap_or_default();
    let reasons = here.map(|(circuit, slot)| voltage::reduced_reasons(judged, circuit, slot)).unwrap_or_default();
    let code = |reason| serde_json::to_value(reason).ok().and_then(|it| it.as_str().map(str::to_owned));
    ConditionsView {
        loads: conditions.loads,
        n_isolated: conditions.n_isolated,
        reduced: conditions.reduced,
        words: words.conditions(&conditions).join(", "),
        reduced_reasons: reasons
            .into_iter()
            .map(|reason| Choice { id: code(reason).unwrap_or_default(), words: words.reduced_reason(reason) })
            .collect(),
    }
}

/// The conditions a reading is taken under now: loads as the circuit has them unless said otherwise, the rest as said
/// for this run.
pub(crate) fn conditions_of(judged: &Judged, circuit: &JudgedCircuit, slot: &Slot, seat: &Seat) -> Conditions {
    let said = seat.loads.filter(|(id, _)| *id == circuit.circuit.id).map(|(_, loads)| loads);
    Conditions {
        loads: said.unwrap_or(circuit.circuit.electrical.loads),
        n_isolated: seat.n_isolated,
        reduced: voltage::reduced(judged, circuit, slot, seat),
    }
}

/// What the next reading takes the place of; else from which indication on this tester proves the limit, under *guarded*.
fn hint(
    words: &Words,
    judged: &Judged,
    slot: &Slot,
    hand: &Hand,
    (me, now): (&BTreeSet<PersonId>, provenohm_assess::moment::Moment),
) -> Option<String> {
    if let Some(one) = slot.readings.last().and_then(|index| judged.readings.get(*index)) {
        let replaced = super::save::replaced(judged, slot, me).last();
        let key = if replaced.is_some() { "answer-hint-replaces" } else { "answer-hint-beside" };
        let reading = words.reading(&replaced.unwrap_or(one).reading.shown);
        return Some(words.text_with(key, &[("reading", reading.into())]));
    }
    let limit = slot.limit.as_ref()?;
    let tester = judged.testers().of(hand.tester?).first()?;
    let volts = Volts(hand.volts?.into());
    let (smallest, source) = tell::smallest(tester, limit, volts, judged.file.job.policies, now)?;
    Some(words.proves_from(limit, smallest, Some(&source)))
}

fn end_card(words: &Words, judged: &Judged, board: &JudgedBoard) -> EndCard {
    let slots = || board.circuits.iter().flat_map(|one| &one.slots).filter(|slot| slot.stage == Stage::Before);
    let count = |wanted: &dyn Fn(&Slot) -> bool| slots().filter(|slot| wanted(slot)).count();
    let looked = count(&|slot| matches!(slot.sign(judged), Sign::Look));
    let stopped = count(&|slot| matches!(slot.sign(judged), Sign::Stop));
    let line =
        |level, key: &str, count: usize| Sentence { level, words: words.text_with(key, &[("count", count.into())]) };
    let mut lines = vec![line(Level::Done, "answer-board-ended-done", count(&|slot| !slot.readings.is_empty()))];
    let not_tested = count(&|slot| !slot.not_tested.is_empty() && slot.covered_by.is_none());
    if not_tested > 0 {
        lines.push(line(Level::Look, "answer-board-ended-not-tested", not_tested));
    }
    lines.push(line(if looked > 0 { Level::Look } else { Level::Done }, "answer-look-count", looked));
    if stopped > 0 {
        lines.push(line(Level::Stop, "answer-stop-count", stopped));
    }
    // What this stage holds leads there by itself; what another one holds is said.
    let asked = board.circuits.iter().flat_map(|one| &one.slots).filter(|slot| !slot.requests.is_empty()).count();
    if asked > 0 {
        lines.push(line(Level::Look, "answer-board-ended-asked", asked));
    }
    EndCard { words: words.text("answer-board-ended"), lines }
}
