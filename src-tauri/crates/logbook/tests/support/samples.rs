//! One fact of every kind that has a content, with every field filled, and some with all that may be absent left out.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, dead_code, unreachable_pub)]

use super::{
    BOARD, CIRCUIT, JOB, OTHER_PERSON, OTHER_TESTER, PERSON, TESTER, electrical, id, moment, pair, reading, shown,
};
use chrono::NaiveDate;
use provenohm_assess::bench::{
    BenchRun, Conditions as BenchConditions, DecisionRule, EditionId, LoadReading, LoadRole, LookedAt, Measured,
    MeasuredWhat, MeterReading, PlannedPoint, PlannedWhat, Polarity, Resistor, Series, Supply, TesterLook,
    TesterPosition, Warmth,
};
use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Electrical, End, Item, Loads, Location, Measure, Nominal, Pair, Stage, Terminal,
};
use provenohm_assess::ids::{
    BenchId, CheckId, CircuitId, DamageId, DeviceId, MeasuredId, NoteId, ReadingId, ReferenceId, VerificationId,
};
use provenohm_assess::limits::{ReducedReason, SetId, SetName, Tag};
use provenohm_assess::moment::{Moment, When};
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::{Amps, Celsius, CoverageFactor, Ohms, Percent, PpmPerKelvin, PpmPerVolt, Volts};
use provenohm_assess::reading::{Conditions, NotTestedReason};
use provenohm_assess::recall::FailingEntry;
use provenohm_assess::reference::{CurrentRange, KnownResistance, Reference, ReferenceKind, Stated, VoltageRange};
use provenohm_assess::tester::{
    Card, Conforms, Damage, Holds, Interval, LeadCheck, LeadEnd, Outcome, Point, ProofKind, QuickCheck, Range, Ranging,
    Requirement, RequirementName, RequirementResult, Statement, VoltageAtLoad, VoltageCard, VoltageFinding,
};
use provenohm_logbook::entry::body::{
    Accepted, AcceptedOf, Attachment, BenchOpened, BoardNames, BoardOrder, BoardPeople, BoardPresent, CautionsRead,
    CircuitElectrical, CircuitLabel, CircuitOrder, CircuitPlace, CircuitPresent, Correction, CutEnd, DeviceKnown,
    Different, Erasure, JobNames, JobOpened, JobPeople, JobPerson, JobRules, LogOpened, MeasuredAt, NotTested, Note,
    OpenedWhy, Origin, Person, ReadingTaken, RecallResolved, ReferenceCard, ReplacedWhy, Request, SameCircuit,
    SamePerson, SameTester, Sealed, Settlement, SignOff, TesterCard, TesterIdentity, VerificationMade, Withdrawal,
};
use provenohm_logbook::entry::{Body, Bytes, EntryRef, Fact, Hash, LogId, Noun, Object, ObjectId, Role, Seq};
use rust_decimal::Decimal;
use uuid::Uuid;

pub fn reference(number: u128) -> EntryRef {
    EntryRef { log: LogId(id(0x70 + number)), seq: Seq(3), short: [1, 2, 3, 4, 5, 6, 7, 8] }
}

fn job() -> Object {
    Object { noun: Noun::Job, id: ObjectId(JOB.0) }
}

fn ohms(value: i64) -> Ohms {
    Ohms(value.into())
}

fn full_electrical() -> Electrical {
    Electrical {
        nominal: Nominal { volts: Volts(24.into()), current: Current::Dc, to_earth: Some(Volts(12.into())) },
        measure: Measure::Felv { supply: Nominal { volts: Volts(230.into()), current: Current::Ac, to_earth: None } },
        conductors: Conductors::DcMidpoint,
        loads: Loads::Electronics,
        joined_to_earth: true,
        spd_stays: true,
        item: Some(Item::HeatingElement),
        location: Some(Location::Wet),
    }
}

