//! Bundles that were damaged or made to do harm: each is refused in one sentence, and nothing of it is taken.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use provenohm_exchange::bundle::{Bundle, Head, MAGIC, Manifest, NotABundle, Packed, VERSION, limits, write};
use provenohm_logbook::entry::body::{Book, JobNames, LogOpened, Sealed};
use provenohm_logbook::entry::{
    Body, Coded, Entry, EntryRef, Fact, Hash, Kind, LogId, MapOf, Noun, Object, ObjectId, Seq, Value,
};
use provenohm_logbook::record::{Refusal, TakeInError};
use std::collections::BTreeMap;
use support::{Forger, Hand, JOB, TESTER, handed, id, receive, recorder, taken};

/// A small bundle: one book with a reading.
fn small() -> Vec<u8> {
    let mut hand = Hand::new(1);
    hand.append(taken(1, 100));
    handed(&mut hand)
}

/// The bytes with the digest they need.
fn digested(mut told: Vec<u8>) -> Vec<u8> {
    let digest = Hash::of(&[&told]);
    told.extend(digest.0);
    told
}

/// A file with a manifest and frames as they are given.
fn file(manifest: &Value, frames: &[u8]) -> Vec<u8> {
    let manifest = manifest.encode();
    let length = (manifest.len() as u32).to_be_bytes();
    digested([&MAGIC[..], &VERSION.to_be_bytes(), &length, &manifest, frames].concat())
}

fn packed(entries: u64, unpacked: u64, frame: &[u8]) -> Value {
    let head = Head { log: LogId(id(1)), seq: Seq(0), hash: Hash([1; 32]) };
    let book = Packed { book: JOB.into(), entries, unpacked, packed: frame.len() as u64, heads: vec![head] };
    Manifest { of: JOB.into(), books: vec![book], by: None }.to_value()
}

fn framed(wires: &[&[u8]]) -> Vec<u8> {
    let plain: Vec<u8> =
        wires.iter().flat_map(|wire| [&(wire.len() as u32).to_be_bytes()[..], wire].concat()).collect();
    zstd::bulk::compress(&plain, 3).unwrap()
}

fn opened(bytes: &[u8]) -> NotABundle {
    let refused = Bundle::open(bytes).map(|_| "opened").unwrap_err();
    one_sentence(&refused.to_string());
    refused
}

/// What taking these entries in is refused with; the record holds nothing of them.
fn refused(entries: &[Entry]) -> Refusal {
    let bytes = write(None, JOB.into(), &BTreeMap::from([(Book::from(JOB), entries.to_vec())])).unwrap();
    let mut hand = Hand::new(9);
    let why = receive(&mut hand, &bytes).map(|joined| joined.sum()).unwrap_err();
    assert!(hand.record.view().books().unwrap().is_empty(), "nothing of it is here");
    assert_eq!(hand.record.projection().unwrap(), Hand::new(9).record.projection().unwrap());
    one_sentence(&why.to_string());
    match why {
        TakeInError::Refused(refusal) => refusal,
        other => panic!("{other}"),
    }
}

fn one_sentence(text: &str) {
    assert!(!text.is_empty() && text.len() < 200 && !text.contains('\n'), "{text}");
}

#[test]
fn a_bundle_cut_off_anywhere_is_refused() {
    let whole = small();
    assert!(Bundle::open(&whole).is_ok());
    for end in 0..whole.len() {
        let expected = if end < MAGIC.len() { NotABundle::Other } else { NotABundle::Damaged };
        assert_eq!(opened(&whole[..end]), expected, "{end}");
    }
    assert_eq!(opened(&[&whole[..], &[0]].concat()), NotABundle::Damaged, "and one with a byte more");
}

#[test]
fn a_bundle_cut_off_by_somebody_who_mends_the_digest_is_refused() {
    let whole = small();
    let told = &whole[..whole.len() - 32];
    for end in MAGIC.len()..told.len() {
        opened(&digested(told[..end].to_vec()));
    }
    opened(&digested([told, &[0]].concat()));
}

#[test]
fn every_altered_bit_is_found() {
    let whole = small();
    for place in 0..whole.len() {
        for bit in 0..8 {
            let mut altered = whole.clone();
            altered[place] ^= 1 << bit;
            opened(&altered);
        }
    }
}

