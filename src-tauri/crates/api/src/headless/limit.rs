//! What a set asks of one circuit.

use super::{Refused, SetAsked, exact, words};
use crate::read::circuit_complaint;
use provenohm_assess::circuit::{Conductors, Current, Electrical, Item, Loads, Measure, Nominal, PairKind, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{
    Demand, Limit, LimitSet, MeasureName, NoLimit, ReducedReason, RequiredPair, Source, Under,
};
use provenohm_assess::quantity::{Ohms, Volts};
use provenohm_words::{PairNames, Words};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;

/// A circuit to be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LimitAsked {
    /// The set.
    pub set: SetAsked,
    /// Nominal voltage, V.
    pub nominal_v: Volts,
    /// Protective measure.
    pub measure: MeasureName,
    /// Kind of current.
    pub current: Current,
    /// Voltage to earth, V.
    pub to_earth_v: Option<Volts>,
    /// FELV: the supply's nominal voltage, V.
    pub supply_v: Option<Volts>,
    /// Loads while testing.
    pub loads: Loads,
    /// A special item.
    pub item: Option<Item>,
    /// Live conductors; absent: line and neutral, or the two of a d.c. circuit.
    pub conductors: Option<Conductors>,
    /// Before equipment is connected, or after.
    pub stage: Stage,
}

/// What the set asks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LimitTold {
    /// Id of the set.
    pub set: String,
    /// Test voltage d.c., V; null where the set states none.
    pub test_voltage_v: Option<Volts>,
    /// The highest minimum of its pairs, Ω.
    pub minimum_ohm: Ohms,
    /// Required pairs in the order they are read in.
    pub pairs: Vec<PairTold>,
    /// Kinds of pair that must not be taken with these loads.
    pub forbidden: Vec<PairKind>,
    /// The reduced test voltage, where the set allows one.
    pub reduced: Option<ReducedTold>,
    /// Where the figure stands, and how sure it is.
    pub source: Source,
    /// What a person reads.
    pub lines: Vec<String>,
}

/// One required pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PairTold {
    /// Its two ends, `L–PE`.
    pub pair: String,
    /// Its kind.
    pub kind: PairKind,
    /// Its minimum, Ω.
    pub minimum_ohm: Ohms,
}

/// A reduced test voltage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReducedTold {
    /// The lower test voltage d.c., V.
    pub test_voltage_v: Volts,
    /// The minimum at it, Ω.
    pub minimum_ohm: Ohms,
    /// Reasons that allow it.
    pub reasons: Vec<ReducedReason>,
    /// Where it stands.
    pub source: Source,
}

impl LimitAsked {
    /// The circuit it describes.
    ///
    /// # Errors
    /// [`Refused`] for a combination that cannot be a circuit.
    pub(super) fn electrical(&self) -> Result<Electrical, Refused> {
        let measure = match (self.measure, self.supply_v) {
            (MeasureName::None, None) => Measure::None,
            (MeasureName::Selv, None) => Measure::Selv,
            (MeasureName::Pelv, None) => Measure::Pelv,
            (MeasureName::Separation, None) => Measure::Separation,
            (_, Some(_)) if self.measure != MeasureName::Felv => {
                return Err(Refused(words().text("office-supply-of-felv")));
            }
            (_, Some(volts)) => {
                Measure::Felv { supply: Nominal { volts, current: Current::Ac, to_earth: self.to_earth_v } }
            }
            (MeasureName::Felv, None) => {
                return Err(Refused(words().text("complaint-felv-supply-needed")));
            }
        };
        let usual = match self.current {
            Current::Ac => Conductors::SinglePhase,
            Current::Dc => Conductors::Dc,
        };
        // The voltage to earth of a FELV circuit is its supply's.
        let to_earth = self.to_earth_v.filter(|_| self.measure != MeasureName::Felv);
        let electrical = Electrical {
            nominal: Nominal { volts: self.nominal_v, current: self.current, to_earth },
            measure,
            conductors: self.conductors.unwrap_or(usual),
            loads: self.loads,
            joined_to_earth: false,
            spd_stays: false,
            item: self.item,
            location: None,
        };
        match electrical.complaints().first() {
            Some(complaint) => {
                let (_, said) = circuit_complaint(&words(), *complaint);
                Err(Refused(words().text_with("file-circuit", &[("reason", said.into())])))
            }
            None => Ok(electrical),
        }
    }
}

