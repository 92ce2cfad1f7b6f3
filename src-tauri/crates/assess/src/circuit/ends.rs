//! Making pairs, telling their kind, and what a joined pair stands for.

use super::{Conductor, Conductors, End, Pair, PairKind, Terminal};
use crate::ids::CircuitId;
use std::collections::BTreeSet;

/// Why two ends are not a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAPair {
    /// Nothing is connected to one of the ends.
    #[error("an end with nothing on it")]
    EmptyEnd,
    /// The same terminal on both ends.
    #[error("one terminal on both ends")]
    SharedTerminal,
}

impl End {
    /// One live conductor.
    #[must_use]
    pub fn live(circuit: CircuitId, conductor: Conductor) -> Self {
        Self::of(Terminal::Live { circuit, conductor })
    }

    /// Live conductors of one circuit joined.
    #[must_use]
    pub fn joined(circuit: CircuitId, conductors: &[Conductor]) -> Self {
        Self(conductors.iter().map(|conductor| Terminal::Live { circuit, conductor: *conductor }).collect())
    }

    /// The protective conductor.
    #[must_use]
    pub fn earth() -> Self {
        Self::of(Terminal::Earth)
    }

    /// The live conductors of all other circuits, joined.
    #[must_use]
    pub fn others() -> Self {
        Self::of(Terminal::OtherCircuits)
    }

    /// Everything on this end and on another one, joined.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }

    /// The circuits whose live conductors are on this end.
    #[must_use]
    pub fn circuits(&self) -> BTreeSet<CircuitId> {
        self.0.iter().filter_map(|terminal| terminal.circuit()).collect()
    }

    fn of(terminal: Terminal) -> Self {
        Self(BTreeSet::from([terminal]))
    }

    fn lives(&self) -> impl Iterator<Item = (CircuitId, Conductor)> {
        self.0.iter().filter_map(|terminal| match terminal {
            Terminal::Live { circuit, conductor } => Some((*circuit, *conductor)),
            Terminal::OtherCircuits | Terminal::Earth => None,
        })
    }

    /// Whether it holds all live conductors of each of its circuits and nothing else.
    fn is_whole(&self, conductors: impl Fn(CircuitId) -> Option<Conductors>) -> bool {
        let whole = |circuit: CircuitId| {
            conductors(circuit).is_some_and(|c| {
                c.live().iter().all(|conductor| self.0.contains(&Terminal::Live { circuit, conductor: *conductor }))
            })
        };
        let circuits = self.circuits();
        self.lives().count() == self.0.len() && circuits.into_iter().all(whole)
    }
}

impl Terminal {
    /// The circuit it belongs to, for a live conductor.
    #[must_use]
    pub const fn circuit(&self) -> Option<CircuitId> {
        match self {
            Self::Live { circuit, .. } => Some(*circuit),
            Self::OtherCircuits | Self::Earth => None,
        }
    }
}

impl Pair {
    /// The pair of two ends, the lesser first.
    ///
    /// # Errors
    /// [`NotAPair`] for an empty end, or a terminal on both.
    pub fn between(one: End, other: End) -> Result<Self, NotAPair> {
        if one.0.is_empty() || other.0.is_empty() {
            return Err(NotAPair::EmptyEnd);
        }
        if !one.0.is_disjoint(&other.0) {
            return Err(NotAPair::SharedTerminal);
        }
        Ok(if one <= other { Self { a: one, b: other } } else { Self { a: other, b: one } })
    }

    /// Whether each live conductor on it is one that its circuit has.
    pub fn is_on(&self, conductors: impl Fn(CircuitId) -> Option<Conductors>) -> bool {
        let mut lives = self.a.lives().chain(self.b.lives());
        lives.all(|(circuit, conductor)| conductors(circuit).is_none_or(|it| it.live().contains(&conductor)))
    }

