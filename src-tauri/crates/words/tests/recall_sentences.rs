//! What is said of a reading put in doubt.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::moment::When;
use provenohm_assess::quantity::{Ohms, Percent};
use provenohm_assess::recall::{Again, Class, Unknown};
use provenohm_words::{Locale, Words};
use rust_decimal::Decimal;

fn words() -> Words {
    Words::new(Locale::ENGLISH)
}

fn ohms(text: &str) -> Ohms {
    Ohms(text.parse().unwrap())
}

#[test]
fn each_class_says_what_it_rests_on() {
    let limit = Some(ohms("1000000"));
    // 1.20 / 1.14, rounded towards zero
    let lowest_ohm = ohms("1052631.578947368421052631579");
    let clears = Class::StillClears { lowest_ohm, error_percent: Some(Percent(Decimal::from(14))) };
    assert_eq!(
        words().recall_class(&clears, limit),
        "still clears 1.0\u{a0}MΩ: at least 1.05\u{a0}MΩ with the error found"
    );
    let over_range = Class::StillClears { lowest_ohm: ohms("200000000"), error_percent: None };
    assert_eq!(words().recall_class(&over_range, limit), "still clears 1.0\u{a0}MΩ: stands for at least 200\u{a0}MΩ");
    let again = Class::TestAgain { because: Again::MayBeBelow { lowest_ohm: ohms("999999"), error_percent: None } };
    assert_eq!(words().recall_class(&again, limit), "no longer certain, test again: may be as low as 0.999\u{a0}MΩ");
    let fell = Class::TestAgain { because: Again::VoltageFell { held_from_ohm: ohms("2000000") } };
    assert_eq!(
        words().recall_class(&fell, limit),
        "no longer certain, test again: the voltage held only from 2.0\u{a0}MΩ"
    );
    let unknown = Class::CannotBeJudged { because: Unknown::UncertaintyNotKnown };
    assert_eq!(words().recall_class(&unknown, limit), "cannot be judged: the uncertainty of the error is not known");
    assert_eq!(words().recall_class_name(&unknown), "cannot be judged");
}

#[test]
fn the_error_may_have_differed_before() {
    let found = When::Day { date: "2026-08-01".parse().unwrap(), offset_minutes: 60 };
    assert_eq!(words().recall_remark(found), "with the error found on 1 Aug 2026; it may have differed before");
}
