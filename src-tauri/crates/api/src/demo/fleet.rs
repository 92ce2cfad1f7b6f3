//! Two more testers of the demo's fleet, each with a run at the bench: one wrong at the low end, one whose voltage falls
//! under load. Testers, references and figures are invented.

use super::Clock;
use crate::failure::Failure;
use crate::ops::bench::{self, Figure, Key};
use crate::ops::references;
use crate::state::State;
use crate::views::{
    BenchAsk, BenchKey, CloseBench, Measure, PlanAsk, ReferenceForm, ReferenceKindName, ReferenceValueForm,
    SaveReference, SetLook, SetTemperature, StartBench,
};
use chrono::{Days, Duration};
use provenohm_assess::bench::{DecisionRule, EditionId, LookedAt, PlannedWhat, Supply, TesterLook};
use provenohm_assess::ids::{ReferenceId, TesterId};
use provenohm_assess::quantity::Volts;
use rust_decimal::Decimal;

/// How a tester is wrong.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wrong {
    /// 12 % low below 10 MΩ, right from there up.
    AtTheLowEnd,
    /// Right, but its voltage falls away at the rated load.
    UnderLoad,
}

/// Verifies both at 500 V.
pub(super) fn verify(state: &mut State, clock: &Clock, low_end: TesterId, falls: TesterId) -> Result<(), Failure> {
    let references = references_at_hand(state, clock)?;
    run(state, clock, low_end, &references, Wrong::AtTheLowEnd)?;
    run(state, clock, falls, &references, Wrong::UnderLoad)
}

fn references_at_hand(state: &mut State, clock: &Clock) -> Result<Vec<ReferenceId>, Failure> {
    let until = clock.now().date_naive().checked_add_days(Days::new(300)).map(|day| state.words.date(day));
    let value = |nominal: &str, percent: &str, rated: &str| ReferenceValueForm {
        nominal: nominal.to_owned(),
        within_percent: percent.to_owned(),
        rated_voltage: rated.to_owned(),
        voltage_coefficient: if rated.is_empty() { String::new() } else { "2".to_owned() },
        drift_percent: "0.05".to_owned(),
        ..ReferenceValueForm::empty()
    };
    let resistances = ["0.25 MΩ", "0.5 MΩ", "1 MΩ", "2 MΩ", "10 MΩ", "50 MΩ", "100 MΩ", "500 MΩ"];
    let mut ids = Vec::new();
    for (kind, name, serial, input, values) in [
        (
            ReferenceKindName::DecadeBox,
            "demo-box",
            "INV-R1",
            "",
            resistances.map(|nominal| value(nominal, "0.2", "1000")).to_vec(),
        ),
        (ReferenceKindName::HighVoltageProbe, "demo-probe", "INV-V1", "1 GΩ", vec![value("1500 V", "0.3", "")]),
        (ReferenceKindName::CurrentMeter, "demo-ammeter", "INV-I1", "", vec![value("20 mA", "0.3", "")]),
    ] {
        let form = ReferenceForm {
            kind,
            name: state.words.text(name),
            serial: serial.to_owned(),
            certificate: format!("{serial}-C"),
            valid_until: until.clone().unwrap_or_default(),
            input_resistance: input.to_owned(),
            values,
        };
        let view = references::save_reference(state, SaveReference { reference: None, form })?;
        let saved = view.references.iter().find(|one| one.form.serial == serial);
        ids.extend(saved.map(|one| one.id));
    }
    Ok(ids)
}