/// Packing has more than one form for the same bytes; then, and only then, may a bit differ.
#[test]
fn every_altered_bit_under_a_mended_digest_is_refused_or_alters_no_entry() {
    let whole = small();
    let entries = |bytes: &[u8]| -> Option<Vec<Entry>> {
        let bundle = Bundle::open(bytes).ok()?;
        Some(bundle.entries(JOB.into()).unwrap()?.map(Result::unwrap).collect())
    };
    let expected = entries(&whole).unwrap();
    let told = &whole[..whole.len() - 32];
    let mut refused = 0;
    for place in 0..told.len() {
        for bit in 0..8 {
            let mut altered = told.to_vec();
            altered[place] ^= 1 << bit;
            match entries(&digested(altered)) {
                Some(entries) => assert_eq!(entries, expected, "byte {place}, bit {bit}"),
                None => refused += 1,
            }
        }
    }
    assert!(refused > told.len() * 7, "{refused} of {}", told.len() * 8);
}

/// Entries altered and packed again, so that nothing but the chain and its seal can tell.
#[test]
fn every_altered_entry_is_refused_by_chain_and_seal() {
    let mut hand = Hand::new(1);
    hand.append(taken(1, 100));
    handed(&mut hand);
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let mut tried = 0;
    // The last seal signs what it follows; its own envelope is signed by the seal after it.
    for at in 0..entries.len() - 1 {
        let wire = entries[at].to_wire();
        for place in 0..wire.len() {
            let mut altered = wire.clone();
            altered[place] ^= 1 << (place % 8);
            let Ok(altered) = Entry::from_wire(&altered) else { continue };
            let mut entries = entries.clone();
            entries[at] = altered;
            refused(&entries);
            tried += 1;
        }
    }
    assert!(tried > 100, "those that are still entries: {tried}");
}

#[test]
fn other_files_and_newer_bundles_are_told_apart() {
    assert_eq!(opened(b""), NotABundle::Other);
    assert_eq!(opened(b"{\"format\":\"provenohm-job\"}"), NotABundle::Other);
    let mut newer = small();
    newer[MAGIC.len() + 1] = 2;
    assert_eq!(opened(&newer), NotABundle::Newer);
}

#[test]
fn a_bomb_is_refused_before_it_is_unpacked() {
    let zeros = zstd::bulk::compress(&vec![0; 64 << 20], 19).unwrap();
    assert!(zeros.len() < 64 << 10);
    assert_eq!(opened(&file(&packed(1000, 64 << 20, &zeros), &zeros)), NotABundle::Limit, "it says how large it is");
    let ends = opened(&file(&packed(10, 1000, &zeros), &zeros));
    assert!(matches!(ends, NotABundle::Entry(_) | NotABundle::Counts), "it says that it is small: {ends}");
}

#[test]
fn unpacking_that_looks_back_too_far_is_refused() {
    let mut encoder = zstd::stream::write::Encoder::new(Vec::new(), 3).unwrap();
    encoder.window_log(limits::LARGEST_WINDOW + 2).unwrap();
    let salts: Vec<u8> = (0..5000u32).map(|at| (at.wrapping_mul(at) >> 3) as u8).collect();
    std::io::Write::write_all(&mut encoder, &salts).unwrap();
    let frame = encoder.finish().unwrap();
    assert_eq!(opened(&file(&packed(10, 5000, &frame), &frame)), NotABundle::Unpacking);
}

