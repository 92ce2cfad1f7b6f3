//! Facets that two devices may say otherwise and that no operation changes yet: they are told and settled all the same.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::{settle, settling};
use crate::ops::circuits::{add_many_circuits, circuits_view};
use crate::ops::jobs::{open_job, put_board};
use crate::state::State;
use crate::testing::{self, state};
use crate::views::*;
use provenohm_assess::circuit::{Conductor, End, Pair, Stage, Terminal};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId, TesterId};
use provenohm_assess::quantity::{Comparator, Digits, Shown, Unit, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_logbook::entry::body::{
    BoardOrder, Book, CircuitPlace, CircuitPresent, CutEnd, Origin, Person, ReadingTaken, Request, SameCircuit,
    TesterIdentity,
};
use provenohm_logbook::entry::{Body, Fact, Role, Seq};
use provenohm_logbook::record::Writer;

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

/// Two circuits on the first board that were said to be one.
fn joined() -> (State, JobId, [BoardId; 2], [CircuitId; 2]) {
    let (mut state, job, boards, one) = job();
    let form = circuits_view(&mut state, boards[0]).unwrap().next;
    let many = AddManyCircuits { board: boards[0], count: "1".to_owned(), form };
    let other = add_many_circuits(&mut state, many).unwrap().view.circuits[1].id;
    let circuits = state.record.view().circuits(job).unwrap();
    let labels: Vec<_> = circuits.iter().flat_map(|circuit| circuit.label.current()).collect();
    let person = state.person(job).unwrap();
    state
        .write(person, |writer| {
            writer.append(SameCircuit { job, one, other })?;
            writer.settle(&labels[..1], &labels[1..], None)?;
            Ok(())
        })
        .unwrap();
    (state, job, boards, [one, other])
}

#[test]
fn two_boards_for_the_ids_of_one_circuit() {
    let (mut state, job, [first, second], [_, other]) = joined();
    assert_eq!(settling(&mut state, OfJob { job }).unwrap().questions, []);
    let person = state.person(job).unwrap();
    // Moved under the id that no longer stands, by one who did not know that it is one with the other.
    let place = state.record.view().circuits(job).unwrap()[0].place.current()[1];
    state
        .write(person, |writer| {
            let moved = CircuitPlace { job, circuit: other, board: second };
            Ok(writer.append(Fact::naming(moved, Role::Replaces, [place]))?)
        })
        .unwrap();
    let question = settling(&mut state, OfJob { job }).unwrap().questions.remove(0);
    assert_eq!((question.asks.as_str(), words(&question)), ("Two boards for one circuit", vec!["DB-1", "DB-2"]));
    choose(&mut state, job, &question, 1);
    assert_eq!(circuits_view(&mut state, first).unwrap().circuits.len(), 0);
    assert_eq!(circuits_view(&mut state, second).unwrap().circuits.len(), 1);
}

#[test]
fn there_and_removed_of_the_ids_of_one_circuit() {
    for (at, there) in [(0, 1), (1, 0)] {
        let (mut state, job, [board, _], ids) = joined();
        let present = |circuit, present| CircuitPresent { job, circuit, present, known: Vec::new() }.into();
        let question = apart(&mut state, job, [present(ids[0], true), present(ids[1], false)]);
        assert_eq!((question.asks.as_str(), words(&question)), ("There, or removed", vec!["There", "Removed"]));
        assert_eq!(circuits_view(&mut state, board).unwrap().circuits.len(), 1, "it stays meanwhile");
        choose(&mut state, job, &question, at);
        assert_eq!(circuits_view(&mut state, board).unwrap().circuits.len(), there);
    }
}

#[test]
fn two_removals_that_knew_different_things_are_one_word() {
    let (mut state, job, [board, _], circuit) = job();
    let person = state.person(job).unwrap();
    for _ in 0..2 {
        let removal = |writer: &mut Writer<'_>| {
            let known = writer.known(job)?;
            Ok(writer.append(CircuitPresent { job, circuit, present: false, known })?)
        };
        state.write(person, removal).unwrap();
    }
    assert_eq!(settling(&mut state, OfJob { job }).unwrap().questions, []);
    assert_eq!(circuits_view(&mut state, board).unwrap().circuits.len(), 0);
}

#[test]
fn what_was_removed_twice_and_changed_meanwhile_is_settled_and_listed() {
    for at in [0, 1] {
        let (mut state, job, [board, _], circuit) = job();
        let person = state.person(job).unwrap();
        let pair = state.judged(job).unwrap().board(board).unwrap().circuits[0].slots[0].pair.clone();
        let asked_at = state.host.now();
        let asked =
            Request { job, pair, stage: Stage::Before, readings: vec![], not_tested: vec![], person, at: asked_at };
        let known = state.write(person, |writer| Ok(writer.known(job)?)).unwrap().value;
        state.write(person, |writer| Ok(writer.append(Fact::from(asked).because("not read yet"))?)).unwrap();
        for _ in 0..2 {
            let removal = CircuitPresent { job, circuit, present: false, known: known.clone() };
            state.write(person, |writer| Ok(writer.append(removal.clone())?)).unwrap();
        }
        let question = settling(&mut state, OfJob { job }).unwrap().questions.remove(0);
        choose(&mut state, job, &question, at);
        assert_eq!(settling(&mut state, OfJob { job }).unwrap().made.len(), 1);
    }
}

