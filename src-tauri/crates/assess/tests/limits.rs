//! The limits of the sets that come with the program, each beside its source, and the pairs they require.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Electrical, End, Item, Loads, Measure, Nominal, Pair, PairKind, Stage,
};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{LimitSet, MeasureName, NoLimit, ReducedReason, Tag, Under, shipped};
use provenohm_assess::quantity::{Ohms, Volts};
use uuid::Uuid;

const CIRCUIT: CircuitId = CircuitId(Uuid::from_u128(1));
const OTHER: CircuitId = CircuitId(Uuid::from_u128(2));

fn set(id: &str) -> &'static LimitSet {
    let found = shipped().unwrap().iter().find(|loaded| loaded.set.id.0 == id);
    &found.unwrap_or_else(|| panic!("{id} is shipped")).set
}

fn volts(volts: u32) -> Volts {
    Volts(volts.into())
}

fn ac(between: u32, to_earth: u32) -> Nominal {
    Nominal { volts: volts(between), current: Current::Ac, to_earth: Some(volts(to_earth)) }
}

fn single_phase(measure: Measure) -> Electrical {
    let nominal = match measure {
        Measure::Selv | Measure::Pelv | Measure::Felv { .. } => ac(24, 24),
        Measure::None | Measure::Separation => ac(230, 230),
    };
    Electrical::new(nominal, measure, Conductors::SinglePhase)
}

fn three_phase(between: u32, to_earth: u32) -> Electrical {
    Electrical::new(ac(between, to_earth), Measure::None, Conductors::ThreePhaseN)
}

fn felv(supply: u32) -> Electrical {
    single_phase(Measure::Felv { supply: ac(supply, supply) })
}

/// Joined lives of the circuit against earth.
fn joined_earth(electrical: &Electrical) -> Pair {
    Pair::between(End::joined(CIRCUIT, electrical.conductors.live()), End::earth()).unwrap()
}

/// Test voltage and minimum in ohms of the circuit's joined lives against earth.
fn asked(id: &str, electrical: &Electrical) -> (Option<u32>, u32, Tag) {
    let under = Under { stage: Stage::Before, loads: electrical.loads };
    let limit = set(id).limit_for(&joined_earth(electrical), under, |_| Some(electrical)).unwrap();
    let whole = |decimal: rust_decimal::Decimal| u32::try_from(decimal).unwrap();
    (limit.row.test_voltage_v.map(|v| whole(v.0)), whole(limit.minimum.0), limit.row.source.tag)
}

fn kinds(id: &str, electrical: &Electrical, stage: Stage) -> Vec<PairKind> {
    set(id).demand(CIRCUIT, electrical, stage).unwrap().pairs.iter().map(|required| required.kind).collect()
}

#[test]
fn this_generation_asks_half_a_megohm_at_250_v_and_one_above() {
    // IEC 60364-6:2006 Table 6A, IEC 60364-6:2016 Table 6.1, BS 7671:2018 Table 64 (seen: a national rail
    // authority's public rules, a Swiss training sheet, a trade magazine on regulation 643.3.2). FELV wording memory-H.
    for id in ["iec-60364-6-2016", "iec-60364-6-2006", "bs-7671-2018"] {
        let rows = [
            (single_phase(Measure::Selv), (Some(250), 500_000, Tag::Seen)),
            (single_phase(Measure::Pelv), (Some(250), 500_000, Tag::Seen)),
            (single_phase(Measure::None), (Some(500), 1_000_000, Tag::Seen)),
            (three_phase(400, 230), (Some(500), 1_000_000, Tag::Seen)),
            (three_phase(480, 277), (Some(500), 1_000_000, Tag::Seen)),
            (three_phase(500, 289), (Some(500), 1_000_000, Tag::Seen)),
            (three_phase(501, 289), (Some(1000), 1_000_000, Tag::Seen)),
            (three_phase(690, 400), (Some(1000), 1_000_000, Tag::Seen)),
            (felv(230), (Some(500), 1_000_000, Tag::MemoryHigh)),
            (felv(690), (Some(1000), 1_000_000, Tag::MemoryHigh)),
            (single_phase(Measure::Separation), (Some(500), 1_000_000, Tag::MemoryMedium)),
        ];
        for (electrical, expected) in rows {
            assert_eq!(asked(id, &electrical), expected, "{id} {electrical:?}");
        }
    }
}

