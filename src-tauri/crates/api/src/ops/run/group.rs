//! One reading over several circuits: their live conductors joined, against earth. One that meets proves each member
//! alone; anything else leaves the singles to be read.

use super::hand::Seat;
use super::next::Walk;
use super::view::run_view;
use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedCircuit, Slot};
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::circuit::{Electrical, End, Pair, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{Limit, NoLimit, Under};
use provenohm_words::Words;

pub(crate) fn group_form(state: &mut State, asked: GroupAsk) -> Result<GroupForm, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let stage = Seat::of(state, asked.board)?.stage;
    Ok(form(&state.words, &judged, board, stage, &asked.circuits))
}

pub(crate) fn start_group(state: &mut State, asked: GroupAsk) -> Result<RunView, Failure> {
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let board = judged.board(asked.board)?;
    let mut seat = Seat::of(state, asked.board)?;
    let form = form(&state.words, &judged, board, seat.stage, &asked.circuits);
    if !form.ready || asked.circuits.iter().any(|id| member(board, *id).is_none()) {
        return Err(Failure::of("group").saying(form.words));
    }
    seat.group = asked.circuits;
    let (_, slot) = slot_of(&judged, board, &seat).ok_or_else(|| Failure::of("group"))?;
    seat.go(Some(slot.id()));
    seat.keep(state, asked.board)?;
    run_view(state, asked.board, None)
}

pub(crate) fn stop_group(state: &mut State, asked: OfBoard) -> Result<RunView, Failure> {
    let mut seat = Seat::of(state, asked.board)?;
    // The first of its circuits comes next, each conductor alone.
    let first = seat.group.iter().min().copied();
    seat.group.clear();
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let walk = Walk::at(&judged, judged.board(asked.board)?, &seat);
    seat.go(first.and_then(|circuit| walk.first_of(circuit)));
    seat.keep(state, asked.board)?;
    run_view(state, asked.board, None)
}

/// The group of a run, while its circuits can be tested together.
pub(super) fn now(words: &Words, judged: &Judged, board: &JudgedBoard, seat: &Seat) -> Option<RunGroup> {
    let (first, slot) = slot_of(judged, board, seat)?;
    let words = tell::pair_name(words, judged, first, &slot.pair);
    Some(RunGroup { circuits: slot.pair.circuits().into_iter().collect(), slot: slot.id(), words })
}

/// The slot of the group, in the row of the first of its circuits.
pub(crate) fn slot_of(judged: &Judged, board: &JudgedBoard, seat: &Seat) -> Option<(CircuitId, Slot)> {
    let pair = pair_of(board, &seat.group)?;
    let limit = limit_of(judged, board, &pair, seat.stage)?;
    let first = pair.circuits().first().copied()?;
    let stage = seat.stage;
    let (readings, not_tested, covered_by) = (Vec::new(), Vec::new(), None);
    let requests = judged.waiting(stage, &pair);
    Some((first, Slot { stage, pair, required: false, limit: Some(limit), readings, not_tested, covered_by, requests }))
}

/// All live conductors of these circuits of a board, and earth; none for fewer than two.
fn pair_of(board: &JudgedBoard, circuits: &[CircuitId]) -> Option<Pair> {
    let members: Vec<&JudgedCircuit> = circuits.iter().map(|id| member(board, *id)).collect::<Option<_>>()?;
    let whole = |one: &&JudgedCircuit| End::joined(one.circuit.id, one.circuit.electrical.conductors.live());
    let lives = members.iter().map(whole).reduce(End::and)?;
    let pair = Pair::between(lives, End::earth()).ok()?;
    (pair.circuits().len() > 1).then_some(pair)
}

/// The highest limit of the members; none where one reading cannot serve them all.
fn limit_of(judged: &Judged, board: &JudgedBoard, pair: &Pair, stage: Stage) -> Option<Limit> {
    let members: Vec<&JudgedCircuit> =
        pair.circuits().iter().map(|id| member(board, *id)).collect::<Option<Vec<_>>>()?;
    let (first, others) = members.split_first()?;
    let fits = |one: &&JudgedCircuit| why_not(judged, one, Some(first), stage).is_none();
    if !fits(first) || !others.iter().all(fits) {
        return None;
    }
    let under = Under { stage, loads: first.circuit.electrical.loads };
    let electrical = |id| judged.electrical(id);
    if judged.set().forbids(pair, under, electrical) {
        return None;
    }
    judged.set().limit_for(pair, under, electrical).ok().map(|limit| limit.to_limit())
}

fn member(board: &JudgedBoard, id: CircuitId) -> Option<&JudgedCircuit> {
    board.circuits.iter().find(|one| one.circuit.id == id)
}