fn group() -> Pair {
    let live = |conductor| Terminal::Live { circuit: CIRCUIT, conductor };
    Pair { a: End([live(Conductor::L), live(Conductor::N)].into()), b: End([Terminal::OtherCircuits].into()) }
}

fn point(tenths_of_a_percent: Option<i64>) -> Point {
    Point {
        reference_ohm: Ohms(Decimal::new(10_030_005, 1)),
        indicated: shown(101),
        good: false,
        error_uncertainty_percent: tenths_of_a_percent.map(|tenths| Percent(Decimal::new(tenths, 1))),
    }
}

fn statement() -> Statement {
    Statement {
        outcome: Outcome::Failed,
        conforms: Conforms::NotAllTested,
        edition: Some("IEC 61557-2:2019".into()),
        holds: Holds::In(vec![Interval { from_ohm: ohms(500_000), to_ohm: ohms(1_000_000_000), conditional: false }]),
        requirements: vec![Requirement {
            name: RequirementName::RatedCurrent,
            result: RequirementResult::NotMet,
            tag: Tag::MemoryHigh,
        }],
        points: vec![point(None)],
        voltages: Vec::new(),
        undecided: Vec::new(),
        leads_shorted_good: true,
        operating_uncertainty_percent: Some(Percent(Decimal::new(91_464, 4))),
        expanded_uncertainty_percent: Some(Percent(Decimal::new(12, 1))),
    }
}

fn verification() -> VerificationMade {
    VerificationMade {
        id: VerificationId(id(0x60)),
        tester: TESTER,
        kind: ProofKind::Calibration,
        made: When::Day { date: NaiveDate::from_ymd_opt(2026, 3, 3).unwrap(), offset_minutes: 60 },
        valid_until: NaiveDate::from_ymd_opt(2027, 3, 3),
        by: "Laboratory A".into(),
        certificate: Some("A-1".into()),
        adjusted: true,
        overall: Outcome::NotStated,
        bench: None,
        findings: vec![VoltageFinding {
            test_voltage_v: Volts(500.into()),
            as_found: Some(statement()),
            as_left: Some(Statement::default()),
        }],
    }
}

fn card() -> Card {
    Card {
        voltages: vec![VoltageCard {
            test_voltage_v: Volts(500.into()),
            ranges: vec![Range {
                from_ohm: ohms(10_000),
                to_ohm: ohms(999_000_000),
                resolution_ohm: ohms(10_000),
                accuracy_percent: Some(Percent(Decimal::new(30, 1))),
                accuracy_digits: Some(2),
            }],
            over_range: Some(shown(999)),
            operating_uncertainty_percent: Some(Percent(30.into())),
        }],
        conforms_iec_61557_2: true,
        shorted_up_to: Some(shown(2)),
        interval_months: None,
        ranging: None,
    }
}

