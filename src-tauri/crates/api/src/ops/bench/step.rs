//! The steps of a run: each planned point, and whatever was measured beside the plan.

use super::run::Run;
use crate::views::StepId;
use provenohm_assess::bench::{
    LoadReading, LoadRole, Measured, MeasuredWhat, PlannedPoint, PlannedWhat, Series, Supply, TesterPosition, Warmth,
};
use provenohm_assess::quantity::{Display, Volts};
use provenohm_assess::standard::Edition;
use provenohm_logbook::entry::body::MeasuredAt;
use provenohm_logbook::view::Stated;
use serde::{Deserialize, Serialize};

/// Which figure of a point is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Figure {
    /// What the tester shows.
    Indication,
    /// Volts on a meter.
    Voltage,
    /// Current on a meter.
    Current,
    /// Which terminal is positive.
    Polarity,
}

impl Figure {
    /// What its digits are read on.
    pub(crate) const fn display(self) -> Display {
        match self {
            Self::Indication | Self::Polarity => Display::Tester,
            Self::Voltage | Self::Current => Display::Meter,
        }
    }
}

/// What makes a step: written out, it is the step's id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Key {
    pub(crate) volts: Volts,
    pub(crate) item: PlannedWhat,
    pub(crate) figure: Figure,
    pub(crate) supply: Supply,
    pub(crate) position: TesterPosition,
    #[serde(default)]
    pub(crate) warmth: Warmth,
}

impl Key {
    /// Its id.
    pub(crate) fn id(&self) -> StepId {
        // Enums, decimals and ids always serialise.
        StepId(serde_json::to_string(self).unwrap_or_default())
    }

    /// The key of an id.
    pub(crate) fn of(id: &StepId) -> Option<Self> {
        serde_json::from_str(&id.0).ok()
    }

    /// What a planned point asks for: at a load, volts and current are read one after the other.
    fn planned(point: &PlannedPoint, ammeter: bool) -> Vec<Self> {
        let key = |figure| Self {
            volts: point.test_voltage_v,
            item: point.item,
            figure,
            supply: point.supply,
            position: point.position,
            warmth: point.warmth,
        };
        match point.item {
            PlannedWhat::Indication { .. } | PlannedWhat::LeadsOpen | PlannedWhat::LeadsShorted => {
                vec![key(Figure::Indication)]
            }
            PlannedWhat::OpenCircuit { .. } => vec![key(Figure::Voltage)],
            PlannedWhat::RatedLoad { .. } | PlannedWhat::FurtherLoad { .. } if ammeter => {
                vec![key(Figure::Voltage), key(Figure::Current)]
            }
            PlannedWhat::RatedLoad { .. } | PlannedWhat::FurtherLoad { .. } => vec![key(Figure::Voltage)],
            PlannedWhat::ShortCircuit | PlannedWhat::Ripple => vec![key(Figure::Current)],
            PlannedWhat::Polarity => vec![key(Figure::Polarity)],
        }
    }

    /// The steps something measured belongs to.
    pub(crate) fn measured(one: &Measured, edition: &Edition) -> Vec<Self> {
        let key = |item, figure| Self {
            volts: one.test_voltage_v,
            item,
            figure,
            supply: one.conditions.supply,
            position: one.conditions.position,
            warmth: Warmth::of(one.conditions.temperature_c, edition),
        };
        match one.item {
            MeasuredWhat::Indication { resistor, .. } => {
                vec![key(PlannedWhat::Indication { resistor }, Figure::Indication)]
            }
            MeasuredWhat::OpenCircuit { load, .. } => vec![key(PlannedWhat::OpenCircuit { load }, Figure::Voltage)],
            MeasuredWhat::AtLoad(LoadReading { role, load, voltage, current }) => {
                let item = match role {
                    LoadRole::Rated => PlannedWhat::RatedLoad { load: Some(load) },
                    LoadRole::Further => PlannedWhat::FurtherLoad { load },
                };
                let volts = voltage.map(|_| key(item, Figure::Voltage));
                volts.into_iter().chain(current.map(|_| key(item, Figure::Current))).collect()
            }
            MeasuredWhat::ShortCircuit { .. } => vec![key(PlannedWhat::ShortCircuit, Figure::Current)],
            MeasuredWhat::Ripple { .. } => vec![key(PlannedWhat::Ripple, Figure::Current)],
            MeasuredWhat::LeadsOpen { .. } => vec![key(PlannedWhat::LeadsOpen, Figure::Indication)],
            MeasuredWhat::LeadsShorted { .. } => vec![key(PlannedWhat::LeadsShorted, Figure::Indication)],
            MeasuredWhat::Polarity { .. } => vec![key(PlannedWhat::Polarity, Figure::Polarity)],
        }
    }
}

