//! Readings, limits and testers for the tests.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, dead_code, unreachable_pub)]

use chrono::NaiveDate;
use provenohm_assess::circuit::{Conductor, End, Pair, Stage, Terminal};
use provenohm_assess::ids::{CircuitId, PersonId, ReadingId, TesterId, VerificationId};
use provenohm_assess::judgement::{
    Guard, Judgement, Level, MethodReason, TesterJudgement, TesterReason, TesterState, Value, ValueJudgement,
    ValueReason,
};
use provenohm_assess::limits::{Limit, Source, Tag};
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Shown, Unit, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_assess::tester::{Outcome, ProofEvent, ProofKind, TesterHistory, Verification};
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use uuid::Uuid;

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

pub fn moment(text: &str) -> Moment {
    Moment::parse_from_rfc3339(text).unwrap()
}

pub fn on(text: &str) -> When {
    When::Day { date: day(text), offset_minutes: 60 }
}

pub fn ohms(text: &str) -> Ohms {
    Ohms(text.parse().unwrap())
}

pub fn volts(volts: u32) -> Volts {
    Volts(Decimal::from(volts))
}

pub fn shown(comparator: Comparator, digits: &str, unit: Unit) -> Shown {
    Shown { comparator, digits: Digits::try_from(digits.to_owned()).unwrap(), unit }
}

pub fn megohms(digits: &str) -> Shown {
    shown(Comparator::Exact, digits, Unit::MegaOhm)
}

pub fn circuit(number: u128) -> CircuitId {
    CircuitId(Uuid::from_u128(number))
}

pub fn live(number: u128, conductor: Conductor) -> Terminal {
    Terminal::Live { circuit: circuit(number), conductor }
}

pub fn pair(a: &[Terminal], b: &[Terminal]) -> Pair {
    let end = |terminals: &[Terminal]| End(terminals.iter().copied().collect::<BTreeSet<_>>());
    let (a, b) = (end(a), end(b));
    if a <= b { Pair { a, b } } else { Pair { a: b, b: a } }
}

pub fn reading(shown: Shown, at_volts: u32) -> Reading {
    Reading {
        id: ReadingId(Uuid::from_u128(1)),
        shown,
        pair: pair(&[live(7, Conductor::L1)], &[Terminal::Earth]),
        stage: Stage::Before,
        test_voltage_v: volts(at_volts),
        tester: Some(TesterId(Uuid::from_u128(2))),
        person: PersonId(Uuid::from_u128(3)),
        at: moment("2026-11-25T10:42:00+01:00"),
        conditions: Conditions::default(),
    }
}

pub fn limit() -> Limit {
    Limit {
        minimum_ohm: ohms("1000000"),
        test_voltage_v: Some(volts(500)),
        set: "IEC 60364-6:2016".to_owned(),
        source: Source { title: "IEC 60364-6:2016".to_owned(), place: "Table 6.1".to_owned(), tag: Tag::Seen },
    }
}

pub fn judgement(value: Value, reason: ValueReason, limit: Option<Limit>, guard: Option<Guard>) -> Judgement {
    Judgement {
        value: ValueJudgement { value, reason, limit, guard },
        tester: tester_judgement(TesterState::NotProved, TesterReason::NothingOnRecord),
        method: Vec::new(),
        level: Level::Done,
        rules: 1,
    }
}

pub fn with_method(mut judgement: Judgement, reason: MethodReason) -> Judgement {
    judgement.method.push(reason);
    judgement
}

pub fn tester_judgement(state: TesterState, reason: TesterReason) -> TesterJudgement {
    TesterJudgement { tester: Some(TesterId(Uuid::from_u128(2))), state, reasons: vec![reason], remarks: Vec::new() }
}

pub fn verification_id(number: u128) -> VerificationId {
    VerificationId(Uuid::from_u128(number))
}

/// Verification 1 is a calibration with certificate C-17, 2 a calibration without a number, 3 a bench.
pub fn history() -> TesterHistory {
    let verification = |number, kind, certificate: Option<&str>| {
        ProofEvent::Verification(Verification {
            id: verification_id(number),
            tester: TesterId(Uuid::from_u128(2)),
            kind,
            made: on("2026-03-04"),
            valid_until: Some(day("2027-03-03")),
            by: "Laboratory".to_owned(),
            certificate: certificate.map(ToOwned::to_owned),
            adjusted: false,
            overall: Outcome::Good,
            findings: Vec::new(),
            recorded_at: moment("2026-03-05T09:00:00+01:00"),
        })
    };
    TesterHistory {
        tester: TesterId(Uuid::from_u128(2)),
        card: None,
        events: vec![
            verification(1, ProofKind::Calibration, Some("C-17")),
            verification(2, ProofKind::Calibration, None),
            verification(3, ProofKind::Bench, None),
        ],
        lead_checks: Vec::new(),
    }
}