#[test]
fn counts_beyond_the_bytes_are_refused() {
    let frame = framed(&[&[0x80]]);
    for (entries, unpacked) in [(u64::MAX >> 1, 1000), (11, 1000), (0, 5), (1, u64::MAX >> 1), (1, 10)] {
        let refused = opened(&file(&packed(entries, unpacked, &frame), &frame));
        assert!(matches!(refused, NotABundle::Counts | NotABundle::Limit), "{entries}, {unpacked}: {refused}");
    }
    let mut hand = Hand::new(1);
    hand.append(taken(1, 100));
    let wires: Vec<Vec<u8>> = hand.record.view().entries(JOB.into()).unwrap().iter().map(Entry::to_wire).collect();
    let wires: Vec<&[u8]> = wires.iter().map(Vec::as_slice).collect();
    let (frame, bytes) = (framed(&wires), wires.iter().map(|wire| wire.len() as u64 + 4).sum::<u64>());
    for (entries, unpacked) in [(2, bytes), (4, bytes), (3, bytes - 1), (3, bytes + 1)] {
        let refused = opened(&file(&packed(entries, unpacked, &frame), &frame));
        assert!(matches!(refused, NotABundle::Counts | NotABundle::Unpacking), "{entries}, {unpacked}: {refused}");
    }
    // A length of an entry far beyond the rest.
    let long = zstd::bulk::compress(&[&[0xff; 4][..], &[0; 200]].concat(), 3).unwrap();
    assert_eq!(opened(&file(&packed(1, 204, &long), &long)), NotABundle::Limit);
}

#[test]
fn a_second_frame_and_a_byte_after_the_last_are_refused() {
    let whole = small();
    let bundle = Bundle::open(&whole).unwrap();
    let manifest = bundle.manifest().clone();
    let size = manifest.books[0].packed as usize;
    let frame = &whole[whole.len() - 32 - size..whole.len() - 32];
    for more in [frame, &[0], b"\x50\x2a\x4d\x18\x00\x00\x00\x00"] {
        let mut manifest = manifest.clone();
        manifest.books[0].packed += more.len() as u64;
        assert_eq!(opened(&file(&manifest.to_value(), &[frame, more].concat())), NotABundle::Counts);
    }
}

#[test]
fn a_manifest_with_anything_else_in_it_is_refused() {
    let frame = framed(&[&[0x80]]);
    let Value::Map(plain) = packed(1, 5, &frame) else { panic!() };
    let with = |pair: (u64, Value)| Value::Map([plain.clone(), vec![pair]].concat());
    let name = || Value::Text("../../somewhere/else".into());
    let mut renamed = plain.clone();
    renamed[0].1 = name();
    for manifest in [with((2, name())), with((9, Value::Bool(true))), Value::Map(renamed), name(), Value::Array(vec![])]
    {
        assert!(matches!(opened(&file(&manifest, &frame)), NotABundle::Manifest(_)));
    }
    for bytes in
        [&b"\xbf\x00\xff"[..], b"\xa1\x18\x00\x00", b"\xa1\x61a\x00", b"\x61\xff", b"\xf9\x3c\x00", &[0x81; 64]]
    {
        let length = (bytes.len() as u32).to_be_bytes();
        let file = digested([&MAGIC[..], &VERSION.to_be_bytes(), &length, bytes].concat());
        assert!(matches!(opened(&file), NotABundle::Manifest(_)), "{bytes:x?}");
    }
    let length = u32::MAX.to_be_bytes();
    assert_eq!(opened(&digested([&MAGIC[..], &VERSION.to_be_bytes(), &length].concat())), NotABundle::Limit);
}

#[test]
fn entries_out_of_order_or_twice_are_refused() {
    let mut hand = Hand::new(1);
    hand.append(taken(1, 100));
    let entries = hand.record.view().entries(JOB.into()).unwrap();
    let of = |order: &[usize]| {
        let wires: Vec<Vec<u8>> = order.iter().map(|at| entries[*at].to_wire()).collect();
        let wires: Vec<&[u8]> = wires.iter().map(Vec::as_slice).collect();
        let frame = framed(&wires);
        let bytes = wires.iter().map(|wire| wire.len() as u64 + 4).sum();
        opened(&file(&packed(order.len() as u64, bytes, &frame), &frame))
    };
    assert_eq!(of(&[1, 0, 2]), NotABundle::Order);
    assert_eq!(of(&[0, 1, 1, 2]), NotABundle::Order);
    assert_eq!(of(&[0, 1, 2]), NotABundle::Counts, "in order, but with other heads than it says");
}

