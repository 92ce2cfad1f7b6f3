//! References, bench runs and what was measured in them.

use super::facet::{Facet, Stated};
use super::query::{ReadError, View};
use crate::entry::body::{BenchOpened, MeasuredAt, ReferenceCard, SameTester, VerificationMade};
use crate::entry::{Kind, Noun, Object, ObjectId};
use provenohm_assess::ids::{BenchId, ReferenceId, TesterId};
use std::collections::BTreeSet;

/// A reference with its certificates, the present and the earlier ones.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownReference {
    /// Which.
    pub reference: ReferenceId,
    /// What it is.
    pub card: Facet<ReferenceCard>,
}

/// A bench run with everything measured in it, whatever became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bench {
    /// Which.
    pub bench: BenchId,
    /// What it is made of.
    pub opened: Facet<BenchOpened>,
    /// What was measured.
    pub measured: Vec<Stated<MeasuredAt>>,
    /// The verifications computed from it; more than one where it was closed again after a correction.
    pub verifications: Vec<Stated<VerificationMade>>,
}

impl View<'_> {
    /// The references that stand, by id.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn references(&self) -> Result<Vec<KnownReference>, ReadError> {
        let ids = self.subjects(Noun::Reference, Kind::ReferenceCard)?;
        ids.into_iter().map(|id| self.known_reference(ReferenceId(id))).collect()
    }

    /// One reference.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn known_reference(&self, reference: ReferenceId) -> Result<KnownReference, ReadError> {
        let object = Object { noun: Noun::Reference, id: ObjectId(reference.0) };
        Ok(KnownReference { reference, card: Facet::of(self.stated(object)?) })
    }

    /// The bench runs of a tester that stand, the oldest first, with those on record under other ids that mean the same.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn benches_of(&self, tester: TesterId) -> Result<Vec<Bench>, ReadError> {
        let mut ids = Vec::new();
        for tester in self.same_as(tester.0, |it: &SameTester| (it.one.0, it.other.0))? {
            let object = Object { noun: Noun::Tester, id: ObjectId(tester) };
            for one in self.stated::<BenchOpened>(object)? {
                if !one.standing.withdrawn && !ids.contains(&one.value.run.id) {
                    ids.push(one.value.run.id);
                }
            }
        }
        ids.into_iter().map(|id| self.bench(id)).collect()
    }

    /// The references that the bench runs of a tester name.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn references_proving(&self, tester: TesterId) -> Result<BTreeSet<ReferenceId>, ReadError> {
        let opened = self.stated::<BenchOpened>(Object { noun: Noun::Tester, id: ObjectId(tester.0) })?;
        let standing = opened.iter().filter(|one| !one.standing.withdrawn);
        Ok(standing.flat_map(|one| one.value.references.iter().map(|reference| reference.id)).collect())
    }

    /// One bench run.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn bench(&self, bench: BenchId) -> Result<Bench, ReadError> {
        let object = Object { noun: Noun::Bench, id: ObjectId(bench.0) };
        Ok(Bench {
            bench,
            opened: Facet::of(self.stated(object)?),
            measured: self.stated(object)?,
            verifications: self.stated(object)?,
        })
    }
}
