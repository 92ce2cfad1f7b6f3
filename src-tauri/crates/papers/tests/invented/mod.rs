//! An invented schedule, for the tests and the sample documents. Nothing in it was measured anywhere.
#![allow(dead_code, unreachable_pub, clippy::unwrap_used, clippy::expect_used)]

pub mod every_text;

use chrono::{DateTime, Duration};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, ReadingId, TesterId, VerificationId};
use provenohm_assess::judgement::{TesterState, Value};
use provenohm_assess::limits::Tag;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Shown, Unit, Volts};
use provenohm_papers::report::{
    Board, Circuit, Correction, Digest, Fact, Fate, Finding, FindingPlace, JobHead, Limit, LimitSetHead, Line, Missing,
    NotTested, Past, Reading, Schedule, Sign, Signature, Tester, Verification,
};
use rust_decimal::Decimal;
use uuid::Uuid;

/// The conductor kinds of the large job: what is written about them, and their pairs with lives joined to earth or singly.
const KINDS: [(&str, &str, &str, &[&str]); 4] = [
    ("230 V a.c.", "none", "L, N, PE", &["L–N", "L+N – PE"]),
    (
        "400/230 V a.c.",
        "none",
        "L1, L2, L3, N, PE",
        &["L1–L2", "L2–L3", "L1–L3", "L1–N", "L2–N", "L3–N", "L1+L2+L3+N – PE"],
    ),
    ("400 V a.c.", "none", "L1, L2, L3, PE", &["L1–L2", "L2–L3", "L1–L3", "L1+L2+L3 – PE"]),
    ("24 V d.c.", "SELV", "L+, L−", &["L+ and L− – earth", "L+ and L− – other circuits"]),
];

pub fn at(minutes: i64) -> Moment {
    DateTime::parse_from_rfc3339("2026-11-25T08:00:00+01:00").unwrap() + Duration::minutes(minutes)
}

pub fn id(number: usize) -> ReadingId {
    ReadingId(Uuid::from_u128(number as u128))
}

pub fn tester_id(number: u128) -> TesterId {
    TesterId(Uuid::from_u128(number))
}

pub fn board_id(number: usize) -> BoardId {
    BoardId(Uuid::from_u128(number as u128))
}

fn circuit_id(number: usize) -> CircuitId {
    CircuitId(Uuid::from_u128(number as u128))
}

pub fn shown(comparator: Comparator, digits: &str, unit: Unit) -> Shown {
    Shown { comparator, digits: Digits::try_from(digits.to_owned()).unwrap(), unit }
}

pub fn reading(number: usize, pair: &str, shown: Shown, minutes: i64) -> Reading {
    Reading {
        id: id(number),
        sign: Sign::Done,
        pair: pair.to_owned(),
        stage: None,
        shown,
        test_voltage_v: Volts(Decimal::from(500)),
        limit: Some(Limit {
            minimum_ohm: Ohms(Decimal::from(1_000_000)),
            source: "IEC 60364-6:2016, Table 6.1".to_owned(),
            tag: Tag::Seen,
        }),
        value: Value::Meets,
        judgement: "meets 1.0 MΩ at 500 V".to_owned(),
        remarks: Vec::new(),
        tester: Some(tester_id(1)),
        state: TesterState::Proved,
        tester_state: "proved".to_owned(),
        tester_sign: Sign::Done,
        taken_at: at(minutes),
        person: "A. Recorder".to_owned(),
        corrections: Vec::new(),
        accepted: None,
    }
}

fn tester(number: u128, name: &str, sign: Sign, state: &str) -> Tester {
    Tester {
        id: tester_id(number),
        name: name.to_owned(),
        serial: format!("INV-{number:04}"),
        card: vec!["250 V to 500 MΩ, 500 V to 999 MΩ, 1000 V to 2 GΩ; ±(3 % + 2 digits)".to_owned()],
        state: state.to_owned(),
        sign,
        verifications: vec![Verification {
            id: VerificationId(Uuid::from_u128(number)),
            sentence: "Laboratory calibration of 3 Mar 2026 by an invented laboratory, certificate INV-26-118, valid to 3 Mar 2027"
                .to_owned(),
            statements: vec![
                "250 V: as found good; indications hold from 0.1 MΩ to 500 MΩ".to_owned(),
                "500 V: as found good; indications hold from 0.1 MΩ to 999 MΩ".to_owned(),
                "1000 V: as found good; indications hold from 0.5 MΩ to 2 GΩ".to_owned(),
            ],
            recorded_at: at(-40_000),
            recorded_by: "B. Office".to_owned(),
        }],
        remarks: vec!["Leads shorted and open: good, 25 Nov 2026 08:02".to_owned()],
    }
}