#[test]
fn books_out_of_order_or_twice_are_refused() {
    let mut hand = recorder(1);
    let whole = handed(&mut hand);
    let bundle = Bundle::open(&whole).unwrap();
    let manifest = bundle.manifest().clone();
    let frames = |manifest: &Manifest| {
        let size: u64 = manifest.books.iter().map(|it| it.packed).sum();
        whole[whole.len() - 32 - size as usize..whole.len() - 32].to_vec()
    };
    let mut turned = manifest.clone();
    turned.books.reverse();
    assert_eq!(opened(&file(&turned.to_value(), &frames(&manifest))), NotABundle::Order);
    let mut twice = manifest.clone();
    twice.books[1] = twice.books[0].clone();
    assert_eq!(opened(&file(&twice.to_value(), &frames(&manifest))), NotABundle::Order);
    let of_another = Manifest { of: support::OTHER_TESTER.into(), ..manifest.clone() };
    assert_eq!(opened(&file(&of_another.to_value(), &frames(&manifest))), NotABundle::Counts);
    // A book under the name of another one.
    let mut renamed = manifest.clone();
    renamed.books[1].book = support::OTHER_TESTER.into();
    let file = file(&renamed.to_value(), &frames(&manifest));
    let mut other = Hand::new(2);
    let refused = receive(&mut other, &file);
    assert!(matches!(refused, Err(TakeInError::Refused(Refusal::OtherBook(_)))), "{refused:?}");
    assert!(other.record.view().books().unwrap().is_empty(), "the other book neither");
}

#[test]
fn a_seal_of_another_key_place_head_or_log_is_refused() {
    let mut forger = Forger::new(1, JOB.into());
    forger.say(taken(1, 100));
    let good = forger.sealed();
    let other = Forger::new(2, JOB.into());
    let wrong = [
        Sealed { signature: [0; 64], ..good.clone() },
        Sealed { seq: Seq(0), ..good.clone() },
        Sealed { head: Hash([1; 32]), ..good.clone() },
        Sealed { signature: other.key.seal(forger.log, good.seq, good.head).signature, ..good.clone() },
        Sealed { signature: forger.key.seal(other.log, good.seq, good.head).signature, ..good.clone() },
        Sealed { signature: forger.key.seal(forger.log, Seq(0), forger.entries[0].hash()).signature, ..good.clone() },
    ];
    for sealed in wrong {
        let mut forger = Forger { entries: forger.entries.clone(), key: forger.key.clone(), ..forger };
        let seal = forger.say(Body::Seal(sealed));
        assert_eq!(refused(&forger.entries), Refusal::BadSeal(seal));
        // A good seal after it does not make it good.
        assert_eq!(refused(forger.seal()), Refusal::BadSeal(seal));
    }
    let mut hand = Hand::new(3);
    support::receive_entries(&mut hand, forger.seal()).unwrap();
}

#[test]
fn seals_swapped_between_logs_are_refused() {
    let mut forgers = [Forger::new(1, JOB.into()), Forger::new(2, JOB.into())];
    let seals = forgers.each_ref().map(Forger::sealed);
    let [first, second] = &mut forgers;
    first.say(Body::Seal(seals[1].clone()));
    second.say(Body::Seal(seals[0].clone()));
    let both = [first.entries.clone(), second.entries.clone()].concat();
    assert!(matches!(refused(&both), Refusal::BadSeal(_)));
}

/// Points of small order: under a lenient check one signature holds for any message.
#[test]
fn keys_of_small_order_seal_nothing() {
    let points = [
        "0100000000000000000000000000000000000000000000000000000000000000",
        "ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
        "0000000000000000000000000000000000000000000000000000000000000000",
        "0000000000000000000000000000000000000000000000000000000000000080",
        "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
        "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
    ];
    for point in points {
        let mut key = [0; 32];
        for (at, byte) in key.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&point[2 * at..2 * at + 2], 16).unwrap();
        }
        for start in [key, [0; 32]] {
            let mut forger = Forger::new(1, JOB.into());
            let opened = LogOpened { key, ..forger.opening(JOB.into()) };
            forger.entries.clear();
            forger.say(opened);
            let mut signature = [0; 64];
            signature[..32].copy_from_slice(&start);
            let seal = Sealed { signature, ..forger.sealed() };
            let seal = forger.say(Body::Seal(seal));
            assert_eq!(refused(&forger.entries), Refusal::BadSeal(seal), "{point}");
        }
    }
}

