//! When a tester is due, and the staircase of ILAC-G24 / OIML D 10 from its own as-found history.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use chrono::NaiveDate;
use proptest::prelude::*;
use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::interval::{AsFound, Change, Due, Next, Staircase, as_found, due, last_day, next_verification};
use provenohm_assess::judgement::{TesterJudgement, TesterReason, TesterState};
use provenohm_assess::moment::When;
use provenohm_assess::quantity::{Ohms, Percent, Shown, Volts};
use provenohm_assess::tester::{
    Card, Outcome, Point, ProofEvent, ProofKind, Range, Statement, TesterHistory, Verification, VoltageCard,
    VoltageFinding,
};
use rust_decimal::Decimal;
use uuid::Uuid;

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn made(text: &str) -> When {
    When::Day { date: day(text), offset_minutes: 60 }
}

fn ohms(text: &str) -> Ohms {
    Ohms::parse(text).unwrap()
}

#[test]
fn twelve_months_end_on_the_same_day_or_the_month_s_last() {
    assert_eq!(last_day(made("2026-03-03"), 12), Some(day("2027-03-03")));
    assert_eq!(last_day(made("2024-02-29"), 12), Some(day("2025-02-28")));
    assert_eq!(last_day(made("2026-08-31"), 6), Some(day("2027-02-28")));
}

#[test]
fn the_last_day_itself_is_not_past() {
    let from = |today: &str| due(day("2027-03-03"), day(today), 30);
    assert_eq!(from("2027-01-31"), Due::Later { days: 31 });
    assert_eq!(from("2027-02-01"), Due::Soon { days: 30 });
    assert_eq!(from("2027-03-03"), Due::Soon { days: 0 });
    assert_eq!(from("2027-03-04"), Due::Past { days: 1 });
}

/// A card of ±(3 % + 2 digits) at 0.01 MΩ, and verifications that showed these figures at 1 MΩ.
fn history(shown: &[&str]) -> TesterHistory {
    let range = Range {
        from_ohm: ohms("0.05 MΩ"),
        to_ohm: ohms("19.99 MΩ"),
        resolution_ohm: ohms("0.01 MΩ"),
        accuracy_percent: Some(Percent(3.into())),
        accuracy_digits: Some(2),
    };
    let voltage = VoltageCard {
        test_voltage_v: Volts(500.into()),
        ranges: vec![range],
        over_range: None,
        operating_uncertainty_percent: None,
    };
    let verification = |(i, indicated): (usize, &&str)| {
        let points = (!indicated.is_empty()).then(|| Point {
            reference_ohm: ohms("1 MΩ"),
            indicated: Shown::parse(&format!("{indicated} MΩ")).unwrap(),
            good: true,
            error_uncertainty_percent: None,
        });
        let as_found =
            Statement { outcome: Outcome::Good, points: points.into_iter().collect(), ..Statement::default() };
        ProofEvent::Verification(Verification {
            id: VerificationId(Uuid::from_u128(i as u128)),
            tester: TesterId(Uuid::nil()),
            kind: ProofKind::Bench,
            made: made(&format!("202{i}-03-03")),
            valid_until: None,
            by: String::new(),
            certificate: None,
            adjusted: false,
            overall: Outcome::NotStated,
            findings: vec![VoltageFinding {
                test_voltage_v: Volts(500.into()),
                as_found: Some(as_found),
                as_left: None,
            }],
            recorded_at: "2026-03-03T10:00:00+01:00".parse().unwrap(),
        })
    };
    TesterHistory {
        tester: TesterId(Uuid::nil()),
        card: Some(Card { voltages: vec![voltage], ..Card::default() }),
        events: shown.iter().enumerate().map(verification).rev().collect(),
        lead_checks: Vec::new(),
    }
}

fn walked(shown: &[&str]) -> Vec<(Option<Percent>, Change, u32)> {
    let proposal = Staircase::default().propose(&as_found(&history(shown)));
    assert_eq!(proposal.months, proposal.steps.last().map_or(12, |step| step.months));
    proposal.steps.iter().map(|step| (step.share_percent, step.change, step.months)).collect()
}

fn percent(text: &str) -> Option<Percent> {
    Some(Percent(text.parse().unwrap()))
}

