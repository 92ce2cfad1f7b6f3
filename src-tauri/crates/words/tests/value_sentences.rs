//! What is said of a value, of its limit and of its guard.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod made;

use made::{judgement, limit, megohms, ohms, reading, shown, volts, with_method};
use provenohm_assess::ids::VerificationId;
use provenohm_assess::judgement::{Guard, GuardSource, MethodReason, Value, ValueReason};
use provenohm_assess::quantity::{Comparator, Percent, Shown, Unit};
use provenohm_words::{Locale, Words};
use rust_decimal::Decimal;
use uuid::Uuid;

/// ±(3 % + 2 digits) at 0.01 MΩ and 1.05 MΩ: w = 0.0515 MΩ, acceptance 1.0515 MΩ (calc).
fn guard() -> Guard {
    Guard {
        source: GuardSource::Accuracy { percent: Percent(Decimal::from(3)), digits: 2, resolution_ohm: ohms("10000") },
        w_ohm: ohms("51500.00"),
        acceptance_ohm: ohms("1051500.00"),
        smallest_ohm: Some(ohms("1060000")),
        lapsed: false,
    }
}

fn said(value: Value, reason: ValueReason, of: Shown, at: u32) -> String {
    Words::new(Locale::ENGLISH)
        .value_sentence(&judgement(value, reason, Some(limit()), None), &reading(of, at))
        .replace('\u{a0}', " ")
}

fn more_than(digits: &str) -> Shown {
    shown(Comparator::MoreThan, digits, Unit::MegaOhm)
}

#[test]
fn every_verdict_names_the_voltage_it_was_taken_at() {
    use ValueReason as Why;
    let cases = [
        (said(Value::Meets, Why::Compared, megohms("487"), 500), "meets 1.0 MΩ at 500 V"),
        (said(Value::Below, Why::Compared, megohms("0.98"), 250), "below 1.0 MΩ at 250 V, the limit set for this job"),
        (
            said(Value::CannotBeJudged, Why::OpenTowardsLimit, more_than("0.5"), 500),
            "cannot be judged: > 0.5 MΩ at 500 V leaves 1.0 MΩ open",
        ),
        (
            said(Value::CannotBeJudged, Why::NoUncertainty, more_than("999"), 500),
            "cannot be judged at 500 V: no uncertainty known for this tester",
        ),
        (
            said(Value::CannotBeJudged, Why::LowerVoltage { asked_v: volts(500) }, megohms("1.2"), 100),
            "cannot be judged at 100 V: this set asks for 500 V",
        ),
        (
            said(Value::CannotBeJudged, Why::ClaimCut { top_ohm: ohms("500000") }, more_than("999"), 500),
            "cannot be judged at 500 V: backed only up to 0.5 MΩ",
        ),
        (
            said(Value::TooClose, Why::ClaimCut { top_ohm: ohms("1000000") }, more_than("999"), 500),
            "too close to call at 500 V: backed only up to 1.0 MΩ",
        ),
        (
            said(Value::CannotBeJudged, Why::NoLimit, megohms("1.2"), 500),
            "cannot be judged at 500 V: this set has no limit here",
        ),
        (
            said(Value::CannotBeJudged, Why::MembersDiffer, megohms("1.2"), 500),
            "cannot be judged at 500 V: joined circuits ask for different test voltages",
        ),
        (
            said(Value::CannotBeJudged, Why::TooManyLiveValues, megohms("1.2"), 500),
            "cannot be judged at 500 V: more than eight combinations to settle",
        ),
    ];
    for (said, expected) in cases {
        assert_eq!(said, expected);
    }
}

#[test]
fn too_close_says_from_where_the_limit_would_be_met() {
    let words = Words::new(Locale::ENGLISH);
    let close = judgement(Value::TooClose, ValueReason::Compared, Some(limit()), Some(guard()));
    assert_eq!(
        words.value_sentence(&close, &reading(megohms("1.05"), 500)).replace('\u{a0}', " "),
        "too close to call: 1.05 MΩ at 500 V, acceptance from 1.06 MΩ"
    );
}

