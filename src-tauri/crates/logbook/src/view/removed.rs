//! What was removed on one device and changed on another: it stays, and a person is asked.

use super::facet::Facet;
use super::query::{ReadError, View, reference};
use crate::entry::body::CutEnd;
use crate::entry::{EntryRef, Kind, Noun, Object, ObjectId};
use crate::store::blob;
use rusqlite::params;
use std::collections::BTreeSet;

/// The kinds that change a board or a circuit, or that only make sense while it is there.
const CHANGES: [Kind; 14] = [
    Kind::BoardNames,
    Kind::BoardPeople,
    Kind::CircuitOrder,
    Kind::CircuitLabel,
    Kind::CircuitElectrical,
    Kind::CircuitPlace,
    Kind::SameCircuit,
    Kind::Reading,
    Kind::NotTested,
    Kind::Correction,
    Kind::Note,
    Kind::Request,
    Kind::Accepted,
    Kind::RecallResolved,
];

/// A word on whether something is there.
pub(super) trait Presence {
    /// There, or removed.
    fn is_there(&self) -> bool;

    /// What a removal knew of.
    fn known(&self) -> &[CutEnd];
}

impl View<'_> {
    /// The live changes to some objects that none of their live removals knew of, in the one order that holds on every
    /// device. None where it was not removed. Of a log that forks, either branch counts as known.
    pub(super) fn unseen<T: Presence>(
        &self,
        present: &Facet<T>,
        objects: &BTreeSet<Object>,
    ) -> Result<Vec<EntryRef>, ReadError> {
        let live = || present.live.iter().chain(present.earlier.iter().filter(|one| one.is_live()));
        if live().next().is_none() || live().any(|one| one.value.is_there() || one.value.known().is_empty()) {
            return Ok(Vec::new());
        }
        // What is said of a reading is said of where it was taken.
        let mut objects = objects.clone();
        for object in objects.clone() {
            let readings = self.related(object, Noun::Reading, [Kind::Reading, Kind::Reading])?;
            objects.extend(readings.into_iter().map(|id| Object { noun: Noun::Reading, id: ObjectId(id) }));
        }
        let mut found = Vec::new();
        for (change, place) in self.changes(&objects)? {
            let known = live().any(|one| {
                let own = one.entry.log == change.log && one.entry.seq < change.seq;
                own || one.value.known().iter().any(|end| covers(end, change))
            });
            if !known && !found.contains(&(place, change)) {
                found.push((place, change));
            }
        }
        found.sort_unstable();
        Ok(found.into_iter().map(|(_, change)| change).collect())
    }

    /// Live entries that change some objects, each with its counter.
    fn changes(&self, objects: &BTreeSet<Object>) -> Result<Vec<(EntryRef, i64)>, ReadError> {
        let kinds: Vec<String> = CHANGES.iter().map(|kind| kind.number().to_string()).collect();
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT e.log, e.seq, e.hash, e.lamport FROM about a
             JOIN entry e ON e.id = a.entry JOIN standing s ON s.entry = e.id
             WHERE a.noun = ?1 AND a.object = ?2 AND a.kind IN ({}) AND s.readable = 1
               AND s.withdrawn = 0 AND s.replaced = 0 AND s.set_aside = 0",
            kinds.join(", ")
        ))?;
        let mut changes = Vec::new();
        for object in objects {
            let found = statement.query_map(params![object.noun.number(), blob(&object.id.0)], |row| {
                Ok((reference(row, 0)?, row.get(3)?))
            })?;
            changes.extend(found.collect::<rusqlite::Result<Vec<_>>>()?);
        }
        Ok(changes)
    }
}

fn covers(end: &CutEnd, entry: EntryRef) -> bool {
    let from = end.from.map_or(0, |from| from.0);
    end.log == entry.log && (from..=end.seq.0).contains(&entry.seq.0)
}
