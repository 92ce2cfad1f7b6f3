//! Facets that two devices may say otherwise and that no operation changes yet: they are told and settled all the same.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::{settle, settling};
use crate::ops::circuits::{add_many_circuits, circuits_view};
use crate::ops::jobs::{open_job, put_board};
use crate::state::State;
use crate::testing::state;
use crate::views::*;
use provenohm_assess::ids::{BoardId, CircuitId, JobId};
use provenohm_logbook::entry::Body;
use provenohm_logbook::entry::body::{BoardOrder, CircuitPlace, CircuitPresent, Origin};

/// A job with two boards, and a circuit on the first.
fn job() -> (State, JobId, [BoardId; 2], CircuitId) {
    let mut state = state();
    let start = StartJob {
        name: "Mill Lane".to_owned(),
        place: String::new(),
        person: "A. Recorder".to_owned(),
        role: String::new(),
    };
    let job = open_job(&mut state, &start, Origin::Started).unwrap();
    let boards = ["DB-1", "DB-2"].map(|name| put_board(&mut state, job, name).unwrap());
    let form = circuits_view(&mut state, boards[0]).unwrap().next;
    let many = AddManyCircuits { board: boards[0], count: "1".to_owned(), form };
    let circuit = add_many_circuits(&mut state, many).unwrap().view.circuits[0].id;
    (state, job, boards, circuit)
}

/// Writes two values that do not name each other, as two devices do.
fn apart(state: &mut State, job: JobId, values: [Body; 2]) -> SettleQuestion {
    let person = state.person(job).unwrap();
    for value in values {
        state.write(person, |writer| Ok(writer.append(value)?)).unwrap();
    }
    let mut all = settling(state, OfJob { job }).unwrap().questions;
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0)
}

fn words(question: &SettleQuestion) -> Vec<&str> {
    question.choices.iter().map(|one| one.words.as_str()).collect()
}

fn choose(state: &mut State, job: JobId, question: &SettleQuestion, at: usize) {
    let asked = Settle { job, question: question.id.clone(), choice: question.choices[at].id.clone() };
    assert_eq!(settle(state, asked).unwrap().view.questions, []);
}

#[test]
fn two_orders_of_boards() {
    let (mut state, job, [one, other], _) = job();
    let order = |boards| BoardOrder { job, boards }.into();
    let question = apart(&mut state, job, [order(vec![one, other]), order(vec![other, one])]);
    assert_eq!(question.asks, "Two orders of the boards");
    assert_eq!(words(&question), ["DB-1, DB-2", "DB-2, DB-1"]);
    choose(&mut state, job, &question, 1);
    let boards: Vec<BoardId> = state.judged(job).unwrap().boards.iter().map(|board| board.id).collect();
    assert_eq!(boards, [other, one]);
}

#[test]
fn two_boards_for_one_circuit() {
    let (mut state, job, [one, other], circuit) = job();
    let place = state.record.view().circuits(job).unwrap()[0].place.current();
    let person = state.person(job).unwrap();
    state.write(person, |writer| Ok(writer.take_back(&place)?)).unwrap();
    let at = |board| CircuitPlace { job, circuit, board }.into();
    let question = apart(&mut state, job, [at(one), at(other)]);
    assert_eq!((question.asks.as_str(), question.place.as_str()), ("Two boards for one circuit", "DB-1 · 1"));
    assert_eq!(words(&question), ["DB-1", "DB-2"]);
    choose(&mut state, job, &question, 1);
    assert_eq!(circuits_view(&mut state, other).unwrap().circuits.len(), 1);
}

#[test]
fn there_and_removed() {
    for (at, there) in [(0, 1), (1, 0)] {
        let (mut state, job, [board, _], circuit) = job();
        let present = |present| CircuitPresent { job, circuit, present, known: Vec::new() }.into();
        let question = apart(&mut state, job, [present(true), present(false)]);
        assert_eq!((question.asks.as_str(), words(&question)), ("There, or removed", vec!["There", "Removed"]));
        assert_eq!(circuits_view(&mut state, board).unwrap().circuits.len(), 1, "it stays meanwhile");
        choose(&mut state, job, &question, at);
        assert_eq!(circuits_view(&mut state, board).unwrap().circuits.len(), there);
    }
}
