//! What a reviewer says of a job: a request waits for an answer until something else stands in its slot, on every device
//! alike, and nothing that was recorded changes by it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::ReadingId;
use provenohm_assess::moment::Moment;
use provenohm_assess::reading::NotTestedReason;
use provenohm_logbook::entry::body::{Accepted, AcceptedOf, NotTested, Request};
use provenohm_logbook::entry::{Body, Entry, EntryRef, Fact};
use provenohm_logbook::record::WriteError;
use support::{Hand, JOB, OTHER_PERSON, PERSON, id, moment, pair, replacing, taken};

fn asked(readings: &[u128], not_tested: &[Moment]) -> Fact {
    let readings = readings.iter().map(|number| ReadingId(id(0x1_0000 + number))).collect();
    let not_tested = not_tested.to_vec();
    let (pair, stage) = (pair(), Stage::Before);
    let asked = Request { job: JOB, pair, stage, readings, not_tested, person: OTHER_PERSON, at: moment(4) };
    Fact::from(asked).because("far below the others")
}

fn not_tested(at: Moment) -> Body {
    let (pair, stage, reason) = (pair(), Stage::Before, NotTestedReason::NoAccess);
    NotTested { job: JOB, pair, stage, reason, words: None, person: PERSON, at, beside: Vec::new() }.into()
}

fn open(hand: &Hand) -> usize {
    hand.record.view().open_requests(JOB).unwrap().len()
}

fn read_already() -> (Hand, EntryRef) {
    let mut hand = Hand::new(1);
    hand.job();
    let first = hand.append(taken(1, 30));
    hand.append(asked(&[1], &[]));
    (hand, first)
}

#[test]
fn a_new_reading_answers_and_its_undo_opens_the_request_again() {
    let (mut hand, first) = read_already();
    assert_eq!(open(&hand), 1, "what was asked about is no answer");
    hand.append(replacing(2, 200, first));
    assert_eq!(open(&hand), 0);
    hand.undo();
    assert_eq!(open(&hand), 1);
    assert!(hand.record.view().readings(JOB).unwrap()[0].is_live(), "the first reading stands again");
}

#[test]
fn a_reading_that_goes_with_nothing_in_its_place_leaves_the_request_open() {
    let (mut hand, first) = read_already();
    hand.write(|writer| writer.withdraw(&[first], "wrong circuit")).unwrap();
    assert_eq!(open(&hand), 1);
    hand.append(taken(2, 200));
    assert_eq!(open(&hand), 0);
}

#[test]
fn that_it_cannot_be_tested_is_an_answer_too_unless_that_was_asked_about() {
    let (mut hand, _) = read_already();
    hand.append(not_tested(moment(9)));
    assert_eq!(open(&hand), 0);
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(not_tested(moment(2)));
    hand.append(asked(&[], &[moment(2)]));
    assert_eq!(open(&hand), 1);
    hand.append(taken(1, 200));
    assert_eq!(open(&hand), 0);
}

#[test]
fn a_reading_of_another_slot_is_no_answer() {
    let (mut hand, _) = read_already();
    let mut after = support::reading(3, 200, 5);
    after.stage = Stage::After;
    hand.append(Body::from(provenohm_logbook::entry::body::ReadingTaken { job: JOB, reading: after, why: None }));
    assert_eq!(open(&hand), 1);
}

#[test]
fn a_withdrawn_request_asks_for_nothing_until_that_is_taken_back() {
    let (mut hand, _) = read_already();
    let request = hand.record.view().requests(JOB).unwrap()[0].entry;
    let gone = hand.write(|writer| writer.withdraw(&[request], "seen on site")).unwrap().value;
    assert_eq!(open(&hand), 0);
    hand.write(|writer| writer.take_back(&gone)).unwrap();
    assert_eq!(open(&hand), 1);
}

#[test]
fn every_order_of_arrival_finds_the_same_requests_open() {
    let (mut hand, first) = read_already();
    hand.append(replacing(2, 200, first));
    hand.undo();
    hand.append(asked(&[1], &[]));
    hand.append(not_tested(moment(9)));
    // Opening, person and job names travel first; what follows is permuted in every way.
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let (before, tail) = entries.split_at(entries.len() - 6);
    let expected = hand.record.view().open_requests(JOB).unwrap();
    let mut orders = 0;
    permute(&mut tail.to_vec(), 0, &mut |tail| {
        let mut other = Hand::new(2);
        for entry in before.iter().chain(tail) {
            other.record.receive([entry]).unwrap();
        }
        assert_eq!(other.record.view().open_requests(JOB).unwrap(), expected);
        orders += 1;
    });
    assert_eq!(orders, 720);
}

fn permute(entries: &mut Vec<Entry>, from: usize, each: &mut impl FnMut(&[Entry])) {
    if from == entries.len() {
        return each(entries);
    }
    for place in from..entries.len() {
        entries.swap(from, place);
        permute(entries, from + 1, each);
        entries.swap(from, place);
    }
}

#[test]
fn asking_and_accepting_need_a_reason_and_change_no_reading() {
    let (mut hand, first) = read_already();
    let before = hand.record.view().readings(JOB).unwrap();
    let of = AcceptedOf::Reading { reading: ReadingId(id(0x1_0001)) };
    let accepted = Accepted { job: JOB, of, codes: vec!["lapsed".into()], person: OTHER_PERSON, at: moment(5) };
    let silent = [Fact::from(accepted.clone()), Fact { reason: Some(" ".into()), ..asked(&[1], &[]) }];
    for fact in silent {
        assert!(matches!(hand.write(|writer| writer.append(fact.clone())), Err(WriteError::NoReason)));
    }
    hand.person = OTHER_PERSON;
    hand.append(Fact::from(accepted).because("renewed the day after"));
    hand.append(asked(&[1], &[]));
    let after = hand.record.view().readings(JOB).unwrap();
    assert_eq!((after[0].taken.entry, after[0].current(), after[0].is_live()), (first, before[0].current(), true));
    assert_eq!(hand.record.view().accepted(JOB).unwrap().len(), 1);
}