#[test]
fn the_older_generation_asks_half_of_that() {
    // IEC 60364-6-61 (1986, 2001), BS 7671 16th edition Table 71A, DIN VDE 0100-610 (values seen as above; table
    // number memory-H). The old 0.5 MΩ belongs to these editions only.
    for id in ["iec-60364-6-61", "bs-7671-16th", "din-vde-0100-610"] {
        assert_eq!(asked(id, &single_phase(Measure::Selv)), (Some(250), 250_000, Tag::Seen), "{id}");
        assert_eq!(asked(id, &three_phase(500, 289)), (Some(500), 500_000, Tag::Seen), "{id}");
        assert_eq!(asked(id, &three_phase(690, 400)), (Some(1000), 1_000_000, Tag::Seen), "{id}");
        assert!(set(id).reduced.is_empty(), "{id}: no reduced voltage");
    }
}

#[test]
fn ohms_for_each_volt_take_the_voltage_between_the_two_ends() {
    // DIN VDE 0105-100 (seen): SELV/PELV 0.25 MΩ; 300 Ω/V with loads (230 V: 69 kΩ), 1000 Ω/V without (0.23 MΩ).
    let id = "din-vde-0105-100";
    let with_loads = Electrical { loads: Loads::Connected, ..single_phase(Measure::None) };
    assert_eq!(asked(id, &with_loads), (None, 69_000, Tag::Seen));
    assert_eq!(asked(id, &single_phase(Measure::None)), (None, 230_000, Tag::Seen));
    assert_eq!(asked(id, &single_phase(Measure::Selv)), (None, 250_000, Tag::Seen));
    assert_eq!(asked(id, &felv(230)), (None, 230_000, Tag::MemoryHigh));
    // 400/230 V: 230 V to earth also with lives joined, 400 V between lines (memory-L: the highest to the other end).
    let demand = set(id).demand(CIRCUIT, &three_phase(400, 230), Stage::Before).unwrap();
    let minima: Vec<_> = demand.pairs.iter().map(|required| required.limit.minimum_ohm).collect();
    let ohms = |ohms: u32| Ohms(ohms.into());
    let (lines, middle) = (ohms(400_000), ohms(230_000));
    assert_eq!(minima[..6], [lines, lines, middle, lines, middle, middle], "L1–L2 L1–L3 L1–N L2–L3 L2–N L3–N");
    assert!(minima[6..].iter().all(|minimum| *minimum == middle), "each live conductor to earth");
    assert_eq!(asked(id, &three_phase(400, 230)), (None, 230_000, Tag::Seen));
    let nothing = set(id).demand(CIRCUIT, &single_phase(Measure::Separation), Stage::Before);
    assert_eq!(nothing, Err(NoLimit::NoRow { measure: MeasureName::Separation, volts: volts(230) }));
}

#[test]
fn australia_and_new_zealand_give_two_items_rows_of_their_own() {
    // AS/NZS 3000 8.3.6 (seen): 1 MΩ at 500 V; sheathed heating elements 0.01 MΩ; functional earth 0.05 MΩ.
    let item = |item| Electrical { item: Some(item), ..single_phase(Measure::None) };
    assert_eq!(asked("as-nzs-3000", &single_phase(Measure::None)), (Some(500), 1_000_000, Tag::Seen));
    assert_eq!(asked("as-nzs-3000", &item(Item::HeatingElement)), (Some(500), 10_000, Tag::Seen));
    assert_eq!(asked("as-nzs-3000", &item(Item::FunctionalEarth)), (Some(500), 50_000, Tag::Seen));
    let (plain, set) = (single_phase(Measure::None), set("as-nzs-3000"));
    let limit = set.limit_for(&joined_earth(&plain), Under::default(), |_| Some(&plain)).unwrap();
    assert_eq!(limit.reduced.map(|(rule, _)| rule.volts), Some(volts(250)));
}

#[test]
fn japan_goes_by_the_voltage_of_use_and_to_earth() {
    // Japan, technical standard art. 58 (seen): 0.1 MΩ up to 300 V and 150 V to earth, 0.2 MΩ other up to 300 V,
    // 0.4 MΩ above. Band edges belong to the lower row.
    let rows = [
        ((100, 100), 100_000),
        ((200, 100), 100_000),
        ((300, 150), 100_000),
        ((200, 200), 200_000),
        ((300, 300), 200_000),
        ((301, 173), 400_000),
        ((400, 230), 400_000),
    ];
    for ((between, to_earth), minimum) in rows {
        assert_eq!(asked("jp-article-58", &three_phase(between, to_earth)), (None, minimum, Tag::Seen), "{between}");
    }
    let unstated = Nominal { volts: volts(200), current: Current::Ac, to_earth: None };
    let electrical = Electrical::new(unstated, Measure::None, Conductors::SinglePhase);
    assert_eq!(asked("jp-article-58", &electrical).1, 200_000, "not stated: the highest it can be");
}

