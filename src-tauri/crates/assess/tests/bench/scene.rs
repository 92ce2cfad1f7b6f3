//! An invented tester with 500 V, a box of known resistors, a high-voltage probe and a current meter.

use chrono::NaiveDate;
use provenohm_assess::bench::EditionId;
use provenohm_assess::ids::ReferenceId;
use provenohm_assess::quantity::{Amps, CoverageFactor, Ohms, Percent, Shown, Volts};
use provenohm_assess::reference::{CurrentRange, KnownResistance, Reference, ReferenceKind, Stated, VoltageRange};
use provenohm_assess::standard::{Edition, edition};
use provenohm_assess::tester::{Card, Range, VoltageCard};
use rust_decimal::Decimal;
use uuid::Uuid;

pub const BOX: ReferenceId = ReferenceId(Uuid::from_u128(1));
pub const PROBE: ReferenceId = ReferenceId(Uuid::from_u128(2));
pub const AMMETER: ReferenceId = ReferenceId(Uuid::from_u128(3));

pub fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub fn mega(text: &str) -> Ohms {
    Ohms((dec(text) * dec("1000000")).normalize())
}

pub fn volts(text: &str) -> Volts {
    Volts(dec(text))
}

pub fn shown(text: &str) -> Shown {
    Shown::parse(&format!("{text} MΩ")).unwrap()
}

pub fn day(text: &str) -> Option<NaiveDate> {
    Some(text.parse().unwrap())
}

pub fn newest() -> &'static Edition {
    edition(&EditionId("iec-61557-2-2019".to_owned())).unwrap().unwrap()
}

/// U = 0.2 %, k = 2, drift 0.1 %, up to 1000 V.
pub fn resistance(mega_ohms: &str) -> KnownResistance {
    KnownResistance {
        nominal_ohm: mega(mega_ohms),
        stated_ohm: mega(mega_ohms),
        within_percent: Some(Percent(dec("0.2"))),
        within_ohm: None,
        stated: Stated::Expanded { k: CoverageFactor(dec("2")) },
        drift_percent: Some(Percent(dec("0.1"))),
        voltage_coefficient: None,
        stated_at_v: None,
        temperature_coefficient: None,
        rated_voltage_v: Some(volts("1000")),
    }
}

pub fn reference(id: ReferenceId, name: &str, what: ReferenceKind) -> Reference {
    Reference {
        id,
        name: name.to_owned(),
        serial: name.to_owned(),
        certificate: None,
        valid_until: day("2027-01-31"),
        what,
    }
}

pub const VALUES: [&str; 9] = ["0.1", "0.25", "0.5", "1", "2", "10", "50", "100", "1000"];

pub fn references() -> Vec<Reference> {
    let values = VALUES.map(resistance).to_vec();
    let probe = VoltageRange {
        nominal_v: volts("2000"),
        stated_v: volts("2000"),
        within_percent: Some(Percent(dec("0.5"))),
        within_v: None,
        stated: Stated::Tolerance,
        resolution_v: None,
        drift_percent: None,
    };
    let ammeter = CurrentRange {
        nominal_a: Amps(dec("0.02")),
        stated_a: Amps(dec("0.02")),
        within_percent: Some(Percent(dec("0.5"))),
        within_a: None,
        stated: Stated::Tolerance,
        resolution_a: None,
        drift_percent: None,
    };
    vec![
        reference(BOX, "box", ReferenceKind::DecadeBox { values }),
        reference(
            PROBE,
            "probe",
            ReferenceKind::HighVoltageProbe { ranges: vec![probe], input_resistance_ohm: mega("1000") },
        ),
        reference(AMMETER, "meter", ReferenceKind::CurrentMeter { ranges: vec![ammeter] }),
    ]
}

/// 0.05 to 20 MΩ in steps of 0.01 MΩ, 20 to 2000 MΩ in steps of 1 MΩ, both ±(3 % + 2 digits).
pub fn card() -> Card {
    let range = |from, to, step| Range {
        from_ohm: mega(from),
        to_ohm: mega(to),
        resolution_ohm: mega(step),
        accuracy_percent: Some(Percent(dec("3"))),
        accuracy_digits: Some(2),
    };
    Card {
        voltages: vec![VoltageCard {
            test_voltage_v: volts("500"),
            ranges: vec![range("0.05", "20", "0.01"), range("20", "2000", "1")],
            over_range: Some(shown("> 2000")),
            operating_uncertainty_percent: None,
        }],
        conforms_iec_61557_2: false,
        shorted_up_to: None,
    }
}
