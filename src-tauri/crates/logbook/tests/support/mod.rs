//! A person, a clock and counted randomness, so that every run is the same.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, dead_code, unreachable_pub)]

pub mod samples;

use chrono::{DateTime, TimeDelta};
use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Electrical, End, Loads, Measure, Nominal, Pair, Stage, Terminal,
};
use provenohm_assess::ids::{BoardId, CircuitId, JobId, PersonId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Comparator, Digits, Shown, Unit, Volts};
use provenohm_assess::reading::{Conditions, Reading};
use provenohm_logbook::entry::body::{
    BoardNames, CircuitElectrical, CircuitLabel, CircuitPlace, JobNames, JobOpened, Origin, Person, ReadingTaken,
    ReplacedWhy, SignOff,
};
use provenohm_logbook::entry::{Body, EntryRef, Fact, Hash, Role};
use provenohm_logbook::random::NoRandomness;
use provenohm_logbook::record::{By, Receipt, Record, WriteError, Writer};
use uuid::Uuid;

/// Counted bytes in place of random ones.
pub struct Counted(u64);

impl Counted {
    pub fn from(seed: u64) -> Self {
        Self(seed)
    }

    pub fn fill(&mut self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        for byte in bytes {
            // splitmix64
            self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            *byte = (mixed >> 56) as u8;
        }
        Ok(())
    }
}

pub fn id(number: u128) -> Uuid {
    Uuid::from_u128(number)
}

pub const JOB: JobId = JobId(Uuid::from_u128(0x10));
pub const BOARD: BoardId = BoardId(Uuid::from_u128(0x20));
pub const TESTER: TesterId = TesterId(Uuid::from_u128(0x30));
pub const OTHER_TESTER: TesterId = TesterId(Uuid::from_u128(0x31));
pub const PERSON: PersonId = PersonId(Uuid::from_u128(0x40));
pub const OTHER_PERSON: PersonId = PersonId(Uuid::from_u128(0x41));
pub const CIRCUIT: CircuitId = CircuitId(Uuid::from_u128(0x50));

pub fn moment(minutes: i64) -> Moment {
    DateTime::parse_from_rfc3339("2026-11-25T09:00:00+01:00").unwrap() + TimeDelta::minutes(minutes)
}

/// A device with its record in memory, its own clock and its own counted bytes.
pub struct Hand {
    pub record: Record,
    pub random: Counted,
    pub minutes: i64,
    pub person: PersonId,
}

impl Hand {
    pub fn new(seed: u64) -> Self {
        let mut random = Counted::from(seed);
        let mut record = Record::in_memory(&mut |bytes: &mut [u8]| random.fill(bytes)).unwrap();
        record.keep_person(&Person { person: PERSON, name: "Recorder A".into(), role: "recorder".into() }).unwrap();
        record.keep_person(&Person { person: OTHER_PERSON, name: "Recorder B".into(), role: String::new() }).unwrap();
        Self { record, random, minutes: 0, person: PERSON }
    }

    pub fn write<T>(
        &mut self,
        change: impl FnOnce(&mut Writer<'_>) -> Result<T, WriteError>,
    ) -> Result<Receipt<T>, WriteError> {
        self.minutes += 1;
        let mut random = |bytes: &mut [u8]| self.random.fill(bytes);
        self.record.write(By { person: self.person, at: moment(self.minutes), random: &mut random }, change)
    }

    pub fn append(&mut self, fact: impl Into<Fact>) -> EntryRef {
        let fact = fact.into();
        self.write(|writer| writer.append(fact)).unwrap().value
    }

    pub fn undo(&mut self) -> bool {
        self.write(|writer| writer.undo(None)).unwrap().value.is_some()
    }

    /// A job with one board and one circuit.
    pub fn job(&mut self) {
        self.write(job).unwrap();
    }
}

/// A job with one board and one circuit.
pub fn job(writer: &mut Writer<'_>) -> Result<(), WriteError> {
    writer.append(Body::from(JobOpened { job: JOB, origin: Origin::Invented }))?;
    writer.append(Body::from(JobNames { job: JOB, name: "Workshop".into(), place: "Hall 2".into() }))?;
    writer.append(Body::from(BoardNames { job: JOB, board: BOARD, name: "DB-1".into(), place: String::new() }))?;
    circuit(writer, CIRCUIT, "1")
}

pub fn circuit(writer: &mut Writer<'_>, circuit: CircuitId, reference: &str) -> Result<(), WriteError> {
    writer.append(Body::from(CircuitLabel {
        job: JOB,
        circuit,
        reference: reference.into(),
        description: "Sockets".into(),
    }))?;
    writer.append(Body::from(CircuitElectrical { job: JOB, circuit, electrical: electrical() }))?;
    writer.append(Body::from(CircuitPlace { job: JOB, circuit, board: BOARD }))?;
    Ok(())
}

pub fn electrical() -> Electrical {
    Electrical {
        nominal: Nominal { volts: Volts(230.into()), current: Current::Ac, to_earth: None },
        measure: Measure::None,
        conductors: Conductors::SinglePhase,
        loads: Loads::Out,
        joined_to_earth: false,
        spd_stays: false,
        item: None,
        location: None,
    }
}

pub fn pair() -> Pair {
    let live = |conductor| End([Terminal::Live { circuit: CIRCUIT, conductor }].into());
    Pair { a: live(Conductor::L), b: End([Terminal::Earth].into()) }
}

pub fn shown(mantissa: u32) -> Shown {
    Shown { comparator: Comparator::Exact, digits: Digits::new(mantissa, 2).unwrap(), unit: Unit::MegaOhm }
}

pub fn reading(number: u128, mantissa: u32, minutes: i64) -> Reading {
    Reading {
        id: ReadingId(id(0x1_0000 + number)),
        shown: shown(mantissa),
        pair: pair(),
        stage: Stage::Before,
        test_voltage_v: Volts(500.into()),
        tester: Some(TESTER),
        person: PERSON,
        at: moment(minutes),
        conditions: Conditions::default(),
    }
}

pub fn taken(number: u128, mantissa: u32) -> Body {
    ReadingTaken { job: JOB, reading: reading(number, mantissa, 0), why: None }.into()
}

pub fn replacing(number: u128, mantissa: u32, replaced: EntryRef) -> Fact {
    let body = ReadingTaken { job: JOB, reading: reading(number, mantissa, 1), why: Some(ReplacedWhy::Repaired) };
    Fact::naming(body, Role::Replaces, [replaced])
}

/// Signs off all that is here of the job.
pub fn sign_off(hand: &mut Hand) -> EntryRef {
    let person = hand.person;
    let signed = hand.write(|writer| {
        let cut = writer.cut_to_sign(JOB, &[JOB.into()].into())?;
        let number = writer.next_sign_off(JOB)?;
        writer.sign_off(SignOff {
            job: JOB,
            number,
            person,
            name: "A. Reviewer".into(),
            cut,
            limit_set: Hash([5; 32]),
            rules: 1,
            language: "en".into(),
            model: Hash([7; 32]),
        })
    });
    signed.unwrap().value
}
