//! A sign-off covers exactly what was here, whatever arrives later and whatever its clock says.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_logbook::entry::body::{Book, CutEnd};
use provenohm_logbook::entry::{
    Entry, EntryRef, Envelope, Hash, Kind, Lamport, MapOf, Noun, Object, ObjectId, Salt, Seq,
};
use provenohm_logbook::random::NoRandomness;
use provenohm_logbook::record::Record;
use std::collections::BTreeSet;
use support::{Hand, JOB, sign_off, taken};

fn book() -> [Book; 1] {
    [JOB.into()]
}

fn entries(hand: &Hand) -> Vec<Entry> {
    hand.record.view().entries(JOB.into()).unwrap()
}

fn cut_of(hand: &Hand, entry: EntryRef) -> Vec<CutEnd> {
    let all = hand.record.view().sign_offs(JOB).unwrap();
    all.into_iter().find(|one| one.entry == entry).unwrap().value.cut
}

fn covered(hand: &Hand, cut: &[CutEnd]) -> BTreeSet<EntryRef> {
    hand.record.view().covered(cut).unwrap().entries.iter().map(Entry::reference).collect()
}

fn begun() -> Hand {
    let mut hand = Hand::new(1);
    hand.job();
    hand.append(taken(1, 100));
    hand
}

#[test]
fn it_covers_what_was_there_and_is_sealed_right_away() {
    let mut hand = begun();
    let before: BTreeSet<EntryRef> = entries(&hand).iter().map(Entry::reference).collect();
    let signed = sign_off(&mut hand);
    let cut = cut_of(&hand, signed);
    let is: BTreeSet<EntryRef> = covered(&hand, &cut);
    assert!(is.is_superset(&before));
    assert!(!is.contains(&signed));
    let all = entries(&hand);
    let last = all.last().unwrap();
    assert_eq!(last.envelope().kind, Kind::Seal.number());
    assert_eq!(all[all.len() - 2].reference(), signed);
    let report = hand.record.view().check(JOB.into()).unwrap().into_values().next().unwrap();
    assert_eq!((report.sealed, report.faults), (report.entries, vec![]));
}

#[test]
fn what_comes_later_is_after_it_even_with_an_older_clock() {
    let mut away = Hand::new(2);
    let mut hand = begun();
    away.record.receive(&entries(&hand)).unwrap();
    // The other device's clock stands years before the sign-off.
    away.minutes = -3_000_000;
    let late = away.append(taken(2, 200));
    let signed = sign_off(&mut hand);
    let cut = cut_of(&hand, signed);
    let (was, fingerprint) = (covered(&hand, &cut), hand.record.view().fingerprint(&book()).unwrap());
    assert_eq!(hand.record.view().after(&cut, &book()).unwrap(), []);
    hand.record.receive(&entries(&away)).unwrap();
    assert_eq!(covered(&hand, &cut), was);
    let later = hand.record.view().after(&cut, &book()).unwrap();
    assert_eq!(later.iter().map(|one| one.entry).collect::<Vec<_>>(), [late]);
    assert!(later[0].recorded < support::moment(-1_000_000));
    assert_ne!(hand.record.view().fingerprint(&book()).unwrap(), fingerprint);
}

#[test]
fn what_fills_a_gap_later_was_not_signed() {
    let hand = begun();
    let mut reviewer = Hand::new(2);
    let all = entries(&hand);
    let (gone, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|entry| entry.envelope().seq == Seq(4));
    reviewer.record.receive(&rest).unwrap();
    let signed = sign_off(&mut reviewer);
    let cut = cut_of(&reviewer, signed);
    assert!(cut.iter().any(|end| end.from == Some(Seq(5))), "{cut:?}");
    let was = covered(&reviewer, &cut);
    reviewer.record.receive(&gone).unwrap();
    assert_eq!(covered(&reviewer, &cut), was);
    let later = reviewer.record.view().after(&cut, &book()).unwrap();
    assert_eq!(later.iter().map(|one| one.entry).collect::<Vec<_>>(), [gone[0].reference()]);
}