fn form(words: &Words, judged: &Judged, board: &JudgedBoard, stage: Stage, chosen: &[CircuitId]) -> GroupForm {
    let is_chosen = |one: &&JudgedCircuit| chosen.contains(&one.circuit.id);
    let first = board.circuits.iter().find(is_chosen);
    let circuits: Vec<GroupMember> = board
        .circuits
        .iter()
        .map(|one| GroupMember {
            id: one.circuit.id,
            reference: one.circuit.reference.clone(),
            description: one.circuit.description.clone(),
            chosen: is_chosen(&one),
            why_not: why_not(judged, one, first, stage).map(|why| why.said(words, first)),
        })
        .collect();
    let refused = circuits.iter().find(|one| one.chosen && one.why_not.is_some());
    let pair = pair_of(board, chosen);
    let limit = pair.as_ref().and_then(|pair| Some((pair, limit_of(judged, board, pair, stage)?)));
    let told = match (refused, limit, first) {
        (Some(one), ..) => words.text_with(
            "answer-group-not-this",
            &[("circuit", one.reference.as_str().into()), ("why", one.why_not.clone().unwrap_or_default().into())],
        ),
        (None, Some((pair, limit)), Some(first)) => {
            let pair = tell::pair_name(words, judged, first.circuit.id, pair);
            words.text_with("answer-group", &[("pair", pair.into()), ("demand", words.demand(&limit).into())])
        }
        _ => words.text("answer-group-few"),
    };
    let ready = refused.is_none() && pair.is_some_and(|pair| limit_of(judged, board, &pair, stage).is_some());
    GroupForm { board: board.id, circuits, ready, words: told, own: tell::own(words, judged, board) }
}

/// Why a circuit cannot be tested together with another one.
enum WhyNot {
    TwoValues,
    NoLimit(NoLimit),
    /// The set asks for no reading of it to earth, or only for its conductors one by one.
    NotJoined,
    Voltage(Option<u32>, Option<u32>),
    Loads(Electrical, Electrical),
    SurgeProtector,
}

fn why_not(judged: &Judged, one: &JudgedCircuit, first: Option<&JudgedCircuit>, stage: Stage) -> Option<WhyNot> {
    let electrical = &one.circuit.electrical;
    if !one.circuit.electrical_also.is_empty() {
        return Some(WhyNot::TwoValues);
    }
    let volts = match volts(judged, one, stage) {
        Ok(volts) => volts,
        Err(why) => return Some(WhyNot::NoLimit(why)),
    };
    if !judged.set().joins_to_earth(electrical, stage) {
        return Some(WhyNot::NotJoined);
    }
    let first = first.filter(|first| first.circuit.id != one.circuit.id)?;
    let other = &first.circuit.electrical;
    let others = self::volts(judged, first, stage).ok()?;
    if volts != others {
        Some(WhyNot::Voltage(volts, others))
    } else if electrical.loads != other.loads {
        Some(WhyNot::Loads(electrical.clone(), other.clone()))
    } else {
        (electrical.spd_stays != other.spd_stays).then_some(WhyNot::SurgeProtector)
    }
}

/// The test voltage asked of a circuit's lives joined to earth, V; none where the set states none.
fn volts(judged: &Judged, one: &JudgedCircuit, stage: Stage) -> Result<Option<u32>, NoLimit> {
    let electrical = &one.circuit.electrical;
    let lives = End::joined(one.circuit.id, electrical.conductors.live());
    let pair = Pair::between(lives, End::earth()).map_err(|_| NoLimit::NoCircuit)?;
    let under = Under { stage, loads: electrical.loads };
    let limit = judged.set().limit_for(&pair, under, |id| judged.electrical(id))?;
    Ok(limit.row.test_voltage_v.and_then(super::voltage::whole))
}

impl WhyNot {
    fn said(&self, words: &Words, first: Option<&JudgedCircuit>) -> String {
        let circuit = first.map(|first| first.circuit.reference.clone()).unwrap_or_default();
        let volts = |volts: &Option<u32>| match volts {
            Some(volts) => words.volts(provenohm_assess::quantity::Volts((*volts).into())),
            None => words.text("answer-group-any-voltage"),
        };
        match self {
            Self::TwoValues => words.text("answer-two-values"),
            Self::NoLimit(why) => words.no_limit(why),
            Self::NotJoined => words.text("answer-group-not-joined"),
            Self::Voltage(own, other) => words.text_with(
                "answer-group-voltage",
                &[("own", volts(own).into()), ("circuit", circuit.into()), ("other", volts(other).into())],
            ),
            Self::Loads(own, other) => words.text_with(
                "answer-group-loads",
                &[
                    ("own", words.loads(own.loads).into()),
                    ("circuit", circuit.into()),
                    ("other", words.loads(other.loads).into()),
                ],
            ),
            Self::SurgeProtector => words.text_with("answer-group-surge", &[("circuit", circuit.into())]),
        }
    }
}
