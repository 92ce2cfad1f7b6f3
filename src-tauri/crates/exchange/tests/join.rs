//! Records that exchange bundles, in any order and any number of times, become the same; and the sum is told before.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::{CircuitId, TesterId};
use provenohm_exchange::bundle::{Bundle, books_of};
use provenohm_exchange::join::{Progress, look, take_in};
use provenohm_logbook::chain::Fault;
use provenohm_logbook::entry::body::{
    Book, CircuitLabel, CircuitPresent, Different, Erasure, Person, SameCircuit, TesterIdentity,
};
use provenohm_logbook::entry::{Body, Entry, Fact, Kind, Noun, Object, ObjectId, Role, Seq};
use provenohm_logbook::record::{Refusal, Sum, TakeInError};
use provenohm_logbook::view::Question;
use std::ops::ControlFlow;
use support::{
    CIRCUIT, Forger, Hand, JOB, OTHER_PERSON, PERSON, TESTER, circuit, handed, id, of_the_future, receive,
    receive_entries, recorder, replacing, taken, wires,
};

fn label(description: &str) -> CircuitLabel {
    CircuitLabel { job: JOB, circuit: CIRCUIT, reference: "1".into(), description: description.into() }
}

/// Replaces the label that stands.
fn relabel(hand: &mut Hand, description: &str) {
    let current = hand.record.view().circuits(JOB).unwrap()[0].label.current();
    hand.append(Fact::naming(label(description), Role::Replaces, current));
}

fn assert_same(one: &mut Hand, other: &mut Hand) {
    assert_eq!(wires(one), wires(other), "byte for byte");
    let projection = one.record.projection().unwrap();
    assert_eq!(projection, other.record.projection().unwrap());
    for hand in [one, other] {
        hand.record.rebuild().unwrap();
        assert_eq!(hand.record.projection().unwrap(), projection, "made anew");
    }
}

#[test]
fn a_job_travels_with_its_tester_and_arrives_whole() {
    let mut hand = recorder(1);
    let bytes = handed(&mut hand);
    let mut other = Hand::new(2);
    let joined = receive(&mut other, &bytes).unwrap();
    let books: Vec<(Book, &str)> = joined.books.iter().map(|one| (one.taken.book, one.name.as_str())).collect();
    assert_eq!(books, [(JOB.into(), "Workshop"), (TESTER.into(), "Tester 1")]);
    assert!(joined.lacks.is_empty());
    let sum = joined.sum();
    assert_eq!((sum.joined, sum.same, sum.to_settle), (sum.came - 2, 0, 2), "its two readings of one slot wait");
    assert_same(&mut hand, &mut other);
}

#[test]
fn importing_again_changes_nothing() {
    let mut hand = recorder(1);
    let bytes = handed(&mut hand);
    let mut other = Hand::new(2);
    receive(&mut other, &bytes).unwrap();
    let before = (wires(&other), other.record.projection().unwrap());
    let sum = receive(&mut other, &bytes).unwrap().sum();
    assert_eq!((sum.joined, sum.same, sum.to_settle), (0, sum.came, 0));
    assert_eq!((wires(&other), other.record.projection().unwrap()), before);
    assert_eq!(handed(&mut hand), bytes, "and handing over again gives the same file");
}

#[test]
fn what_is_inside_is_told_before_anything_is_taken() {
    let mut hand = recorder(1);
    let bytes = handed(&mut hand);
    let mut other = Hand::new(2);
    let before = other.record.projection().unwrap();
    let bundle = Bundle::open(&bytes).unwrap();
    let mut heard = Vec::new();
    let told = look(&mut other.record, &bundle, &mut |progress| {
        heard.push(progress);
        ControlFlow::Continue(())
    })
    .unwrap();
    assert_eq!(other.record.projection().unwrap(), before);
    assert!(other.record.view().books().unwrap().is_empty());
    let of = told.sum().came;
    assert_eq!(heard.len() as u64, of + told.books.len() as u64, "each entry, and each book once it is proven");
    assert!(heard.windows(2).all(|two| two[0].done < two[1].done));
    assert_eq!(heard.last(), Some(&Progress { done: 2 * of, of: 2 * of }));
    assert_eq!(receive(&mut other, &bytes).unwrap(), told, "and it comes out as told");
}