/// Name and fact.
pub fn all() -> Vec<(&'static str, Fact)> {
    let set = b"[set]".to_vec();
    let plain = |body: Body| Fact::from(body);
    vec![
        (
            "log opened",
            plain(
                LogOpened {
                    book: JOB.into(),
                    device: DeviceId(id(0x80)),
                    key: [7; 32],
                    why: OpenedWhy::Restored,
                    after: Some(reference(0)),
                }
                .into(),
            ),
        ),
        ("seal", plain(Sealed { seq: Seq(300), head: Hash([9; 32]), signature: [5; 64] }.into())),
        (
            "withdrawal",
            Fact::naming(Withdrawal { about: vec![job()] }, Role::Withdraws, [reference(1), reference(0)])
                .because("wrong circuit"),
        ),
        (
            "settlement",
            Fact::naming(Settlement { about: vec![job()] }, Role::Keeps, [reference(0)])
                .and_naming(Role::SetsAside, [reference(1)]),
        ),
        (
            "erasure",
            Fact::naming(Erasure { about: vec![job()] }, Role::Erases, [reference(0)]).because("asked by the person"),
        ),
        (
            "attachment",
            plain(
                Attachment { of: job(), sha256: Hash([3; 32]), size: 70_000, media_type: "image/jpeg".into() }.into(),
            ),
        ),
        ("person", plain(Person { person: PERSON, name: "Recorder Ä".into(), role: "recorder".into() }.into())),
        ("same person", plain(SamePerson { one: PERSON, other: OTHER_PERSON }.into())),
        ("same tester", plain(SameTester { one: TESTER, other: OTHER_TESTER }.into())),
        ("note", plain(Note { note: NoteId(id(0x61)), of: job(), text: "Ω".into(), person: None, at: None }.into())),
        ("device known", plain(DeviceKnown { job: JOB, device: DeviceId(id(0x80)), key: [9; 32] }.into())),
        (
            "job opened",
            plain(JobOpened { job: JOB, origin: Origin::FromFile { sha256: Hash([4; 32]), invented: true } }.into()),
        ),
        ("job names", plain(JobNames { job: JOB, name: "Workshop".into(), place: "Hall 2".into() }.into())),
        (
            "job rules",
            plain(
                JobRules {
                    job: JOB,
                    set: SetName { id: SetId("own-set".into()), version: 2, sha256: Hash::of(&[&set]).to_string() },
                    bytes: Bytes(set),
                    policies: Policies {
                        value: ValuePolicy::Guarded,
                        tester: TesterPolicy::Full,
                        quick_check_days: None,
                    },
                }
                .into(),
            )
            .because("the client asks for guarded values"),
        ),
        (
            "job people",
            plain(JobPeople { job: JOB, people: vec![JobPerson { person: PERSON, part: "recorder".into() }] }.into()),
        ),
        ("cautions read", plain(CautionsRead { job: JOB, person: PERSON, version: 1 }.into())),
        ("board order", plain(BoardOrder { job: JOB, boards: vec![BOARD] }.into())),
        ("board names", plain(BoardNames { job: JOB, board: BOARD, name: "DB-1".into(), place: "Hall".into() }.into())),
        ("board present", plain(BoardPresent { job: JOB, board: BOARD, present: false, known: Vec::new() }.into())),
        ("circuit order", plain(CircuitOrder { job: JOB, board: BOARD, circuits: vec![CIRCUIT] }.into())),
        (
            "circuit label",
            plain(
                CircuitLabel { job: JOB, circuit: CIRCUIT, reference: "7".into(), description: "Oven".into() }.into(),
            ),
        ),
        (
            "circuit electrical, all",
            plain(CircuitElectrical { job: JOB, circuit: CIRCUIT, electrical: full_electrical() }.into()),
        ),
        (
            "circuit electrical, least",
            plain(CircuitElectrical { job: JOB, circuit: CIRCUIT, electrical: electrical() }.into()),
        ),
        ("circuit place", plain(CircuitPlace { job: JOB, circuit: CIRCUIT, board: BOARD }.into())),
        (
            "circuit present",
            plain(CircuitPresent { job: JOB, circuit: CIRCUIT, present: true, known: Vec::new() }.into()),
        ),
        ("reading", plain(ReadingTaken { job: JOB, reading: reading(1, 120, 0), why: None }.into())),
        ("reading, replacing", {
            let mut taken = reading(2, 31, 5);
            taken.pair = group();
            taken.stage = Stage::After;
            taken.tester = None;
            taken.conditions = Conditions {
                loads: Loads::Connected,
                n_isolated: Some(false),
                reduced: Some(ReducedReason::SurgeProtector),
            };
            let body = ReadingTaken { job: JOB, reading: taken, why: Some(ReplacedWhy::Repeated) };
            Fact::naming(body, Role::Replaces, [reference(0)])
        }),
        (
            "correction",
            Fact::naming(
                Correction {
                    job: JOB,
                    readings: vec![reading(1, 0, 0).id],
                    tester: Some(OTHER_TESTER),
                    test_voltage_v: Some(Volts(250.into())),
                    at: Some(moment(-90)),
                    conditions: Some(Conditions::default()),
                },
                Role::Corrects,
                [reference(0)],
            )
            .and_naming(Role::Overrules, [reference(1)])
            .because("the clock was wrong"),
        ),
        (
            "not tested",
            plain(
                NotTested {
                    job: JOB,
                    pair: pair(),
                    stage: Stage::Before,
                    reason: NotTestedReason::Other,
                    words: Some("door locked".into()),
                    person: PERSON,
                    at: moment(2),
                    beside: vec![ReadingId(id(0x60))],
                }
                .into(),
            ),
        ),
        (
            "tester identity",
            plain(
                TesterIdentity {
                    tester: TESTER,
                    name: "Tester A".into(),
                    model: "IR-1".into(),
                    serial: "0042".into(),
                    invented: None,
                }
                .into(),
            ),
        ),
        ("tester card", plain(TesterCard { tester: TESTER, card: card() }.into())),
        ("tester card, empty", plain(TesterCard { tester: TESTER, card: Card::default() }.into())),
        ("verification", plain(verification().into())),
        (
            "verification, least",
            plain(
                VerificationMade {
                    made: When::At(moment(0)),
                    valid_until: None,
                    certificate: None,
                    adjusted: false,
                    findings: Vec::new(),
                    ..verification()
                }
                .into(),
            ),
        ),
        (
            "lead check",
            plain(
                LeadCheck {
                    id: CheckId(id(0x62)),
                    tester: TESTER,
                    leads: LeadEnd::Shorted,
                    shown: shown(0),
                    good: true,
                    person: PERSON,
                    at: moment(0),
                    job_started: Some(moment(-10)),
                }
                .into(),
            ),
        ),
        (
            "quick check",
            plain(
                QuickCheck {
                    id: CheckId(id(0x63)),
                    tester: TESTER,
                    test_voltage_v: Volts(500.into()),
                    from_ohm: ohms(500_000),
                    to_ohm: ohms(2_000_000),
                    good: false,
                    at: moment(0),
                    points: Vec::new(),
                }
                .into(),
            ),
        ),
        (
            "damage",
            plain(
                Damage {
                    id: DamageId(id(0x64)),
                    tester: TESTER,
                    happened: Some(moment(-60)),
                    found: moment(0),
                    what: "dropped".into(),
                }
                .into(),
            ),
        ),
        ("verification, from a bench", plain(verification().from_bench(BENCH).into())),
        ("reference, a resistor", plain(ReferenceCard { reference: resistor() }.into())),
        ("reference, a voltmeter", plain(ReferenceCard { reference: voltmeter() }.into())),
        ("reference, a current meter", plain(ReferenceCard { reference: current_meter() }.into())),
        ("bench run", plain(BenchOpened { run: run(), references: vec![resistor()] }.into())),
        ("measured, an indication", plain(measured(indication(), Series::AsFound).into())),
        ("measured, open circuit", plain(measured(open_circuit(), Series::AsLeft).into())),
        ("measured, at a load", plain(measured(at_load(), Series::AsFound).into())),
        (
            "measured, short circuit",
            plain(measured(MeasuredWhat::ShortCircuit { current: current() }, Series::AsFound).into()),
        ),
        ("measured, ripple", plain(measured(MeasuredWhat::Ripple { current: current() }, Series::AsFound).into())),
        (
            "measured, leads open",
            plain(measured(MeasuredWhat::LeadsOpen { shown: shown(999) }, Series::AsFound).into()),
        ),
        (
            "measured, leads shorted",
            plain(measured(MeasuredWhat::LeadsShorted { shown: shown(0) }, Series::AsFound).into()),
        ),
        ("measured, polarity", plain(measured(polarity(), Series::AsFound).into())),
        (
            "verification, with voltages",
            plain(
                VerificationMade {
                    findings: vec![VoltageFinding {
                        test_voltage_v: Volts(500.into()),
                        as_found: Some(Statement {
                            points: vec![point(Some(15))],
                            voltages: vec![VoltageAtLoad {
                                load_ohm: ohms(500_000),
                                measured_v: Volts(Decimal::new(4_875, 1)),
                                held: false,
                            }],
                            ..Statement::default()
                        }),
                        as_left: None,
                    }],
                    ..verification()
                }
                .into(),
            ),
        ),
        (
            "quick check, with points",
            plain(
                QuickCheck {
                    id: CheckId(id(0x65)),
                    tester: TESTER,
                    test_voltage_v: Volts(500.into()),
                    from_ohm: ohms(500_000),
                    to_ohm: ohms(2_000_000),
                    good: false,
                    at: moment(0),
                    points: vec![point(None)],
                }
                .into(),
            ),
        ),
        (
            "recall resolved",
            plain(
                RecallResolved {
                    job: JOB,
                    reading: reading(1, 120, 0).id,
                    entry: FailingEntry::Verification { id: VerificationId(id(0x60)) },
                    person: PERSON,
                    at: moment(3),
                }
                .into(),
            )
            .because("the circuit was taken out"),
        ),
        (
            "tester card, with its interval",
            plain(TesterCard { tester: TESTER, card: Card { interval_months: Some(6), ..Card::default() } }.into()),
        ),
        (
            "job rules, with quick checks",
            plain(
                JobRules {
                    job: JOB,
                    set: SetName { id: SetId("own-set".into()), version: 2, sha256: Hash::of(&[b"{}"]).to_string() },
                    bytes: Bytes(b"{}".to_vec()),
                    policies: Policies { quick_check_days: Some(7), ..Policies::default() },
                }
                .into(),
            ),
        ),
        (
            "verification, with a point not decided",
            plain(
                VerificationMade {
                    findings: vec![VoltageFinding {
                        test_voltage_v: Volts(500.into()),
                        as_found: Some(Statement { undecided: vec![point(Some(20))], ..Statement::default() }),
                        as_left: None,
                    }],
                    ..verification()
                }
                .into(),
            ),
        ),
        (
            "sign-off",
            plain(
                SignOff {
                    job: JOB,
                    number: 2,
                    person: PERSON,
                    name: "A. Reviewer".into(),
                    cut: vec![
                        CutEnd { log: LogId(id(0x71)), seq: Seq(9), hash: Hash([3; 32]), from: None },
                        CutEnd { log: LogId(id(0x72)), seq: Seq(20), hash: Hash([4; 32]), from: Some(Seq(15)) },
                    ],
                    limit_set: Hash([5; 32]),
                    rules: 1,
                    language: "en".into(),
                    model: Hash([7; 32]),
                }
                .into(),
            ),
        ),
        (
            "note, from a job file",
            plain(
                Note {
                    note: NoteId(id(0x62)),
                    of: job(),
                    text: "damp".into(),
                    person: Some(PERSON),
                    at: Some(moment(4)),
                }
                .into(),
            ),
        ),
        (
            "tester identity, invented",
            plain(
                TesterIdentity {
                    tester: TESTER,
                    name: "Tester A".into(),
                    model: "IR-1".into(),
                    serial: "0042".into(),
                    invented: Some(true),
                }
                .into(),
            ),
        ),
        (
            "request, of a reading",
            plain(request(vec![reading(1, 120, 0).id], Vec::new()).into()).because("far below the others"),
        ),
        (
            "request, of a pair not tested",
            plain(request(Vec::new(), vec![moment(2)]).into()).because("the door is open now"),
        ),
        (
            "accepted, a reading",
            plain(accepted(AcceptedOf::Reading { reading: reading(1, 120, 0).id }, &["far_below_others", "lapsed"]))
                .because("an old heating cable, measured twice"),
        ),
        (
            "accepted, not tested",
            plain(accepted(
                AcceptedOf::NotTested { pair: pair(), stage: Stage::Before, at: moment(2) },
                &["not_tested"],
            ))
            .because("the landlord has it tested"),
        ),
        ("board people", plain(BoardPeople { job: JOB, board: BOARD, people: vec![PERSON, OTHER_PERSON] }.into())),
        ("same circuit", plain(SameCircuit { job: JOB, one: CIRCUIT, other: CircuitId(id(0x41)) }.into())),
        ("different", {
            let circuit = |number| Object { noun: Noun::Circuit, id: ObjectId(id(number)) };
            plain(Different { one: circuit(0x41), other: circuit(0x42) }.into())
        }),
        ("circuit removed, knowing of a log", {
            let known = vec![CutEnd { log: LogId(id(0x71)), seq: Seq(9), hash: Hash([7; 32]), from: Some(Seq(2)) }];
            plain(CircuitPresent { job: JOB, circuit: CIRCUIT, present: false, known }.into())
        }),
        ("board removed, knowing of a log", {
            let known = vec![CutEnd { log: LogId(id(0x71)), seq: Seq(9), hash: Hash([7; 32]), from: None }];
            plain(BoardPresent { job: JOB, board: BOARD, present: false, known }.into())
        }),
        ("verification, with an interval on condition", {
            let mut statement = statement();
            let interval = Interval { from_ohm: ohms(500_000), to_ohm: ohms(1_000_000_000), conditional: true };
            statement.holds = Holds::In(vec![interval]);
            let finding =
                VoltageFinding { test_voltage_v: Volts(500.into()), as_found: Some(statement), as_left: None };
            plain(VerificationMade { findings: vec![finding], ..verification() }.into())
        }),
        ("tester card, with ranges set by hand", {
            let card = Card { ranging: Some(Ranging::Manual), ..Card::default() };
            plain(TesterCard { tester: TESTER, card }.into())
        }),
        ("bench run, with a point at the warm end", {
            let mut run = run();
            run.plan.truncate(1);
            run.plan.iter_mut().for_each(|point| point.warmth = Warmth::Warm);
            plain(BenchOpened { run, references: vec![resistor()] }.into())
        }),
    ]
}

