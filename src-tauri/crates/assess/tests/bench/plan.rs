use crate::scene::{BOX, card, mega, newest, references, volts};
use provenohm_assess::bench::{DecisionPoint, PlannedPoint, PlannedWhat, Resistor, Supply, usual_points};
use provenohm_assess::quantity::Ohms;
use provenohm_assess::tester::{Card, Ranging};

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
    let expected = [
        ("100000", 1),
        ("500000", 3),
        ("1000000", 3),
        ("10000000", 1),
        ("50000000", 1),
        ("100000000", 1),
        ("1000000000", 1),
    ];
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

/// 500 V × 100 kΩ/V = 50 MΩ (IEC 61557-2:2019, 6.3, seen). With the probe's 1 GΩ across it 50 MΩ becomes 47.6 MΩ, too heavy;
/// 100 MΩ becomes 90.9 MΩ (calc).
#[test]
fn the_open_circuit_is_asked_for_alone_and_at_the_heaviest_load_that_is_light_enough() {
    let loads = |references: &[provenohm_assess::reference::Reference]| -> Vec<Option<Resistor>> {
        let plan = usual_points(&card(), references, &[], newest());
        let load = |point: &PlannedPoint| match point.item {
            PlannedWhat::OpenCircuit { load } => Some(load),
            _ => None,
        };
        plan.iter().filter_map(load).collect()
    };
    let heaviest = Resistor { reference: BOX, nominal_ohm: mega("100") };
    assert_eq!(loads(&references()), [None, Some(heaviest)]);
    let no_meter: Vec<_> = references().into_iter().filter(|one| one.input_resistance().is_none()).collect();
    assert_eq!(loads(&no_meter), [None], "nothing to read it on: the step says so");
    assert!(plan("1").iter().any(|point| point.item == PlannedWhat::Ripple));
}

/// The finest range that holds the resistance; above all of them the highest. A tester that ranges by itself is set to none.
#[test]
fn a_tester_ranged_by_hand_is_set_to_the_finest_range_that_holds_the_resistance() {
    let mut card = card();
    let tops = |card: &Card| -> Vec<Option<Ohms>> {
        let to_set = |known: &str| card.range_to_set(volts("500"), mega(known)).map(|range| range.to_ohm);
        ["0", "1", "20", "50", "9000"].map(to_set).to_vec()
    };
    assert_eq!(tops(&card), [None; 5], "not stated");
    card.ranging = Some(Ranging::Automatic);
    assert_eq!(tops(&card), [None; 5]);
    card.ranging = Some(Ranging::Manual);
    assert_eq!(tops(&card), ["20", "20", "20", "2000", "2000"].map(|top| Some(mega(top))));
    assert!(card.range_to_set(volts("250"), mega("1")).is_none(), "not on its card");
}

/// Of one range from 0.01 MΩ to 1 GΩ not only the ends: 0.5, 1, 2, 10, 100 MΩ and up are usual (memory-M), and an interval
/// spans what lies between its points.
#[test]
fn a_long_range_is_looked_at_once_a_decade() {
    let mut card = card();
    card.voltages[0].ranges.truncate(1);
    (card.voltages[0].ranges[0].from_ohm, card.voltages[0].ranges[0].to_ohm) = (mega("0.01"), mega("1000"));
    let plan = usual_points(&card, &references(), &[], newest());
    let known: Vec<String> = indications(&plan, Supply::Nominal).into_iter().map(|(ohms, _)| ohms).collect();
    assert_eq!(known, ["100000", "1000000", "10000000", "100000000", "1000000000"]);
}