/// A small job with one of everything.
pub fn small() -> Schedule {
    let mut over = reading(1, "L–N", shown(Comparator::MoreThan, "999", Unit::MegaOhm), 12);
    over.remarks.push("Leads not checked that day".to_owned());
    let kept_zero = reading(2, "L–PE", shown(Comparator::Exact, "1.20", Unit::MegaOhm), 13);
    let mut below = reading(3, "N–PE", shown(Comparator::Exact, "0.05", Unit::MegaOhm), 14);
    below.sign = Sign::Look;
    below.value = Value::Below;
    below.judgement = "below 1.0 MΩ at 500 V".to_owned();
    below.tester_sign = Sign::Look;
    below.tester = Some(tester_id(2));
    below.state = TesterState::NotProved;
    below.tester_state = "not proved".to_owned();
    let mut stop = reading(4, "L1+L2+L3 – PE", shown(Comparator::Exact, "487.5", Unit::MegaOhm), 20);
    stop.sign = Sign::Stop;
    stop.tester_sign = Sign::Stop;
    stop.tester = None;
    stop.state = TesterState::NotChosen;
    stop.tester_state = "no tester chosen".to_owned();
    let mut reduced = reading(5, "L1–L2", shown(Comparator::LessThan, "12.3", Unit::KiloOhm), 21);
    reduced.test_voltage_v = Volts(Decimal::from(250));
    reduced.sign = Sign::Look;
    reduced.value = Value::Below;
    reduced.judgement = "below 1.0 MΩ at 250 V".to_owned();
    reduced.remarks = vec!["Taken at 250 V as the set allows: a surge protector stays connected".to_owned()];
    reduced.corrections = vec![Correction {
        sentence: "Test voltage was 500 V, is 250 V".to_owned(),
        reason: "misread on the tester".to_owned(),
        person: "A. Recorder".to_owned(),
        at: at(50),
    }];
    let giga = reading(6, "L2–L3", shown(Comparator::Exact, "1.52", Unit::GigaOhm), 22);
    let mut repaired = reading(0, "N–PE", shown(Comparator::Exact, "0.03", Unit::MegaOhm), 10);
    repaired.sign = Sign::Look;
    repaired.value = Value::Below;
    repaired.judgement = "below 1.0 MΩ at 500 V".to_owned();
    repaired.tester_sign = Sign::Look;
    repaired.tester = Some(tester_id(2));
    repaired.state = TesterState::NotProved;
    repaired.tester_state = "not proved".to_owned();
    let past = Past {
        reading: repaired,
        fate: Fate::Replaced { by: id(3) },
        reason: "repaired, tested again".to_owned(),
        person: "A. Recorder".to_owned(),
        at: at(14),
    };
    let withdrawn = Past {
        reading: reading(9, "L–N", shown(Comparator::Exact, "48.7", Unit::MegaOhm), 9),
        fate: Fate::Withdrawn,
        reason: "taken on the wrong circuit".to_owned(),
        person: "A. Recorder".to_owned(),
        at: at(11),
    };
    let first = Circuit {
        ids: vec![circuit_id(1)],
        reference: "7".to_owned(),
        description: "Sockets, east wall".to_owned(),
        nominal: "230 V a.c.".to_owned(),
        measure: "automatic disconnection".to_owned(),
        supply: None,
        conductors: "L, N, PE".to_owned(),
        conditions: vec!["Loads out; N isolated from PE".to_owned()],
        notes: vec!["Junction box behind the panel, opened for the test.".to_owned()],
        lines: vec![Line::Reading(Box::new(over)), Line::Reading(Box::new(kept_zero)), Line::Reading(Box::new(below))],
        past: vec![past, withdrawn],
    };
    let second = Circuit {
        ids: vec![circuit_id(2)],
        reference: "8".to_owned(),
        description: "Oven".to_owned(),
        nominal: "400 V a.c.".to_owned(),
        measure: "automatic disconnection".to_owned(),
        supply: None,
        conductors: "L1, L2, L3, PE".to_owned(),
        conditions: vec!["Surge protector stays connected".to_owned()],
        notes: Vec::new(),
        lines: vec![
            Line::Reading(Box::new(reduced)),
            Line::Reading(Box::new(giga)),
            Line::NotTested(NotTested {
                pair: "L1–L3".to_owned(),
                reason: "no access".to_owned(),
                said_at: at(23),
                person: "A. Recorder".to_owned(),
                accepted: None,
            }),
            Line::Missing(Missing { pair: "L1–PE".to_owned() }),
            Line::Reading(Box::new(stop)),
        ],
        past: Vec::new(),
    };
    Schedule {
        findings: vec![
            finding(Sign::Stop, "1 reading has no tester", &[("8", "L1+L2+L3 – PE", 4)]),
            finding(Sign::Look, "2 readings are below their limit", &[("7", "N–PE", 3), ("8", "L1–L2", 5)]),
            because(
                finding(Sign::Look, "1 reading was taken at a reduced voltage", &[("8", "L1–L2", 5)]),
                "surge protectors cannot practicably be disconnected",
            ),
            Finding {
                sign: Sign::ToDo,
                sentence: "1 required pair is missing".to_owned(),
                places: vec![finding_place("8", "L1–PE", None)],
            },
        ],
        boards: vec![
            Board {
                id: board_id(1),
                name: "DB-1".to_owned(),
                place: Some("Plant room".to_owned()),
                circuits: vec![first, second],
            },
            Board { id: board_id(2), name: "DB-2".to_owned(), place: None, circuits: Vec::new() },
        ],
        ..empty()
    }
}