const BENCH: BenchId = BenchId(Uuid::from_u128(0x65));
const RESISTOR: Resistor =
    Resistor { reference: ReferenceId(Uuid::from_u128(0x66)), nominal_ohm: Ohms(Decimal::ONE_HUNDRED) };

fn resistor() -> Reference {
    let value = KnownResistance {
        nominal_ohm: ohms(1_000_000),
        stated_ohm: ohms(1_003_000),
        within_percent: Some(Percent(Decimal::new(2, 1))),
        within_ohm: Some(ohms(50)),
        stated: Stated::Expanded { k: CoverageFactor(2.into()) },
        drift_percent: Some(Percent(Decimal::new(1, 1))),
        voltage_coefficient: Some(PpmPerVolt(5.into())),
        stated_at_v: Some(Volts(100.into())),
        temperature_coefficient: Some(PpmPerKelvin(25.into())),
        rated_voltage_v: Some(Volts(1_000.into())),
    };
    Reference {
        id: ReferenceId(id(0x66)),
        name: "Box 1".into(),
        serial: "B-1".into(),
        certificate: Some("R-7".into()),
        valid_until: NaiveDate::from_ymd_opt(2027, 1, 31),
        what: ReferenceKind::DecadeBox { values: vec![value] },
    }
}

fn voltmeter() -> Reference {
    let range = VoltageRange {
        nominal_v: Volts(1_000.into()),
        stated_v: Volts(Decimal::new(9_995, 1)),
        within_percent: Some(Percent(Decimal::new(5, 1))),
        within_v: Some(Volts(2.into())),
        stated: Stated::Tolerance,
        resolution_v: Some(Volts(1.into())),
        drift_percent: Some(Percent(Decimal::new(1, 1))),
    };
    Reference {
        id: ReferenceId(id(0x67)),
        name: "Voltmeter".into(),
        serial: String::new(),
        certificate: None,
        valid_until: None,
        what: ReferenceKind::Voltmeter { ranges: vec![range], input_resistance_ohm: ohms(10_000_000) },
    }
}

