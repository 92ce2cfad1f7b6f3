//! Circuits read together, and between visits: the rows of a trade book and of arithmetic, and what always holds.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use chrono::DateTime;
use proptest::prelude::*;
use provenohm_assess::group::{
    NotWorkedOut, OwnResistance, Ratio, Visit, own_resistance, parallel, parallel_uncertainty, trend,
};
use provenohm_assess::quantity::{Comparator, Digits, Ohms, Percent, Shown, Unit, Volts};
use rust_decimal::Decimal;

fn shown(text: &str) -> Shown {
    Shown::parse(&format!("{text} MΩ")).unwrap_or_else(|refusal| panic!("{text}: {refusal}"))
}

fn mega(text: &str) -> Ohms {
    Ohms((text.parse::<Decimal>().unwrap() * Decimal::from(1_000_000)).normalize())
}

fn together(members: &[&str]) -> Option<(Comparator, Ohms)> {
    parallel(&members.iter().map(|text| shown(text)).collect::<Vec<_>>())
}

fn own(with: &str, without: &str, percent: i64) -> Result<OwnResistance, NotWorkedOut> {
    let p = Percent(percent.into());
    own_resistance((shown(with), p), (shown(without), p))
}

fn between(least: &str, most: Option<&str>) -> Result<OwnResistance, NotWorkedOut> {
    Ok(OwnResistance { at_least_ohm: mega(least), at_most_ohm: most.map(mega) })
}

/// 1/R = Σ 1/Rᵢ (calc).
#[test]
fn four_circuits_of_200_read_50() {
    assert_eq!(together(&["200"; 4]), Some((Comparator::Exact, mega("50"))));
}

/// 60/11 = 5.4545 (calc).
#[test]
fn ten_twenty_and_thirty_read_5_4545() {
    assert_eq!(together(&["10", "20", "30"]), Some((Comparator::Exact, mega("5.4545"))));
}

/// Alike, p/√n: 3 %/√4 = 1.5 %. Of 10, 20, 30 MΩ: 3 %·√(0.54545² + 0.27273² + 0.18182²) = 1.9091 % (calc).
#[test]
fn members_known_to_3_percent_are_known_better_together() {
    let each = Percent(3.into());
    let of = |members: &[&str]| parallel_uncertainty(&members.iter().map(|it| shown(it)).collect::<Vec<_>>(), each);
    let percent = |text: &str| Some(Percent(text.parse().unwrap()));
    assert_eq!(of(&["200"; 4]), percent("1.5"));
    assert_eq!(of(&["10", "20", "30"]), percent("2.0"), "rounded up");
    assert_eq!(of(&["100", "> 999"]), None);
    assert_eq!(of(&["0", "7"]), None);
}

/// Each meets 1 MΩ, the board does not (calc).
#[test]
fn ten_circuits_of_2_read_0_2_together() {
    assert_eq!(together(&["2"; 10]), Some((Comparator::Exact, mega("0.2"))));
}

#[test]
fn open_members_leave_the_whole_open_on_the_same_side() {
    // 1/(1/100 + 1/999) = 90.9008…
    assert_eq!(together(&["100", "> 999"]), Some((Comparator::MoreThan, mega("90.9"))));
    // 1/(1/100 + 1/7) = 6.54205…, rounded up
    assert_eq!(together(&["100", "< 7"]), Some((Comparator::LessThan, mega("6.5421"))));
    assert_eq!(together(&["> 999", "< 7"]), None);
    assert_eq!(together(&[]), None);
    assert_eq!(together(&["0", "7"]), Some((Comparator::Exact, mega("0"))));
}

/// d = 1 − 1.50/1.55 = 0.03226, U = 0.03·√(1 + (1.50/1.55)²) = 0.04175: at least 1.50/0.07401 = 20.27 MΩ, and no upper
/// figure, since d lies within its uncertainty (calc).
#[test]
fn a_small_difference_gives_no_upper_figure() {
    assert_eq!(own("1.50", "1.55", 3), between("20", None));
}

/// d = 0.5, U = 0.03·√1.25 = 0.03354: 1.50/0.53354 = 2.811 to 1.50/0.46646 = 3.216 MΩ, rounded outwards (calc).
#[test]
fn a_large_difference_gives_both_figures() {
    assert_eq!(own("1.50", "3.00", 3), between("2.8", Some("3.3")));
}

