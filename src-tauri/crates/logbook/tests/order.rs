//! The record is a function of the set of entries: whatever the order they arrive in, and however often.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use proptest::prelude::*;
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::PersonId;
use provenohm_logbook::entry::body::{CircuitLabel, Correction, Note, Person, Request};
use provenohm_logbook::entry::{Body, Entry, EntryRef, Fact, Noun, Object, ObjectId, Role};
use support::{CIRCUIT, Hand, JOB, OTHER_PERSON, OTHER_TESTER, PERSON, TESTER, id, reading, replacing, taken};

/// Something a person does on one of two devices.
#[derive(Clone, Debug)]
enum Step {
    Read,
    Replace(usize),
    Withdraw(usize),
    Undo,
    Label(u8),
    Settle,
    Correct(usize),
    Note,
    Erase,
    Rename,
    SignOff,
    WithdrawSignOff,
    Ask,
    Other,
    Exchange,
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        3 => Just(Step::Read),
        2 => any::<usize>().prop_map(Step::Replace),
        2 => any::<usize>().prop_map(Step::Withdraw),
        2 => Just(Step::Undo),
        2 => any::<u8>().prop_map(Step::Label),
        1 => Just(Step::Settle),
        2 => any::<usize>().prop_map(Step::Correct),
        1 => Just(Step::Note),
        1 => Just(Step::Erase),
        1 => Just(Step::Rename),
        1 => Just(Step::SignOff),
        1 => Just(Step::WithdrawSignOff),
        1 => Just(Step::Ask),
        2 => Just(Step::Other),
        2 => Just(Step::Exchange),
    ]
}

fn refs(hand: &Hand) -> Vec<EntryRef> {
    hand.record.view().readings(JOB).unwrap().iter().map(|one| one.taken.entry).collect()
}