fn finding(sign: Sign, sentence: &str, places: &[(&str, &str, usize)]) -> Finding {
    let place = |(circuit, pair, reading): &(&str, &str, usize)| finding_place(circuit, pair, Some(id(*reading)));
    Finding { sign, sentence: sentence.to_owned(), places: places.iter().map(place).collect() }
}

/// The same finding with a reason at each of its places.
fn because(mut finding: Finding, reason: &str) -> Finding {
    finding.places.iter_mut().for_each(|place| place.reason = Some(reason.to_owned()));
    finding
}

fn finding_place(circuit: &str, pair: &str, reading: Option<ReadingId>) -> FindingPlace {
    FindingPlace {
        board: "DB-1".to_owned(),
        circuit: circuit.to_owned(),
        place: format!("DB-1 · {circuit} · {pair}"),
        reading,
        reason: None,
    }
}

/// A job with no board.
pub fn empty() -> Schedule {
    Schedule {
        language: "en".to_owned(),
        demo: true,
        as_of: at(600),
        offset_minutes: 60,
        job: JobHead {
            id: JobId(Uuid::from_u128(1)),
            name: "Invented works, hall 2".to_owned(),
            place: Some("Invented street 1, Nowhere".to_owned()),
            facts: vec![Fact { label: "Recorded by".to_owned(), text: "A. Recorder".to_owned() }],
        },
        limit_set: LimitSetHead {
            id: "iec-60364-6-2016".to_owned(),
            title: "IEC 60364-6:2016, Table 6.1".to_owned(),
            version: "1".to_owned(),
            sha256: "ab".repeat(32),
        },
        policies: vec![
            Fact { label: "Value".to_owned(), text: "simple: a reading at the limit meets it".to_owned() },
            Fact {
                label: "Tester".to_owned(),
                text: "usual: indications hold and no requirement is known to fail".to_owned(),
            },
        ],
        rules_version: 1,
        findings: Vec::new(),
        testers: vec![
            tester(1, "Tester A", Sign::Done, "proved"),
            Tester { verifications: Vec::new(), ..tester(2, "Tester B", Sign::Look, "not proved") },
        ],
        cautions_read: vec!["Read and confirmed by A. Recorder, 25 Nov 2026 08:01".to_owned()],
        boards: Vec::new(),
        record: None,
        signatures: Vec::new(),
    }
}

