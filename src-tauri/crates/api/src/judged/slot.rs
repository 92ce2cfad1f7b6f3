//! A slot: where a reading belongs, and what is there.

use super::{Judged, JudgedReading};
use crate::views::{Sign, SlotId};
use provenohm_assess::circuit::{Conductor, End, Pair, Stage, Terminal};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::judgement::Level;
use provenohm_assess::limits::Limit;
use provenohm_exchange::job_file::{NotTested, Requested};

/// Where a reading belongs, and what is there.
#[derive(Clone, Debug)]
pub(crate) struct Slot {
    pub(crate) stage: Stage,
    pub(crate) pair: Pair,
    /// The set requires it.
    pub(crate) required: bool,
    /// What it is judged by.
    pub(crate) limit: Option<Limit>,
    /// Indexes of the readings that stand in it; two wait to be settled.
    pub(crate) readings: Vec<usize>,
    /// That it was not tested, and why; two reasons wait to be settled.
    pub(crate) not_tested: Vec<NotTested>,
    /// Index of a joined reading that gives its judgement to this pair.
    pub(crate) covered_by: Option<usize>,
    /// New readings of it that are asked for and not there yet.
    pub(crate) requests: Vec<Requested>,
}

impl Slot {
    /// Its id.
    pub(crate) fn id(&self) -> SlotId {
        slot_id(self.stage, &self.pair)
    }

    /// Nothing is recorded for it and nothing stands in for it.
    pub(crate) fn is_open(&self) -> bool {
        self.readings.is_empty() && self.not_tested.is_empty() && self.covered_by.is_none()
    }

    /// A reading of it is waited for: nothing is recorded, or a new one is asked for.
    pub(crate) fn awaits(&self) -> bool {
        self.is_open() || !self.requests.is_empty()
    }

    /// The reading that speaks for it: of several the least favourable, of equal ones the last.
    pub(crate) fn reading<'a>(&self, judged: &'a Judged) -> Option<&'a JudgedReading> {
        let own = self.readings.iter().filter_map(|at| judged.readings.get(*at));
        own.max_by_key(|one| one.judgement.severity()).or_else(|| judged.readings.get(self.covered_by?))
    }

    /// Its sign.
    pub(crate) fn sign(&self, judged: &Judged) -> Sign {
        match self.reading(judged).map(|one| one.judgement.level) {
            Some(Level::Stop) => Sign::Stop,
            Some(Level::Look) => Sign::Look,
            Some(Level::Done | Level::Remark) => Sign::Done,
            None if !self.not_tested.is_empty() => Sign::Look,
            None => Sign::Todo,
        }
    }
}

/// The id of a slot: the stage and the two ends, written out.
pub(crate) fn slot_id(stage: Stage, pair: &Pair) -> SlotId {
    let stage = match stage {
        Stage::Before => "before",
        Stage::After => "after",
    };
    SlotId(format!("{stage}~{}~{}", end(&pair.a), end(&pair.b)))
}

/// The stage and pair a slot's id names.
pub(crate) fn slot_of(id: &SlotId) -> Option<(Stage, Pair)> {
    let mut parts = id.0.split('~');
    let stage = match parts.next()? {
        "before" => Stage::Before,
        "after" => Stage::After,
        _ => return None,
    };
    let pair = Pair::between(end_of(parts.next()?)?, end_of(parts.next()?)?).ok()?;
    parts.next().is_none().then_some((stage, pair))
}

fn end(end: &End) -> String {
    let terminal = |terminal: &Terminal| match terminal {
        Terminal::Live { circuit, conductor } => format!("{circuit}.{}", conductor_code(*conductor)),
        Terminal::OtherCircuits => "others".to_owned(),
        Terminal::Earth => "earth".to_owned(),
    };
    end.0.iter().map(terminal).collect::<Vec<_>>().join("_")
}

fn end_of(text: &str) -> Option<End> {
    let terminal = |text: &str| match text {
        "others" => Some(Terminal::OtherCircuits),
        "earth" => Some(Terminal::Earth),
        live => {
            let (circuit, code) = live.split_once('.')?;
            let conductor = CONDUCTORS.into_iter().find(|one| conductor_code(*one) == code)?;
            Some(Terminal::Live { circuit: CircuitId(circuit.parse().ok()?), conductor })
        }
    };
    text.split('_').map(terminal).collect::<Option<_>>().map(End)
}

const CONDUCTORS: [Conductor; 8] = [
    Conductor::L,
    Conductor::L1,
    Conductor::L2,
    Conductor::L3,
    Conductor::N,
    Conductor::Plus,
    Conductor::M,
    Conductor::Minus,
];

/// Plain letters and digits, so that an id can stand in an address.
const fn conductor_code(conductor: Conductor) -> &'static str {
    match conductor {
        Conductor::L => "L",
        Conductor::L1 => "L1",
        Conductor::L2 => "L2",
        Conductor::L3 => "L3",
        Conductor::N => "N",
        Conductor::Plus => "P",
        Conductor::M => "M",
        Conductor::Minus => "Q",
    }
}
