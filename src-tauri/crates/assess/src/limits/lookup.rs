//! Which row, rule and limit a set has for a circuit, and for one given pair.

use super::band::Asked;
use super::{Band, Limit, LimitSet, Minimum, PairRule, Reduced, Row};
use crate::circuit::{Electrical, Loads, MeasureName, Pair, PairKind, Stage, Terminal};
use crate::ids::CircuitId;
use crate::quantity::{Ohms, Volts};
use rust_decimal::Decimal;

/// When and with which loads a reading is taken: those of the reading, never of a later change of the circuit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Under {
    /// Before or after equipment is connected.
    pub stage: Stage,
    /// Loads at that moment.
    pub loads: Loads,
}

/// Why a set gives no limit. Each is said as it is; no limit is ever made up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoLimit {
    /// The set has no row for the circuit.
    #[error("no row for {measure:?} at {} V", volts.0)]
    NoRow {
        /// Its measure.
        measure: MeasureName,
        /// The nominal voltage that decides, V.
        volts: Volts,
    },
    /// The set has no rule for the circuit's pairs.
    #[error("no pairs for {measure:?}")]
    NoPairs {
        /// Its measure.
        measure: MeasureName,
    },
    /// The circuits joined in the pair ask for different test voltages.
    #[error("the circuits of the pair ask for different test voltages")]
    MembersDiffer,
    /// The pair has no live conductor of a circuit that is known.
    #[error("no circuit of the pair is known")]
    NoCircuit,
}

/// The limit of one pair, with the row and the reduced rule it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PairLimit<'s> {
    /// Minimum, Ω.
    pub minimum: Ohms,
    /// The row.
    pub row: &'s Row,
    /// The rule that allows a lower test voltage, and its minimum.
    pub reduced: Option<(&'s Reduced, Ohms)>,
    title: &'s str,
}

impl PairLimit<'_> {
    /// The limit with its source, to keep.
    #[must_use]
    pub fn to_limit(&self) -> Limit {
        Limit {
            minimum_ohm: self.minimum,
            test_voltage_v: self.row.test_voltage_v,
            set: self.title.to_owned(),
            source: self.row.source.clone(),
        }
    }

    /// The limit at the reduced voltage, to keep; none where the set allows no lower voltage here.
    #[must_use]
    pub fn to_reduced_limit(&self) -> Option<Limit> {
        self.reduced.map(|(rule, minimum_ohm)| Limit {
            minimum_ohm,
            test_voltage_v: Some(rule.volts),
            set: self.title.to_owned(),
            source: rule.source.clone(),
        })
    }
}