/// Permitted at 1.02: 0.03·1.02 + 0.02 = 0.0506, so 0.02 is 39.5 %; at 1.04: 0.0512, so 0.04 is 78.1 %; at 1.05:
/// 0.0515, so 0.05 is 97.1 %; at 1.06: 0.0518, so 0.06 is 115.8 % (calc).
#[test]
fn within_80_percent_longer_beyond_what_is_permitted_shorter_else_kept() {
    assert_eq!(
        walked(&["1.02", "1.04", "1.05", "1.06"]),
        [
            (percent("39.5"), Change::Longer, 15),
            (percent("78.1"), Change::Longer, 18),
            (percent("97.1"), Change::Kept, 18),
            (percent("115.8"), Change::Shorter, 15),
        ]
    );
}

#[test]
fn found_good_without_figures_keeps_the_interval_and_nothing_found_proposes_none() {
    assert_eq!(walked(&[""]), [(None, Change::Kept, 12)]);
    assert_eq!(walked(&[]), []);
}

#[test]
fn failed_is_shorter_whatever_the_share() {
    let mut found = as_found(&history(&["1.02"]));
    found[0].failed = true;
    let proposal = Staircase::default().propose(&found);
    assert_eq!((proposal.months, proposal.steps[0].change), (9, Change::Shorter));
}

#[test]
fn it_ends_at_its_bounds() {
    let good = vec!["1.00"; 9];
    assert_eq!(walked(&good).last().unwrap().2, 24);
    let bad = vec!["1.50"; 9];
    assert_eq!(walked(&bad).last().unwrap().2, 3);
}

#[test]
fn as_found_after_an_adjustment_counts_what_was_found() {
    let mut adjusted = history(&["1.06"]);
    if let ProofEvent::Verification(v) = &mut adjusted.events[0] {
        v.adjusted = true;
        v.findings[0].as_left = Some(Statement { outcome: Outcome::Good, ..Statement::default() });
    }
    assert_eq!(as_found(&adjusted)[0].worst_share_percent, percent("115.8"));
    if let ProofEvent::Verification(v) = &mut adjusted.events[0] {
        v.findings[0].as_found = None;
    }
    assert_eq!(as_found(&adjusted), []);
}

proptest! {
    #[test]
    fn a_larger_error_never_makes_the_interval_longer(shares in prop::collection::vec(0_u32..200, 1..8), which: prop::sample::Index, more in 0_u32..200) {
        let found = |shares: &[u32]| -> Vec<AsFound> {
            shares.iter().map(|share| AsFound {
                verification: VerificationId(Uuid::nil()),
                made: made("2026-03-03"),
                worst_share_percent: Some(Percent(Decimal::from(*share))),
                failed: false,
            }).collect()
        };
        let mut worse = shares.clone();
        let at = which.index(worse.len());
        worse[at] += more;
        let months = |shares: &[u32]| Staircase::default().propose(&found(shares)).months;
        prop_assert!(months(&worse) <= months(&shares));
    }
}

fn judged(state: TesterState, reasons: Vec<TesterReason>) -> TesterJudgement {
    TesterJudgement { tester: None, state, reasons, remarks: Vec::new() }
}

/// The proofs relied on set the day; one test voltage that nothing proves sets it to today, whatever the others say.
#[test]
fn the_next_verification_is_due_by_the_first_day_of_what_is_relied_on() {
    let verification = VerificationId(Uuid::from_u128(1));
    let proved = |until: &str| {
        let made = When::Day { date: day("2026-03-03"), offset_minutes: 0 };
        let reason = TesterReason::ProvedBy { verification, made, valid_until: day(until), recorded_later: None };
        judged(TesterState::Proved, vec![reason])
    };
    let lapsed = |until: Option<&str>| {
        judged(TesterState::Lapsed, vec![TesterReason::LapsedOn { verification, valid_until: until.map(day) }])
    };
    assert_eq!(next_verification(&[proved("2027-03-03"), proved("2026-12-31")]), Next::By(day("2026-12-31")));
    assert_eq!(next_verification(&[proved("2027-03-03"), lapsed(Some("2026-01-31"))]), Next::By(day("2026-01-31")));
    assert_eq!(next_verification(&[proved("2027-03-03"), lapsed(None)]), Next::Now);
    // Barred now, though the reasons still name a certificate in date.
    let barred = TesterJudgement { state: TesterState::Barred, ..proved("2027-03-03") };
    assert_eq!(next_verification(&[proved("2027-03-03"), barred]), Next::Now);
}