#[test]
fn two_names_of_a_person_are_settled_in_every_book_at_once_and_can_be_taken_back() {
    let (mut state, job, ..) = job();
    let person = state.person(job).unwrap();
    let tester = TesterId(state.host.id().unwrap());
    let card = |name: &str| Person { person, name: name.to_owned(), role: String::new() };
    state
        .write(person, |writer| {
            let identity = TesterIdentity {
                tester,
                name: "Tester A".to_owned(),
                model: String::new(),
                serial: "1".to_owned(),
                invented: None,
            };
            writer.append(identity)?;
            // Neither word knew of the other, in either book.
            for book in [Book::from(job), tester.into()] {
                let standing = writer.view().person(person)?.card.current();
                let standing: Vec<_> = standing
                    .into_iter()
                    .filter(|entry| writer.view().book_of(entry.log).ok().flatten() == Some(book))
                    .collect();
                for name in ["A. Named", "A. Otherwise"] {
                    writer.append_in(book, Fact::naming(card(name), Role::Replaces, standing.clone()))?;
                }
            }
            Ok(())
        })
        .unwrap();
    state.keep_setting("hand", &serde_json::json!({ "tester": tester })).unwrap();
    state.forget_judged();
    let mut all = settling(&mut state, OfJob { job }).unwrap().questions;
    assert_eq!(all.len(), 1, "once for all books: {all:?}");
    let question = all.remove(0);
    assert_eq!(
        (question.asks.as_str(), words(&question)),
        ("Two names of one person", vec!["A. Named", "A. Otherwise"])
    );
    let asked = Settle { job, question: question.id.clone(), choice: question.choices[1].id.clone() };
    let settled = settle(&mut state, asked).unwrap();
    assert_eq!(settled.view.questions, []);
    assert_eq!(state.judged(job).unwrap().person(person), "A. Otherwise");
    crate::ops::undo::undo(&mut state, UndoAsk { token: settled.done.undo.unwrap() }).unwrap();
    assert_eq!(settling(&mut state, OfJob { job }).unwrap().questions, [question]);
}

#[test]
fn what_changed_and_has_no_value_of_its_own_leaves_the_screen_whole() {
    let (mut state, job, [board, _], circuit) = job();
    let person = state.person(job).unwrap();
    let pair = state.judged(job).unwrap().board(board).unwrap().circuits[0].slots[0].pair.clone();
    let at = state.host.now();
    let asked = Request { job, pair, stage: Stage::Before, readings: vec![], not_tested: vec![], person, at };
    state
        .write(person, |writer| {
            let known = writer.known(job)?.into_iter().map(|end| CutEnd { seq: Seq(0), ..end }).collect();
            writer.append(Fact::from(asked).because("not read yet"))?;
            Ok(writer.append(CircuitPresent { job, circuit, present: false, known })?)
        })
        .unwrap();
    let question = settling(&mut state, OfJob { job }).unwrap().questions.remove(0);
    let lines = question.choices[0].lines.join("\n");
    assert!(lines.contains("A new reading asked for: A. Recorder"), "{lines}");
}

#[test]
fn a_reading_between_two_circuits_that_are_said_to_be_one_goes_with_the_job_file() {
    let (mut state, job, [board, _], one) = job();
    let form = circuits_view(&mut state, board).unwrap().next;
    let many = AddManyCircuits { board, count: "1".to_owned(), form };
    let other = add_many_circuits(&mut state, many).unwrap().view.circuits[1].id;
    let live = |circuit| End([Terminal::Live { circuit, conductor: Conductor::L }].into());
    let (id, person, at) = (ReadingId(state.host.id().unwrap()), state.person(job).unwrap(), state.host.now());
    let reading = Reading {
        id,
        shown: Shown { comparator: Comparator::Exact, digits: Digits::new(487, 0).unwrap(), unit: Unit::MegaOhm },
        pair: Pair::between(live(one), live(other)).unwrap(),
        stage: Stage::Before,
        test_voltage_v: Volts(500.into()),
        tester: None,
        person,
        at,
        conditions: Conditions::default(),
    };
    state
        .write(person, |writer| {
            writer.append(ReadingTaken { job, reading, why: None })?;
            Ok(writer.append(SameCircuit { job, one, other })?)
        })
        .unwrap();
    let text = crate::ops::job_file::job_text(&mut state, job).unwrap();
    let mut there = testing::state();
    crate::ops::job_file::import_job_file(&mut there, JobFileText { text }).unwrap();
    assert_eq!(circuits_view(&mut state, board).unwrap().removed, [], "no circuit that could come back");
}
