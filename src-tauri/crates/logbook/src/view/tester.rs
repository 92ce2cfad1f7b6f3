//! Testers, and everything on record that speaks for or against each.

use super::facet::{Facet, Stated};
use super::query::{ReadError, View};
use crate::entry::body::{Content, SameTester, TesterCard, TesterIdentity, VerificationMade};
use crate::entry::{Kind, Noun, Object, ObjectId};
use provenohm_assess::ids::TesterId;
use provenohm_assess::tester::{Damage, LeadCheck, ProofEvent, QuickCheck, TesterHistory};
use std::collections::BTreeSet;

/// A tester, facet by facet, with its proofs, whatever became of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tester {
    /// Which.
    pub tester: TesterId,
    /// Other ids that mean the same tester; what is on record under them is included here.
    pub same: Vec<TesterId>,
    /// What it is.
    pub identity: Facet<TesterIdentity>,
    /// Its card.
    pub card: Facet<TesterCard>,
    /// Its verifications.
    pub verifications: Vec<Stated<VerificationMade>>,
    /// Its lead checks.
    pub lead_checks: Vec<Stated<LeadCheck>>,
    /// Its quick checks.
    pub quick_checks: Vec<Stated<QuickCheck>>,
    /// Reports of damage to it.
    pub damage: Vec<Stated<Damage>>,
    /// Something about it needs a newer version; true if it must not be judged without.
    pub needs_newer: Option<bool>,
}

impl Tester {
    /// Whether it is invented: every paper says so.
    #[must_use]
    pub fn is_invented(&self) -> bool {
        self.identity.live.iter().any(|one| one.value.invented == Some(true))
    }

    /// What is current, as judgement asks for it: one history, or one for each live value of its card.
    #[must_use]
    pub fn histories(&self) -> Vec<TesterHistory> {
        let live = |stated: &&Stated<VerificationMade>| stated.is_live();
        let verifications = self
            .verifications
            .iter()
            .filter(live)
            .map(|one| ProofEvent::Verification(one.value.clone().recorded(one.recorded)));
        let checks = self.quick_checks.iter().filter(|one| one.is_live());
        let damage = self.damage.iter().filter(|one| one.is_live());
        let history = TesterHistory {
            tester: self.tester,
            card: None,
            events: verifications
                .chain(checks.map(|one| ProofEvent::QuickCheck(one.value.clone())))
                .chain(damage.map(|one| ProofEvent::Damage(one.value.clone())))
                .collect(),
            lead_checks: self.lead_checks.iter().filter(|one| one.is_live()).map(|one| one.value.clone()).collect(),
        };
        if self.card.live.is_empty() {
            return vec![history];
        }
        let with = |card: &Stated<TesterCard>| TesterHistory { card: Some(card.value.card.clone()), ..history.clone() };
        self.card.live.iter().map(with).collect()
    }
}

impl View<'_> {
    /// The testers that stand, by id; of ids that mean the same one, the one that stands for all.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn testers(&self) -> Result<Vec<Tester>, ReadError> {
        let same = self.same_testers()?;
        let ids = self.begun(Noun::Tester, Kind::TesterIdentity)?;
        let standing = ids.iter().filter(|id| same.one(**id) == **id || !ids.contains(&same.one(**id)));
        standing.map(|id| self.tester(TesterId(*id))).collect()
    }

    /// The other ids that mean the same tester.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn same_tester(&self, tester: TesterId) -> Result<BTreeSet<TesterId>, ReadError> {
        let same = self.same_as(tester.0, |it: &SameTester| (it.one.0, it.other.0))?;
        Ok(same.into_iter().map(TesterId).filter(|one| *one != tester).collect())
    }

    /// One tester, with what is on record under other ids that mean the same.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn tester(&self, tester: TesterId) -> Result<Tester, ReadError> {
        let mut same = self.same_as(tester.0, |it: &SameTester| (it.one.0, it.other.0))?;
        same.remove(&tester.0);
        let ids: Vec<_> = std::iter::once(tester.0).chain(same.iter().copied()).collect();
        let objects: Vec<_> = ids.into_iter().map(|id| Object { noun: Noun::Tester, id: ObjectId(id) }).collect();
        let mut needs_newer = None;
        for object in &objects {
            needs_newer = needs_newer.max(self.needs_newer(*object)?);
        }
        Ok(Tester {
            tester,
            same: same.into_iter().map(TesterId).collect(),
            // What is said alike of one tester under two ids is said once.
            identity: Facet::of(self.of_one(&objects, |it: &mut TesterIdentity| it.tester = tester)?),
            card: Facet::of(self.of_one(&objects, |it: &mut TesterCard| it.tester = tester)?),
            verifications: self.of_one(&objects, |it: &mut VerificationMade| it.tester = tester)?,
            lead_checks: self.of_one(&objects, |it: &mut LeadCheck| it.tester = tester)?,
            quick_checks: self.of_one(&objects, |it: &mut QuickCheck| it.tester = tester)?,
            damage: self.of_one(&objects, |it: &mut Damage| it.tester = tester)?,
            needs_newer,
        })
    }

    /// What is on record under any of the ids, all of it under the one that is asked for.
    fn of_one<T: Content>(&self, objects: &[Object], name: impl Fn(&mut T)) -> Result<Vec<Stated<T>>, ReadError> {
        let mut all = Vec::new();
        for object in objects {
            all.extend(self.stated(*object)?);
        }
        all.iter_mut().for_each(|one: &mut Stated<T>| name(&mut one.value));
        Ok(all)
    }
}
