//! An invented tester with 500 V, a box of known resistors, a high-voltage probe and a current meter.

use chrono::{DateTime, NaiveDate};
use provenohm_assess::bench::{
    BenchFacts, BenchResult, BenchRun, Conditions, DecisionRule, EditionId, LoadReading, LoadRole, Measured,
    MeasuredWhat, MeterReading, PointResult, Resistor, Series, TesterLook, VoltageResult, compute,
};
use provenohm_assess::ids::{BenchId, MeasuredId, ReferenceId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Amps, Celsius, CoverageFactor, Ohms, Percent, Shown, Volts};
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

pub fn moment(text: &str) -> Moment {
    DateTime::parse_from_rfc3339(&format!("{text}:00Z")).unwrap()
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
        interval_months: None,
        ranging: None,
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

pub const TESTER: TesterId = TesterId(Uuid::from_u128(9));
const BENCH: BenchId = BenchId(Uuid::from_u128(10));

/// A run with what was measured in it, all at 500 V on 1 June 2026 unless a case says otherwise.
#[derive(Clone, Debug)]
pub struct Scene {
    pub run: BenchRun,
    pub measured: Vec<Measured>,
    pub card: Card,
    pub references: Vec<Reference>,
}

impl Scene {
    pub fn new() -> Self {
        let run = BenchRun {
            id: BENCH,
            tester: TESTER,
            references: vec![BOX, PROBE, AMMETER],
            edition: newest().id.clone(),
            rule: DecisionRule::Simple,
            adjusted: false,
            mark: None,
            look: TesterLook::default(),
            by: "a bench".to_owned(),
            started: moment("2026-06-01T08:00"),
            plan: Vec::new(),
        };
        Self { run, measured: Vec::new(), card: card(), references: references() }
    }

    pub fn add(&mut self, item: MeasuredWhat) -> &mut Measured {
        let id = MeasuredId(Uuid::from_u128(100 + self.measured.len() as u128));
        self.measured.push(Measured {
            id,
            bench: BENCH,
            series: Series::AsFound,
            test_voltage_v: volts("500"),
            // Reference conditions (23 ± 2 °C, seen): a temperature nobody read is a remark of its own.
            conditions: Conditions { temperature_c: Some(Celsius(dec("23"))), ..Conditions::default() },
            at: moment("2026-06-01T09:00"),
            item,
        });
        self.measured.last_mut().unwrap()
    }

    /// What was shown at a known resistance, both in MΩ.
    pub fn shows(&mut self, known: &str, indicated: &str) -> &mut Measured {
        self.add(MeasuredWhat::Indication { resistor: resistor(known), across: None, shown: shown(indicated) })
    }

    pub fn with(mut self, points: &[(&str, &str)]) -> Self {
        for (known, indicated) in points {
            self.shows(known, indicated);
        }
        self
    }

    pub fn shorted(&mut self, indicated: &str) -> &mut Measured {
        self.add(MeasuredWhat::LeadsShorted { shown: shown(indicated) })
    }

    pub fn open_circuit(&mut self, v: &str) -> &mut Measured {
        self.add(MeasuredWhat::OpenCircuit { load: None, voltage: MeterReading { reference: PROBE, shown: volts(v) } })
    }

    pub fn at_load(&mut self, role: LoadRole, load: &str, v: &str) -> &mut Measured {
        let voltage = Some(MeterReading { reference: PROBE, shown: volts(v) });
        self.add(MeasuredWhat::AtLoad(LoadReading { role, load: resistor(load), voltage, current: None }))
    }

    pub fn short_circuit(&mut self, amps: &str) -> &mut Measured {
        let current = MeterReading { reference: AMMETER, shown: Amps(dec(amps)) };
        self.add(MeasuredWhat::ShortCircuit { current })
    }

    pub fn result(&self) -> BenchResult {
        compute(&BenchFacts {
            run: &self.run,
            measured: &self.measured,
            card: Some(&self.card),
            references: &self.references,
            edition: newest(),
        })
    }

    /// The one voltage of the run.
    pub fn at_500(&self) -> VoltageResult {
        let mut voltages = self.result().voltages;
        assert_eq!(voltages.len(), 1);
        voltages.pop().unwrap()
    }

    /// The one point of the run.
    pub fn point(&self) -> PointResult {
        let mut points = self.at_500().points;
        assert_eq!(points.len(), 1);
        points.pop().unwrap()
    }
}

pub fn resistor(known: &str) -> Resistor {
    Resistor { reference: BOX, nominal_ohm: mega(known) }
}

/// Intervals as "from to" in MΩ.
pub fn held(voltage: &VoltageResult) -> Vec<String> {
    let text = |ohms: Ohms| (ohms.0 / dec("1000000")).normalize().to_string();
    voltage.intervals.iter().map(|i| format!("{} to {}", text(i.from_ohm), text(i.to_ohm))).collect()
}

/// Everything good but what a case leaves out: points, leads, output voltage and currents.
pub fn sound() -> Scene {
    let mut scene = Scene::new().with(&[
        ("0.1", "0.10"),
        ("0.5", "0.50"),
        ("1", "1.01"),
        ("1", "1.00"),
        ("1", "1.01"),
        ("10", "9.98"),
        ("50", "50"),
        ("100", "101"),
        ("1000", "990"),
    ]);
    scene.shorted("0.00");
    scene.open_circuit("560");
    scene.at_load(LoadRole::Rated, "0.5", "520");
    scene.short_circuit("0.0021");
    scene
}