fn take(hand: &mut Hand, number: u128, step: &Step) {
    let pick = |refs: &[EntryRef], at: usize| refs.get(at.checked_rem(refs.len()).unwrap_or(0)).copied();
    match step {
        Step::Read => {
            hand.append(taken(number, 100));
        }
        Step::Replace(at) => {
            if let Some(entry) = pick(&refs(hand), *at) {
                hand.append(replacing(number, 200, entry));
            }
        }
        Step::Withdraw(at) => {
            // Any entry of the book, withdrawals among them.
            let entries = hand.record.view().entries(JOB.into()).unwrap();
            let can = |entry: &&Entry| {
                provenohm_logbook::entry::Kind::from_number(entry.envelope().kind)
                    .is_some_and(provenohm_logbook::entry::Kind::withdrawable)
            };
            let all: Vec<EntryRef> = entries.iter().filter(can).map(Entry::reference).collect();
            let entry = pick(&all, *at).unwrap();
            hand.write(|writer| writer.withdraw(&[entry], "tried out")).unwrap();
        }
        Step::Ask => {
            let readings = hand.record.view().readings(JOB).unwrap();
            let live = readings.iter().filter(|one| one.is_live()).map(|one| one.taken.value.reading.id);
            let asked = Request {
                job: JOB,
                pair: support::pair(),
                stage: Stage::Before,
                readings: live.collect(),
                not_tested: Vec::new(),
                person: PERSON,
                at: support::moment(0),
            };
            hand.append(Fact::from(asked).because("looks odd"));
        }
        Step::Undo => {
            hand.undo();
        }
        Step::Label(text) => {
            let label = CircuitLabel {
                job: JOB,
                circuit: CIRCUIT,
                reference: "1".into(),
                description: format!("Oven {}", text % 3),
            };
            let current = hand.record.view().circuits(JOB).unwrap();
            let current = current.first().map(|one| one.label.current()).unwrap_or_default();
            hand.append(Fact::naming(label, Role::Replaces, current));
        }
        Step::Settle => {
            let circuits = hand.record.view().circuits(JOB).unwrap();
            if let Some([keep, aside @ ..]) = circuits.first().map(|one| one.label.current()).as_deref()
                && !aside.is_empty()
            {
                hand.write(|writer| writer.settle(&[*keep], aside, None)).unwrap();
            }
        }
        Step::Correct(at) => {
            let readings = hand.record.view().readings(JOB).unwrap();
            if let Some(one) = readings.get(at.checked_rem(readings.len()).unwrap_or(0)) {
                let correction = Correction {
                    job: JOB,
                    readings: vec![one.taken.value.reading.id],
                    tester: Some(if at % 2 == 0 { OTHER_TESTER } else { TESTER }),
                    test_voltage_v: None,
                    at: None,
                    conditions: None,
                };
                hand.write(|writer| writer.correct(correction, "the other tester was used")).unwrap();
            }
        }
        Step::Note => {
            let of = Object { noun: Noun::Circuit, id: ObjectId(CIRCUIT.0) };
            let note = Note {
                note: provenohm_assess::ids::NoteId(id(number)),
                of,
                text: "damp".into(),
                person: None,
                at: None,
            };
            hand.write(|writer| writer.append_in(JOB.into(), Body::from(note))).unwrap();
        }
        Step::Erase => {
            let other = if hand.person == PERSON { OTHER_PERSON } else { PERSON };
            hand.write(|writer| writer.erase_person(other, "asked")).unwrap();
            // Known to the device again, so that a later step may act as them.
            let card = Person { person: other, name: "Recorder again".into(), role: String::new() };
            hand.record.keep_person(&card).unwrap();
        }
        Step::Rename => {
            let card = Person { person: hand.person, name: format!("Recorder {number}"), role: String::new() };
            hand.write(|writer| writer.change_person(&card)).unwrap();
        }
        Step::SignOff => {
            support::sign_off(hand);
        }
        Step::WithdrawSignOff => {
            let live = hand.record.view().sign_offs(JOB).unwrap().into_iter().find(|one| one.is_live());
            if let Some(one) = live {
                hand.write(|writer| writer.withdraw(&[one.entry], "signed too early")).unwrap();
            }
        }
        Step::Other => {
            hand.person = if hand.person == PERSON { OTHER_PERSON } else { PERSON };
        }
        Step::Exchange => {}
    }
}

/// Two devices work on one job and exchange now and then; everything either has, in the end.
fn history(steps: &[(bool, Step)]) -> Vec<Entry> {
    let mut hands = [Hand::new(1), Hand::new(2)];
    hands[0].job();
    exchange(&mut hands);
    for (number, (second, step)) in (0u128..).zip(steps) {
        match step {
            Step::Exchange => exchange(&mut hands),
            step => take(&mut hands[usize::from(*second)], number + 0x1000, step),
        }
    }
    hands.iter().flat_map(|hand| hand.record.view().entries(JOB.into()).unwrap()).collect()
}

fn exchange(hands: &mut [Hand; 2]) {
    for (from, to) in [(0, 1), (1, 0)] {
        let entries = hands[from].record.view().entries(JOB.into()).unwrap();
        hands[to].record.receive(&entries).unwrap();
    }
}

/// A record that received the entries in a given order.
fn received<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> Hand {
    let mut hand = Hand::new(3);
    for entry in entries {
        hand.record.receive([entry]).unwrap();
    }
    hand
}

fn what_it_says(hand: &Hand) -> String {
    let view = hand.record.view();
    format!(
        "{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}\n{:#?}",
        view.open_requests(JOB).unwrap(),
        view.sign_offs(JOB)
            .unwrap()
            .iter()
            .map(|one| (one.clone(), view.after(&one.value.cut, &[JOB.into()]).unwrap()))
            .collect::<Vec<_>>(),
        view.fingerprint(&[JOB.into()]).unwrap(),
        view.jobs().unwrap(),
        view.boards(JOB).unwrap(),
        view.circuits(JOB).unwrap(),
        view.readings(JOB).unwrap(),
        [PERSON, OTHER_PERSON]
            .map(|person: PersonId| (view.person(person).unwrap().card, view.person(person).unwrap().erased)),
    )
}

