//! What a guard rests on, and the smallest indication that proves a limit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use proptest::prelude::*;
use provenohm_assess::guard::{Budget, Figures, makers_smallest};
use provenohm_assess::ids::VerificationId;
use provenohm_assess::judgement::GuardSource;
use provenohm_assess::policy::ValuePolicy;
use provenohm_assess::quantity::{Accuracy, Comparator, DecimalSign, Digits, NumberStyle, Ohms, Percent, Shown, Unit};
use provenohm_assess::tester::{Point, Range, VoltageCard};
use rust_decimal::Decimal;
use uuid::Uuid;

fn ohms(text: &str) -> Ohms {
    Ohms::parse(text).unwrap_or_else(|refusal| panic!("{text}: {refusal}"))
}

fn range(from: &str, to: &str, resolution: &str, accuracy: &str) -> Range {
    let accuracy = Accuracy::parse(accuracy).unwrap();
    Range {
        from_ohm: ohms(from),
        to_ohm: ohms(to),
        resolution_ohm: ohms(resolution),
        accuracy_percent: Some(accuracy.percent),
        accuracy_digits: Some(accuracy.digits),
    }
}

fn card(ranges: Vec<Range>) -> VoltageCard {
    let volts = provenohm_assess::quantity::Volts::parse("500 V").unwrap();
    VoltageCard { test_voltage_v: volts, ranges, over_range: None, operating_uncertainty_percent: None }
}

fn percent(whole: u32) -> Percent {
    Percent(whole.into())
}

fn step() -> Ohms {
    ohms("0.01 MΩ")
}

fn proves(figures: &Figures<'_>, minimum: Ohms, indicated: Ohms) -> bool {
    figures.guard(minimum, indicated, step()).is_some_and(|guard| indicated >= guard.acceptance_ohm)
}

fn smallest(figures: &Figures<'_>, minimum: &str) -> Option<String> {
    let smallest = figures.smallest(ValuePolicy::Guarded, ohms(minimum), step());
    smallest.map(|ohms| ohms.print(NumberStyle::plain(DecimalSign::Point)).replace('\u{a0}', " "))
}

#[test]
fn the_makers_table_is_reproduced_and_rounded_up() {
    // An instrument maker's manual (seen, 39 rows, not named): 4 % + 4 digits.
    let accuracy = Accuracy::parse("4 % + 4").unwrap();
    let fine = [("0.50", "0.56"), ("1.00", "1.08"), ("2.00", "2.12"), ("5.00", "5.24")].map(|row| (row, "0.01 MΩ"));
    let coarse = [("10.0", "10.8"), ("20.0", "21.2")].map(|row| (row, "0.1 MΩ"));
    // 0.55 · 1.04 + 0.04 = 0.612 (calc): to the nearest step it would be 0.61, which does not prove 0.55.
    let rounded_up = [("0.55", "0.62")].map(|row| (row, "0.01 MΩ"));
    for ((limit, printed), resolution) in fine.into_iter().chain(coarse).chain(rounded_up) {
        let makers = makers_smallest(ohms(&format!("{limit} MΩ")), accuracy, ohms(resolution));
        assert_eq!(makers, Some(ohms(&format!("{printed} MΩ"))), "{limit}");
    }
}

#[test]
fn the_strict_form_takes_the_percentage_of_the_reading() {
    // (L + n·d)/(1 − p), rounded up to a step (calc): 0.54/0.96 = 0.5625, 1.04/0.96 = 1.0833, 0.59/0.96 = 0.6146.
    let card = card(vec![range("0.01 MΩ", "9.99 MΩ", "0.01 MΩ", "4 % + 4")]);
    let figures = Figures { card: Some(&card), ..Figures::default() };
    for (limit, strict) in [("0.50 MΩ", "0.57 MΩ"), ("1.00 MΩ", "1.09 MΩ"), ("0.55 MΩ", "0.62 MΩ")] {
        assert_eq!(smallest(&figures, limit).as_deref(), Some(strict), "{limit}");
    }
}

#[test]
fn an_accuracy_of_3_per_cent_and_2_digits_accepts_from_1_0515() {
    // 1.05: w = 0.03 · 1.05 + 0.02 = 0.0515 MΩ (calc).
    let card = card(vec![range("0.01 MΩ", "9.99 MΩ", "0.01 MΩ", "3 % + 2")]);
    let figures = Figures { card: Some(&card), ..Figures::default() };
    let guard = figures.guard(ohms("1.0 MΩ"), ohms("1.05 MΩ"), step()).unwrap();
    assert_eq!((guard.w_ohm, guard.acceptance_ohm), (ohms("51.5 kΩ"), ohms("1051.5 kΩ")));
    assert_eq!(guard.smallest_ohm, Some(ohms("1.06 MΩ")));
    assert!(!proves(&figures, ohms("1.0 MΩ"), ohms("1.05 MΩ")) && proves(&figures, ohms("1.0 MΩ"), ohms("1.06 MΩ")));
}

