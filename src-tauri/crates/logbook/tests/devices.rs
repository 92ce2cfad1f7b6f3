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

#[test]
fn a_device_that_goes_on_from_a_known_one_is_told_and_not_known() {
    use provenohm_logbook::record::{Place, Record};
    let [from, to] = [(); 2].map(|()| tempfile::TempDir::new().unwrap());
    let place = |folder: &tempfile::TempDir| Place {
        record: folder.path().join("record.sqlite"),
        device: folder.path().join("device.sqlite"),
    };
    let open = |folder: &tempfile::TempDir, seed| {
        let mut random = support::Counted::from(seed);
        let record = Record::open(&place(folder), &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        Hand { record, random, minutes: 0, person: support::PERSON }
    };
    let mut first = open(&from, 1);
    let (person, name) = (support::PERSON, "Recorder A".to_owned());
    let card = provenohm_logbook::entry::body::Person { person, name, role: String::new() };
    first.record.keep_person(&card).unwrap();
    first.job();
    drop(first);
    // A backup carries the record, and not the device's own file.
    std::fs::copy(place(&from).record, place(&to).record).unwrap();
    let mut restored = open(&to, 2);
    restored.append(taken(0x901, 100));
    let here = restored.record.device().id();
    let all = restored.record.view().devices(JOB).unwrap();
    let [one, other] = [true, false].map(|known| all.iter().find(|it| it.known == known).unwrap());
    assert_eq!((other.device, other.goes_on_from, one.goes_on_from), (here, Some(one.device), None));
}
