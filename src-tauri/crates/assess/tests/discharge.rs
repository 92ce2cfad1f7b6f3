//! How long a cable holds its charge, against a handbook's figures.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::discharge::discharge_time;
use provenohm_assess::quantity::{Farads, Ohms, Refusal, Seconds, Volts};
use rust_decimal::Decimal;

fn figure(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn time(through: &str, microfarads: &str, from: &str, to: &str) -> Option<Decimal> {
    let capacitance = Farads(figure(microfarads) / Decimal::from(1_000_000));
    let time = discharge_time(Ohms(figure(through)), capacitance, Volts(figure(from)), Volts(figure(to)));
    time.map(|Seconds(time)| time)
}

/// 750 kΩ to 25 V, for each µF: 2.8 s from 1000 V, 2.2 s from 500 V, 1.7 s from 250 V (seen, an instrument maker's manual;
/// rounded there to two digits, here up to three).
#[test]
fn the_handbooks_times_for_each_microfarad() {
    for (from, printed, ours) in [("1000", "2.8", "2.77"), ("500", "2.2", "2.25"), ("250", "1.7", "1.73")] {
        let time = time("750000", "1", from, "25").unwrap();
        assert_eq!(time, figure(ours), "from {from} V");
        assert!((time - figure(printed)).abs() <= figure("0.05"), "from {from} V: {time} beside {printed}");
    }
}

/// The time constant: at R·C the voltage has fallen to 1/e, so from 100 V to 36.788 V through 1 MΩ at 1 µF takes 1 s (calc).
#[test]
fn after_one_time_constant_the_eth_part_is_left() {
    assert_eq!(time("1000000", "1", "100", "36.788"), Some(figure("1")));
}

/// A cable of 5 km with 0.3 µF for each takes five times as long as one (calc).
#[test]
fn the_time_grows_with_the_cable() {
    assert_eq!(time("750000", "0.3", "1000", "25"), Some(figure("0.83")));
    assert_eq!(time("750000", "1.5", "1000", "25"), Some(figure("4.15")));
}

#[test]
fn what_cannot_be_worked_out_gives_no_time() {
    assert_eq!(time("750000", "1", "20", "25"), Some(Decimal::ZERO), "already below it");
    for (through, microfarads, from, to) in [
        ("0", "1", "500", "25"),
        ("750000", "-1", "500", "25"),
        ("750000", "1", "0", "25"),
        ("750000", "1", "500", "0"),
    ] {
        assert_eq!(time(through, microfarads, from, to), None);
    }
    let most = Decimal::MAX.to_string();
    assert_eq!(time(&most, &most, &most, "0.001"), None);
}

#[test]
fn a_capacitance_is_read_with_its_unit() {
    let read = |text: &str| Farads::parse(text).map(|Farads(value)| value.normalize());
    for text in ["0.3 µF", "0,3 \u{3bc}F", "300 nF", "0.3uF"] {
        assert_eq!(read(text), Ok(figure("0.0000003")), "{text}");
    }
    assert_eq!(read("0.3"), Err(Refusal::NoUnit));
    assert_eq!(read("0.3 V"), Err(Refusal::UnknownUnit));
}