#[test]
fn below_at_a_higher_voltage_asks_for_another_test() {
    let words = Words::new(Locale::ENGLISH);
    let higher = MethodReason::HigherVoltage { taken_v: volts(1000), asked_v: volts(500) };
    let below = with_method(judgement(Value::Below, ValueReason::Compared, Some(limit()), None), higher);
    assert_eq!(
        words.value_sentence(&below, &reading(megohms("0.4"), 1000)).replace('\u{a0}', " "),
        "below 1.0 MΩ at 1000 V. Test again at 500 V"
    );
}

#[test]
fn the_guard_is_explained_with_every_figure() {
    let lines = Words::new(Locale::ENGLISH).guard_lines(&guard(), &limit(), &megohms("1.05"));
    assert_eq!(
        lines.join("\n").replace('\u{a0}', " "),
        "w = p·R + n·resolution = 3 % × 1.05 MΩ + 2 × 0.01 MΩ = 0.0515 MΩ, at reference conditions\n\
         Acceptance limit L + w = 1.0 MΩ + 0.0515 MΩ = 1.0515 MΩ\n\
         Smallest indication that proves 1.0 MΩ: 1.06 MΩ"
    );
}

/// The entry line says from which figure of the tester its smallest indication was made.
#[test]
fn the_hint_says_from_what_it_was_made() {
    let say = |source: Option<&GuardSource>| {
        Words::new(Locale::ENGLISH).proves_from(&limit(), ohms("1060000"), source).replace('\u{a0}', " ")
    };
    let (verification, percent) = (VerificationId(Uuid::nil()), Percent(Decimal::from(4)));
    assert_eq!(say(None), "Proves 1.0 MΩ from 1.06 MΩ");
    assert_eq!(say(Some(&guard().source)), "Proves 1.0 MΩ from 1.06 MΩ, by ±(3 % + 2 digits)");
    for (source, by) in [
        (GuardSource::Budget { verification, percent }, "U = 4 % of its verification"),
        (GuardSource::OperatingUncertainty { verification, percent }, "B = 4 % of its verification"),
        (GuardSource::StatedOperatingUncertainty { percent }, "its stated operating uncertainty 4 %"),
        (GuardSource::Conforming { percent }, "4 % of IEC 61557-2"),
    ] {
        assert_eq!(say(Some(&source)), format!("Proves 1.0 MΩ from 1.06 MΩ, by {by}"));
    }
}

/// IEC 61557-2:2019, 6.2 (seen): at most 30 % of the measured value.
#[test]
fn a_guard_without_figures_names_the_standard() {
    let guard = Guard {
        source: GuardSource::Conforming { percent: Percent(Decimal::from(30)) },
        w_ohm: ohms("426000"),
        acceptance_ohm: ohms("1426000"),
        smallest_ohm: None,
        lapsed: true,
    };
    let lines =
        Words::new(Locale::ENGLISH).guard_lines(&guard, &limit(), &megohms("1.42")).join("\n").replace('\u{a0}', " ");
    assert_eq!(
        lines,
        "w = 30 % × 1.42 MΩ = 0.426 MΩ, for a tester that conforms to IEC 61557-2 and states no figures\n\
         Acceptance limit L + w = 1.0 MΩ + 0.426 MΩ = 1.426 MΩ\n\
         No indication of this tester proves 1.0 MΩ\n\
         These figures rest on a verification that has lapsed"
    );
}

#[test]
fn a_demand_names_voltage_minimum_and_source() {
    let words = Words::new(Locale::ENGLISH);
    assert_eq!(
        words.demand(&limit()).replace('\u{a0}', " "),
        "500 V d.c., at least 1.0 MΩ, IEC 60364-6:2016 Table 6.1"
    );
    let mut no_voltage = limit();
    no_voltage.test_voltage_v = None;
    assert_eq!(
        words.demand(&no_voltage).replace('\u{a0}', " "),
        "at least 1.0 MΩ, test voltage not stated by this set, IEC 60364-6:2016 Table 6.1"
    );
}