/// What a set asks of a circuit.
///
/// # Errors
/// [`Refused`] for an unknown set, an impossible circuit, or one the set has no limit for.
pub fn limit(asked: &LimitAsked) -> Result<LimitTold, Refused> {
    let set = asked.set.set()?;
    let electrical = asked.electrical()?;
    let Asks { demand, limit, reduced, pair: _ } = asks(&set, &electrical, asked.stage, None)?;
    let words = words();
    let told = |pair: &RequiredPair| PairTold {
        pair: name(&words, &electrical, pair),
        kind: pair.kind,
        minimum_ohm: exact(pair.limit.minimum_ohm),
    };
    let pairs: Vec<PairTold> = demand.pairs.iter().map(told).collect();
    // Ω/V sets ask another minimum of each pair.
    let alike = pairs.iter().all(|pair| pair.minimum_ohm == limit.minimum_ohm);
    let named = |pair: &PairTold| {
        if alike { pair.pair.clone() } else { format!("{} {}", pair.pair, words.ohms(pair.minimum_ohm)) }
    };
    let names: Vec<String> = pairs.iter().map(named).collect();
    let mut lines = vec![words.electrical(&electrical), words.demand(&limit), names.join(", ")];
    lines.extend(unsure(&words, &limit));
    lines.extend(no_row_of_its_own(&words, &set, &electrical));
    let reduced = reduced.and_then(|(limit, reasons)| {
        let (minimum_ohm, source) = (exact(limit.minimum_ohm), limit.source);
        Some(ReducedTold { test_voltage_v: limit.test_voltage_v?, minimum_ohm, reasons, source })
    });
    if let Some(told) = &reduced {
        let reasons: Vec<String> = told.reasons.iter().map(|reason| words.reduced_reason(*reason)).collect();
        let args = [
            ("volts", words.volts(told.test_voltage_v).into()),
            ("minimum", words.ohms(told.minimum_ohm).into()),
            ("reasons", reasons.join("; ").into()),
            ("source", words.source(&told.source).into()),
        ];
        lines.push(words.text_with("answer-limit-reduced", &args));
    }
    Ok(LimitTold {
        set: set.id.0,
        test_voltage_v: limit.test_voltage_v,
        minimum_ohm: exact(limit.minimum_ohm),
        pairs,
        forbidden: demand.forbidden,
        reduced,
        source: limit.source,
        lines,
    })
}

/// What a set asks of one circuit, and of one pair of it.
pub(super) struct Asks {
    pub(super) demand: Demand,
    /// The pair asked for; otherwise the one with the highest minimum.
    pub(super) pair: RequiredPair,
    /// Its limit.
    pub(super) limit: Limit,
    /// The same at the reduced voltage, where the set has one, with the reasons that allow it.
    pub(super) reduced: Option<(Limit, Vec<ReducedReason>)>,
}

pub(super) fn asks(set: &LimitSet, electrical: &Electrical, stage: Stage, pair: Option<&str>) -> Result<Asks, Refused> {
    let words = words();
    let none = |why: NoLimit| {
        let args = [("set", set.title.as_str().into()), ("reason", words.no_limit(&why).into())];
        Refused(words.text_with("office-no-limit-because", &args))
    };
    let demand = set.demand(CIRCUIT, electrical, stage).map_err(none)?;
    let chosen = match pair {
        Some(asked) => {
            let bare = |name: &str| name.replace('-', "–").split_whitespace().collect::<String>();
            let found = demand.pairs.iter().find(|pair| bare(&name(&words, electrical, pair)) == bare(asked));
            Some(found.ok_or_else(|| {
                let known: Vec<String> = demand.pairs.iter().map(|pair| name(&words, electrical, pair)).collect();
                let args = [("found", asked.into()), ("choices", known.join(", ").into())];
                Refused(words.text_with("said-json-no-choice", &args))
            })?)
        }
        None => demand.pairs.iter().min_by_key(|pair| Reverse(pair.limit.minimum_ohm)),
    };
    let pair = chosen.ok_or_else(|| none(NoLimit::NoCircuit))?.clone();
    let under = Under { stage, loads: electrical.loads };
    let found = set.limit_for(&pair.pair, under, |_| Some(electrical)).map_err(none)?;
    let reduced = found.to_reduced_limit().zip(found.reduced.map(|(rule, _)| rule.reasons.clone()));
    let limit = pair.limit.clone();
    Ok(Asks { demand, pair, limit, reduced })
}

/// The circuit asked about has no id.
const CIRCUIT: CircuitId = CircuitId(uuid::Uuid::nil());

/// What the two ends of a pair are called.
pub(super) fn name(words: &Words, electrical: &Electrical, pair: &RequiredPair) -> String {
    let reference = |_| String::new();
    let names = PairNames { circuit: CIRCUIT, earthing: electrical.conductors.earthing(), reference: &reference };
    words.pair(&pair.pair, &names)
}

/// How sure a limit is, where it was recalled and not read in a published page.
pub(super) fn unsure(words: &Words, limit: &Limit) -> Option<String> {
    let tag = limit.source.tag;
    tag.is_memory().then(|| words.text_with("answer-limit-unsure", &[("tag", words.tag(tag).into())]))
}

/// That a set treats a special item like any other circuit.
fn no_row_of_its_own(words: &Words, set: &LimitSet, electrical: &Electrical) -> Option<String> {
    let item = electrical.item.filter(|item| set.rows.iter().all(|row| row.band.item != Some(*item)))?;
    Some(words.text_with("answer-limit-no-item", &[("item", words.item(item).into())]))
}
