//! The bytes of entries: one form each, read back to the same, and held by published vectors.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use proptest::prelude::*;
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Shown, Unit};
use provenohm_logbook::entry::body::{Book, JobNames};
use provenohm_logbook::entry::{
    Coded, ENVELOPE_VERSION, Entry, Envelope, Fact, Hash, Kind, Lamport, LogId, Malformed, NotAnEntry, NotCanonical,
    Salt, Seq, Value, time,
};
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;
use support::{JOB, PERSON, id, moment, samples};

fn entry_of(fact: &Fact, seq: u64) -> Entry {
    let kind = fact.body.kind();
    let envelope = Envelope {
        version: ENVELOPE_VERSION,
        log: LogId(id(0x90)),
        seq: Seq(seq),
        prev: if seq == 0 { Hash::NONE } else { Hash([8; 32]) },
        kind: kind.number(),
        kind_version: 1,
        critical: kind.critical(),
        lamport: Lamport(seq + 1),
        recorded: moment(0),
        person: Some(PERSON),
        body_hash: Hash::NONE,
    };
    Entry::new(envelope, Salt([6; 16]), fact.encode())
}

#[test]
fn every_kind_with_a_content_has_a_sample_and_reads_back_the_same() {
    let mut seen = BTreeSet::new();
    for (name, fact) in samples::all() {
        let bytes = fact.encode();
        let read = Fact::decode(fact.body.kind().number(), 1, &bytes).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(read, fact, "{name}");
        assert_eq!(read.encode(), bytes, "{name}");
        seen.insert(fact.body.kind());
    }
    assert_eq!(seen, BTreeSet::from(Kind::ALL));
}

#[test]
fn no_number_of_a_kind_is_used_twice() {
    let numbers: BTreeSet<u64> = Kind::ALL.into_iter().map(Kind::number).collect();
    assert_eq!(numbers.len(), Kind::ALL.len());
    for kind in Kind::ALL {
        assert_eq!(Kind::from_number(kind.number()), Some(kind));
    }
}

#[test]
fn readings_and_verifications_are_never_erased() {
    let erasable: Vec<Kind> = Kind::ALL.into_iter().filter(|kind| kind.erasable()).collect();
    assert_eq!(erasable, [Kind::Person, Kind::Note]);
}

#[test]
fn an_altered_byte_of_an_entry_is_refused_or_gives_another_name() {
    for (name, fact) in samples::all() {
        let entry = entry_of(&fact, 0);
        let wire = entry.to_wire();
        assert_eq!(Entry::from_wire(&wire).unwrap(), entry, "{name}");
        for place in 0..wire.len() {
            let mut altered = wire.clone();
            altered[place] ^= 1;
            if let Ok(other) = Entry::from_wire(&altered) {
                assert_ne!(other.hash(), entry.hash(), "{name}, byte {place}");
            }
        }
    }
}

#[test]
fn an_erased_entry_keeps_its_hash() {
    let (_, fact) = samples::all().remove(6);
    let entry = entry_of(&fact, 1);
    let erased = entry.clone().erased();
    assert_eq!(erased.hash(), entry.hash());
    assert_eq!(Entry::from_wire(&erased.to_wire()).unwrap(), erased);
}

#[test]
fn a_body_of_another_entry_is_refused() {
    let entries: Vec<Entry> = samples::all().iter().map(|(_, fact)| entry_of(fact, 1)).collect();
    let (salt, body) = entries[1].body().unwrap();
    let mixed = Entry::from_parts(entries[0].envelope_bytes().to_vec(), Some((*salt, body.to_vec())));
    assert_eq!(mixed, Err(NotAnEntry::BodyAltered));
}

#[test]
fn only_the_one_prescribed_form_is_read() {
    let form = |bytes: &[u8]| Value::decode(bytes);
    assert_eq!(form(&[0x18, 0x05]), Err(NotCanonical::Form), "5 in two bytes");
    assert_eq!(form(&[0xa2, 0x01, 0x05, 0x00, 0x05]), Err(NotCanonical::Form), "keys that fall");
    assert_eq!(form(&[0xa2, 0x01, 0x05, 0x01, 0x05]), Err(NotCanonical::Form), "a key twice");
    assert_eq!(form(&[0x05, 0x05]), Err(NotCanonical::Trailing));
    for (what, bytes) in [
        ("indefinite array", &[0x9f, 0x05, 0xff][..]),
        ("float", &[0xf9, 0x3c, 0x00]),
        ("null", &[0xf6]),
        ("tag", &[0xc1, 0x05]),
        ("text key", &[0xa1, 0x61, 0x61, 0x05]),
        ("cut off", &[0x82, 0x05]),
        ("a lying count", &[0x9b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]),
        ("text that is not UTF-8", &[0x61, 0xff]),
    ] {
        assert!(matches!(form(bytes), Err(NotCanonical::Syntax(_))), "{what}");
    }
    assert_eq!(form(&[0x81; 4096]), Err(NotCanonical::TooDeep));
}

#[test]
fn a_key_or_kind_of_a_newer_version_is_named_as_unknown() {
    let fact = Fact::from(provenohm_logbook::entry::Body::from(JobNames {
        job: JOB,
        name: "Workshop".into(),
        place: String::new(),
    }));
    let Value::Map(mut frame) = Value::decode(&fact.encode()).unwrap() else { panic!() };
    let Value::Map(content) = &mut frame[2].1 else { panic!() };
    content.push((9, Value::Bool(true)));
    let newer = Value::Map(frame).encode();
    assert_eq!(Fact::decode(Kind::JobNames.number(), 1, &newer), Err(Malformed::UnknownKey(9)));
    let unknown = Fact::decode(Kind::JobNames.number(), 2, &fact.encode());
    assert_eq!(unknown, Err(Malformed::UnknownKind { kind: Kind::JobNames.number(), version: 2 }));
    assert!(Fact::decode(4711, 1, &fact.encode()).is_err());
}