fn current_meter() -> Reference {
    let range = CurrentRange {
        nominal_a: Amps(Decimal::new(20, 3)),
        stated_a: Amps(Decimal::new(20, 3)),
        within_percent: Some(Percent(Decimal::new(5, 1))),
        within_a: Some(Amps(Decimal::new(1, 5))),
        stated: Stated::Tolerance,
        resolution_a: Some(Amps(Decimal::new(1, 5))),
        drift_percent: None,
    };
    let what = ReferenceKind::CurrentMeter { ranges: vec![range] };
    Reference { id: ReferenceId(id(0x68)), name: "Current meter".into(), what, ..voltmeter() }
}

fn run() -> BenchRun {
    let point = |item| PlannedPoint {
        test_voltage_v: Volts(500.into()),
        item,
        repeats: 3,
        supply: Supply::LowestBattery,
        position: TesterPosition::TurnedLeft,
        warmth: Warmth::Reference,
    };
    BenchRun {
        id: BENCH,
        tester: TESTER,
        references: vec![ReferenceId(id(0x66))],
        edition: EditionId("iec-61557-2-2019".into()),
        rule: DecisionRule::GuardPartU,
        adjusted: true,
        mark: Some("M-1".into()),
        look: TesterLook { case: LookedAt::Yes, leads: LookedAt::No, ..TesterLook::default() },
        by: "Bench B".into(),
        started: moment(0),
        plan: [
            PlannedWhat::Indication { resistor: RESISTOR },
            PlannedWhat::OpenCircuit { load: Some(RESISTOR) },
            PlannedWhat::RatedLoad { load: None },
            PlannedWhat::FurtherLoad { load: RESISTOR },
            PlannedWhat::ShortCircuit,
            PlannedWhat::LeadsOpen,
            PlannedWhat::LeadsShorted,
            PlannedWhat::Ripple,
            PlannedWhat::Polarity,
        ]
        .map(point)
        .into(),
    }
}