#[test]
fn what_two_people_did_to_one_thing_waits_for_a_person() {
    let mut hand = recorder(1);
    let mut other = Hand::new(2);
    receive(&mut other, &handed(&mut hand)).unwrap();
    relabel(&mut hand, "Oven");
    relabel(&mut other, "Stove");
    hand.append(taken(3, 300));
    let known = other.record.view().entries(JOB.into()).unwrap().len() as u64;
    let job = |joined: &provenohm_exchange::join::Joined| joined.books[0].taken.clone();
    let taken = job(&receive(&mut other, &handed(&mut hand)).unwrap());
    // Label, reading and seal are new. The other's own log, two entries so far, is not known.
    let same = known - 2;
    assert_eq!(taken.sum, Sum { came: same + 3, joined: 1, same, to_settle: 2 });
    assert!(taken.sum.adds_up());
    let questions: Vec<_> = taken.to_settle.iter().map(|one| (&one.question, one.entries.len())).collect();
    assert!(matches!(questions[0], (Question::Facet { kind: Kind::CircuitLabel, .. }, 2)), "{questions:?}");
    assert!(matches!(questions[1], (Question::Slot { .. }, 3)), "{questions:?}");

    // A settled question is none any more, on the other device neither.
    let entries: Vec<_> = taken.to_settle.iter().map(|one| one.entries.clone()).collect();
    for question in &entries {
        other.write(|writer| writer.settle(&question[..1], &question[1..], None)).unwrap();
    }
    assert!(job(&receive(&mut hand, &handed(&mut other)).unwrap()).to_settle.is_empty());
    assert_same(&mut hand, &mut other);
}

#[test]
fn equal_values_need_no_choice() {
    let mut hand = recorder(1);
    let mut other = Hand::new(2);
    receive(&mut other, &handed(&mut hand)).unwrap();
    relabel(&mut hand, "Oven");
    relabel(&mut other, "Oven");
    let joined = receive(&mut other, &handed(&mut hand)).unwrap();
    assert!(joined.books[0].taken.to_settle.iter().all(|one| !matches!(one.question, Question::Facet { .. })));
}

/// Five bundles of three devices, each made at another moment, in all 120 orders.
#[test]
fn any_order_of_bundles_gives_the_same_record() {
    let mut first = recorder(1);
    let mut bundles = vec![handed(&mut first)];
    let (mut second, mut third) = (Hand::new(2), Hand::new(3));
    third.person = OTHER_PERSON;
    receive(&mut second, &bundles[0]).unwrap();
    receive(&mut third, &bundles[0]).unwrap();
    relabel(&mut second, "Oven");
    let reading = second.record.view().readings(JOB).unwrap()[0].taken.entry;
    second.append(replacing(5, 500, reading));
    bundles.push(handed(&mut second));
    third.append(taken(6, 600));
    third.write(|writer| writer.withdraw(&[reading], "wrong circuit")).unwrap();
    bundles.push(handed(&mut third));
    first.append(taken(7, 700));
    first.undo();
    receive(&mut first, &bundles[1]).unwrap();
    bundles.push(handed(&mut first));
    third.write(|writer| writer.erase_person(PERSON, "asked by the person")).unwrap();
    bundles.push(handed(&mut third));

    let mut expected: Option<(String, _)> = None;
    let mut tried = 0;
    permutations(&mut bundles, 0, &mut |order| {
        let mut hand = Hand::new(9);
        for bytes in order {
            receive(&mut hand, bytes).unwrap();
        }
        let found = (hand.record.projection().unwrap(), wires(&hand));
        if tried % 8 == 0 {
            hand.record.rebuild().unwrap();
            assert_eq!(hand.record.projection().unwrap(), found.0, "made anew");
        }
        assert_eq!(expected.get_or_insert_with(|| found.clone()), &found);
        tried += 1;
    });
    assert_eq!(tried, 120);
}

