//! The one door: what is written comes back, stands where it should, and can be undone without end.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_assess::ids::{CircuitId, ReadingId};
use provenohm_logbook::entry::body::{CircuitLabel, Correction, JobNames};
use provenohm_logbook::entry::{Body, Fact, Kind, Role};
use provenohm_logbook::record::WriteError;
use support::{CIRCUIT, Hand, JOB, OTHER_PERSON, OTHER_TESTER, TESTER, circuit, id, reading, replacing, taken};

#[test]
fn a_reading_comes_back_as_it_was_shown() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(taken(1, 120));
    let readings = hand.record.view().readings(JOB).unwrap();
    assert_eq!(readings.len(), 1);
    assert_eq!(readings[0].current(), [reading(1, 120, 0)]);
    assert!(readings[0].is_live());
    assert_eq!(hand.record.view().testers_of(JOB).unwrap(), [TESTER]);
    assert_eq!(hand.record.view().jobs_of(TESTER).unwrap(), [JOB]);
}

#[test]
fn the_person_who_acts_is_in_the_book() {
    let mut hand = Hand::new(1);
    hand.job();
    let kinds: Vec<Kind> = hand
        .record
        .view()
        .entries(JOB.into())
        .unwrap()
        .iter()
        .filter_map(|entry| Kind::from_number(entry.envelope().kind))
        .collect();
    assert_eq!(kinds[..3], [Kind::LogOpened, Kind::Person, Kind::JobOpened]);
    assert_eq!(kinds.iter().filter(|kind| **kind == Kind::Person).count(), 1);
}

#[test]
fn a_person_nobody_knows_cannot_write() {
    let mut hand = Hand::new(1);
    hand.person = provenohm_assess::ids::PersonId(id(0x99));
    let refused = hand.write(|writer| writer.append(taken(1, 120)));
    assert!(matches!(refused, Err(WriteError::UnknownPerson(_))));
    assert!(hand.record.view().books().unwrap().is_empty(), "nothing is kept of a refused write");
}

#[test]
fn a_replaced_reading_stays_on_record_with_the_reason() {
    let mut hand = Hand::new(1);
    hand.job();
    let first = hand.append(taken(1, 30));
    hand.append(replacing(2, 200, first));
    let readings = hand.record.view().readings(JOB).unwrap();
    assert!(readings[0].taken.standing.replaced);
    assert!(readings[1].is_live());
    assert_eq!(readings[0].acting.len(), 1);
    assert_eq!(readings[0].acting[0].role, Role::Replaces);
}

#[test]
fn a_withdrawal_needs_a_reason_and_keeps_what_it_withdraws() {
    let mut hand = Hand::new(1);
    hand.job();
    let entry = hand.append(taken(1, 120));
    assert!(matches!(hand.write(|writer| writer.withdraw(&[entry], " ")), Err(WriteError::NoReason)));
    hand.write(|writer| writer.withdraw(&[entry], "wrong circuit")).unwrap();
    let readings = hand.record.view().readings(JOB).unwrap();
    assert!(readings[0].taken.standing.withdrawn);
    assert_eq!(readings[0].acting[0].reason.as_deref(), Some("wrong circuit"));
}

#[test]
fn undo_goes_back_act_by_act_without_end() {
    let mut hand = Hand::new(1);
    hand.job();
    let first = hand.append(taken(1, 30));
    hand.append(replacing(2, 200, first));
    let live = |hand: &Hand| -> Vec<ReadingId> {
        let readings = hand.record.view().readings(JOB).unwrap();
        readings.iter().filter(|one| one.is_live()).map(|one| one.taken.value.reading.id).collect()
    };
    assert!(hand.undo());
    assert_eq!(live(&hand), [reading(1, 0, 0).id], "the replaced reading is current again");
    assert!(hand.undo());
    assert!(live(&hand).is_empty());
    assert!(hand.undo(), "the job itself");
    assert!(hand.record.view().jobs().unwrap().is_empty());
    assert!(hand.record.view().circuits(JOB).unwrap().is_empty());
    assert!(!hand.undo(), "nothing is left");
}