impl LimitSet {
    /// The limit of one given pair. A pair across circuits is judged by the circuit being proved: one kept apart
    /// from others (SELV, PELV, separation) against a circuit that is not. Otherwise the highest limit of its
    /// members decides, and they must ask for the same test voltage.
    ///
    /// # Errors
    /// [`NoLimit`].
    pub fn limit_for<'c>(
        &self,
        pair: &Pair,
        under: Under,
        electrical: impl Fn(CircuitId) -> Option<&'c Electrical>,
    ) -> Result<PairLimit<'_>, NoLimit> {
        let members = pair.circuits();
        let known = || members.iter().map(|id| electrical(*id).map(|e| (*id, e)).ok_or(NoLimit::NoCircuit));
        let across = members.len() > 1 && !pair.b.circuits().is_empty();
        let is_apart = |electrical: &Electrical| {
            matches!(electrical.measure.name(), MeasureName::Selv | MeasureName::Pelv | MeasureName::Separation)
        };
        let some_apart = known().flatten().any(|(_, electrical)| is_apart(electrical));
        let mut highest: Option<PairLimit<'_>> = None;
        for member in known() {
            let (circuit, one) = member?;
            if across && some_apart && !is_apart(one) {
                continue;
            }
            let is = |kind: PairKind| pair.is(kind, |id| electrical(id).map(|it| it.conductors));
            let limit = self.limit_of_member(pair, circuit, one, under, is)?;
            highest = Some(match highest {
                None => limit,
                Some(other) => higher(other, limit)?,
            });
        }
        highest.ok_or(NoLimit::NoCircuit)
    }

    fn limit_of_member(
        &self,
        pair: &Pair,
        circuit: CircuitId,
        electrical: &Electrical,
        under: Under,
        is: impl Fn(PairKind) -> bool,
    ) -> Result<PairLimit<'_>, NoLimit> {
        let asked = Asked::of(electrical, under);
        let row = self.row(&asked).ok_or(asked.no_row())?;
        let minimum = |minimum: Minimum| match minimum {
            Minimum::Ohm(ohms) => ohms,
            // A product beyond the decimals there are is above every tester's range.
            Minimum::OhmPerVolt(ohms) => {
                Ohms(ohms.0.checked_mul(highest_voltage(pair, circuit, electrical).0).unwrap_or(Decimal::MAX))
            }
        };
        let reduced = self.reduced_rule(&asked, row, is).map(|rule| (rule, minimum(rule.minimum)));
        Ok(PairLimit { minimum: minimum(row.minimum), row, reduced, title: &self.title })
    }

    pub(super) fn row(&self, asked: &Asked) -> Option<&Row> {
        self.rows.iter().find(|row| row.band.fits(asked))
    }

    pub(super) fn pair_rule(&self, asked: &Asked) -> Option<&PairRule> {
        self.pairs.iter().find(|rule| rule.band.fits(asked))
    }

    /// A rule whose voltage is not below what the row asks for anyway allows nothing.
    fn reduced_rule(&self, asked: &Asked, row: &Row, is: impl Fn(PairKind) -> bool) -> Option<&Reduced> {
        let lower = |rule: &&Reduced| row.test_voltage_v.is_some_and(|volts| rule.volts < volts);
        // What a set asks of a special item is lowered only by a rule that names the item.
        let fits = |band: &Band| band.fits(asked) && (row.band.item.is_none() || band.item == row.band.item);
        let of_kind = |rule: &&Reduced| rule.kinds.is_empty() || rule.kinds.iter().any(|kind| is(*kind));
        self.reduced.iter().filter(lower).filter(of_kind).find(|rule| rule.bands.iter().any(fits))
    }
}

fn higher<'s>(one: PairLimit<'s>, other: PairLimit<'s>) -> Result<PairLimit<'s>, NoLimit> {
    if one.row.test_voltage_v != other.row.test_voltage_v {
        return Err(NoLimit::MembersDiffer);
    }
    // A lower voltage is allowed for the whole only where each member allows it, at the highest of their minima.
    let reduced = one.reduced.zip(other.reduced).filter(|((a, _), (b, _))| a.volts == b.volts);
    let reduced = reduced.map(|(a, b)| if a.1 >= b.1 { a } else { b });
    let higher = if one.minimum >= other.minimum { one } else { other };
    Ok(PairLimit { reduced, ..higher })
}

/// The highest nominal voltage between the circuit's terminals on one end and whatever is on the other.
fn highest_voltage(pair: &Pair, circuit: CircuitId, electrical: &Electrical) -> Volts {
    let nominal = electrical.deciding();
    let voltage = |one: &Terminal, other: &Terminal| match (one, other) {
        (Terminal::Live { circuit: a, conductor: x }, Terminal::Live { circuit: b, conductor: y }) if a == b => {
            electrical.between(*x, *y)
        }
        (Terminal::Earth, _) | (_, Terminal::Earth) => nominal.earth(),
        _ => nominal.volts,
    };
    let of_circuit = |terminal: &Terminal| terminal.circuit() == Some(circuit);
    let across = pair.a.0.iter().flat_map(|one| pair.b.0.iter().map(move |other| (one, other)));
    let of_circuit = across.filter(|(one, other)| of_circuit(one) || of_circuit(other));
    of_circuit.map(|(one, other)| voltage(one, other)).max().unwrap_or(nominal.volts)
}