#[test]
fn a_conforming_tester_without_figures_proves_1_megohm_from_1_43() {
    // 30 % of the measured value (IEC 61557-2:2019, 6.2; seen): 1/0.7 = 1.4286 (calc).
    let figures = Figures { conforms: true, ..Figures::default() };
    assert_eq!(smallest(&figures, "1.0 MΩ").as_deref(), Some("1.43 MΩ"));
    assert!(!proves(&figures, ohms("1.0 MΩ"), ohms("1.42 MΩ")));
    assert!(proves(&figures, ohms("1.0 MΩ"), ohms("1.43 MΩ")));
}

#[test]
fn nothing_known_is_no_guard() {
    assert_eq!(Figures::default().guard(ohms("1.0 MΩ"), ohms("999 MΩ"), step()), None);
    assert_eq!(smallest(&Figures::default(), "1.0 MΩ"), None);
    let simple = Figures::default().smallest(ValuePolicy::Simple, ohms("1.0 MΩ"), step());
    assert_eq!(simple, Some(ohms("1.0 MΩ")));
    assert_eq!(Figures::default().smallest(ValuePolicy::Simple, ohms("69 kΩ"), step()), Some(ohms("70 kΩ")));
}

#[test]
fn the_first_figure_there_is_counts() {
    let verification = VerificationId(Uuid::from_u128(7));
    let stated = VoltageCard {
        operating_uncertainty_percent: Some(percent(12)),
        ..card(vec![range("0.01 MΩ", "9.99 MΩ", "0.01 MΩ", "3 % + 2")])
    };
    let bare = VoltageCard { operating_uncertainty_percent: None, ..stated.clone() };
    let mut figures = Figures {
        budget: Some(Budget { verification, whole: percent(5), points: &[] }),
        operating: Some((verification, percent(9))),
        lapsed: true,
        card: Some(&stated),
        conforms: true,
    };
    let at = |figures: &Figures<'_>, shown: &str| figures.guard(ohms("1.0 MΩ"), ohms(shown), step()).unwrap();
    assert_eq!(at(&figures, "2 MΩ").source, GuardSource::Budget { verification, percent: percent(5) });
    assert!(at(&figures, "2 MΩ").lapsed);
    figures.budget = None;
    assert_eq!(at(&figures, "2 MΩ").source, GuardSource::OperatingUncertainty { verification, percent: percent(9) });
    figures.operating = None;
    assert_eq!(at(&figures, "2 MΩ").source, GuardSource::StatedOperatingUncertainty { percent: percent(12) });
    assert!(!at(&figures, "2 MΩ").lapsed, "the card does not lapse");
    figures.card = Some(&bare);
    let accuracy = GuardSource::Accuracy { percent: percent(3), digits: 2, resolution_ohm: step() };
    assert_eq!(at(&figures, "2 MΩ").source, accuracy);
    assert_eq!(at(&figures, "20 MΩ").source, GuardSource::Conforming { percent: percent(30) }, "no range holds it");
}

fn point(known: &str, indicated: &str, uncertainty: &str) -> Point {
    let indicated = Shown::parse(indicated).unwrap();
    let error_uncertainty_percent = Some(Percent(uncertainty.parse().unwrap()));
    Point { reference_ohm: ohms(known), indicated, good: true, error_uncertainty_percent }
}

/// 0.98 at 1.00 MΩ ± 1 %: (0.02 + 0.01)/0.98 = 3.07 %; 10.3 at 10.0 ± 2 %: (0.3 + 0.2)/10.3 = 4.86 %; 88 at 100 ± 3 %:
/// (12 + 3)/88 = 17.05 % (calc, each rounded up).
#[test]
fn the_budget_that_counts_is_that_of_the_points_around_the_reading() {
    let verification = VerificationId(Uuid::from_u128(7));
    let points = [point("100 MΩ", "88 MΩ", "3"), point("1.00 MΩ", "0.98 MΩ", "1"), point("10.0 MΩ", "10.3 MΩ", "2")];
    let budget = Some(Budget { verification, whole: Percent("17.05".parse().unwrap()), points: &points });
    let figures = Figures { budget, ..Figures::default() };
    let percent = |shown: &str| match figures.guard(ohms("1.0 MΩ"), ohms(shown), step()).unwrap().source {
        GuardSource::Budget { percent: Percent(percent), .. } => percent.to_string(),
        other => panic!("{other:?}"),
    };
    assert_eq!(percent("1.04 MΩ"), "4.86", "the larger of the two neighbours");
    assert_eq!(percent("10.3 MΩ"), "4.86", "up to the upper one");
    assert_eq!(percent("10.31 MΩ"), "17.05");
    assert_eq!(percent("0.98 MΩ"), "17.05", "not between two points");
    assert_eq!(percent("500 MΩ"), "17.05");
    // 1/(1 − 0.0486) = 1.0511, and from 10.31 up 8.55 is enough (calc); by the whole it would be 1.21.
    assert_eq!(smallest(&figures, "1.0 MΩ").as_deref(), Some("1.06 MΩ"));
    // 9.5/(1 − 0.0486) = 9.985, but above 10.3 MΩ the other figure counts: 9.5/(1 − 0.1705) = 11.453 (calc).
    assert_eq!(smallest(&figures, "9.5 MΩ").as_deref(), Some("11.46 MΩ"));
    assert!(proves(&figures, ohms("9.5 MΩ"), ohms("10.0 MΩ")), "it proves, but 10.4 does not");
    assert!(!proves(&figures, ohms("9.5 MΩ"), ohms("10.4 MΩ")));
}