#[test]
fn pairs_follow_from_measure_conductors_and_joining() {
    use PairKind::{JoinedEarth, JoinedOthers, LiveEarth, LiveLive};
    let id = "iec-60364-6-2016";
    let count = |electrical: &Electrical| {
        let singly = kinds(id, electrical, Stage::Before).len();
        let joined = kinds(id, &Electrical { joined_to_earth: true, ..electrical.clone() }, Stage::Before).len();
        (singly, joined)
    };
    assert_eq!(count(&single_phase(Measure::None)), (3, 2));
    assert_eq!(count(&three_phase(400, 230)), (10, 7));
    let with_pen = Electrical::new(ac(230, 230), Measure::None, Conductors::SinglePhasePen);
    assert_eq!(kinds(id, &with_pen, Stage::Before), [LiveEarth]);
    assert_eq!(kinds(id, &single_phase(Measure::None), Stage::Before), [LiveLive, LiveEarth, LiveEarth]);
    // Proved against earth and other circuits, PELV against other circuits only (memory-H).
    assert_eq!(kinds(id, &single_phase(Measure::Selv), Stage::Before), [JoinedEarth, JoinedOthers]);
    assert_eq!(kinds(id, &single_phase(Measure::Separation), Stage::Before), [JoinedEarth, JoinedOthers]);
    assert_eq!(kinds(id, &single_phase(Measure::Pelv), Stage::Before), [JoinedOthers]);
    assert_eq!(kinds(id, &felv(230), Stage::Before), [LiveLive, LiveEarth, LiveEarth]);
}

#[test]
fn with_electronics_lives_are_joined_and_tested_to_earth_only() {
    // Seen in a Swiss training sheet.
    let set = set("iec-60364-6-2016");
    let electrical = Electrical { loads: Loads::Electronics, ..single_phase(Measure::None) };
    let demand = set.demand(CIRCUIT, &electrical, Stage::Before).unwrap();
    assert_eq!(demand.pairs.len(), 1);
    assert_eq!(demand.pairs[0].kind, PairKind::JoinedEarth);
    assert_eq!(demand.forbidden, [PairKind::LiveLive, PairKind::LiveEarth]);
    let forbids = |pair: &Pair, loads| set.forbids(pair, Under { stage: Stage::Before, loads }, |_| Some(&electrical));
    let between = Pair::between(End::live(CIRCUIT, Conductor::L), End::live(CIRCUIT, Conductor::N)).unwrap();
    assert!(forbids(&between, Loads::Electronics));
    assert!(!forbids(&between, Loads::Out), "the loads of the reading decide, not those of the circuit");
    assert!(!forbids(&joined_earth(&electrical), Loads::Electronics));
}

#[test]
fn a_joined_reading_that_does_not_meet_leaves_its_parts_open_unless_the_set_forbids_them() {
    let electrical = single_phase(Measure::None);
    let left = |loads| {
        let under = Under { stage: Stage::Before, loads };
        set("iec-60364-6-2016").left_open(&joined_earth(&electrical), under, |_| Some(&electrical))
    };
    let alone = |conductor| Pair::between(End::live(CIRCUIT, conductor), End::earth()).unwrap();
    assert_eq!(left(Loads::Out), [alone(Conductor::L), alone(Conductor::N)]);
    assert_eq!(left(Loads::Electronics), [], "one conductor alone would put the test voltage across the electronics");
}

#[test]
fn joining_in_part_is_forbidden_with_electronics_and_the_only_conductor_is_not() {
    let set = set("iec-60364-6-2016");
    let under = Under { stage: Stage::Before, loads: Loads::Electronics };
    let three = three_phase(400, 230);
    let part = Pair::between(End::joined(CIRCUIT, &[Conductor::L1, Conductor::L2]), End::earth()).unwrap();
    assert!(set.forbids(&part, under, |_| Some(&three)));
    let only = Electrical::new(ac(230, 230), Measure::None, Conductors::SinglePhasePen);
    assert!(!set.forbids(&joined_earth(&only), under, |_| Some(&only)));
}