#[test]
fn it_is_withdrawn_by_a_new_entry_and_the_next_has_the_next_number() {
    let mut hand = begun();
    let first = sign_off(&mut hand);
    let fingerprint = hand.record.view().fingerprint(&book()).unwrap();
    assert!(hand.write(|writer| writer.withdraw(&[first], " ")).is_err());
    hand.write(|writer| writer.withdraw(&[first], "circuit 3 was forgotten")).unwrap();
    let view = hand.record.view();
    assert_eq!(view.fingerprint(&book()).unwrap(), fingerprint, "nothing that was measured has changed");
    assert_eq!(view.after(&cut_of(&hand, first), &book()).unwrap(), []);
    sign_off(&mut hand);
    let all = hand.record.view().sign_offs(JOB).unwrap();
    let told: Vec<_> = all.iter().map(|one| (one.value.number, one.is_live())).collect();
    assert_eq!(told, [(1, false), (2, true)]);
    let acting = hand.record.view().acting_on(first).unwrap();
    assert_eq!(acting[0].reason.as_deref(), Some("circuit 3 was forgotten"));
}

#[test]
fn undo_does_not_reach_a_sign_off() {
    let mut hand = begun();
    let signed = sign_off(&mut hand);
    assert!(hand.undo());
    let all = hand.record.view().sign_offs(JOB).unwrap();
    assert!(all.iter().any(|one| one.entry == signed && one.is_live()));
}

#[test]
fn both_branches_of_a_fork_are_signed_as_two_ends() {
    let hand = begun();
    let all = entries(&hand);
    let mut fork = Hand::new(1);
    fork.minutes = 100;
    fork.job();
    // One device's log, gone on in two ways: only the beginning is the same.
    let mut reviewer = Hand::new(3);
    reviewer.record.receive(&all).unwrap();
    reviewer.record.receive(&entries(&fork)).unwrap();
    let signed = sign_off(&mut reviewer);
    let cut = cut_of(&reviewer, signed);
    let is = covered(&reviewer, &cut);
    assert!(all.iter().chain(&entries(&fork)).all(|entry| is.contains(&entry.reference())));
}

#[test]
fn what_a_cut_covers_and_is_not_here_is_named() {
    let mut hand = begun();
    let signed = sign_off(&mut hand);
    let cut = cut_of(&hand, signed);
    let all = entries(&hand);
    let short: Vec<&Entry> = all.iter().filter(|entry| entry.envelope().seq < Seq(6)).collect();
    let mut lacking = Hand::new(2);
    lacking.record.receive(short).unwrap();
    let missing = lacking.record.view().covered(&cut).unwrap().missing;
    assert_eq!(missing, [(cut[0].log, cut[0].seq)]);
    // Another entry in a covered place is as good as none.
    let other = CutEnd { hash: Hash([1; 32]), ..cut[0] };
    assert_eq!(hand.record.view().covered(&[other]).unwrap().missing, [(other.log, other.seq)]);
    assert_eq!(hand.record.view().covered(&[other]).unwrap().entries, []);
}

/// What a sign-off covers makes a record of its own, in which nothing later is known.
#[test]
fn the_record_as_signed_says_what_it_said() {
    let mut hand = begun();
    let readings = hand.record.view().readings(JOB).unwrap();
    let signed = sign_off(&mut hand);
    hand.append(taken(2, 200));
    let cut = cut_of(&hand, signed);
    let mut past = Record::in_memory(&mut |_: &mut [u8]| Ok::<(), NoRandomness>(())).unwrap();
    past.receive(&hand.record.view().covered(&cut).unwrap().entries).unwrap();
    assert_eq!(past.view().readings(JOB).unwrap(), readings);
    assert_eq!(past.view().sign_offs(JOB).unwrap(), []);
}

/// What only a newer version can read, and marks as critical, is not signed over.
#[test]
fn a_critical_entry_of_a_newer_version_is_counted() {
    let mut hand = begun();
    assert_eq!(hand.record.view().critical_unreadable(&book()).unwrap(), 0);
    let all = entries(&hand);
    let last = all.last().unwrap();
    let mut frame = MapOf::default();
    frame.put(0, &vec![Object { noun: Noun::Job, id: ObjectId(JOB.0) }]);
    frame.put(1, &Vec::<provenohm_logbook::entry::Naming>::new());
    frame.put(2, &"a content of the future".to_owned());
    let body = frame.finish().encode();
    for (critical, count) in [(false, 0), (true, 1)] {
        let envelope = last.envelope();
        let newer = Envelope {
            seq: Seq(envelope.seq.0 + 1),
            prev: last.hash(),
            kind: 4711,
            critical,
            lamport: Lamport(envelope.lamport.0 + 1),
            ..envelope.clone()
        };
        hand.record.receive(&[Entry::new(newer, Salt([2; 16]), body.clone())]).unwrap();
        assert_eq!(hand.record.view().critical_unreadable(&book()).unwrap(), count);
    }
}
