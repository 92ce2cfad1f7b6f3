//! Conductors, pairs and what cannot be a circuit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::circuit::{
    CircuitComplaint, Conductor, Conductors, Current, Earthing, Electrical, End, Measure, MeasureName, Nominal,
    NotAPair, Pair, PairKind,
};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::quantity::Volts;
use uuid::Uuid;

fn circuit(number: u128) -> CircuitId {
    CircuitId(Uuid::from_u128(number))
}

fn volts(volts: u32) -> Volts {
    Volts(volts.into())
}

fn nominal(v: u32, current: Current) -> Nominal {
    Nominal { volts: volts(v), current, to_earth: None }
}

fn pair(one: End, other: End) -> Pair {
    Pair::between(one, other).unwrap()
}

const LIVES: [Conductor; 2] = [Conductor::L, Conductor::N];

fn single_phase(_: CircuitId) -> Option<Conductors> {
    Some(Conductors::SinglePhase)
}

#[test]
fn a_pair_is_the_same_whichever_end_is_named_first() {
    let live = || End::live(circuit(1), Conductor::L);
    assert_eq!(pair(live(), End::earth()), pair(End::earth(), live()));
    assert_eq!(pair(End::earth(), live()).a, live());
    let json = r#"{"a":["earth"],"b":[{"live":{"circuit":"00000000-0000-0000-0000-000000000001","conductor":"L"}}]}"#;
    assert_eq!(serde_json::from_str::<Pair>(json).unwrap(), pair(live(), End::earth()));
}

#[test]
fn two_ends_that_are_no_pair_are_refused() {
    let live = || End::live(circuit(1), Conductor::L);
    assert_eq!(Pair::between(live(), live().and(End::earth())), Err(NotAPair::SharedTerminal));
    assert_eq!(Pair::between(live(), End::joined(circuit(1), &[])), Err(NotAPair::EmptyEnd));
    assert!(serde_json::from_str::<Pair>(r#"{"a":["earth"],"b":[]}"#).is_err());
}

#[test]
fn each_pair_is_of_one_kind() {
    let joined = |number| End::joined(circuit(number), &LIVES);
    let kinds = [
        (pair(End::live(circuit(1), Conductor::L), End::live(circuit(1), Conductor::N)), Some(PairKind::LiveLive)),
        (pair(End::live(circuit(1), Conductor::N), End::earth()), Some(PairKind::LiveEarth)),
        (pair(joined(1), End::earth()), Some(PairKind::JoinedEarth)),
        (pair(joined(1), End::others()), Some(PairKind::JoinedOthers)),
        (pair(joined(1).and(joined(2)), End::earth()), Some(PairKind::GroupEarth)),
        (pair(End::live(circuit(1), Conductor::L), End::live(circuit(2), Conductor::L)), None),
        (pair(End::live(circuit(1), Conductor::L).and(joined(2)), End::earth()), None),
    ];
    for (pair, kind) in kinds {
        assert_eq!(pair.kind(single_phase), kind, "{pair:?}");
    }
}

#[test]
fn the_only_live_conductor_is_also_all_of_them_joined() {
    let only = pair(End::live(circuit(1), Conductor::L), End::earth());
    let with_pen = |_| Some(Conductors::SinglePhasePen);
    assert!(only.is(PairKind::LiveEarth, with_pen) && only.is(PairKind::JoinedEarth, with_pen));
    assert!(!only.is(PairKind::JoinedEarth, single_phase));
}

#[test]
fn a_joined_pair_stands_for_its_conductors_and_never_for_pairs_between_them() {
    let joined = pair(End::joined(circuit(1), &LIVES), End::earth());
    let singles = LIVES.map(|conductor| pair(End::live(circuit(1), conductor), End::earth()));
    assert_eq!(joined.stands_for(), singles);
    let group = pair(End::joined(circuit(1), &LIVES).and(End::joined(circuit(2), &LIVES)), End::earth());
    let stood_for = group.stands_for();
    assert_eq!(stood_for.len(), 6, "two circuits joined, four conductors alone");
    assert!(stood_for.contains(&joined) && singles.iter().all(|single| stood_for.contains(single)));
    assert!(stood_for.iter().all(|pair| pair.b == End::earth()));
    assert!(singles[0].stands_for().is_empty());
}

#[test]
fn neutral_is_live_and_pen_is_not() {
    assert!(Conductors::ThreePhaseN.live().contains(&Conductor::N));
    assert_eq!(Conductors::ThreePhasePen.live().len(), 3);
    assert_eq!(Conductors::ThreePhasePen.earthing(), Earthing::Pen);
    assert_eq!(Conductors::ThreePhaseN.earthing(), Earthing::Pe);
}

#[test]
fn impossible_circuits_are_complained_about() {
    use CircuitComplaint::{AboveBound, AboveLowVoltage, NotAboveZero, OtherCurrent, Pen, ToEarthAbove};
    use Current::{Ac, Dc};
    let bound = |measure, v| AboveBound { measure, bound: volts(v) };
    let felv = Measure::Felv { supply: nominal(230, Ac) };
    // Extra-low voltage up to 50 V a.c. or 120 V ripple-free d.c. (seen); separation up to 500 V (memory-H).
    let circuits = [
        (nominal(50, Ac), Measure::Selv, Conductors::SinglePhase, vec![]),
        (nominal(51, Ac), Measure::Selv, Conductors::SinglePhase, vec![bound(MeasureName::Selv, 50)]),
        (nominal(120, Dc), Measure::Pelv, Conductors::Dc, vec![]),
        (nominal(121, Dc), Measure::Pelv, Conductors::Dc, vec![bound(MeasureName::Pelv, 120)]),
        (nominal(60, Ac), felv, Conductors::SinglePhase, vec![bound(MeasureName::Felv, 50)]),
        (nominal(500, Ac), Measure::Separation, Conductors::SinglePhase, vec![]),
        (nominal(690, Ac), Measure::Separation, Conductors::ThreePhase, vec![bound(MeasureName::Separation, 500)]),
        (nominal(1001, Ac), Measure::None, Conductors::ThreePhase, vec![AboveLowVoltage { bound: volts(1000) }]),
        (nominal(1500, Dc), Measure::None, Conductors::Dc, vec![]),
        (nominal(0, Ac), Measure::None, Conductors::SinglePhase, vec![NotAboveZero]),
        (nominal(24, Dc), Measure::Selv, Conductors::ThreePhase, vec![OtherCurrent]),
        (nominal(24, Ac), Measure::Selv, Conductors::Dc, vec![OtherCurrent]),
        (nominal(24, Ac), Measure::Selv, Conductors::SinglePhasePen, vec![Pen { measure: MeasureName::Selv }]),
    ];
    for (nominal, measure, conductors, complaints) in circuits {
        assert_eq!(Electrical::new(nominal, measure, conductors).complaints(), complaints, "{nominal:?} {measure:?}");
    }
    let above = Nominal { volts: volts(230), current: Ac, to_earth: Some(volts(400)) };
    assert_eq!(Electrical::new(above, Measure::None, Conductors::SinglePhase).complaints(), [ToEarthAbove]);
}