#[test]
fn a_log_without_its_beginning_or_with_two_is_refused() {
    let mut forger = Forger::new(1, JOB.into());
    forger.say(taken(1, 100));
    forger.seal();
    assert_eq!(refused(&forger.entries[1..]), Refusal::NoBeginning(forger.log));

    // A second device claims the log for its own key.
    let mut claim = Forger { log: forger.log, ..Forger::new(2, JOB.into()) };
    let opened = claim.opening(JOB.into());
    claim.entries.clear();
    claim.say(opened);
    claim.say(taken(2, 200));
    claim.seal();
    let both = [forger.entries.clone(), claim.entries].concat();
    assert_eq!(refused(&both), Refusal::BeginsTwice(forger.log));

    let mut again = Forger::new(3, JOB.into());
    let opened = again.opening(JOB.into());
    again.say(opened);
    assert_eq!(refused(again.seal()), Refusal::BeginsTwice(again.log));
}

#[test]
fn entries_in_the_book_of_something_else_are_refused() {
    let mut forger = Forger::new(1, JOB.into());
    let job = provenohm_assess::ids::JobId(id(0x11));
    let wrong = forger.say(JobNames { job, name: "Elsewhere".into(), place: String::new() });
    assert_eq!(refused(forger.seal()), Refusal::OtherBook(wrong));
    let tester = Forger::new(2, TESTER.into());
    assert!(matches!(refused(&tester.entries), Refusal::OtherBook(_)));
}

#[test]
fn a_reading_without_its_body_is_refused() {
    let mut forger = Forger::new(1, JOB.into());
    let reading = forger.say(taken(1, 100));
    let entries: Vec<Entry> =
        forger.seal().iter().cloned().map(|it| if it.reference() == reading { it.erased() } else { it }).collect();
    assert_eq!(refused(&entries), Refusal::NoContent(reading));
}

#[test]
fn bodies_outside_the_encoding_are_refused() {
    let good = Fact::from(taken(1, 100)).encode();
    let names = |text: &[u8]| {
        let mut frame = MapOf::default();
        frame.put(0, &vec![Object { noun: Noun::Job, id: ObjectId(JOB.0) }]);
        frame.put(1, &Vec::<provenohm_logbook::entry::Naming>::new());
        let mut bytes = frame.finish().encode();
        bytes[0] += 1;
        bytes.push(2);
        bytes.extend(text);
        bytes
    };
    let mut longer = good.clone();
    longer.splice(0..1, [0xb8, good[0] & 0x1f]);
    for body in [
        vec![],
        vec![0xff],
        longer,
        names(b"\x62\xc3\x28"),
        names(b"\x18\x05"),
        names(b"\xf9\x3c\x00"),
        [&good[..], &[0]].concat(),
        vec![0x81; 200],
        vec![0x05],
    ] {
        for kind in [Kind::Reading.number(), 4711] {
            let mut forger = Forger::new(1, JOB.into());
            let wrong = forger.put(kind, 1, body.clone());
            assert_eq!(refused(forger.seal()), Refusal::NotReadable(wrong), "{body:x?}");
        }
    }
}

#[test]
fn a_counter_out_of_proportion_does_not_end_all_counting() {
    let mut forger = Forger::new(1, JOB.into());
    forger.lamport = (1 << 60) - 2;
    let wrong = forger.say(taken(1, 100));
    assert_eq!(refused(forger.seal()), Refusal::FarAhead(wrong));
}

#[test]
fn a_log_named_as_ended_is_not_proven_by_a_log_that_is_not() {
    // Two logs that name each other's ends, and no seal anywhere.
    let (mut one, mut other) = (Forger::new(1, JOB.into()), Forger::new(2, JOB.into()));
    let end = EntryRef { log: one.log, seq: Seq(1), short: [0; 8] };
    other.entries.clear();
    let opened = LogOpened { after: Some(end), ..other.opening(JOB.into()) };
    let beginning = other.say(opened);
    one.entries.clear();
    let opened = LogOpened { after: Some(beginning), ..one.opening(JOB.into()) };
    one.say(opened);
    one.say(taken(1, 100));
    let both = [one.entries, other.entries].concat();
    assert!(matches!(refused(&both), Refusal::NotSealed(_)));
}
