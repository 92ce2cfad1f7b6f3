//! What was said to be one, and what to be two: of circuits, of testers and of people.

use super::query::{ReadError, View};
use crate::entry::body::{Different, SameCircuit, SameTester};
use crate::entry::{Noun, Object, ObjectId};
use provenohm_assess::circuit::{End, Pair, Terminal};
use provenohm_assess::ids::{CircuitId, JobId};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// Ids that mean one thing: each with the one that stands for all of them, the least.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Sameness {
    stands: BTreeMap<Uuid, Uuid>,
    different: BTreeSet<(Uuid, Uuid)>,
}

impl Sameness {
    fn of(same: impl IntoIterator<Item = (Uuid, Uuid)>, different: impl IntoIterator<Item = (Uuid, Uuid)>) -> Self {
        let mut all = Self::default();
        for (one, other) in same {
            let (one, other) = (all.one(one), all.one(other));
            let (least, more) = (one.min(other), one.max(other));
            if least != more {
                all.stands.values_mut().filter(|it| **it == more).for_each(|it| *it = least);
                all.stands.insert(more, least);
            }
        }
        let standing = |(one, other)| {
            let (one, other) = (all.one(one), all.one(other));
            (one.min(other), one.max(other))
        };
        all.different = different.into_iter().map(standing).collect();
        all
    }

    /// The id that stands for an id.
    pub(super) fn one(&self, id: Uuid) -> Uuid {
        self.stands.get(&id).copied().unwrap_or(id)
    }

    /// The other ids that one stands for.
    pub(super) fn others(&self, id: Uuid) -> impl Iterator<Item = Uuid> {
        self.stands.iter().filter(move |(_, stands)| **stands == id).map(|(other, _)| *other)
    }

    /// Whether a person said of two ids that they are two.
    pub(super) fn are_two(&self, one: Uuid, other: Uuid) -> bool {
        let (one, other) = (self.one(one), self.one(other));
        self.different.contains(&(one.min(other), one.max(other)))
    }

    /// A pair on the circuits that stand.
    pub(super) fn on(&self, pair: &mut Pair) {
        if self.stands.is_empty() {
            return;
        }
        let end = |end: &End| {
            let terminal = |it: &Terminal| match *it {
                Terminal::Live { circuit, conductor } => {
                    Terminal::Live { circuit: CircuitId(self.one(circuit.0)), conductor }
                }
                other => other,
            };
            End(end.0.iter().map(terminal).collect())
        };
        // Two conductors of one name on both ends are no pair: such a reading stays where it was written.
        if let Ok(moved) = Pair::between(end(&pair.a), end(&pair.b)) {
            *pair = moved;
        }
    }
}

impl View<'_> {
    /// Which circuits of a job were said to be one, or two.
    pub(super) fn same_circuits(&self, job: JobId) -> Result<Sameness, ReadError> {
        let same = self.stated::<SameCircuit>(Object { noun: Noun::Job, id: ObjectId(job.0) })?;
        let live = same.into_iter().filter(|one| one.is_live()).map(|one| (one.value.one.0, one.value.other.0));
        Ok(Sameness::of(live, self.said_to_be_two(Noun::Circuit)?))
    }

    /// Which testers were said to be one, or two.
    pub(super) fn same_testers(&self) -> Result<Sameness, ReadError> {
        let same = self.all_stated::<SameTester>()?;
        let live = same.into_iter().filter(|one| one.is_live()).map(|one| (one.value.one.0, one.value.other.0));
        Ok(Sameness::of(live, self.said_to_be_two(Noun::Tester)?))
    }

    pub(super) fn said_to_be_two(&self, noun: Noun) -> Result<Vec<(Uuid, Uuid)>, ReadError> {
        let all = self.all_stated::<Different>()?.into_iter().filter(|one| one.is_live());
        let of = all.filter(|one| one.value.one.noun == noun && one.value.other.noun == noun);
        Ok(of.map(|one| (one.value.one.id.0, one.value.other.id.0)).collect())
    }
}