#[test]
fn over_range_readings_of_a_group() {
    // Without it over-range: its own is at least 1.50/1.03 = 1.456 MΩ, and at most 1.50/(1 − 0.0015 − 0.03) = 1.549 MΩ.
    assert_eq!(own("1.50", "> 999", 3), between("1.4", Some("1.6")));
    // With it over-range: each member has at least 999/1.03 = 969.9 MΩ.
    assert_eq!(own("> 999", "> 999", 3), between("960", None));
}

#[test]
fn what_cannot_be_worked_out_says_why() {
    assert_eq!(own("1.55", "1.20", 3), Err(NotWorkedOut::Contradictory));
    assert_eq!(own("< 0.1", "1.20", 3), Err(NotWorkedOut::NoLowerEnd));
    assert_eq!(own("0", "1.20", 3), Err(NotWorkedOut::NoLowerEnd));
}

#[test]
fn a_trend_says_the_ratio_to_each_earlier_visit_and_what_is_open() {
    let visit = |year: &str, text: &str| Visit {
        at: DateTime::parse_from_rfc3339(&format!("{year}-03-03T10:00:00+01:00")).unwrap(),
        shown: shown(text),
        test_voltage_v: Volts(500.into()),
    };
    let now = visit("2026", "84");
    let told = trend(now, &[visit("2022", "> 999"), visit("2025", "200"), visit("2024", "84"), visit("2027", "1")]);
    let ratio = |comparator, value: &str| Some(Ratio { comparator, value: value.parse().unwrap() });
    let expected = [
        ("2025", ratio(Comparator::Exact, "0.42")),
        ("2024", ratio(Comparator::Exact, "1")),
        ("2022", ratio(Comparator::LessThan, "0.085")),
    ];
    assert_eq!(
        told.iter().map(|t| (t.earlier.at.format("%Y").to_string(), t.ratio)).collect::<Vec<_>>(),
        expected.map(|(year, ratio)| (year.to_owned(), ratio))
    );
    let open = trend(visit("2026", "> 999"), &[visit("2025", "> 999"), visit("2024", "200"), visit("2023", "0")]);
    assert_eq!(open.iter().map(|t| t.ratio).collect::<Vec<_>>(), [None, ratio(Comparator::MoreThan, "4.9"), None]);
    let at_250 = Visit { test_voltage_v: Volts(250.into()), ..visit("2025", "200") };
    let other = trend(now, &[at_250])[0];
    assert_eq!((other.other_voltage, other.ratio), (true, None));
    assert!(told.iter().all(|one| !one.other_voltage));
}

fn reading(hundredths: u32) -> Shown {
    Shown { comparator: Comparator::Exact, digits: Digits::new(hundredths, 2).unwrap(), unit: Unit::MegaOhm }
}

proptest! {
    #[test]
    fn together_is_never_above_any_member(members in prop::collection::vec(1_u32..99_999, 1..12)) {
        let members: Vec<Shown> = members.into_iter().map(reading).collect();
        let (_, together) = parallel(&members).unwrap();
        // Five significant digits may round up by half of the last.
        let most = together.0 * Decimal::new(99_995, 5);
        prop_assert!(members.iter().all(|m| most <= m.ohms().0));
    }

    #[test]
    fn the_truth_lies_within_what_is_worked_out(own_hundredths in 10_u32..90_000, rest in 10_u32..90_000, p in 1_i64..20) {
        // Two members read without any error: what one of them has is never outside.
        let (x, rest) = (Decimal::from(own_hundredths), Decimal::from(rest));
        let with = x * rest / (x + rest);
        prop_assume!(with > Decimal::from(100));
        let hundredths = |figure: Decimal| reading(figure.round().try_into().unwrap());
        let p = Percent(p.into());
        let told = own_resistance((hundredths(with), p), (hundredths(rest), p)).unwrap();
        // Rounding to hundredths is within half a per cent here, and p is at least one.
        let truth = x * Decimal::from(10_000);
        prop_assert!(told.at_least_ohm.0 <= truth, "{told:?} {truth}");
        prop_assert!(told.at_most_ohm.is_none_or(|most| most.0 >= truth), "{told:?} {truth}");
    }

    #[test]
    fn a_wider_uncertainty_says_less(with in 100_u32..90_000, without in 100_u32..90_000, p in 1_i64..20, more in 0_i64..20) {
        let told = |p: i64| own_resistance((reading(with), Percent(p.into())), (reading(without), Percent(p.into())));
        if let (Ok(narrow), Ok(wide)) = (told(p), told(p + more)) {
            prop_assert!(wide.at_least_ohm <= narrow.at_least_ohm);
            prop_assert!(wide.at_most_ohm.is_none_or(|wide| narrow.at_most_ohm.is_some_and(|narrow| narrow <= wide)));
        }
    }
}