#[test]
fn a_moment_is_kept_to_the_millisecond_with_its_offset() {
    let precise = chrono::DateTime::parse_from_rfc3339("2026-11-25T09:00:00.123456789+05:45").unwrap();
    let kept = time::kept(&precise);
    assert_eq!(kept.to_rfc3339(), "2026-11-25T09:00:00.123+05:45");
    assert_eq!(chrono::DateTime::from_value(kept.to_value()).unwrap().to_rfc3339(), kept.to_rfc3339());
    // Before 1970 and west of Greenwich.
    let early = chrono::DateTime::parse_from_rfc3339("1969-12-31T20:00:00.001-03:30").unwrap();
    assert_eq!(chrono::DateTime::from_value(early.to_value()).unwrap().to_rfc3339(), early.to_rfc3339());
}

#[test]
fn a_book_is_named_by_its_job_or_tester() {
    assert_eq!(Book::from_value(Book::from(JOB).to_value()), Ok(JOB.into()));
    assert_eq!(Book::from_value(Book::from(support::TESTER).to_value()), Ok(support::TESTER.into()));
}

fn value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        any::<i64>().prop_map(Value::Int),
        any::<Vec<u8>>().prop_map(Value::Bytes),
        any::<String>().prop_map(Value::Text),
        any::<bool>().prop_map(Value::Bool),
    ];
    leaf.prop_recursive(5, 64, 8, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..8).prop_map(Value::Array),
            prop::collection::btree_map(any::<u64>(), inner, 0..8)
                .prop_map(|pairs| Value::Map(pairs.into_iter().collect())),
        ]
    })
}

proptest! {
    #[test]
    fn values_read_back_the_same(value in value()) {
        prop_assert_eq!(Value::decode(&value.encode()), Ok(value));
    }

    #[test]
    fn what_is_read_is_what_would_be_written(bytes in prop::collection::vec(any::<u8>(), 0..64)) {
        if let Ok(value) = Value::decode(&bytes) {
            prop_assert_eq!(value.encode(), bytes);
        }
    }

    #[test]
    fn no_bytes_break_the_reader(bytes in prop::collection::vec(any::<u8>(), 0..512)) {
        let _ = Entry::from_wire(&bytes);
        for kind in Kind::ALL {
            let _ = Fact::decode(kind.number(), 1, &bytes);
        }
    }

    #[test]
    fn no_altered_body_breaks_the_reader(sample in 0usize..64, place in 0usize..4096, byte: u8) {
        let facts = samples::all();
        let fact = &facts[sample % facts.len()].1;
        let mut bytes = fact.encode();
        let place = place % bytes.len();
        bytes[place] = byte;
        if let Ok(read) = Fact::decode(fact.body.kind().number(), 1, &bytes) {
            prop_assert_eq!(read.encode(), bytes);
        }
    }

    #[test]
    fn digits_keep_their_zeros(mantissa in 0u32..100_000, decimals in 0u8..5, more in 0usize..3, unit in 0usize..4) {
        let digits = Digits::new(mantissa, decimals);
        prop_assume!(digits.is_some());
        let shown = Shown {
            comparator: [Comparator::Exact, Comparator::MoreThan, Comparator::LessThan][more],
            digits: digits.unwrap(),
            unit: [Unit::Ohm, Unit::KiloOhm, Unit::MegaOhm, Unit::GigaOhm][unit],
        };
        prop_assert_eq!(Shown::from_value(shown.to_value()), Ok(shown));
    }

    #[test]
    fn decimals_keep_their_scale(mantissa in -(1i128 << 95)..(1i128 << 95), scale in 0u32..=28) {
        let ohms = Ohms(Decimal::from_i128_with_scale(mantissa, scale));
        let read = Ohms::from_value(Value::decode(&ohms.to_value().encode()).unwrap()).unwrap();
        prop_assert_eq!(read.0.serialize(), ohms.0.serialize());
    }
}

/// The vectors that `schemas/entry.cddl` is published with.
fn vectors() -> String {
    let hex = |bytes: &[u8]| {
        bytes.iter().fold(String::new(), |mut text, byte| {
            write!(text, "{byte:02x}").unwrap();
            text
        })
    };
    let mut rows = Vec::new();
    for (seq, (name, fact)) in (0u64..).zip(samples::all()) {
        let entry = entry_of(&fact, seq);
        let (salt, body) = entry.body().unwrap();
        rows.push(format!(
            "  {{\n    \"name\": \"{name}\",\n    \"kind\": {},\n    \"envelope\": \"{}\",\n    \"salt\": \"{}\",\n    \"body\": \"{}\",\n    \"hash\": \"{}\"\n  }}",
            entry.envelope().kind,
            hex(entry.envelope_bytes()),
            hex(&salt.0),
            hex(body),
            entry.hash(),
        ));
    }
    format!("[\n{}\n]\n", rows.join(",\n"))
}

/// `PROVENOHM_WRITE=1` writes them anew: only ever to add kinds, as the bytes of known ones are frozen.
#[test]
fn the_published_vectors_hold() {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../schemas/entry.vectors.json");
    if std::env::var_os("PROVENOHM_WRITE").is_some() {
        std::fs::write(&file, vectors()).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&file).unwrap(), vectors());
}