/// What failed, was shown open, or has no uncertainty of its own gives no figure; the worse of two shown alike counts.
#[test]
fn points_without_a_figure_of_their_own_leave_the_whole() {
    let verification = VerificationId(Uuid::from_u128(7));
    let failed = Point { good: false, ..point("2.00 MΩ", "2.00 MΩ", "1") };
    let unknown = Point { error_uncertainty_percent: None, ..point("2.00 MΩ", "2.00 MΩ", "1") };
    let open = point("2.00 MΩ", "> 1.99 MΩ", "1");
    let zero = point("2.00 MΩ", "0.00 MΩ", "1");
    let of = |points: &[Point], shown: &str| {
        let budget = Some(Budget { verification, whole: percent(9), points });
        let figures = Figures { budget, ..Figures::default() };
        match figures.guard(ohms("1.0 MΩ"), ohms(shown), step()).unwrap().source {
            GuardSource::Budget { percent: Percent(percent), .. } => percent.to_string(),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(of(&[failed, unknown, open, zero, point("1.00 MΩ", "1.00 MΩ", "1")], "1.50 MΩ"), "9");
    let alike = [point("1.00 MΩ", "1.00 MΩ", "1"), point("1.90 MΩ", "2.00 MΩ", "1"), point("2.00 MΩ", "2.00 MΩ", "1")];
    assert_eq!(of(&alike, "1.50 MΩ"), "5.95", "(0.10 + 0.019)/2.00");
    let worse = [point("1.00 MΩ", "1.00 MΩ", "40")];
    assert_eq!(of(&worse, "9 MΩ"), "40", "never less than what a point has");
}

#[test]
fn ranges_with_a_gap_an_overlap_or_no_accuracy_are_taken_as_they_are() {
    let low = range("0.01 MΩ", "1.00 MΩ", "0.01 MΩ", "3 % + 2");
    let high = range("1.0 MΩ", "99.9 MΩ", "0.1 MΩ", "3 % + 2");
    let overlapping = card(vec![low.clone(), high.clone()]);
    let figures = Figures { card: Some(&overlapping), ..Figures::default() };
    assert_eq!(smallest(&figures, "0.5 MΩ").as_deref(), Some("0.54 MΩ"), "0.52/0.97 = 0.536, in the lower range");
    // The lower range proves 0.9 MΩ from 0.95, but 1.1 in the upper one does not: (0.9 + 0.2)/0.97 = 1.134.
    assert_eq!(smallest(&figures, "0.9 MΩ").as_deref(), Some("1.2 MΩ"));
    assert!(proves(&figures, ohms("0.9 MΩ"), ohms("0.95 MΩ")) && !proves(&figures, ohms("0.9 MΩ"), ohms("1.1 MΩ")));
    assert_eq!(smallest(&figures, "1.0 MΩ").as_deref(), Some("1.3 MΩ"), "(1 + 0.2)/0.97 = 1.237 in steps of 0.1");
    let unstated = Range { accuracy_percent: None, accuracy_digits: None, ..high };
    let open_above = card(vec![low, unstated]);
    let figures = Figures { card: Some(&open_above), ..Figures::default() };
    assert_eq!(smallest(&figures, "0.5 MΩ"), None, "not every larger indication proves it");
}

#[test]
fn figures_beyond_all_arithmetic_give_no_guard_and_no_crash() {
    let huge =
        Figures { operating: Some((VerificationId(Uuid::from_u128(7)), Percent(Decimal::MAX))), ..Figures::default() };
    assert_eq!(huge.guard(ohms("1.0 MΩ"), ohms("2 MΩ"), step()), None);
    let mut broken = card(vec![range("0.01 MΩ", "9.99 MΩ", "0.01 MΩ", "3 % + 2")]);
    broken.ranges[0].resolution_ohm = Ohms(Decimal::ZERO);
    let figures = Figures { card: Some(&broken), ..Figures::default() };
    assert_eq!(smallest(&figures, "1.0 MΩ"), None);
    let all_of_it =
        Figures { operating: Some((VerificationId(Uuid::from_u128(7)), percent(100))), ..Figures::default() };
    assert_eq!(smallest(&all_of_it, "1.0 MΩ"), None);
}

prop_compose! {
    fn any_card()(
        fine in (0..12_u32, 0..8_u32), middle in (0..12_u32, 0..8_u32), coarse in (0..25_u32, 0..8_u32),
    ) -> VoltageCard {
        let accuracy = |(p, n): (u32, u32)| format!("{p} % + {n}");
        card(vec![
            range("0.01 MΩ", "9.99 MΩ", "0.01 MΩ", &accuracy(fine)),
            range("10.0 MΩ", "99.9 MΩ", "0.1 MΩ", &accuracy(middle)),
            range("100 MΩ", "999 MΩ", "1 MΩ", &accuracy(coarse)),
        ])
    }
}

/// Every indication the card can show, Ω.
fn displayable(card: &VoltageCard) -> Vec<Ohms> {
    let steps = |range: &Range| {
        let (from, to, step) = (range.from_ohm.0, range.to_ohm.0, range.resolution_ohm.0);
        std::iter::successors(Some(from), move |shown| Some(shown + step)).take_while(move |shown| *shown <= to)
    };
    card.ranges.iter().flat_map(steps).map(Ohms).collect()
}

/// What a display of five digits shows of hundredths of MΩ.
fn hundredths(count: i64) -> Shown {
    let digits = Digits::new(count.clamp(1, 99_999).try_into().unwrap(), 2).unwrap();
    Shown { comparator: Comparator::Exact, digits, unit: Unit::MegaOhm }
}

prop_compose! {
    /// Points of a run: hundredths of MΩ known, how far off in per cent, and U.
    fn any_points()(all in prop::collection::vec((1..90_000_i64, -20..20_i64, 0..30_i64), 0..6)) -> Vec<Point> {
        let of = |(known, off, uncertainty): (i64, i64, i64)| Point {
            reference_ohm: Ohms(Decimal::from(known * 10_000)),
            indicated: hundredths(known * (100 + off) / 100),
            good: true,
            error_uncertainty_percent: Some(Percent(uncertainty.into())),
        };
        all.into_iter().map(of).collect()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_smallest_proves_all_above_prove_and_the_step_below_does_not(
        card in any_card(), points in any_points(), limit in 1..15_000_u32,
    ) {
        let verification = VerificationId(Uuid::from_u128(7));
        let budget = (!points.is_empty()).then_some(Budget { verification, whole: percent(20), points: &points });
        let figures = Figures { budget, card: Some(&card), ..Figures::default() };
        let minimum = Ohms(Decimal::from(limit) * Decimal::from(10_000));
        let smallest = figures.smallest(ValuePolicy::Guarded, minimum, step());
        let all = displayable(&card);
        let from = all.iter().position(|shown| Some(*shown) == smallest).unwrap_or(all.len());
        prop_assert_eq!(smallest.is_some(), from < all.len(), "it can be shown");
        prop_assert!(all[from..].iter().all(|shown| proves(&figures, minimum, *shown)));
        if from > 0 {
            prop_assert!(!proves(&figures, minimum, all[from - 1]));
        }
    }

    #[test]
    fn a_larger_guard_never_makes_a_reading_prove_a_limit(
        small in 0..60_u32, more in 1..60_u32, limit in 1..5_000_u32, shown in 1..20_000_u32,
    ) {
        let of = |p| Figures { operating: Some((VerificationId(Uuid::from_u128(7)), percent(p))), ..Figures::default() };
        let hundredths = |count: u32| Ohms(Decimal::from(count) * Decimal::from(10_000));
        let (minimum, shown) = (hundredths(limit), hundredths(shown));
        prop_assert!(!proves(&of(small + more), minimum, shown) || proves(&of(small), minimum, shown));
    }

    #[test]
    fn the_strict_form_is_never_below_the_makers(p in 0..50_u32, n in 0..10_u32, limit in 1..9_000_u32) {
        let minimum = Ohms(Decimal::from(limit) * Decimal::from(1_000));
        let card = card(vec![range("0.00 MΩ", "99.99 MΩ", "0.01 MΩ", &format!("{p} % + {n}"))]);
        let figures = Figures { card: Some(&card), ..Figures::default() };
        let makers = makers_smallest(minimum, Accuracy { percent: percent(p), digits: n }, step()).unwrap();
        let strict = figures.smallest(ValuePolicy::Guarded, minimum, step()).unwrap();
        prop_assert!(strict >= makers, "{:?} {:?}", strict, makers);
    }
}