    /// The same without the live conductors of a circuit; none where an end is then empty, or it is not in it.
    #[must_use]
    pub fn without(&self, circuit: CircuitId) -> Option<Self> {
        let rest = |end: &End| End(end.0.iter().filter(|it| it.circuit() != Some(circuit)).copied().collect());
        if self.circuits().contains(&circuit) { Self::between(rest(&self.a), rest(&self.b)).ok() } else { None }
    }

    /// Every circuit with a live conductor in it.
    #[must_use]
    pub fn circuits(&self) -> BTreeSet<CircuitId> {
        &self.a.circuits() | &self.b.circuits()
    }

    /// Whether it is of a kind. One live conductor against earth is also all of them joined where the circuit has
    /// no other.
    pub fn is(&self, kind: PairKind, conductors: impl Fn(CircuitId) -> Option<Conductors>) -> bool {
        let single = |end: &End| end.0.len() == 1 && end.lives().count() == 1;
        let earth = self.b == End::earth();
        let circuits = self.a.circuits().len();
        match kind {
            PairKind::LiveLive => single(&self.a) && single(&self.b) && self.circuits().len() == 1,
            PairKind::LiveEarth => single(&self.a) && earth,
            PairKind::JoinedEarth => earth && circuits == 1 && self.a.is_whole(conductors),
            PairKind::GroupEarth => earth && circuits > 1 && self.a.is_whole(conductors),
            PairKind::JoinedOthers => self.b == End::others() && circuits == 1 && self.a.is_whole(conductors),
        }
    }

    /// Its kind; none where it is of no kind a limit set speaks of.
    pub fn kind(&self, conductors: impl Fn(CircuitId) -> Option<Conductors>) -> Option<PairKind> {
        use PairKind::{GroupEarth, JoinedEarth, JoinedOthers, LiveEarth, LiveLive};
        [LiveLive, LiveEarth, JoinedEarth, JoinedOthers, GroupEarth]
            .into_iter()
            .find(|kind| self.is(*kind, &conductors))
    }

    /// What a reading of it that meets proves besides itself: each joined conductor alone, and each circuit of a
    /// group, against the same other end. Leakages add up, so none of them can be lower than the whole. Never pairs
    /// between what was joined.
    #[must_use]
    pub fn stands_for(&self) -> Vec<Self> {
        let of = |parts: Vec<End>, other: &End| {
            parts.into_iter().filter_map(|part| Self::between(part, other.clone()).ok()).collect::<Vec<_>>()
        };
        let mut pairs = of(parts(&self.a), &self.b);
        pairs.extend(of(parts(&self.b), &self.a));
        pairs
    }

    /// Every pair of one terminal with one terminal that it holds; none where it is such a pair itself. Read singly they
    /// prove what it proved: leakage between what was joined is not part of it.
    #[must_use]
    pub fn singles(&self) -> Vec<Self> {
        if self.a.0.len() < 2 && self.b.0.len() < 2 {
            return Vec::new();
        }
        let alone = |end: &End| end.0.iter().map(|terminal| End::of(*terminal)).collect::<Vec<_>>();
        let between = |a: End| alone(&self.b).into_iter().filter_map(move |b| Self::between(a.clone(), b).ok());
        alone(&self.a).into_iter().flat_map(between).collect()
    }
}

/// The parts of a joined end: each circuit of several, then each terminal alone.
fn parts(end: &End) -> Vec<End> {
    if end.0.len() < 2 {
        return Vec::new();
    }
    let circuits = end.circuits();
    let circuit = |id: &CircuitId| End(end.0.iter().filter(|t| t.circuit() == Some(*id)).copied().collect());
    let mut parts: Vec<End> = Vec::new();
    if circuits.len() > 1 {
        parts.extend(circuits.iter().map(circuit).filter(|part| part.0.len() > 1));
    }
    parts.extend(end.0.iter().map(|terminal| End::of(*terminal)));
    parts
}
