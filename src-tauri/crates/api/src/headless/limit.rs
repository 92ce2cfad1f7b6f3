//! What a set asks of one circuit.

use super::{Refused, exact, set, words};
use provenohm_assess::circuit::{Conductors, Current, Electrical, Item, Loads, Measure, Nominal, PairKind, Stage};
use provenohm_assess::ids::CircuitId;
use provenohm_assess::limits::{MeasureName, ReducedReason, Source};
use provenohm_assess::quantity::{Ohms, Volts};
use provenohm_words::PairNames;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A circuit to be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LimitAsked {
    /// Id of the set.
    pub set: String,
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
            (MeasureName::None, _) => Measure::None,
            (MeasureName::Selv, _) => Measure::Selv,
            (MeasureName::Pelv, _) => Measure::Pelv,
            (MeasureName::Separation, _) => Measure::Separation,
            (MeasureName::Felv, Some(volts)) => {
                Measure::Felv { supply: Nominal { volts, current: Current::Ac, to_earth: self.to_earth_v } }
            }
            (MeasureName::Felv, None) => {
                return Err(Refused(
                    "a FELV circuit is tested like its supply: give the supply's nominal voltage".into(),
                ));
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
            Some(complaint) => Err(Refused(format!("this cannot be a circuit: {complaint}"))),
            None => Ok(electrical),
        }
    }
}

/// What a set asks of a circuit before equipment is connected.
///
/// # Errors
/// [`Refused`] for an unknown set, an impossible circuit, or one the set has no limit for.
pub fn limit(asked: &LimitAsked) -> Result<LimitTold, Refused> {
    let set = set(&asked.set)?;
    let electrical = asked.electrical()?;
    let circuit = CircuitId(uuid::Uuid::nil());
    let none = |why: &dyn std::fmt::Display| Refused(format!("{} has no limit for this circuit: {why}", set.title));
    let demand = set.demand(circuit, &electrical, Stage::Before).map_err(|why| none(&why))?;
    let words = words();
    let reference = |_| String::new();
    let names = PairNames { circuit, earthing: electrical.conductors.earthing(), reference: &reference };
    let strictest = demand.pairs.iter().max_by_key(|pair| pair.limit.minimum_ohm);
    let limit = strictest.map(|pair| pair.limit.clone()).ok_or_else(|| none(&"it requires no pair"))?;
    let pairs: Vec<PairTold> = demand
        .pairs
        .iter()
        .map(|pair| PairTold {
            pair: words.pair(&pair.pair, &names),
            kind: pair.kind,
            minimum_ohm: exact(pair.limit.minimum_ohm),
        })
        .collect();
    let names: Vec<&str> = pairs.iter().map(|pair| pair.pair.as_str()).collect();
    let lines = vec![words.electrical(&electrical), words.demand(&limit), names.join(", ")];
    Ok(LimitTold {
        set: asked.set.clone(),
        test_voltage_v: limit.test_voltage_v,
        minimum_ohm: exact(limit.minimum_ohm),
        pairs,
        forbidden: demand.forbidden,
        reduced: demand.reduced.map(|rule| ReducedTold {
            test_voltage_v: rule.volts,
            reasons: rule.reasons,
            source: rule.source,
        }),
        source: limit.source,
        lines,
    })
}