fn measured(item: MeasuredWhat, series: Series) -> MeasuredAt {
    let conditions =
        BenchConditions { temperature_c: Some(Celsius(Decimal::new(231, 1))), ..BenchConditions::default() };
    let (bench, test_voltage_v) = (BENCH, Volts(500.into()));
    let measured =
        Measured { id: MeasuredId(id(0x69)), bench, series, test_voltage_v, conditions, at: moment(5), item };
    MeasuredAt { tester: TESTER, measured }
}

fn indication() -> MeasuredWhat {
    MeasuredWhat::Indication { resistor: RESISTOR, across: Some(ReferenceId(id(0x67))), shown: shown(101) }
}

fn open_circuit() -> MeasuredWhat {
    let voltage = MeterReading { reference: ReferenceId(id(0x67)), shown: Volts(540.into()) };
    MeasuredWhat::OpenCircuit { load: Some(RESISTOR), voltage }
}

fn at_load() -> MeasuredWhat {
    MeasuredWhat::AtLoad(LoadReading {
        role: LoadRole::Rated,
        load: RESISTOR,
        voltage: Some(MeterReading { reference: ReferenceId(id(0x67)), shown: Volts(505.into()) }),
        current: Some(current()),
    })
}

fn current() -> MeterReading<Amps> {
    MeterReading { reference: ReferenceId(id(0x68)), shown: Amps(Decimal::new(101, 5)) }
}

fn polarity() -> MeasuredWhat {
    MeasuredWhat::Polarity { positive: Polarity::EarthPositive }
}

fn request(readings: Vec<ReadingId>, not_tested: Vec<Moment>) -> Request {
    Request { job: JOB, pair: pair(), stage: Stage::Before, readings, not_tested, person: PERSON, at: moment(4) }
}

fn accepted(of: AcceptedOf, codes: &[&str]) -> Body {
    let codes = codes.iter().map(|&code| code.to_owned()).collect();
    Accepted { job: JOB, of, codes, person: PERSON, at: moment(5) }.into()
}
