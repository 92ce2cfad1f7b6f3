//! The shipped editions of the tester standard.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use provenohm_assess::bench::EditionId;
use provenohm_assess::limits::Tag;
use provenohm_assess::standard::{Edition, SHIPPED_EDITIONS, edition, shipped_editions};
use rust_decimal::Decimal;

#[test]
fn every_edition_loads_and_has_its_own_id() {
    let editions = shipped_editions().unwrap();
    assert_eq!(editions.len(), SHIPPED_EDITIONS.len());
    for one in editions {
        assert_eq!(edition(&one.id).unwrap(), Some(one));
    }
    assert_eq!(edition(&EditionId("of-nobody".to_owned())).unwrap(), None);
}

/// Most open-circuit voltage: 1.25 `U_N` (2007, 2019), 1.5 `U_N` (1997), memory-M; 30 % operating uncertainty
/// (IEC 61557-2:2019, 6.2, seen).
#[test]
fn editions_differ_in_the_open_circuit_voltage() {
    let factor = |id: &str| edition(&EditionId(id.to_owned())).unwrap().unwrap().open_circuit_factor.clone();
    assert_eq!(factor("iec-61557-2-2019").value, Decimal::new(125, 2));
    assert_eq!(factor("iec-61557-2-2007").value, Decimal::new(125, 2));
    assert_eq!(factor("iec-61557-2-1997").value, Decimal::new(15, 1));
    assert_eq!(factor("iec-61557-2-2019").source.tag, Tag::MemoryMedium);
    let newest = &shipped_editions().unwrap()[0];
    assert_eq!(newest.operating_uncertainty_percent.value.0, Decimal::from(30));
    assert_eq!(newest.operating_uncertainty_percent.source.tag, Tag::Seen);
}

#[test]
fn an_edition_with_a_figure_of_zero_is_refused() {
    let text = std::str::from_utf8(SHIPPED_EDITIONS[0]).unwrap().replacen("\"1.25\"", "\"0\"", 1);
    assert!(Edition::load(text.as_bytes()).is_err());
    assert!(Edition::load(b"{}").is_err());
}