/// How many schedules are run: more overnight.
fn schedules() -> u32 {
    std::env::var("PROVENOHM_SCHEDULES").map_or(200, |number| number.parse().unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: schedules(), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_arrival_gives_the_same_record(
        steps in prop::collection::vec((any::<bool>(), step()), 1..24),
        seed in any::<u64>(),
    ) {
        let entries = history(&steps);
        let straight = received(&entries);
        let mut shuffled: Vec<&Entry> = entries.iter().chain(&entries).collect();
        let mut counted = support::Counted::from(seed);
        for place in (1..shuffled.len()).rev() {
            let mut bytes = [0; 8];
            counted.fill(&mut bytes).unwrap();
            let other = usize::try_from(u64::from_le_bytes(bytes) % (place as u64 + 1)).unwrap();
            shuffled.swap(place, other);
        }
        let mut mixed = received(shuffled);
        let projection = mixed.record.projection().unwrap();
        prop_assert_eq!(&straight.record.projection().unwrap(), &projection);
        prop_assert_eq!(what_it_says(&straight), what_it_says(&mixed));
        mixed.record.rebuild().unwrap();
        prop_assert_eq!(mixed.record.projection().unwrap(), projection, "made anew");
    }
}

#[test]
fn what_a_device_wrote_itself_equals_its_rebuild() {
    let mut hand = Hand::new(1);
    hand.job();
    let first = hand.append(taken(1, 30));
    hand.append(replacing(2, 200, first));
    hand.undo();
    hand.write(|writer| writer.withdraw(&[first], "wrong circuit")).unwrap();
    let written = hand.record.projection().unwrap();
    hand.record.rebuild().unwrap();
    assert_eq!(hand.record.projection().unwrap(), written);
    assert!(written.contains("standing"));
}

#[test]
fn two_devices_with_the_same_entries_show_the_same() {
    let mut hands = [Hand::new(1), Hand::new(2)];
    hands[0].job();
    exchange(&mut hands);
    hands[0].append(taken(1, 48));
    hands[1].append(taken(2, 52));
    hands[1].append(taken(3, 60));
    exchange(&mut hands);
    assert_eq!(what_it_says(&hands[0]), what_it_says(&hands[1]));
    assert_eq!(hands[0].record.projection().unwrap(), hands[1].record.projection().unwrap());
    assert_eq!(hands[0].record.view().readings(JOB).unwrap().len(), 3);
    assert_eq!(hands[0].record.view().heads(JOB.into()).unwrap(), hands[1].record.view().heads(JOB.into()).unwrap());
}

#[test]
fn receiving_twice_changes_nothing() {
    let mut hand = Hand::new(1);
    hand.job();
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let mut other = Hand::new(2);
    let first = other.record.receive(&entries).unwrap();
    assert_eq!((first.new, first.known), (entries.len() as u64, 0));
    let again = other.record.receive(&entries).unwrap();
    assert_eq!((again.new, again.known), (0, entries.len() as u64));
}

#[test]
fn the_record_as_it_stood_leaves_out_what_was_recorded_later() {
    let mut hand = Hand::new(1);
    hand.job();
    let first = hand.append(taken(1, 30));
    let then = support::moment(hand.minutes);
    hand.append(replacing(2, 200, first));
    let mut random = support::Counted::from(9);
    let past = hand.record.as_recorded_until(&then, &mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
    let readings = past.view().readings(JOB).unwrap();
    assert_eq!(readings.len(), 1);
    assert!(readings[0].is_live(), "its replacement was not yet recorded");
    assert_eq!(readings[0].current(), [reading(1, 30, 0)]);
}
