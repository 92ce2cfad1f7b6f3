use crate::scene::{BOX, card, mega, newest, references, volts};
use provenohm_assess::bench::{DecisionPoint, PlannedPoint, PlannedWhat, Resistor, Supply, usual_points};

fn plan(limit: &str) -> Vec<PlannedPoint> {
    let decision = DecisionPoint { test_voltage_v: volts("500"), limit_ohm: mega(limit) };
    usual_points(&card(), &references(), &[decision], newest())
}

fn indications(plan: &[PlannedPoint], supply: Supply) -> Vec<(String, u32)> {
    plan.iter()
        .filter(|p| p.supply == supply)
        .filter_map(|p| match p.item {
            PlannedWhat::Indication { resistor } => Some((resistor.nominal_ohm.0.to_string(), p.repeats)),
            _ => None,
        })
        .collect()
}

#[test]
fn both_ends_of_each_range_and_the_decision_point_with_repeats() {
    let expected = [("100000", 1), ("500000", 3), ("1000000", 3), ("10000000", 1), ("50000000", 1), ("1000000000", 1)];
    let expected: Vec<(String, u32)> = expected.map(|(ohms, n)| (ohms.to_owned(), n)).to_vec();
    assert_eq!(indications(&plan("1"), Supply::Nominal), expected);
    let weak: Vec<(String, u32)> = [("500000", 1), ("1000000", 1)].map(|(ohms, n)| (ohms.to_owned(), n)).to_vec();
    assert_eq!(indications(&plan("1"), Supply::LowestBattery), weak);
}

/// 500 V × 1000 Ω/V = 0.5 MΩ (IEC 61557-2:2019, 6.4, seen).
#[test]
fn the_rated_load_is_asked_for_at_both_supplies() {
    let rated = PlannedWhat::RatedLoad { load: Some(Resistor { reference: BOX, nominal_ohm: mega("0.5") }) };
    let supplies: Vec<Supply> = plan("1").iter().filter(|p| p.item == rated).map(|p| p.supply).collect();
    assert_eq!(supplies, [Supply::Nominal, Supply::LowestBattery]);
}

#[test]
fn a_resistor_is_not_asked_for_above_its_rating() {
    let mut card = card();
    card.voltages[0].test_voltage_v = volts("2500");
    let plan = usual_points(&card, &references(), &[], newest());
    assert!(indications(&plan, Supply::Nominal).is_empty());
    assert!(plan.iter().any(|p| p.item == PlannedWhat::RatedLoad { load: None }));
}
