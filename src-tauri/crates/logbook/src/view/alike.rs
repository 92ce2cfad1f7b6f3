//! What looks like one thing that two devices recorded apart. It is only asked: a person says whether it is one.

use super::board::{Board, Circuit};
use super::query::{ReadError, View};
use super::sameness::Sameness;
use super::to_settle::{Question, ToSettle};
use crate::entry::body::{Book, CircuitLabel, Person, SamePerson, TesterIdentity};
use crate::entry::{Kind, Noun, Object, ObjectId};
use provenohm_assess::ids::{BoardId, DeviceId, JobId, ReferenceId, TesterId};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

impl View<'_> {
    /// Circuits with the same reference on one board, or on boards of one name, first recorded on different devices.
    /// What else they say may differ: once they are one, that is settled.
    pub(super) fn circuits_alike(&self, job: JobId, circuits: &[Circuit]) -> Result<Vec<ToSettle>, ReadError> {
        let mut alike: BTreeMap<String, Vec<(&Circuit, BoardId)>> = BTreeMap::new();
        for circuit in circuits.iter().filter(|one| one.is_present()) {
            if let (Some(label), Some(place)) = (circuit.label.first(), circuit.place.first()) {
                alike.entry(plain(&label.reference)).or_default().push((circuit, place.board));
            }
        }
        alike.retain(|reference, all| all.len() > 1 && !reference.is_empty());
        if alike.is_empty() {
            return Ok(Vec::new());
        }
        let boards = self.boards(job)?.into_iter().filter(Board::is_present);
        let names: BTreeMap<BoardId, String> =
            boards.map(|it| (it.board, it.names.first().map_or(String::new(), |one| plain(&one.name)))).collect();
        let same = self.same_circuits(job)?;
        let mut first: BTreeMap<_, Option<DeviceId>> = BTreeMap::new();
        for one in self.stated::<CircuitLabel>(Object { noun: Noun::Job, id: ObjectId(job.0) })? {
            first.entry(same.one(one.value.circuit.0)).or_insert(one.device);
        }
        let device = |it: &Circuit| first.get(&it.circuit.0).copied().flatten();
        let together = |one: BoardId, other: BoardId| {
            let named = names.get(&one).filter(|name| !name.is_empty());
            one == other || (named.is_some() && named == names.get(&other))
        };
        let mut asked = Vec::new();
        for ((one, on), (other, beside)) in alike.values().flat_map(|all| pairs(all)) {
            let apart = device(one).is_some() && device(other).is_some() && device(one) != device(other);
            if apart && together(on, beside) && !same.are_two(one.circuit.0, other.circuit.0) {
                let of = |it: &Circuit| Object { noun: Noun::Circuit, id: ObjectId(it.circuit.0) };
                asked.push(ToSettle {
                    question: Question::Alike { one: of(one), other: of(other) },
                    entries: one.label.current().into_iter().chain(other.label.current()).collect(),
                });
            }
        }
        Ok(asked)
    }

    /// People of a job who bear one name under two ids, each first named on another device.
    pub(super) fn people_alike(&self, job: JobId) -> Result<Vec<ToSettle>, ReadError> {
        let mut alike: BTreeMap<String, BTreeMap<_, Vec<_>>> = BTreeMap::new();
        for one in self.all_stated::<Person>()?.into_iter().filter(|one| one.is_live()) {
            if self.book_of(one.entry.log)? == Some(job.into()) {
                let by_id = alike.entry(plain(&one.value.name)).or_default();
                by_id.entry(one.value.person.0).or_default().push((one.entry, one.device));
            }
        }
        alike.retain(|name, by_id| by_id.len() > 1 && !name.is_empty());
        if alike.is_empty() {
            return Ok(Vec::new());
        }
        let different = self.said_to_be_two(Noun::Person)?;
        let mut asked = Vec::new();
        for by_id in alike.values() {
            let all: Vec<_> = by_id.iter().collect();
            for ((one, cards), (other, others)) in pairs(&all) {
                let device = |cards: &[(_, Option<DeviceId>)]| cards.first().and_then(|(_, device)| *device);
                let apart = device(cards).is_some() && device(others).is_some() && device(cards) != device(others);
                let same = self.same_as(*one, |it: &SamePerson| (it.one.0, it.other.0))?;
                let two = different.contains(&(*one, *other)) || different.contains(&(*other, *one));
                if apart && !same.contains(other) && !two {
                    let of = |id: Uuid| Object { noun: Noun::Person, id: ObjectId(id) };
                    asked.push(ToSettle {
                        question: Question::Alike { one: of(*one), other: of(*other) },
                        entries: cards.iter().chain(others).map(|(entry, _)| *entry).collect(),
                    });
                }
            }
        }
        Ok(asked)
    }

    /// What waits to be settled of some testers and of the references they were verified with: two values of one, under
    /// all ids that mean it; and a tester that looks as if it was registered twice, by its serial number.
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
        for reference in self.references_of(&standing, &same)? {
            asked.extend(self.to_settle(Book::from(reference))?);
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

    /// The references that some testers, under whatever id, were verified with.
    fn references_of(&self, testers: &BTreeSet<Uuid>, same: &Sameness) -> Result<BTreeSet<ReferenceId>, ReadError> {
        let mut all = BTreeSet::new();
        for id in testers.iter().flat_map(|id| std::iter::once(*id).chain(same.others(*id))) {
            let tester = Object { noun: Noun::Tester, id: ObjectId(id) };
            let used = self.related(tester, Noun::Reference, [Kind::BenchRun, Kind::BenchRun])?;
            all.extend(used.into_iter().map(ReferenceId));
        }
        Ok(all)
    }
}

/// A reference, name or serial number without case and spaces.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect()
}

/// Each two of some things, in their order.
fn pairs<T: Copy>(all: &[T]) -> Vec<(T, T)> {
    let with = |at: usize| all.iter().skip(at + 1).filter_map(move |other| Some((*all.get(at)?, *other)));
    (0..all.len()).flat_map(with).collect()
}