/// One step with what was measured for it in a series.
pub(crate) struct Step<'r> {
    pub(crate) key: Key,
    /// How many times it is planned; 0: not.
    pub(crate) of: u32,
    /// What was measured, whatever became of it.
    pub(crate) measured: Vec<&'r Stated<MeasuredAt>>,
    /// No resistor or meter for it is at hand.
    pub(crate) blocked: bool,
}

impl Step<'_> {
    /// How many times it was measured.
    pub(crate) fn done(&self) -> u32 {
        u32::try_from(self.measured.iter().filter(|one| one.is_live()).count()).unwrap_or(u32::MAX)
    }

    /// Whether something is still to be measured and can be.
    pub(crate) fn is_open(&self) -> bool {
        !self.blocked && self.done() < self.of
    }
}

/// The steps of a run in one series: the plan in its order, then what was measured beside it. What was measured at another
/// temperature than planned is no repeat of it and stands beside the plan. Only where nothing was measured at reference
/// temperature does a step of it take what was measured near it, outside both ends of the rated range: a bench that is
/// warmer than it should be is worked at all the same, and the result remarks it.
pub(crate) fn steps(run: &Run, series: Series) -> Vec<Step<'_>> {
    let ammeter = run.ammeters().next().is_some();
    let voltmeter = run.voltmeters().next().is_some();
    let blocked = |key: &Key| match key.figure {
        _ if matches!(key.item, PlannedWhat::RatedLoad { load: None }) => true,
        Figure::Voltage => !voltmeter,
        Figure::Current => !ammeter,
        Figure::Indication | Figure::Polarity => false,
    };
    let mut steps: Vec<Step<'_>> = Vec::new();
    for point in &run.run().plan {
        for key in Key::planned(point, ammeter) {
            match steps.iter_mut().find(|step| step.key == key) {
                Some(step) => step.of = step.of.saturating_add(point.repeats),
                None => steps.push(Step { key, of: point.repeats, measured: Vec::new(), blocked: blocked(&key) }),
            }
        }
    }
    for one in run.bench.measured.iter().filter(|one| one.value.measured.series == series) {
        for key in Key::measured(&one.value.measured, run.edition) {
            match steps.iter_mut().find(|step| step.key == key) {
                Some(step) => step.measured.push(one),
                // What was taken back beside the plan has no step to stand in.
                None if one.is_live() => {
                    steps.push(Step { key, of: 0, measured: vec![one], blocked: blocked(&key) });
                }
                None => {}
            }
        }
    }
    let (mut planned, beside): (Vec<_>, Vec<_>) = steps.into_iter().partition(|step| step.of > 0);
    for other in beside {
        let stands_in = |step: &&mut Step<'_>| {
            step.key == Key { warmth: Warmth::Reference, ..other.key } && step.measured.iter().all(|one| !one.is_live())
        };
        match planned.iter_mut().find(stands_in).filter(|_| other.key.warmth == Warmth::Other) {
            Some(step) => step.measured.extend(other.measured),
            None => planned.push(other),
        }
    }
    planned
}