/// A circuit added on both devices and a circuit removed on one and read on the other, then said to be one and two: in
/// all orders the questions are the same, and so is what is read.
#[test]
fn what_is_asked_does_not_hang_on_the_order_of_arrival() {
    let mut first = recorder(1);
    let start = handed(&mut first);
    let (mut second, mut third) = (Hand::new(2), Hand::new(3));
    receive(&mut second, &start).unwrap();
    receive(&mut third, &start).unwrap();
    let [mine, theirs] = [0x51, 0x52].map(|number| CircuitId(id(number)));
    second.write(|writer| circuit(writer, mine, "7a")).unwrap();
    third.write(|writer| circuit(writer, theirs, "7 A")).unwrap();
    third.append(taken(8, 800));
    let known = second.write(|writer| writer.known(JOB)).unwrap().value;
    second.append(Body::from(CircuitPresent { job: JOB, circuit: CIRCUIT, present: false, known }));
    let apart = [handed(&mut second), handed(&mut third)];
    receive(&mut first, &apart[0]).unwrap();
    receive(&mut first, &apart[1]).unwrap();
    let asked = |hand: &Hand| hand.record.view().to_settle(JOB.into()).unwrap();
    let kinds = |hand: &Hand| asked(hand).into_iter().map(|one| one.question).collect::<Vec<_>>();
    let of = |circuit: CircuitId| Object { noun: Noun::Circuit, id: ObjectId(circuit.0) };
    let alike = Question::Alike { one: of(mine), other: of(theirs) };
    assert!(kinds(&first).contains(&alike), "{:?}", kinds(&first));
    assert!(kinds(&first).contains(&Question::Removed { of: of(CIRCUIT) }), "{:?}", kinds(&first));

    let said = first.append(Body::from(SameCircuit { job: JOB, one: mine, other: theirs }));
    assert!(!kinds(&first).contains(&alike));
    let same = handed(&mut first);
    first.write(|writer| writer.withdraw(&[said], "two after all")).unwrap();
    assert!(kinds(&first).contains(&alike), "withdrawn, it is asked again");
    first.write(|writer| writer.append_in(JOB.into(), Different { one: of(mine), other: of(theirs) })).unwrap();
    assert!(!kinds(&first).contains(&alike));
    let mut bundles = vec![start, apart[0].clone(), apart[1].clone(), same, handed(&mut first)];
    let expected = asked(&first);
    permutations(&mut bundles, 0, &mut |order| {
        let mut hand = Hand::new(9);
        for bytes in order {
            receive(&mut hand, bytes).unwrap();
        }
        assert_eq!(asked(&hand), expected);
        assert_eq!(hand.record.view().circuits(JOB).unwrap(), first.record.view().circuits(JOB).unwrap());
    });
}

fn permutations<T>(all: &mut [T], from: usize, each: &mut dyn FnMut(&[T])) {
    if from == all.len() {
        return each(all);
    }
    for at in from..all.len() {
        all.swap(from, at);
        permutations(all, from + 1, each);
        all.swap(from, at);
    }
}

#[test]
fn entries_of_one_book_come_in_any_order() {
    let mut hand = Hand::new(1);
    hand.append(taken(1, 100));
    handed(&mut hand);
    let mut entries = hand.record.view().entries(JOB.into()).unwrap();
    assert_eq!(entries.len(), 4, "opened, person, reading, seal");
    let mut tried = 0;
    permutations(&mut entries, 0, &mut |order| {
        let mut other = Hand::new(2);
        receive_entries(&mut other, order).unwrap();
        assert_eq!(other.record.projection().unwrap(), hand.record.projection().unwrap());
        tried += 1;
    });
    assert_eq!(tried, 24);
}

