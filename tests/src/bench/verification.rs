//! Computing a verification of 60 points beside reading its facts from their file.
use provenohm_assess::bench::{BenchFacts, Measured, MeasuredWhat, Resistor, compute};
use provenohm_assess::ids::MeasuredId;
use provenohm_assess::quantity::{Ohms, Shown, Volts};
use provenohm_assess::reference::{Reference, ReferenceKind};
use provenohm_assess::standard::edition;
use uuid::Uuid;

use crate::Broken;
use crate::figure::{Pairs, Row};

/// The worked example of a verification file: its card, its run and what its references are known to.
const EXAMPLE: &str = include_str!("../../../schemas/verification.example.json");
const VOLTAGES: [u32; 3] = [250, 500, 1000];
/// Known resistances at each test voltage, 0.5 MΩ apart.
const RESISTANCES: u32 = 20;
const PAIRS: usize = 50;

pub(crate) fn row() -> Result<Row, Broken> {
    let mut example: provenohm_api::headless::VerificationFile = serde_json::from_str(EXAMPLE)?;
    let known: Vec<Ohms> = (1..=RESISTANCES).map(|nth| Ohms((nth * 500_000).into())).collect();
    let Some(id) = example.references.iter_mut().find_map(|one| with_values(one, &known)) else {
        return Err(Broken::NoPart("resistor".to_owned()));
    };
    let Some(first) = example.measured.first().copied() else { return Err(Broken::NoPart("fact".to_owned())) };
    let mut measured: Vec<Measured> = Vec::new();
    for volts in VOLTAGES {
        for nominal_ohm in &known {
            let shown = format!("{} kΩ", (nominal_ohm.0 / rust_decimal::Decimal::ONE_THOUSAND).normalize());
            let Ok(shown) = Shown::parse(&shown) else { continue };
            let resistor = Resistor { reference: id, nominal_ohm: *nominal_ohm };
            measured.push(Measured {
                id: MeasuredId(Uuid::from_u128(measured.len() as u128 + 1)),
                test_voltage_v: Volts(volts.into()),
                item: MeasuredWhat::Indication { resistor, across: None, shown },
                ..first
            });
        }
    }
    let text = serde_json::to_string(&measured)?;
    let Ok(Some(edition)) = edition(&example.run.edition) else { return Err(Broken::NoPart("edition".to_owned())) };
    let mut points = 0;
    let mut pairs = Pairs::default();
    for _ in 0..PAIRS {
        let computed = || -> Result<(), Broken> {
            let facts = BenchFacts {
                run: &example.run,
                measured: &measured,
                card: Some(&example.card),
                references: &example.references,
                edition,
            };
            points = compute(&facts).voltages.iter().map(|voltage| voltage.points.len()).sum();
            Ok(())
        };
        let read = || -> Result<(), Broken> {
            let all: Vec<Measured> = serde_json::from_str(&text)?;
            std::hint::black_box(all);
            Ok(())
        };
        pairs.measure(computed, read)?;
    }
    Ok(pairs.row(format!("compute a verification of {points} points"), "read its facts from their file"))
}

/// Gives the resistor of the example these values, each known as well as its first one is.
fn with_values(reference: &mut Reference, known: &[Ohms]) -> Option<provenohm_assess::ids::ReferenceId> {
    let (ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values }) = &mut reference.what else {
        return None;
    };
    let first = values.first()?.clone();
    *values = known
        .iter()
        .map(|ohms| provenohm_assess::reference::KnownResistance {
            nominal_ohm: *ohms,
            stated_ohm: *ohms,
            ..first.clone()
        })
        .collect();
    Some(reference.id)
}
