//! From a reading to the sentence a person reads, through the real rules.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod made;

use made::{history, limit, megohms, ohms, reading, shown, volts};
use provenohm_assess::judge::{Asked, Known, Wanted, judge};
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};
use provenohm_assess::quantity::{Comparator, Percent, Shown, Unit};
use provenohm_assess::tester::{Card, Prepared, Range, VoltageCard};
use provenohm_words::{Locale, Words};
use rust_decimal::Decimal;

/// ±(3 % + 2 digits) at 0.01 MΩ, for every test voltage of these tests.
fn card() -> Card {
    let at = |v| VoltageCard {
        test_voltage_v: volts(v),
        ranges: vec![Range {
            from_ohm: ohms("0"),
            to_ohm: ohms("9990000"),
            resolution_ohm: ohms("10000"),
            accuracy_percent: Some(Percent(Decimal::from(3))),
            accuracy_digits: Some(2),
        }],
        over_range: None,
        operating_uncertainty_percent: None,
    };
    Card { voltages: vec![at(100), at(500), at(1000)], ..Card::default() }
}

fn said(of: Shown, at: u32, value: ValuePolicy) -> String {
    let mut tester = history();
    tester.card = Some(card());
    let prepared = Prepared::new(&tester);
    let reading = reading(of, at);
    let wanted = Wanted { limit: Some(limit()), ..Wanted::default() };
    let policies = Policies { value, tester: TesterPolicy::Usual, quick_check_days: None };
    let asked =
        Asked { reading: &reading, wanted: &wanted, tester: Some(&prepared), policies, known: Known::default() };
    Words::new(Locale::ENGLISH).value_sentence(&judge(&asked), &reading).replace('\u{a0}', " ")
}

#[test]
fn a_person_reads_what_the_rules_decided() {
    let cases = [
        (said(megohms("1.00"), 500, ValuePolicy::Simple), "meets 1.0 MΩ at 500 V"),
        (said(megohms("0.98"), 500, ValuePolicy::Guarded), "below 1.0 MΩ at 500 V, the limit set for this job"),
        (
            said(megohms("1.05"), 500, ValuePolicy::Guarded),
            "too close to call: 1.05 MΩ at 500 V, acceptance from 1.06 MΩ",
        ),
        (said(megohms("1.06"), 500, ValuePolicy::Guarded), "meets 1.0 MΩ at 500 V"),
        (said(megohms("1.20"), 100, ValuePolicy::Simple), "cannot be judged at 100 V: this set asks for 500 V"),
        (said(megohms("0.40"), 1000, ValuePolicy::Simple), "below 1.0 MΩ at 1000 V. Test again at 500 V"),
        (
            said(shown(Comparator::MoreThan, "0.50", Unit::MegaOhm), 500, ValuePolicy::Simple),
            "cannot be judged: > 0.50 MΩ at 500 V leaves 1.0 MΩ open",
        ),
    ];
    for (said, expected) in cases {
        assert_eq!(said, expected);
    }
}
