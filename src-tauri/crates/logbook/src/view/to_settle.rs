//! What waits for a person to choose: values of one thing that stand side by side.

use super::board::Circuit;
use super::circumstance::Circumstance;
use super::facet::Stated;
use super::query::{ReadError, View, reference};
use super::reading::ReadingOnRecord;
use crate::entry::body::{Book, NotTested, ReadingTaken};
use crate::entry::{Body, EntryRef, Fact, Kind, Noun, Object, ObjectId};
use crate::store::{blob, entry_of, number};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{JobId, ReadingId};
use rusqlite::params;
use std::collections::BTreeMap;
use uuid::Uuid;

/// The facets: kinds of which one value stands, once it is settled.
pub(super) const FACETS: [Kind; 16] = [
    Kind::Person,
    Kind::JobNames,
    Kind::JobRules,
    Kind::JobPeople,
    Kind::BoardOrder,
    Kind::BoardNames,
    Kind::BoardPresent,
    Kind::CircuitOrder,
    Kind::BoardPeople,
    Kind::CircuitLabel,
    Kind::CircuitElectrical,
    Kind::CircuitPlace,
    Kind::CircuitPresent,
    Kind::TesterIdentity,
    Kind::TesterCard,
    Kind::ReferenceCard,
];

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Which value of a facet stands.
    Facet {
        /// The facet.
        kind: Kind,
        /// Of what.
        of: Object,
    },
    /// Which reading of a slot stands, or that it was not tested.
    Slot {
        /// The two ends.
        pair: Pair,
        /// Before equipment was connected, or after.
        stage: Stage,
    },
    /// Which correction of a reading's circumstances stands.
    Circumstances {
        /// The reading.
        reading: ReadingId,
    },
    /// Whether a board or circuit stays that was removed by one who did not know what another changed.
    Removed {
        /// Which.
        of: Object,
    },
    /// Whether two things that look alike are one. It only asks: until a person says so they are two.
    Alike {
        /// One.
        one: Object,
        /// The other.
        other: Object,
    },
}

/// A question and the entries that answer it differently.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToSettle {
    /// What is asked.
    pub question: Question,
    /// The entries that stand side by side, in the one order that holds on every device.
    pub entries: Vec<EntryRef>,
}

impl ToSettle {
    fn is_of(&self, id: Uuid) -> bool {
        matches!(self.question, Question::Facet { of, .. } if of.id.0 == id)
    }
}

/// What is said otherwise of the ids of one circuit.
fn several(circuit: &Circuit) -> Vec<ToSettle> {
    let of = Object { noun: Noun::Circuit, id: ObjectId(circuit.circuit.0) };
    let there = |wanted| circuit.present.live.iter().any(|one| one.value.present == wanted);
    let facets = [
        (circuit.label.is_unsettled(), Kind::CircuitLabel, circuit.label.current()),
        (circuit.electrical.is_unsettled(), Kind::CircuitElectrical, circuit.electrical.current()),
        (circuit.place.is_unsettled(), Kind::CircuitPlace, circuit.place.current()),
        (there(true) && there(false), Kind::CircuitPresent, circuit.present.current()),
    ];
    let open = facets.into_iter().filter(|(open, ..)| *open);
    open.map(|(_, kind, entries)| ToSettle { question: Question::Facet { kind, of }, entries }).collect()
}