#[test]
fn a_lower_voltage_is_allowed_only_where_the_set_says_so() {
    // IEC 60364-6: 250 V d.c. where disconnecting is not practicable, the minimum staying 1 MΩ (seen).
    let id = "iec-60364-6-2016";
    let reduced = |id: &str, electrical: &Electrical, stage, pair: &Pair| {
        let under = Under { stage, loads: electrical.loads };
        let set = set(id);
        let limit = set.limit_for(pair, under, |_| Some(electrical)).unwrap();
        limit.reduced.map(|(rule, _)| rule.clone())
    };
    let (plain, selv) = (single_phase(Measure::None), single_phase(Measure::Selv));
    let across = Pair::between(End::live(CIRCUIT, Conductor::L), End::live(CIRCUIT, Conductor::N)).unwrap();
    let rule = reduced(id, &plain, Stage::Before, &across).unwrap();
    assert_eq!((rule.volts, rule.source.tag), (volts(250), Tag::Seen));
    assert_eq!(rule.reasons, [ReducedReason::SurgeProtector, ReducedReason::Equipment]);
    assert_eq!(reduced(id, &selv, Stage::Before, &joined_earth(&selv)), None, "250 V is what is asked there");
    // BS 7671:2018+A2:2022: after equipment is connected, lives joined to earth at 250 V (seen), minimum memory-M.
    let demand = set("bs-7671-2018").demand(CIRCUIT, &single_phase(Measure::None), Stage::After).unwrap();
    assert_eq!(demand.pairs.iter().map(|p| p.kind).collect::<Vec<_>>(), [PairKind::JoinedEarth]);
    let id = "bs-7671-2018";
    let rule = reduced(id, &plain, Stage::After, &joined_earth(&plain)).unwrap();
    assert!(rule.reasons.contains(&ReducedReason::EquipmentConnected));
    assert_eq!(rule.source.tag, Tag::MemoryMedium);
    // Between conductors, or from one of them alone, equipment connected allows nothing; a surge protector does.
    let alone = Pair::between(End::live(CIRCUIT, Conductor::L), End::earth()).unwrap();
    for pair in [across, alone] {
        let rule = reduced(id, &plain, Stage::After, &pair).unwrap();
        assert_eq!(rule.reasons, [ReducedReason::SurgeProtector, ReducedReason::Equipment]);
    }
}

#[test]
fn a_group_takes_the_highest_limit_of_its_members_at_one_test_voltage() {
    let under = Under::default();
    let lives = [Conductor::L, Conductor::N];
    let group = Pair::between(End::joined(CIRCUIT, &lives).and(End::joined(OTHER, &lives)), End::earth()).unwrap();
    let limit = |id: &str, one: &Electrical, other: &Electrical| {
        set(id).limit_for(&group, under, |c| Some(if c == CIRCUIT { one } else { other })).map(|limit| limit.minimum)
    };
    let (plain, selv) = (single_phase(Measure::None), single_phase(Measure::Selv));
    let element = Electrical { item: Some(Item::HeatingElement), ..plain.clone() };
    assert_eq!(limit("as-nzs-3000", &element, &plain), Ok(Ohms(1_000_000.into())));
    assert_eq!(limit("as-nzs-3000", &plain, &element), Ok(Ohms(1_000_000.into())));
    assert_eq!(limit("iec-60364-6-2016", &plain, &selv), Err(NoLimit::MembersDiffer));
    let unknown = set("iec-60364-6-2016").limit_for(&group, under, |c| (c == CIRCUIT).then_some(&plain));
    assert_eq!(unknown, Err(NoLimit::NoCircuit));
}

#[test]
fn the_row_of_the_circuit_being_proved_decides() {
    // A SELV circuit against a 230 V circuit: 0.5 MΩ at 250 V (memory-L).
    let (selv, plain) = (single_phase(Measure::Selv), single_phase(Measure::None));
    let lives = [Conductor::L, Conductor::N];
    let across = Pair::between(End::joined(CIRCUIT, &lives), End::joined(OTHER, &lives)).unwrap();
    let others = Pair::between(End::joined(CIRCUIT, &lives), End::others()).unwrap();
    for (pair, proved) in [(&across, CIRCUIT), (&across, OTHER), (&others, CIRCUIT)] {
        let electrical = |c| Some(if c == proved { &selv } else { &plain });
        let limit = set("iec-60364-6-2016").limit_for(pair, Under::default(), electrical).unwrap().to_limit();
        assert_eq!((limit.minimum_ohm, limit.test_voltage_v), (Ohms(500_000.into()), Some(volts(250))));
        assert_eq!(limit.set, "IEC 60364-6:2016");
    }
}