/// `count` circuits of four conductor kinds on boards of 60; every reading's digits are different.
pub fn large(count: usize) -> Schedule {
    let mut serial = 0_usize;
    let circuits: Vec<Circuit> = (0..count).map(|index| circuit(index, &mut serial)).collect();
    let boards = circuits.chunks(60).enumerate().map(|(index, circuits)| Board {
        id: board_id(index),
        name: format!("DB-{}", index + 1),
        place: Some(format!("Riser {}", index + 1)),
        circuits: circuits.to_vec(),
    });
    Schedule { boards: boards.collect(), ..empty() }
}

fn circuit(index: usize, serial: &mut usize) -> Circuit {
    let (nominal, measure, conductors, pairs) = KINDS[index % KINDS.len()];
    let mut next = |pair: &str| {
        *serial += 1;
        let minutes = i64::try_from(*serial).unwrap();
        // Digits run on without regard to the limit, so no judgement is claimed for them.
        let judgement = "invented, not judged".to_owned();
        let value = Value::CannotBeJudged;
        Reading { value, judgement, ..reading(*serial, pair, distinct(*serial), minutes) }
    };
    let mut lines: Vec<Reading> = pairs.iter().map(|pair| next(pair)).collect();
    let mut past = Vec::new();
    // Of every third circuit one reading was replaced, of every fifth one withdrawn, of every seventh one corrected.
    if index.is_multiple_of(3) {
        past.push(gone(next(pairs[0]), Fate::Replaced { by: lines[0].id }, "mistyped"));
    }
    if index.is_multiple_of(5) {
        past.push(gone(next(pairs[1]), Fate::Withdrawn, "taken on the wrong circuit"));
    }
    if index.is_multiple_of(7) {
        lines[1].corrections.push(Correction {
            sentence: "Tester was Tester B".to_owned(),
            reason: "wrong one chosen".to_owned(),
            person: "A. Recorder".to_owned(),
            at: at(9_000),
        });
    }
    Circuit {
        ids: vec![circuit_id(index)],
        reference: (index % 60 + 1).to_string(),
        description: format!("Invented load {}", index + 1),
        nominal: nominal.to_owned(),
        measure: measure.to_owned(),
        supply: None,
        conductors: conductors.to_owned(),
        conditions: Vec::new(),
        notes: Vec::new(),
        lines: lines.into_iter().map(|reading| Line::Reading(Box::new(reading))).collect(),
        past,
    }
}

fn gone(reading: Reading, fate: Fate, reason: &str) -> Past {
    let at = reading.taken_at + Duration::minutes(3);
    Past { reading, fate, reason: reason.to_owned(), person: "A. Recorder".to_owned(), at }
}

/// The serial-th of a run of readings that all look different, in every comparator and unit.
fn distinct(serial: usize) -> Shown {
    let comparator = [Comparator::Exact, Comparator::MoreThan, Comparator::Exact, Comparator::LessThan][serial % 4];
    let unit = [Unit::MegaOhm, Unit::KiloOhm, Unit::GigaOhm][serial % 3];
    let digits = match serial % 5 {
        0 => format!("{}.{:02}", 100 + serial / 100, serial % 100),
        1 => format!("{}.{:03}", serial / 1000, serial % 1000),
        2 => format!("{}.{}", 1000 + serial / 10, serial % 10),
        _ => format!("{}", 10_000 + serial),
    };
    shown(comparator, &digits, unit)
}

/// The small job, signed; the paper is what was signed.
pub fn signed() -> Schedule {
    let schedule = Schedule { record: Digest::named(&"3f".repeat(32)), ..small() };
    let model = schedule.digest().unwrap();
    let signature = Signature {
        number: 1,
        name: "A. Reviewer".to_owned(),
        at: at(700),
        model,
        after: 0,
        in_doubt: 0,
        entries: vec!["AAAA".repeat(200)],
    };
    Schedule { signatures: vec![signature], ..schedule }
}