#[test]
fn undo_takes_back_a_whole_act_and_only_this_persons() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.write(|writer| (2..=12).try_for_each(|n| circuit(writer, CircuitId(id(0x50 + n)), &n.to_string()))).unwrap();
    assert_eq!(hand.record.view().circuits(JOB).unwrap().len(), 12);
    hand.person = OTHER_PERSON;
    hand.append(taken(1, 120));
    hand.person = support::PERSON;
    assert!(hand.undo());
    assert_eq!(hand.record.view().circuits(JOB).unwrap().len(), 1);
    assert!(hand.record.view().readings(JOB).unwrap()[0].is_live(), "the other person's reading stays");
}

#[test]
fn two_live_values_of_a_facet_are_two_until_someone_settles_them() {
    let mut hand = Hand::new(1);
    hand.job();
    let label = |text: &str| {
        Body::from(CircuitLabel { job: JOB, circuit: CIRCUIT, reference: "1".into(), description: text.into() })
    };
    let before = hand.record.view().circuits(JOB).unwrap()[0].label.current();
    let one = hand.append(Fact::naming(label("Oven"), Role::Replaces, before.clone()));
    let other = hand.append(Fact::naming(label("Cooker"), Role::Replaces, before));
    let facet = hand.record.view().circuits(JOB).unwrap().remove(0).label;
    assert!(facet.is_unsettled());
    assert_eq!(facet.one(), None);
    assert!(matches!(hand.write(|writer| writer.settle(&[], &[one], None)), Err(WriteError::NothingKept)));
    hand.write(|writer| writer.settle(&[other], &[one], None)).unwrap();
    let facet = hand.record.view().circuits(JOB).unwrap().remove(0).label;
    assert_eq!(facet.one().unwrap().description, "Cooker");
    assert!(hand.undo());
    assert!(hand.record.view().circuits(JOB).unwrap()[0].label.is_unsettled());
}

#[test]
fn a_correction_keeps_the_old_value_visible() {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(taken(1, 120));
    hand.append(taken(2, 130));
    let correction = |tester, readings: &[u128]| Correction {
        job: JOB,
        readings: readings.iter().map(|number| reading(*number, 0, 0).id).collect(),
        tester: Some(tester),
        test_voltage_v: None,
        at: None,
        conditions: None,
    };
    let without = hand.write(|writer| writer.correct(correction(OTHER_TESTER, &[1, 2]), ""));
    assert!(matches!(without, Err(WriteError::NoReason)));
    hand.write(|writer| writer.correct(correction(OTHER_TESTER, &[1, 2]), "the other tester was used")).unwrap();
    let readings = hand.record.view().readings(JOB).unwrap();
    assert_eq!(readings[0].tester.live(), [&Some(OTHER_TESTER)]);
    assert_eq!(readings[0].tester.earlier().next().unwrap().value, Some(TESTER));
    assert_eq!(readings[0].current()[0].tester, Some(OTHER_TESTER));
    assert!(!readings[0].at.is_corrected());
    // Corrected back for one of them: one live value each.
    hand.write(|writer| writer.correct(correction(TESTER, &[2]), "this one after all")).unwrap();
    let readings = hand.record.view().readings(JOB).unwrap();
    assert_eq!(readings[0].tester.live(), [&Some(OTHER_TESTER)]);
    assert_eq!(readings[1].tester.live(), [&Some(TESTER)]);
    assert_eq!(readings[1].tester.claims.len(), 3);
    assert_eq!(hand.record.view().testers_of(JOB).unwrap(), [TESTER, OTHER_TESTER]);
}

#[test]
fn what_could_never_take_effect_is_refused() {
    let mut hand = Hand::new(1);
    hand.job();
    let reading = hand.append(taken(1, 120));
    let names = Body::from(JobNames { job: JOB, name: "A".into(), place: String::new() });
    let refused = hand.write(|writer| writer.append(Fact::naming(names, Role::Replaces, [reading])));
    assert!(matches!(refused, Err(WriteError::NotThat(_))));
    let mut elsewhere = reading;
    elsewhere.seq.0 += 100;
    let refused = hand.write(|writer| writer.withdraw(&[elsewhere], "gone"));
    assert!(matches!(refused, Err(WriteError::UnknownEntry(_))));
}