#[test]
fn entries_after_a_gap_are_kept_shown_and_handed_on_until_it_is_filled() {
    let mut hand = recorder(1);
    handed(&mut hand);
    let sealed = hand.record.view().entries(JOB.into()).unwrap();
    for number in 3..6 {
        hand.append(taken(number, 100));
    }
    handed(&mut hand);
    let all = hand.record.view().entries(JOB.into()).unwrap();
    let gap = sealed.len()..sealed.len() + 2;
    let part: Vec<Entry> =
        all.iter().enumerate().filter(|(at, _)| !gap.contains(at)).map(|(_, entry)| entry.clone()).collect();

    let mut other = Hand::new(2);
    let taken = receive_entries(&mut other, &part).unwrap().books[0].taken.clone();
    assert_eq!(taken.gaps.len(), 1);
    assert_eq!((taken.gaps[0].before.seq, taken.gaps[0].missing()), (Seq(gap.end as u64), 2));
    let mut third = Hand::new(3);
    let taken = receive(&mut third, &handed(&mut other)).unwrap().books[0].taken.clone();
    assert_eq!(taken.gaps.len(), 1, "handed on with its gap");
    let report = third.record.view().check(JOB.into()).unwrap();
    let log = &report[&all[0].envelope().log];
    assert_eq!(log.faults, [Fault::Gap { from: Seq(gap.start as u64) }]);
    assert_eq!((log.entries, log.authentic), (part.len() as u64, part.len() as u64), "authentic all the same");
    assert_eq!(log.complete, gap.start as u64, "and not complete");

    let taken = receive_entries(&mut third, &all[gap]).unwrap().books[0].taken.clone();
    assert_eq!((taken.sum.joined + taken.sum.to_settle, taken.gaps.len()), (2, 0));
    assert!(third.record.view().check(JOB.into()).unwrap().values().all(|log| log.faults.is_empty()));
}

#[test]
fn a_gap_is_not_filled_by_entries_that_do_not_fit() {
    let mut hand = recorder(1);
    hand.append(taken(3, 100));
    let all = hand.record.view().entries(JOB.into()).unwrap();
    let mut other = Hand::new(2);
    let refused = receive_entries(&mut other, &all);
    assert!(matches!(refused, Err(TakeInError::Refused(Refusal::NotSealed(_)))), "{refused:?}");
    assert!(other.record.view().books().unwrap().is_empty());
}

#[test]
fn kinds_of_the_future_are_handed_on_byte_for_byte_and_counted() {
    let mut forger = Forger::new(7, JOB.into());
    forger.put(4711, 3, of_the_future());
    let entries = forger.seal().to_vec();
    let mut hand = recorder(1);
    let taken = receive_entries(&mut hand, &entries).unwrap().books[0].taken.clone();
    assert_eq!(taken.newer, 1);
    let mut other = Hand::new(2);
    let taken = receive(&mut other, &handed(&mut hand)).unwrap().books[0].taken.clone();
    assert_eq!(taken.newer, 1);
    assert_eq!(other.record.view().entries_of(forger.log).unwrap(), entries);
}

