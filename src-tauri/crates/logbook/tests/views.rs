//! The read models: what each noun shows of its entries.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::{BoardId, CheckId, CircuitId, NoteId, PersonId, VerificationId};
use provenohm_assess::moment::When;
use provenohm_assess::tester::{Card, LeadCheck, LeadEnd, Outcome, ProofEvent, ProofKind};
use provenohm_logbook::entry::body::{
    BoardNames, BoardOrder, BoardPeople, BoardPresent, CautionsRead, CircuitOrder, CircuitPlace, CircuitPresent,
    Correction, JobPeople, JobPerson, Note, SamePerson, SameTester, TesterCard, TesterIdentity, VerificationMade,
};
use provenohm_logbook::entry::{Body, EntryRef, Fact, Noun, Object, ObjectId, Role};
use support::{
    BOARD, CIRCUIT, Hand, JOB, OTHER_PERSON, OTHER_TESTER, PERSON, TESTER, circuit, id, moment, reading, shown, taken,
};

fn tester(hand: &mut Hand, tester: provenohm_assess::ids::TesterId, name: &str) {
    hand.append(Body::from(TesterIdentity {
        tester,
        name: name.into(),
        model: String::new(),
        serial: "0042".into(),
        invented: None,
    }));
}

fn verification(number: u128, made: i64, tester: provenohm_assess::ids::TesterId) -> VerificationMade {
    VerificationMade {
        id: VerificationId(id(number)),
        tester,
        kind: ProofKind::Bench,
        made: When::At(moment(made)),
        valid_until: None,
        by: "Bench".into(),
        certificate: None,
        adjusted: false,
        overall: Outcome::NotStated,
        findings: Vec::new(),
        bench: None,
    }
}

fn verifications(hand: &Hand) -> Vec<VerificationId> {
    let histories = hand.record.view().tester(TESTER).unwrap().histories();
    let events = histories.into_iter().next().unwrap().events.into_iter();
    events
        .map(|event| match event {
            ProofEvent::Verification(one) => one.id,
            other => panic!("{other:?}"),
        })
        .collect()
}

#[test]
fn a_verification_says_when_it_was_recorded_and_not_when_it_was_made() {
    let mut hand = Hand::new(1);
    tester(&mut hand, TESTER, "Tester A");
    hand.append(Body::from(verification(1, -9000, TESTER)));
    let histories = hand.record.view().tester(TESTER).unwrap().histories();
    let ProofEvent::Verification(one) = &histories[0].events[0] else { panic!() };
    assert_eq!(one.made, When::At(moment(-9000)));
    assert_eq!(one.recorded_at, moment(hand.minutes));
}

#[test]
fn a_withdrawn_or_replaced_verification_no_longer_speaks_and_stays_on_record() {
    let mut hand = Hand::new(1);
    tester(&mut hand, TESTER, "Tester A");
    let first = hand.append(Body::from(verification(1, -90, TESTER)));
    let better = Fact::naming(verification(2, -80, TESTER), Role::Replaces, [first]).because("wrong day");
    let second = hand.append(better);
    assert_eq!(verifications(&hand), [VerificationId(id(2))]);
    hand.write(|writer| writer.withdraw(&[second], "another tester's paper")).unwrap();
    assert_eq!(verifications(&hand), [VerificationId(id(1))], "what it replaced speaks again");
    let all = hand.record.view().tester(TESTER).unwrap().verifications;
    assert_eq!(all.len(), 2);
    assert_eq!(all[1].reason.as_deref(), Some("wrong day"));
}

#[test]
fn two_ids_of_one_tester_share_their_proofs_until_that_is_withdrawn() {
    let mut hand = Hand::new(1);
    tester(&mut hand, TESTER, "Tester A");
    tester(&mut hand, OTHER_TESTER, "Tester A");
    hand.append(Body::from(verification(1, -90, OTHER_TESTER)));
    assert!(verifications(&hand).is_empty());
    let same = SameTester { one: TESTER, other: OTHER_TESTER };
    let same = hand.write(|writer| writer.append_in(TESTER.into(), Body::from(same))).unwrap().value;
    assert_eq!(verifications(&hand), [VerificationId(id(1))]);
    assert_eq!(hand.record.view().tester(TESTER).unwrap().same, [OTHER_TESTER]);
    hand.write(|writer| writer.withdraw(&[same], "two of a kind")).unwrap();
    assert!(verifications(&hand).is_empty());
}

#[test]
fn two_live_cards_give_two_histories() {
    let mut hand = Hand::new(1);
    tester(&mut hand, TESTER, "Tester A");
    assert_eq!(hand.record.view().tester(TESTER).unwrap().histories().len(), 1);
    hand.append(Body::from(TesterCard { tester: TESTER, card: Card::default() }));
    let other = Card { conforms_iec_61557_2: true, ..Card::default() };
    hand.append(Body::from(TesterCard { tester: TESTER, card: other }));
    let histories = hand.record.view().tester(TESTER).unwrap().histories();
    assert_eq!(histories.len(), 2);
    assert_ne!(histories[0].card, histories[1].card);
}

