//! What each kind of mishap comes to, one by one.

use crate::device::Device;
use crate::support::{Hand, JOB, handed, receive, recorder_facts, replacing, taken};
use provenohm_logbook::chain::Fault;
use provenohm_logbook::entry::body::OpenedWhy;
use provenohm_logbook::entry::{Body, Fact, Kind};

fn recorder(seed: u64) -> Device {
    let mut device = Device::new(seed);
    recorder_facts(device.hand_mut());
    device
}

fn hand_on(from: &mut Device, to: &mut Device) -> provenohm_logbook::record::Taken {
    let bytes = handed(from.hand_mut());
    receive(to.hand_mut(), &bytes).unwrap().books.remove(0).taken
}

fn readings(hand: &Hand) -> usize {
    hand.record.view().readings(JOB).unwrap().len()
}

/// Why the logs of the job were opened, by their counters.
fn openings(device: &Device) -> Vec<OpenedWhy> {
    let mut entries = device.entries(JOB.into());
    entries.sort_by_key(|entry| entry.envelope().lamport);
    let bodies = entries.iter().filter_map(|entry| Fact::decode(Kind::LogOpened.number(), 1, entry.body()?.1).ok());
    bodies
        .filter_map(|fact| match fact.body {
            Body::LogOpened(opened) => Some(opened.why),
            _ => None,
        })
        .collect()
}

#[test]
fn a_cloned_device_is_found_at_the_first_meeting_and_both_branches_are_kept() {
    let mut first = recorder(1);
    let mut twin = first.cloned(2, true);
    let mine = first.hand_mut().append(taken(11, 100));
    let theirs = twin.hand_mut().append(taken(12, 200));
    assert_eq!((mine.log, mine.seq), (theirs.log, theirs.seq), "nothing can tell them apart yet");

    let taken_in = hand_on(&mut first, &mut twin);
    assert_eq!(taken_in.closed, [mine.log].into());
    assert_eq!(taken_in.forks, [(mine.log, mine.seq)]);
    let after = twin.hand_mut().append(replacing(13, 300, theirs));
    assert_ne!(after.log, mine.log, "the twin goes on in a log of its own");
    assert_eq!(hand_on(&mut twin, &mut first).closed, [mine.log].into());
    assert_eq!(openings(&first), [OpenedWhy::First, OpenedWhy::Forked]);
    let live = first.hand().record.view().readings(JOB).unwrap();
    let live: Vec<_> = live.iter().filter(|one| one.is_live()).map(|one| one.taken.entry).collect();
    assert!(live.contains(&mine) && !live.contains(&theirs), "each branch is named apart");

    let mut third = Device::new(3);
    assert_eq!(hand_on(&mut first, &mut third).forks, [(mine.log, mine.seq)], "handed on with both");
    let report = &third.hand().record.view().check(JOB.into()).unwrap()[&mine.log];
    assert!(report.faults.contains(&Fault::Fork { seq: mine.seq }));
    assert_eq!((report.authentic, report.vouched), (report.entries, 0));
}

#[test]
fn a_restored_device_gives_no_place_twice_and_gets_back_what_others_hold() {
    let mut first = recorder(1);
    first.back_up(false);
    let gone = first.hand_mut().append(taken(11, 100));
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    first.restore();
    assert_eq!(readings(first.hand()), 2);
    let new = first.hand_mut().append(taken(12, 100));
    assert_ne!(new.log, gone.log);
    let taken_in = hand_on(&mut other, &mut first);
    assert_eq!((readings(first.hand()), taken_in.forks.len(), taken_in.closed.len()), (4, 0, 0));
    assert_eq!(openings(&first), [OpenedWhy::First, OpenedWhy::Restored]);
}

#[test]
fn a_whole_phone_restored_that_first_meets_others_makes_no_fork() {
    let mut first = recorder(1);
    first.back_up(true);
    first.hand_mut().append(taken(11, 100));
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    first.restore();
    assert_eq!(hand_on(&mut other, &mut first).closed.len(), 1);
    first.hand_mut().append(taken(12, 100));
    assert!(hand_on(&mut first, &mut other).forks.is_empty());
}

#[test]
fn what_no_seal_reached_is_vouched_for_by_the_device_that_has_it() {
    let mut first = recorder(1);
    let log = first.hand_mut().append(taken(11, 100)).log;
    let mut copy = first.cloned(2, false);
    drop(first);
    let mut other = Device::new(3);
    let taken_in = hand_on(&mut copy, &mut other);
    assert_eq!(readings(other.hand()), 3, "nothing is lost with the first device");
    assert!(taken_in.vouched > 0);
    let report = &other.hand().record.view().check(JOB.into()).unwrap()[&log];
    assert_eq!((report.authentic, report.vouched, report.sealed), (report.entries, report.entries, 0));
    let mut third = Device::new(4);
    hand_on(&mut other, &mut third);
    assert_eq!(readings(third.hand()), 3, "and it is handed on");
}

#[test]
fn what_the_same_device_names_as_its_end_counts_as_sealed() {
    let mut first = recorder(1);
    first.back_up(false);
    let log = first.hand_mut().append(taken(11, 100)).log;
    first.restore();
    let mut other = Device::new(3);
    let taken_in = hand_on(&mut first, &mut other);
    assert_eq!((readings(other.hand()), taken_in.vouched), (2, 0));
    let report = &other.hand().record.view().check(JOB.into()).unwrap()[&log];
    assert_eq!((report.authentic, report.vouched), (report.entries, 0));
}

#[test]
fn a_lost_device_is_made_good_by_those_that_had_its_bundles() {
    let mut first = recorder(1);
    let (mut second, mut third) = (Device::new(2), Device::new(3));
    hand_on(&mut first, &mut second);
    first.hand_mut().append(taken(11, 100));
    hand_on(&mut first, &mut third);
    let all = first.all();
    drop(first);
    let mut new = Device::new(4);
    hand_on(&mut second, &mut new);
    hand_on(&mut third, &mut new);
    assert!(new.all().is_superset(&all));
}

#[test]
fn a_job_removed_and_received_back_goes_on_in_a_new_log() {
    let mut first = recorder(1);
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    first.hand_mut().record.forget(JOB.into()).unwrap();
    hand_on(&mut other, &mut first);
    first.hand_mut().append(taken(11, 100));
    assert_eq!(openings(&first), [OpenedWhy::First, OpenedWhy::Returned]);
    assert!(hand_on(&mut first, &mut other).forks.is_empty());
}

#[test]
fn a_clock_that_is_years_wrong_is_shown_and_refuses_nothing() {
    let mut first = recorder(1);
    first.hand_mut().minutes = 60 * 24 * 365 * 6;
    first.hand_mut().append(taken(11, 100));
    first.hand_mut().minutes = -60 * 24 * 365 * 6;
    let late = first.hand_mut().append(taken(12, 100));
    let mut other = Device::new(2);
    assert!(hand_on(&mut first, &mut other).sum.adds_up());
    let report = other.hand().record.view().check(JOB.into()).unwrap();
    assert!(report[&late.log].faults.contains(&Fault::ClockBack(late)));
}
