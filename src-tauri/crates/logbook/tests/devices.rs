//! Which devices a job knows: the one it was begun on, and those somebody at a known one vouches for.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::entry::body::{Body, Book, DeviceKnown};
use support::{Hand, JOB, taken};

fn give(from: &Hand, to: &mut Hand) {
    let entries = from.record.view().entries(Book::Job { job: JOB }).unwrap();
    to.record.receive(&entries).unwrap();
}

/// Of the hands' devices, those that a record of one of them knows.
fn known(told: &Hand, hands: &[&Hand]) -> Vec<bool> {
    let all = told.record.view().devices(JOB).unwrap();
    let of = |hand: &&Hand| all.iter().any(|one| one.device == hand.record.device().id() && one.known);
    hands.iter().map(of).collect()
}

fn vouch(by: &mut Hand, of: &Hand) -> EntryRef {
    let device = of.record.device();
    by.append(Body::from(DeviceKnown { job: JOB, device: device.id(), key: device.key().public() }))
}

/// The job is begun on the first device; the two others read on it.
fn three() -> [Hand; 3] {
    let [mut a, mut b, mut c] = [1, 2, 3].map(Hand::new);
    a.job();
    for (number, other) in [(0x901, &mut b), (0x902, &mut c)] {
        give(&a, other);
        other.append(taken(number, 100));
    }
    [a, b, c]
}

#[test]
fn nobody_is_known_by_the_word_of_somebody_unknown() {
    let [mut a, b, mut c] = three();
    give(&b, &mut c);
    vouch(&mut c, &b);
    give(&c, &mut a);
    assert_eq!(known(&a, &[&a, &b, &c]), [true, false, false]);
    let word = vouch(&mut a, &c);
    assert_eq!(known(&a, &[&a, &b, &c]), [true, true, true], "once it is known its own word counts");
    let one = a.record.view().devices(JOB).unwrap().into_iter().find(|one| one.device == c.record.device().id());
    assert_eq!(one.unwrap().vouched.len(), 1);
    a.write(|writer| writer.withdraw(&[word], "lent out")).unwrap();
    assert_eq!(known(&a, &[&a, &b, &c]), [true, false, false]);
}

#[test]
fn every_device_that_holds_the_same_says_the_same() {
    let [mut a, mut b, mut c] = three();
    vouch(&mut a, &c);
    give(&b, &mut c);
    vouch(&mut c, &b);
    give(&a, &mut b);
    give(&c, &mut b);
    give(&b, &mut a);
    give(&a, &mut c);
    let told = [&a, &b, &c].map(|hand| hand.record.view().devices(JOB).unwrap());
    assert!(told.iter().all(|one| *one == told[0]));
    assert_eq!(known(&b, &[&a, &b, &c]), [true, true, true]);
}

#[test]
fn another_key_under_the_same_id_is_another_device() {
    let [mut a, b, _] = three();
    give(&b, &mut a);
    a.append(Body::from(DeviceKnown { job: JOB, device: b.record.device().id(), key: [7; 32] }));
    assert_eq!(known(&a, &[&a, &b]), [true, false]);
}
