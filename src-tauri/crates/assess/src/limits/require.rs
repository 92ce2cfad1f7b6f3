//! Which pairs a set requires of a circuit, and which it forbids.

use super::band::Asked;
use super::{Demand, LimitSet, NoLimit, RequiredPair, Under};
use crate::circuit::{Electrical, End, NotAPair, Pair, PairKind, Stage};
use crate::ids::CircuitId;

impl LimitSet {
    /// What follows from a circuit at a stage: the pairs the set requires, each with its limit, and the kinds it
    /// forbids.
    ///
    /// # Errors
    /// [`NoLimit`] where the set has no row or no pairs for the circuit.
    pub fn demand(&self, circuit: CircuitId, electrical: &Electrical, stage: Stage) -> Result<Demand, NoLimit> {
        let under = Under { stage, loads: electrical.loads };
        let asked = Asked::of(electrical, under);
        self.row(&asked).ok_or(asked.no_row())?;
        let rule = self.pair_rule(&asked).ok_or(asked.no_pairs())?;
        let mut pairs = Vec::new();
        for kind in rule.kinds.iter().map(|kind| joined_where_asked(*kind, rule.lives_may_be_joined, electrical)) {
            for pair in pairs_of(kind, circuit, electrical).into_iter().flatten() {
                let limit = self.limit_for(&pair, under, |id| (id == circuit).then_some(electrical))?.to_limit();
                pairs.push(RequiredPair { pair, kind, limit });
            }
        }
        Ok(Demand { stage, pairs, forbidden: rule.forbidden.clone() })
    }

    /// Whether the set forbids a pair with these loads: a kind it forbids for one of the circuits, or live
    /// conductors joined in part, which would put the test voltage across what is connected.
    pub fn forbids<'c>(
        &self,
        pair: &Pair,
        under: Under,
        electrical: impl Fn(CircuitId) -> Option<&'c Electrical>,
    ) -> bool {
        let conductors = |id| electrical(id).map(|electrical| electrical.conductors);
        let by_circuit = |id: &CircuitId| {
            let rule = electrical(*id).and_then(|electrical| self.pair_rule(&Asked::of(electrical, under)));
            rule.is_some_and(|rule| {
                let is_one_of = |kinds: &[PairKind]| kinds.iter().any(|kind| pair.is(*kind, conductors));
                let in_part = !rule.forbidden.is_empty() && pair.kind(conductors).is_none();
                !is_one_of(&rule.kinds) && (is_one_of(&rule.forbidden) || in_part)
            })
        };
        pair.circuits().iter().any(by_circuit)
    }

    /// Whether the live conductors of a circuit may be joined for a reading to earth: the set asks for them joined, or
    /// lets the single readings be replaced by one of all.
    #[must_use]
    pub fn joins_to_earth(&self, electrical: &Electrical, stage: Stage) -> bool {
        let asked = Asked::of(electrical, Under { stage, loads: electrical.loads });
        self.pair_rule(&asked).is_some_and(|rule| {
            rule.kinds.iter().any(|kind| match kind {
                PairKind::JoinedEarth | PairKind::GroupEarth => true,
                PairKind::LiveEarth => rule.lives_may_be_joined,
                PairKind::LiveLive | PairKind::JoinedOthers => false,
            })
        })
    }

    /// The pairs that a joined reading leaves to be read alone when it says anything but *meets*: each of its parts
    /// against the same other end (a low result on joined conductors is repeated conductor by conductor; seen, a trade
    /// book), but none that the set forbids with these loads.
    pub fn left_open<'c>(
        &self,
        joined: &Pair,
        under: Under,
        electrical: impl Fn(CircuitId) -> Option<&'c Electrical>,
    ) -> Vec<Pair> {
        let parts = joined.stands_for().into_iter();
        parts.filter(|part| !self.forbids(part, under, &electrical)).collect()
    }
}

fn joined_where_asked(kind: PairKind, allowed: bool, electrical: &Electrical) -> PairKind {
    let joined = allowed && electrical.joined_to_earth && kind == PairKind::LiveEarth;
    if joined { PairKind::JoinedEarth } else { kind }
}

/// The pairs of a kind, in the order of the conductors. A group is of several circuits and required of none alone.
fn pairs_of(kind: PairKind, circuit: CircuitId, electrical: &Electrical) -> Vec<Result<Pair, NotAPair>> {
    let live = electrical.conductors.live();
    let joined = || End::joined(circuit, live);
    match kind {
        PairKind::LiveLive => {
            let after = |i: usize| live.iter().skip(i + 1);
            let pair = |a, b| Pair::between(End::live(circuit, a), End::live(circuit, b));
            live.iter().enumerate().flat_map(|(i, a)| after(i).map(move |b| pair(*a, *b))).collect()
        }
        PairKind::LiveEarth => live.iter().map(|a| Pair::between(End::live(circuit, *a), End::earth())).collect(),
        PairKind::JoinedEarth => vec![Pair::between(joined(), End::earth())],
        PairKind::JoinedOthers => vec![Pair::between(joined(), End::others())],
        PairKind::GroupEarth => Vec::new(),
    }
}
