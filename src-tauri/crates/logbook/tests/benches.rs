//! References and bench runs as they stand in the record.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::bench::{BenchRun, Measured};
use provenohm_assess::ids::{BenchId, MeasuredId};
use provenohm_assess::reference::Reference;
use provenohm_logbook::entry::body::{BenchOpened, Book, MeasuredAt, ReferenceCard, SameTester};
use provenohm_logbook::entry::{Body, Fact, Kind, Noun, Object, ObjectId, Role};
use provenohm_logbook::view::Question;
use support::{Hand, OTHER_TESTER, TESTER, id, samples};

fn sample<T: provenohm_logbook::entry::body::Content>(name: &str) -> T {
    let facts = samples::all();
    let (_, fact) = facts.into_iter().find(|(found, _)| *found == name).unwrap();
    T::of(fact.body).unwrap()
}

fn resistor() -> Reference {
    sample::<ReferenceCard>("reference, a resistor").reference
}

fn run() -> BenchRun {
    sample::<BenchOpened>("bench run").run
}

fn measured(number: u128) -> MeasuredAt {
    let MeasuredAt { tester, measured } = sample("measured, an indication");
    MeasuredAt { tester, measured: Measured { id: MeasuredId(id(number)), ..measured } }
}

#[test]
fn a_new_certificate_takes_the_place_of_the_old_one_and_both_stay() {
    let mut hand = Hand::new(1);
    let first = hand.append(Body::from(ReferenceCard { reference: resistor() }));
    let later = Reference { certificate: Some("R-8".into()), ..resistor() };
    hand.append(Fact::naming(ReferenceCard { reference: later.clone() }, Role::Replaces, [first]));
    let known = hand.record.view().references().unwrap();
    assert_eq!(known.len(), 1);
    assert_eq!(known[0].card.one().map(|card| &card.reference), Some(&later));
    assert_eq!(known[0].card.earlier.len(), 1);
    let book = hand.record.view().book_of(first.log).unwrap();
    assert_eq!(book, Some(Book::from(resistor().id)));
}

#[test]
fn a_run_goes_on_where_it_was_left_and_stands_in_its_testers_book() {
    let mut hand = Hand::new(1);
    let opened = hand.append(Body::from(BenchOpened { run: run(), references: vec![resistor()] }));
    let one = hand.append(Body::from(measured(1)));
    hand.append(Body::from(measured(2)));
    hand.write(|writer| writer.withdraw(&[one], "mistyped")).unwrap();
    let adjusted = BenchOpened { run: BenchRun { adjusted: false, ..run() }, references: vec![resistor()] };
    hand.append(Fact::naming(adjusted, Role::Replaces, [opened]));
    let benches = hand.record.view().benches_of(TESTER).unwrap();
    assert_eq!(benches.len(), 1);
    assert_eq!(benches[0].opened.one().map(|it| it.run.adjusted), Some(false));
    let live: Vec<_> =
        benches[0].measured.iter().filter(|one| one.is_live()).map(|one| one.value.measured.id).collect();
    assert_eq!(live, [MeasuredId(id(2))]);
    assert_eq!(benches[0].measured.len(), 2, "the withdrawn one stays on record");
    assert_eq!(hand.record.view().book_of(one.log).unwrap(), Some(TESTER.into()));
}

#[test]
fn a_verification_says_from_which_run_it_was_computed() {
    let mut hand = Hand::new(1);
    hand.append(Body::from(BenchOpened { run: run(), references: vec![resistor()] }));
    let verification = sample::<provenohm_logbook::entry::body::VerificationMade>("verification, from a bench");
    hand.append(Body::from(verification.clone()));
    let bench = hand.record.view().bench(run().id).unwrap();
    assert_eq!(bench.verifications.len(), 1);
    assert_eq!(bench.verifications[0].value, verification);
    let tester = hand.record.view().tester(TESTER).unwrap();
    assert_eq!(tester.verifications.len(), 1, "and it speaks for the tester");
}

#[test]
fn two_cards_of_a_reference_that_do_not_know_of_each_other_are_asked_where_its_tester_is_used() {
    let mut hand = Hand::new(1);
    let first = hand.append(Body::from(ReferenceCard { reference: resistor() }));
    hand.append(Body::from(BenchOpened { run: run(), references: vec![resistor()] }));
    let asked = |hand: &Hand| hand.record.view().testers_to_settle(&[run().tester].into()).unwrap();
    for certificate in ["R-8", "R-9"] {
        let card = ReferenceCard { reference: Reference { certificate: Some(certificate.into()), ..resistor() } };
        hand.append(Fact::naming(card, Role::Replaces, [first]));
    }
    let of = Object { noun: Noun::Reference, id: ObjectId(resistor().id.0) };
    let all = asked(&hand);
    assert_eq!(all[0].question, Question::Facet { kind: Kind::ReferenceCard, of }, "{all:?}");
    let (keep, aside) = all[0].entries.split_first().unwrap();
    hand.write(|writer| writer.settle(&[*keep], aside, None)).unwrap();
    assert_eq!(asked(&hand), []);
}

/// Two phones made one tester and each began a run: said to be one tester, it has both, under either id.
#[test]
fn runs_under_two_ids_of_one_tester_are_all_its_runs() {
    let mut hand = Hand::new(1);
    hand.append(Body::from(BenchOpened { run: run(), references: vec![resistor()] }));
    let other = BenchRun { id: BenchId(id(77)), tester: OTHER_TESTER, ..run() };
    hand.append(Body::from(BenchOpened { run: other, references: vec![resistor()] }));
    let runs = |hand: &Hand, tester| -> Vec<BenchId> {
        let mut runs: Vec<_> = hand.record.view().benches_of(tester).unwrap().iter().map(|one| one.bench).collect();
        runs.sort_unstable();
        runs
    };
    assert_eq!(runs(&hand, TESTER), [run().id]);
    let same = SameTester { one: TESTER, other: OTHER_TESTER };
    let same = hand.write(|writer| writer.append_in(TESTER.into(), Body::from(same))).unwrap().value;
    assert_eq!(runs(&hand, TESTER).len(), 2);
    assert_eq!(runs(&hand, OTHER_TESTER), runs(&hand, TESTER));
    hand.write(|writer| writer.withdraw(&[same], "two after all")).unwrap();
    assert_eq!(runs(&hand, TESTER), [run().id]);
}
