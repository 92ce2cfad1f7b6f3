//! What each kind of mishap comes to, one by one.

use crate::device::Device;
use crate::support::{Hand, JOB, handed, receive, recorder_facts, replacing, taken, wires};
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

/// One bit of a text on the disk, wherever it stands there.
fn alter(device: &mut Device, text: &str) {
    device.damage(|bytes| {
        let places: Vec<usize> =
            (0..bytes.len() - text.len()).filter(|at| bytes[*at..].starts_with(text.as_bytes())).collect();
        assert!(!places.is_empty(), "it stands there");
        places.into_iter().for_each(|at| bytes[at] ^= 1);
    });
}

#[test]
fn an_entry_altered_on_the_disk_is_as_it_was_written_once_another_hands_it_over() {
    let mut first = recorder(1);
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    let written = (wires(first.hand()), first.hand().record.projection().unwrap());
    alter(&mut first, "Hall 2");
    assert!(first.hand().record.view().job(JOB).unwrap_err().is_damage());
    assert_eq!(first.inspected().altered.len(), 1);
    first.hand_mut().record.rebuild().unwrap();
    assert_ne!(first.hand().record.projection().unwrap(), written.1, "nothing is read from it");

    let taken_in = hand_on(&mut other, &mut first);
    assert_eq!((taken_in.mended, taken_in.sum.same), (1, taken_in.sum.came));
    assert_eq!((wires(first.hand()), first.hand().record.projection().unwrap()), written);
    assert!(first.inspected().reads_as_written());
    assert_eq!(hand_on(&mut other, &mut first).mended, 0, "once is enough");
}

#[test]
fn an_entry_altered_on_the_disk_is_a_gap_in_what_is_handed_over() {
    let mut first = recorder(1);
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    first.hand_mut().append(taken(11, 100));
    let all = first.all().len();
    alter(&mut first, "Hall 2");
    let over = first.hand_over();
    assert_eq!((over.altered, over.unproven), (1, 0), "what no seal reaches any more is vouched for");
    let mut third = Device::new(3);
    let taken_in = receive(third.hand_mut(), &over.bytes).unwrap().books.remove(0).taken;
    assert_eq!((taken_in.gaps.len(), taken_in.gaps[0].missing(), taken_in.vouched), (1, 1, 0));
    assert_eq!(readings(third.hand()), 3);
    // A seal, and the log that vouches with its own.
    assert_eq!(third.all().len(), all - 1 + 3);
    assert_eq!(first.hand_over().bytes, over.bytes, "once is enough");
    assert!(hand_on(&mut other, &mut third).gaps.is_empty(), "what others hold fills it");
}

#[test]
fn a_log_without_its_beginning_stays_here_and_the_rest_goes() {
    let mut first = recorder(1);
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    other.hand_mut().append(taken(11, 100));
    hand_on(&mut other, &mut first);
    let opening = first
        .entries(JOB.into())
        .into_iter()
        .find(|it| it.envelope().seq.0 == 0 && it.envelope().log == first_log(&first));
    let (_, body) = opening.as_ref().unwrap().body().unwrap();
    let body = body.to_vec();
    first.damage(|bytes| {
        let at = (0..bytes.len() - body.len()).find(|at| bytes[*at..].starts_with(&body)).unwrap();
        bytes[at + body.len() - 1] ^= 1;
    });
    let over = first.hand_over();
    assert!(over.altered == 1 && over.unproven > 5, "{over:?}");
    let mut third = Device::new(3);
    assert!(receive(third.hand_mut(), &over.bytes).is_ok());
    assert_eq!(readings(third.hand()), 1);
    hand_on(&mut other, &mut third);
    assert_eq!(readings(third.hand()), 3);
}

/// The log of the first reading.
fn first_log(device: &Device) -> provenohm_logbook::entry::LogId {
    device.hand().record.view().readings(JOB).unwrap()[0].taken.entry.log
}

#[test]
fn a_damaged_record_set_aside_goes_on_with_what_is_as_it_was_written() {
    let mut first = recorder(1);
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    let unsealed = first.hand_mut().append(taken(11, 100));
    let all = first.all();
    alter(&mut first, "Hall 2");
    let salvaged = first.begin_anew();
    assert_eq!((salvaged.entries, salvaged.altered, salvaged.damaged), (all.len() as u64 - 1, 1, false));
    assert_eq!(readings(first.hand()), 3);
    let new = first.hand_mut().append(taken(12, 100));
    assert_ne!(new.log, unsealed.log, "nobody knows what was lost of the log");
    let mut third = Device::new(3);
    let taken_in = hand_on(&mut first, &mut third);
    assert_eq!((readings(third.hand()), taken_in.gaps.len(), taken_in.vouched), (4, 1, 0));
    hand_on(&mut other, &mut third);
    assert!(third.all().is_superset(&all), "and what others hold comes back");
}

#[test]
fn a_record_with_a_destroyed_page_says_so_and_gives_back_the_rest() {
    let mut first = recorder(1);
    for number in 0..300 {
        first.hand_mut().append(taken(100 + number, 100));
    }
    let mut other = Device::new(2);
    hand_on(&mut first, &mut other);
    let all = first.all();
    assert!(first.inspected().reads_as_written());
    first.damage(|bytes| {
        let at = (0..bytes.len() - 6).find(|at| bytes[*at..].starts_with(b"Hall 2")).unwrap();
        let page = at / 4096 * 4096;
        bytes[page..page + 4096].fill(0xa5);
    });
    let inspected = first.inspected();
    assert!(inspected.damage.is_some() && !inspected.reads_as_written());
    let salvaged = first.begin_anew();
    assert!(salvaged.damaged && salvaged.entries > 200 && salvaged.entries < all.len() as u64, "{salvaged:?}");
    hand_on(&mut other, &mut first);
    assert!(first.all().is_superset(&all));
    let mut third = Device::new(3);
    hand_on(&mut first, &mut third);
    assert_eq!(readings(third.hand()), 302);
}