#[test]
fn lead_checks_stand_in_the_testers_book() {
    let mut hand = Hand::new(1);
    tester(&mut hand, TESTER, "Tester A");
    let check = LeadCheck {
        id: CheckId(id(1)),
        tester: TESTER,
        leads: LeadEnd::Open,
        shown: shown(999),
        good: true,
        person: PERSON,
        at: moment(0),
        job_started: None,
    };
    hand.append(Body::from(check.clone()));
    assert_eq!(hand.record.view().tester(TESTER).unwrap().histories()[0].lead_checks, [check]);
    assert_eq!(hand.record.view().testers().unwrap().len(), 1);
}

#[test]
fn boards_and_circuits_come_in_the_order_one_walks() {
    let mut hand = Hand::new(1);
    hand.job();
    let second = BoardId(id(0x21));
    hand.append(Body::from(BoardNames { job: JOB, board: second, name: "DB-2".into(), place: String::new() }));
    hand.append(Body::from(BoardOrder { job: JOB, boards: vec![second, BOARD] }));
    let (two, three) = (CircuitId(id(0x51)), CircuitId(id(0x52)));
    hand.write(|writer| {
        circuit(writer, two, "2")?;
        circuit(writer, three, "3")
    })
    .unwrap();
    hand.append(Body::from(CircuitOrder { job: JOB, board: BOARD, circuits: vec![three, two] }));
    let order = |hand: &Hand| -> Vec<CircuitId> {
        hand.record.view().circuits(JOB).unwrap().iter().map(|one| one.circuit).collect()
    };
    assert_eq!(order(&hand), [three, two, CIRCUIT], "those not listed come after");
    let boards = hand.record.view().boards(JOB).unwrap();
    assert_eq!(boards.iter().map(|one| one.board).collect::<Vec<_>>(), [second, BOARD]);
    let place = hand.record.view().circuits(JOB).unwrap()[0].place.current();
    hand.append(Fact::naming(CircuitPlace { job: JOB, circuit: three, board: second }, Role::Replaces, place));
    assert_eq!(order(&hand), [three, two, CIRCUIT], "moved to the board that comes first");
    assert_eq!(hand.record.view().circuits(JOB).unwrap()[0].place.one().unwrap().board, second);
}

#[test]
fn what_was_removed_is_marked_and_comes_back_by_undo() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.write(|writer| {
        writer.append(Body::from(CircuitPresent { job: JOB, circuit: CIRCUIT, present: false, known: Vec::new() }))?;
        writer.append(Body::from(BoardPresent { job: JOB, board: BOARD, present: false, known: Vec::new() }))
    })
    .unwrap();
    assert!(!hand.record.view().circuits(JOB).unwrap()[0].is_present());
    assert!(!hand.record.view().boards(JOB).unwrap()[0].is_present());
    assert!(hand.undo());
    assert!(hand.record.view().circuits(JOB).unwrap()[0].is_present());
    assert!(hand.record.view().boards(JOB).unwrap()[0].is_present());
}

#[test]
fn a_circuit_changed_on_one_device_and_removed_on_another_stays() {
    let mut hand = Hand::new(1);
    hand.job();
    let present = |present| Body::from(CircuitPresent { job: JOB, circuit: CIRCUIT, present, known: Vec::new() });
    hand.append(present(false));
    hand.append(present(true));
    let circuit = hand.record.view().circuits(JOB).unwrap().remove(0);
    assert!(circuit.present.is_unsettled() && circuit.is_present());
}

#[test]
fn cautions_are_read_once_for_each_job_and_person() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(Body::from(CautionsRead { job: JOB, person: PERSON, version: 1 }));
    let job = hand.record.view().job(JOB).unwrap();
    assert!(job.cautions_read_by(PERSON) && !job.cautions_read_by(OTHER_PERSON));
    assert!(job.is_invented() && job.stands);
}

#[test]
fn notes_and_people_are_found_by_what_they_belong_to() {
    let mut hand = Hand::new(1);
    hand.job();
    let of = Object { noun: Noun::Circuit, id: ObjectId(CIRCUIT.0) };
    let note = Note { note: NoteId(id(1)), of, text: "damp".into(), person: None, at: None };
    hand.write(|writer| writer.append_in(JOB.into(), Body::from(note))).unwrap();
    assert_eq!(hand.record.view().notes(of).unwrap()[0].value.text, "damp");
    assert!(hand.record.view().notes(Object { noun: Noun::Job, id: ObjectId(JOB.0) }).unwrap().is_empty());
    let people = vec![JobPerson { person: OTHER_PERSON, part: "reviewer".into() }];
    hand.append(Body::from(JobPeople { job: JOB, people }));
    assert_eq!(hand.record.view().job(JOB).unwrap().people.one().unwrap().people[0].person, OTHER_PERSON);
    let same = SamePerson { one: PERSON, other: OTHER_PERSON };
    hand.write(|writer| writer.append_in(JOB.into(), Body::from(same))).unwrap();
    assert_eq!(hand.record.view().person(PERSON).unwrap().same, [OTHER_PERSON]);
    let known: Vec<PersonId> = hand.record.view().people().unwrap().iter().map(|one| one.person).collect();
    assert_eq!(known, [PERSON, OTHER_PERSON]);
}

