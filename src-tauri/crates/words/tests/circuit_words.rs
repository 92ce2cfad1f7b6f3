//! Pairs and circuits in words.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod made;

use made::{circuit, live, pair, volts};
use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Earthing, Electrical, Loads, Measure, MeasureName, Nominal, PairKind, Terminal,
};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{NoLimit, SetComplaint, SetReason};
use provenohm_words::{Locale, PairNames, Words};

fn number(id: CircuitId) -> String {
    id.0.as_u128().to_string()
}

#[test]
fn ends_are_named_as_the_trade_names_them() {
    use Conductor::{L, L1, Minus, N, Plus};
    let words = Words::new(Locale::ENGLISH);
    let names = PairNames { circuit: circuit(7), earthing: Earthing::Pe, reference: &number };
    let cases = [
        (pair(&[live(7, L1)], &[Terminal::Earth]), "L1–PE"),
        (pair(&[live(7, N)], &[live(7, L)]), "L–N"),
        (pair(&[live(7, L), live(7, N)], &[Terminal::Earth]), "L+N – PE"),
        (pair(&[live(7, Plus)], &[live(7, Minus)]), "L+–L−"),
        (pair(&[live(7, Plus), live(7, Minus)], &[Terminal::Earth]), "L+, L− – PE"),
        (pair(&[live(3, L), live(4, L), live(5, N)], &[Terminal::Earth]), "all lives of 3, 4, 5 – PE"),
        (pair(&[live(7, L), live(7, N)], &[Terminal::OtherCircuits]), "L+N – other circuits"),
        (pair(&[live(3, L)], &[live(7, L)]), "L – L of circuit 3"),
    ];
    for (pair, expected) in cases {
        assert_eq!(words.pair(&pair, &names), expected);
    }
    let pen = PairNames { earthing: Earthing::Pen, ..names };
    assert_eq!(words.pair(&pair(&[live(7, L1)], &[Terminal::Earth]), &pen), "L1–PEN");
}

#[test]
fn a_circuit_is_one_line() {
    let nominal =
        |v, to_earth: Option<u32>, current| Nominal { volts: volts(v), current, to_earth: to_earth.map(volts) };
    let electrical = |nominal, measure, conductors| Electrical {
        nominal,
        measure,
        conductors,
        loads: Loads::Out,
        joined_to_earth: false,
        spd_stays: false,
        item: None,
        location: None,
    };
    let supply = nominal(230, Some(230), Current::Ac);
    let cases = [
        (electrical(supply, Measure::None, Conductors::SinglePhase), "230 V a.c., L, N"),
        (
            electrical(nominal(400, Some(230), Current::Ac), Measure::None, Conductors::ThreePhasePen),
            "400 V a.c., 230 V to earth, L1, L2, L3 with PEN",
        ),
        (electrical(nominal(24, None, Current::Dc), Measure::Selv, Conductors::Dc), "SELV 24 V d.c., L+, L−"),
        (
            electrical(nominal(24, None, Current::Dc), Measure::Felv { supply }, Conductors::Dc),
            "FELV 24 V d.c. supplied from 230 V a.c., L+, L−",
        ),
    ];
    let words = Words::new(Locale::ENGLISH);
    for (electrical, expected) in cases {
        assert_eq!(words.electrical(&electrical).replace('\u{a0}', " "), expected);
    }
}

#[test]
fn a_set_that_is_not_taken_says_where_and_why() {
    let words = Words::new(Locale::ENGLISH);
    let at = |reason| words.set_complaint(&SetComplaint { line: 3, column: 7, reason });
    let cases = [
        (
            SetReason::Unreadable("there is no “volt” at this place. Check how it is spelt".to_owned()),
            "not a limit set: there is no “volt” at this place. Check how it is spelt",
        ),
        (SetReason::TooLong { most: 1_048_576 }, "a set is at most 1\u{2009}048\u{2009}576 bytes"),
        (SetReason::Id, "use lower-case letters, digits and hyphens"),
        (SetReason::Version, "versions count from 1"),
        (SetReason::Title, "a title is missing"),
        (SetReason::NoRows, "a set has at least one row"),
        (SetReason::NotAboveZero, "write a figure above zero"),
        (SetReason::EmptyBand, "no circuit can be in this band"),
        (SetReason::NeverUsed { earlier: 2 }, "never used, row 2 comes first"),
        (SetReason::NotReduced, "not lower than the voltage asked for"),
        (SetReason::EmptyList, "this list is empty"),
        (SetReason::RequiredAndForbidden { kind: PairKind::LiveLive }, "live – live is required and excluded"),
        (
            SetReason::NoPairs { measure: MeasureName::Selv, conductors: Conductors::Dc, loads: Loads::Out },
            "no pairs for SELV, L+, L−, loads disconnected",
        ),
    ];
    for (reason, expected) in cases {
        assert_eq!(at(reason), format!("Line 3, column 7: {expected}"));
    }
}

#[test]
fn a_set_without_a_limit_says_what_it_lacks() {
    let words = Words::new(Locale::ENGLISH);
    let cases = [
        (NoLimit::NoRow { measure: MeasureName::Felv, volts: volts(230) }, "this set has no minimum for FELV at 230 V"),
        (NoLimit::NoPairs { measure: MeasureName::Separation }, "this set names no pairs for electrical separation"),
        (NoLimit::MembersDiffer, "the circuits of this pair ask for different test voltages"),
        (NoLimit::NoCircuit, "no circuit of this pair is known"),
    ];
    for (why, expected) in cases {
        assert_eq!(words.no_limit(&why).replace('\u{a0}', " "), expected);
    }
}