#[test]
fn a_body_that_was_missing_comes_later_and_an_erased_one_never() {
    let mut hand = recorder(1);
    handed(&mut hand);
    let all = hand.record.view().entries(JOB.into()).unwrap();
    let bare: Vec<Entry> = all
        .iter()
        .cloned()
        .map(|entry| if entry.envelope().kind == Kind::Person.number() { entry.erased() } else { entry })
        .collect();
    let mut other = Hand::new(2);
    receive_entries(&mut other, &bare).unwrap();
    let sum = receive_entries(&mut other, &all).unwrap().sum();
    assert_eq!((sum.joined, sum.same), (1, sum.came - 1), "the card's body");
    assert_eq!(other.record.view().entries(JOB.into()).unwrap(), all);

    other.write(|writer| writer.erase_person(PERSON, "asked by the person")).unwrap();
    let sum = receive_entries(&mut other, &all).unwrap().sum();
    assert_eq!(sum.joined, 0);
    assert_ne!(other.record.view().entries(JOB.into()).unwrap()[1], all[1]);
    let named = |entry: &Entry| {
        let (_, body) = entry.body()?;
        match Fact::decode(entry.envelope().kind, 1, body).ok()?.body {
            provenohm_logbook::entry::Body::Erasure(Erasure { about }) => Some(about),
            _ => None,
        }
    };
    assert_eq!(other.record.view().entries(JOB.into()).unwrap().iter().filter_map(named).count(), 1);
}

#[test]
fn a_tester_of_which_nothing_is_here_is_named_as_lacking() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(taken(1, 100));
    let mut other = Hand::new(2);
    let joined = receive(&mut other, &handed(&mut hand)).unwrap();
    assert_eq!(joined.lacks, [TESTER].into());
}

#[test]
fn a_tester_registered_twice_travels_under_both_ids() {
    let mut hand = recorder(1);
    let twice = TesterId(id(0x99));
    hand.write(|writer| {
        let one = provenohm_logbook::entry::body::SameTester { one: TESTER, other: twice };
        writer.append_in(TESTER.into(), one)
    })
    .unwrap();
    let books = books_of(&hand.record.view(), JOB, &[]).unwrap();
    assert_eq!(books, [JOB.into(), TESTER.into(), twice.into()].into());
}

#[test]
fn it_can_be_stopped_at_any_entry_and_nothing_is_kept() {
    let mut hand = recorder(1);
    let bytes = handed(&mut hand);
    let bundle = Bundle::open(&bytes).unwrap();
    let all: u64 = bundle.manifest().books.iter().map(|book| book.entries).sum();
    for at in 1..=2 * all {
        let mut other = Hand::new(2);
        let result = take_in(&mut other.record, &bundle, &mut |progress: Progress| {
            if progress.done >= at { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert!(matches!(result, Err(TakeInError::Stopped)));
        assert!(other.record.view().books().unwrap().is_empty(), "neither the first book nor the second");
    }
}

#[test]
fn a_person_renamed_on_two_devices_is_one_person() {
    let mut hand = recorder(1);
    let mut other = Hand::new(2);
    receive(&mut other, &handed(&mut hand)).unwrap();
    let card = |name: &str| Person { person: PERSON, name: name.into(), role: String::new() };
    hand.write(|writer| writer.change_person(&card("Recorder X"))).unwrap();
    other.write(|writer| writer.change_person(&card("Recorder Y"))).unwrap();
    receive(&mut other, &handed(&mut hand)).unwrap();
    receive(&mut hand, &handed(&mut other)).unwrap();
    receive(&mut other, &handed(&mut hand)).unwrap();
    assert_same(&mut hand, &mut other);
}

#[test]
fn a_tester_that_looks_registered_twice_is_in_the_sum() {
    let mut hand = recorder(1);
    let bytes = handed(&mut hand);
    let mut other = Hand::new(2);
    let (name, model, serial) = ("Tester one".into(), "M".into(), "1".into());
    let twin = TesterIdentity { tester: support::OTHER_TESTER, name, model, serial, invented: None };
    other.append(twin);
    let joined = receive(&mut other, &bytes).unwrap();
    let tester = joined.books.iter().find(|it| it.taken.book == TESTER.into()).unwrap();
    assert_eq!(tester.taken.sum.to_settle, 1, "{:?}", tester.taken.sum);
    assert!(matches!(tester.taken.to_settle[0].question, Question::Alike { .. }));
    assert!(joined.sum().adds_up());
}
