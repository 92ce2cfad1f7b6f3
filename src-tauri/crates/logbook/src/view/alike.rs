//! What looks like one thing that two devices recorded apart. It is only asked: a person says whether it is one.

use super::board::Circuit;
use super::query::{ReadError, View};
use super::to_settle::{Question, ToSettle};
use crate::entry::body::{Book, CircuitLabel, TesterIdentity};
use crate::entry::{Kind, Noun, Object, ObjectId};
use provenohm_assess::ids::{DeviceId, JobId, TesterId};
use std::collections::{BTreeMap, BTreeSet};

impl View<'_> {
    /// Circuits of one board with the same reference and the same electrical data, first recorded on different devices.
    pub(super) fn circuits_alike(&self, job: JobId, circuits: &[Circuit]) -> Result<Vec<ToSettle>, ReadError> {
        let mut alike: BTreeMap<_, Vec<&Circuit>> = BTreeMap::new();
        for circuit in circuits.iter().filter(|one| one.is_present()) {
            if let (Some(label), Some(place)) = (circuit.label.first(), circuit.place.first()) {
                alike.entry((place.board, plain(&label.reference))).or_default().push(circuit);
            }
        }
        alike.retain(|(_, reference), all| all.len() > 1 && !reference.is_empty());
        if alike.is_empty() {
            return Ok(Vec::new());
        }
        let same = self.same_circuits(job)?;
        let mut first: BTreeMap<_, Option<DeviceId>> = BTreeMap::new();
        for one in self.stated::<CircuitLabel>(Object { noun: Noun::Job, id: ObjectId(job.0) })? {
            first.entry(same.one(one.value.circuit.0)).or_insert(one.device);
        }
        let device = |it: &Circuit| first.get(&it.circuit.0).copied().flatten();
        let electrical = |it: &Circuit| it.electrical.one().map(|one| one.electrical.clone());
        let mut asked = Vec::new();
        for (at, one, other) in alike.values().flat_map(|all| pairs(all)).map(|(one, other)| (device(one), one, other))
        {
            let apart = at.is_some() && device(other).is_some() && at != device(other);
            let equal = electrical(one).is_some() && electrical(one) == electrical(other);
            if apart && equal && !same.are_two(one.circuit.0, other.circuit.0) {
                let of = |it: &Circuit| Object { noun: Noun::Circuit, id: ObjectId(it.circuit.0) };
                asked.push(ToSettle {
                    question: Question::Alike { one: of(one), other: of(other) },
                    entries: one.label.current().into_iter().chain(other.label.current()).collect(),
                });
            }
        }
        Ok(asked)
    }

    /// What waits to be settled of some testers: two values of one, under all ids that mean it; and a tester that looks
    /// as if it was registered twice, by its serial number.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn testers_to_settle(&self, testers: &BTreeSet<TesterId>) -> Result<Vec<ToSettle>, ReadError> {
        let same = self.same_testers()?;
        let of = |id| Object { noun: Noun::Tester, id: ObjectId(id) };
        let standing: BTreeSet<_> = testers.iter().map(|tester| same.one(tester.0)).collect();
        let mut asked = Vec::new();
        for id in &standing {
            if same.others(*id).next().is_none() {
                asked.extend(self.to_settle(Book::from(TesterId(*id)))?);
                continue;
            }
            let tester = self.tester(TesterId(*id))?;
            let identity = tester.identity.is_unsettled().then(|| (Kind::TesterIdentity, tester.identity.current()));
            let card = tester.card.is_unsettled().then(|| (Kind::TesterCard, tester.card.current()));
            let facet = |(kind, entries)| ToSettle { question: Question::Facet { kind, of: of(*id) }, entries };
            asked.extend(identity.into_iter().chain(card).map(facet));
        }
        let mut alike: BTreeMap<String, BTreeMap<_, Vec<_>>> = BTreeMap::new();
        for one in self.all_stated::<TesterIdentity>()?.into_iter().filter(|one| one.is_live()) {
            let by_id = alike.entry(plain(&one.value.serial)).or_default();
            by_id.entry(same.one(one.value.tester.0)).or_default().push(one.entry);
        }
        for (_, by_id) in alike.into_iter().filter(|(serial, _)| !serial.is_empty()) {
            let all: Vec<_> = by_id.iter().collect();
            for ((one, entries), (other, others)) in pairs(&all) {
                let used = standing.contains(one) || standing.contains(other);
                if used && !same.are_two(*one, *other) {
                    asked.push(ToSettle {
                        question: Question::Alike { one: of(*one), other: of(*other) },
                        entries: entries.iter().chain(others.iter()).copied().collect(),
                    });
                }
            }
        }
        Ok(asked)
    }
}

/// A reference or serial number without case and spaces.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect()
}

/// Each two of some things, in their order.
fn pairs<T: Copy>(all: &[T]) -> Vec<(T, T)> {
    let with = |at: usize| all.iter().skip(at + 1).filter_map(move |other| Some((*all.get(at)?, *other)));
    (0..all.len()).flat_map(with).collect()
}