#[test]
fn a_person_may_keep_two_readings_of_one_slot_or_choose_one() {
    let mut hand = Hand::new(1);
    hand.job();
    let (one, other) = (hand.append(taken(1, 100)), hand.append(taken(2, 200)));
    let live = |hand: &Hand| -> Vec<(EntryRef, bool)> {
        let readings = hand.record.view().readings(JOB).unwrap();
        readings.iter().filter(|one| one.is_live()).map(|one| (one.taken.entry, one.is_kept())).collect()
    };
    assert_eq!(live(&hand), [(one, false), (other, false)]);
    hand.write(|writer| writer.settle(&[one, other], &[], None)).unwrap();
    assert_eq!(live(&hand), [(one, true), (other, true)]);
    assert!(hand.undo());
    hand.write(|writer| writer.settle(&[other], &[one], Some("the first lead was off"))).unwrap();
    assert_eq!(live(&hand), [(other, true)]);
}

#[test]
fn a_reading_recorded_by_a_clock_that_went_back_is_doubtful_until_its_time_is_corrected() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.minutes = 30;
    hand.append(taken(1, 100));
    hand.minutes = 10;
    hand.append(taken(2, 100));
    hand.append(taken(3, 100));
    let doubtful = |hand: &Hand| -> Vec<bool> {
        hand.record.view().readings(JOB).unwrap().iter().map(|one| one.has_doubtful_clock()).collect()
    };
    assert_eq!(doubtful(&hand), [false, true, false]);
    let correction = Correction {
        job: JOB,
        readings: vec![reading(2, 0, 0).id],
        tester: None,
        test_voltage_v: None,
        at: Some(moment(32)),
        conditions: None,
    };
    hand.write(|writer| writer.correct(correction, "the clock had been set back")).unwrap();
    assert_eq!(doubtful(&hand), [false, false, false]);
}

#[test]
fn choices_of_the_device_are_overwritten_and_forgotten() {
    let mut hand = Hand::new(1);
    hand.record.choose("theme", Some("sun")).unwrap();
    hand.record.choose("theme", Some("dark")).unwrap();
    assert_eq!(hand.record.choice("theme").unwrap().as_deref(), Some("dark"));
    hand.record.choose("theme", None).unwrap();
    assert_eq!(hand.record.choice("theme").unwrap(), None);
    hand.record.keep_draft(PERSON, "run", "48").unwrap();
    hand.record.keep_draft(PERSON, "run", "487").unwrap();
    assert_eq!(hand.record.draft(PERSON, "run").unwrap().as_deref(), Some("487"));
    assert_eq!(hand.record.draft(OTHER_PERSON, "run").unwrap(), None);
    hand.record.keep_draft(PERSON, "run", "").unwrap();
    assert_eq!(hand.record.draft(PERSON, "run").unwrap(), None);
}

/// Two people divide the work apart: both notes stand until a person chooses, and nobody is kept from a board meanwhile.
#[test]
fn who_does_a_board_is_a_facet_like_its_name() {
    let mut hands = [Hand::new(1), Hand::new(2)];
    hands[0].job();
    let entries = hands[0].record.view().entries(JOB.into()).unwrap();
    hands[1].record.receive(&entries).unwrap();
    let note = |person| Body::from(BoardPeople { job: JOB, board: BOARD, people: vec![person] });
    hands[0].append(note(PERSON));
    hands[1].append(note(OTHER_PERSON));
    let entries = hands[1].record.view().entries(JOB.into()).unwrap();
    hands[0].record.receive(&entries).unwrap();
    let view = hands[0].record.view();
    assert!(view.boards(JOB).unwrap()[0].people.is_unsettled());
    let open = view.to_settle(JOB.into()).unwrap();
    assert_eq!(open.len(), 1);
    let (keep, aside) = (open[0].entries[1], open[0].entries[0]);
    hands[0].write(|writer| writer.settle(&[keep], &[aside], None)).unwrap();
    assert!(hands[0].record.view().to_settle(JOB.into()).unwrap().is_empty());
    assert_eq!(hands[0].record.view().boards(JOB).unwrap()[0].people.live.len(), 1);
}