fn run(
    state: &mut State,
    clock: &Clock,
    tester: TesterId,
    references: &[ReferenceId],
    wrong: Wrong,
) -> Result<(), Failure> {
    let edition = EditionId("iec-61557-2-2019".to_owned());
    let plan = PlanAsk { tester, references: references.to_vec(), edition: edition.clone() };
    let points = bench::plan_bench(state, plan)?.points.into_iter().map(|one| one.point);
    let at_500 = |point: &provenohm_assess::bench::PlannedPoint| {
        point.test_voltage_v == Volts(Decimal::from(500)) && point.supply == Supply::Nominal
    };
    let start = StartBench {
        tester,
        references: references.to_vec(),
        edition,
        rule: DecisionRule::Simple,
        by: state.words.text("demo-bench"),
        plan: points.filter(at_500).collect(),
    };
    let begun = bench::start_bench(state, start)?;
    let temperature = SetTemperature { bench: begun.id, temperature: "23".to_owned() };
    let mut view = bench::set_temperature(state, temperature)?;
    while let Some(step) = view.current {
        let key = Key::of(&step).ok_or_else(|| Failure::of("unexpected"))?;
        clock.wait(Duration::seconds(40));
        let (pressed, text) = shown(&key, wrong);
        let measure = Measure {
            bench: view.id,
            step,
            key: pressed,
            text,
            comparator: provenohm_assess::quantity::Comparator::Exact,
        };
        view = bench::measure(state, measure)?;
    }
    let view = bench::bench(state, BenchAsk { bench: view.id, step: None })?;
    let looked = LookedAt::Yes;
    let look =
        TesterLook { case: looked, leads: looked, marked_category: looked, marked_standard: looked, battery: looked };
    bench::set_bench_look(state, SetLook { bench: view.id, look, mark: String::new() })?;
    let until = clock.now().date_naive().checked_add_days(Days::new(365)).map(|day| state.words.date(day));
    let close = CloseBench {
        bench: view.id,
        valid_until: until.unwrap_or_default(),
        certificate: String::new(),
        reason: String::new(),
    };
    bench::close_bench(state, close)?;
    Ok(())
}

/// What the tester shows or gives at a step.
fn shown(key: &Key, wrong: Wrong) -> (BenchKey, String) {
    let typed = |key, text: &str| (key, text.to_owned());
    let falls = wrong == Wrong::UnderLoad;
    match (key.item, key.figure) {
        (PlannedWhat::Indication { resistor }, _) => (BenchKey::M, indication(resistor.nominal_ohm.0, wrong)),
        (PlannedWhat::LeadsOpen, _) => typed(BenchKey::OverRange, ""),
        (PlannedWhat::Polarity, _) => typed(BenchKey::EarthPositive, ""),
        (PlannedWhat::OpenCircuit { .. }, _) => typed(BenchKey::V, "542"),
        (PlannedWhat::RatedLoad { .. }, Figure::Current) => {
            typed(BenchKey::MilliA, if falls { "0.62" } else { "1.02" })
        }
        (PlannedWhat::RatedLoad { .. }, _) => typed(BenchKey::V, if falls { "310" } else { "511" }),
        (PlannedWhat::FurtherLoad { load }, figure) => {
            let heavy = load.nominal_ohm.0 < Decimal::from(500_000);
            let volts = match (falls, heavy) {
                (true, true) => 170,
                (true, false) => 505,
                (false, true) => 290,
                (false, false) => 525,
            };
            if figure == Figure::Current {
                let amps = Decimal::from(volts) / load.nominal_ohm.0;
                (BenchKey::MicroA, (amps * Decimal::from(1_000_000)).round().to_string())
            } else {
                (BenchKey::V, volts.to_string())
            }
        }
        (PlannedWhat::ShortCircuit | PlannedWhat::Ripple, _) => typed(BenchKey::MilliA, "1.31"),
        (PlannedWhat::LeadsShorted, _) => typed(BenchKey::M, "0.00"),
    }
}

/// Megohms as the tester's display shows them: two decimals below 20 MΩ, one below 200 MΩ.
fn indication(ohms: Decimal, wrong: Wrong) -> String {
    let megohms = ohms / Decimal::from(1_000_000);
    let low = wrong == Wrong::AtTheLowEnd && megohms < Decimal::TEN;
    let shown = if low { megohms * Decimal::new(88, 2) } else { megohms };
    let decimals = if shown < Decimal::from(20) {
        2
    } else if shown < Decimal::from(200) {
        1
    } else {
        0
    };
    format!("{:.*}", decimals, shown.round_dp(u32::try_from(decimals).unwrap_or(0)))
}