impl View<'_> {
    /// What waits to be settled in a book, and nowhere but there.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn to_settle(&self, book: Book) -> Result<Vec<ToSettle>, ReadError> {
        let mut all = self.facets_to_settle(book)?;
        if let Book::Job { job } = book {
            let circuits = self.circuits(job)?;
            // Of circuits that were said to be one, the values of all are chosen between at once.
            let of_several = |question: &ToSettle| {
                let own = |it: &Circuit| std::iter::once(&it.circuit).chain(&it.same).any(|id| question.is_of(id.0));
                circuits.iter().filter(|it| !it.same.is_empty()).any(own)
            };
            all.retain(|question| !of_several(question));
            all.extend(circuits.iter().filter(|it| !it.same.is_empty()).flat_map(several));
            all.extend(self.slots_to_settle(job)?);
            all.extend(self.circumstances_to_settle(job)?);
            all.extend(self.removed_to_settle(job, &circuits)?);
            all.extend(self.circuits_alike(job, &circuits)?);
            all.extend(self.people_alike(job)?);
        }
        Ok(all)
    }

    fn facets_to_settle(&self, book: Book) -> Result<Vec<ToSettle>, ReadError> {
        let mut all = Vec::new();
        for kind in FACETS {
            for of in self.with_several(book, kind)? {
                let facts = self.live_facts(kind, of)?;
                if facts.iter().any(|(_, body)| !body.says_the_same(&facts[0].1)) {
                    let entries = facts.into_iter().map(|(entry, _)| entry).collect();
                    all.push(ToSettle { question: Question::Facet { kind, of }, entries });
                }
            }
        }
        Ok(all)
    }

    /// The subjects of a facet with more than one live entry in a book.
    fn with_several(&self, book: Book, kind: Kind) -> Result<Vec<Object>, ReadError> {
        let Object { noun, id } = book.object();
        let found = self
            .connection
            .prepare_cached(
                "SELECT a.noun, a.object FROM opened o
                 JOIN entry e ON e.log = o.log AND e.kind = ?3
                 JOIN standing s ON s.entry = e.id JOIN about a ON a.entry = e.id
                 WHERE o.noun = ?1 AND o.book = ?2 AND a.subject = 1 AND s.readable = 1
                   AND s.withdrawn = 0 AND s.replaced = 0 AND s.set_aside = 0
                 GROUP BY a.noun, a.object HAVING count(*) > 1 ORDER BY a.noun, a.object",
            )?
            .query_map(params![noun.number(), blob(&id.0), number(kind.number())], |row| {
                Ok((row.get::<_, i64>(0)?, Uuid::from_bytes(row.get(1)?)))
            })?
            .collect::<rusqlite::Result<Vec<_>>>()?;
        let known = |(noun, id): (i64, Uuid)| Some(Object { noun: Noun::from_number(noun)?, id: ObjectId(id) });
        Ok(found.into_iter().filter_map(known).collect())
    }

    /// The live entries of a facet, with what they say.
    fn live_facts(&self, kind: Kind, of: Object) -> Result<Vec<(EntryRef, Body)>, ReadError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT e.envelope, e.salt, e.body, e.log, e.seq, e.hash FROM about a
             JOIN entry e ON e.id = a.entry JOIN standing s ON s.entry = e.id
             WHERE a.noun = ?1 AND a.object = ?2 AND a.kind = ?3 AND a.subject = 1 AND s.readable = 1
               AND s.withdrawn = 0 AND s.replaced = 0 AND s.set_aside = 0
             ORDER BY e.lamport, e.log, e.seq, e.hash",
        )?;
        let mut rows = statement.query(params![of.noun.number(), blob(&of.id.0), number(kind.number())])?;
        let mut facts = Vec::new();
        while let Some(row) = rows.next()? {
            let entry = entry_of(row)??;
            let Some((_, body)) = entry.body() else { continue };
            facts.push((
                reference(row, 3)?,
                Fact::decode(entry.envelope().kind, entry.envelope().kind_version, body)?.body,
            ));
        }
        Ok(facts)
    }

    /// Slots with two live readings, unless a person let all of them stand; with a reading beside the word that none was
    /// taken, unless that knew of it; and with two reasons why none was.
    fn slots_to_settle(&self, job: JobId) -> Result<Vec<ToSettle>, ReadError> {
        let mut slots: BTreeMap<(Stage, Pair), InSlot> = BTreeMap::new();
        let same = self.same_circuits(job)?;
        let slot = |stage, pair: &Pair| {
            let Pair { a, b } = pair.clone();
            (stage, if a <= b { Pair { a, b } } else { Pair { a: b, b: a } })
        };
        for mut one in self.stated::<ReadingTaken>(Object { noun: Noun::Job, id: ObjectId(job.0) })? {
            if one.is_live() {
                same.on(&mut one.value.reading.pair);
                let at = slot(one.value.reading.stage, &one.value.reading.pair);
                slots.entry(at).or_default().readings.push(one);
            }
        }
        for one in self.not_tested(job)?.into_iter().filter(Stated::is_live) {
            slots.entry(slot(one.value.stage, &one.value.pair)).or_default().not_tested.push(one);
        }
        let mut all = Vec::new();
        for ((stage, pair), InSlot { readings, not_tested }) in slots {
            let first = not_tested.first().map(|one| &one.value);
            let mut open = not_tested.iter().any(|one| {
                let reasons = |it: &NotTested| (it.reason, it.words.clone());
                let unknown = |it: &Stated<ReadingTaken>| !one.value.beside.contains(&it.value.reading.id);
                first.is_some_and(|first| reasons(first) != reasons(&one.value)) || readings.iter().any(unknown)
            });
            for one in readings.iter().filter(|_| readings.len() > 1) {
                open |= !self.is_kept(one)?;
            }
            if open {
                let said = not_tested.into_iter().map(|one| one.entry);
                let entries = readings.into_iter().map(|one| one.entry).chain(said).collect();
                all.push(ToSettle { question: Question::Slot { pair, stage }, entries });
            }
        }
        Ok(all)
    }

    fn is_kept(&self, one: &Stated<ReadingTaken>) -> Result<bool, ReadError> {
        use crate::entry::Role;
        Ok(one.named && self.acting_on(one.entry)?.iter().any(|acting| acting.role == Role::Keeps))
    }

    /// Boards and circuits that were removed by one who did not know what another changed.
    fn removed_to_settle(&self, job: JobId, circuits: &[Circuit]) -> Result<Vec<ToSettle>, ReadError> {
        let boards = self.boards(job)?.into_iter().map(|it| {
            let of = Object { noun: Noun::Board, id: ObjectId(it.board.0) };
            (of, it.present.current(), it.unseen)
        });
        let circuits = circuits.iter().map(|it| {
            let of = Object { noun: Noun::Circuit, id: ObjectId(it.circuit.0) };
            (of, it.present.current(), it.unseen.clone())
        });
        let open = boards.chain(circuits).filter(|(_, _, unseen)| !unseen.is_empty());
        let asked = open.map(|(of, removals, unseen)| ToSettle {
            question: Question::Removed { of },
            entries: removals.into_iter().chain(unseen).collect(),
        });
        Ok(asked.collect())
    }

    /// Readings of which two corrections say different things.
    fn circumstances_to_settle(&self, job: JobId) -> Result<Vec<ToSettle>, ReadError> {
        let mut all = Vec::new();
        let several = self.corrections(job)?.into_iter().filter(|(_, corrections)| corrections.len() > 1);
        for (reading, _) in several {
            for one in self.reading(reading)?.iter().filter(|one| one.is_live()) {
                let mut entries = live_side_by_side(one);
                entries.sort_unstable();
                entries.dedup();
                if !entries.is_empty() {
                    all.push(ToSettle { question: Question::Circumstances { reading }, entries });
                }
            }
        }
        Ok(all)
    }
}

/// What stands in a slot.
#[derive(Default)]
struct InSlot {
    readings: Vec<Stated<ReadingTaken>>,
    not_tested: Vec<Stated<NotTested>>,
}

fn live_side_by_side(one: &ReadingOnRecord) -> Vec<EntryRef> {
    fn of<T: PartialEq>(circumstance: &Circumstance<T>) -> Vec<EntryRef> {
        match circumstance.live()[..] {
            [] | [_] => Vec::new(),
            _ => circumstance.claims.iter().filter(|claim| claim.live).map(|claim| claim.entry).collect(),
        }
    }
    [of(&one.tester), of(&one.test_voltage_v), of(&one.at), of(&one.conditions)].concat()
}
