//! What has arrived on this device since a moment: which objects and books it may have changed.

use super::query::{ReadError, View, reference};
use crate::entry::{EntryRef, Kind, Noun, Object, ObjectId};
use crate::store::number;
use rusqlite::{OptionalExtension, params};
use uuid::Uuid;

/// The entry that arrived last on this device. It means nothing on another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Arrival {
    /// Its place in the order of arrival.
    pub place: i64,
    /// The entry.
    pub entry: EntryRef,
}

impl View<'_> {
    /// The entry that arrived last; nothing in an empty record.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn last_arrival(&self) -> Result<Option<Arrival>, ReadError> {
        let mut last =
            self.connection.prepare_cached("SELECT id, log, seq, hash FROM entry ORDER BY id DESC LIMIT 1")?;
        let found = last.query_row([], |row| Ok(Arrival { place: row.get(0)?, entry: reference(row, 1)? }));
        Ok(found.optional()?)
    }

    /// What the entries that arrived after that one may have changed, each object once: what they are about, and the books
    /// they stand in. A reading changes nothing of the tester it was taken with, nor of the person who took it. Nothing
    /// where that entry is no longer in its place: then only the whole record tells. What was forgotten since is not told.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn arrived_since(&self, arrival: Arrival) -> Result<Option<Vec<Object>>, ReadError> {
        let mut here = self.connection.prepare_cached("SELECT log, seq, hash FROM entry WHERE id = ?1")?;
        let entry = here.query_row(params![arrival.place], |row| reference(row, 0)).optional()?;
        if entry != Some(arrival.entry) {
            return Ok(None);
        }
        let reading = [Kind::Reading, Kind::Correction].map(|kind| number(kind.number()));
        let untouched = [Noun::Tester, Noun::Person].map(Noun::number);
        let objects = self
            .connection
            .prepare_cached(
                // Left to itself SQLite walks through the whole table to spare the sorting of a few.
                "SELECT noun, object FROM about INDEXED BY about_entry
                 WHERE entry > ?1 AND NOT (noun IN (?2, ?3) AND kind IN (?4, ?5))
                 UNION SELECT o.noun, o.book FROM entry e CROSS JOIN opened o ON o.log = e.log WHERE e.id > ?1
                 ORDER BY 1, 2",
            )?
            .query_map(params![arrival.place, untouched[0], untouched[1], reading[0], reading[1]], |row| {
                Ok((row.get::<_, i64>(0)?, Uuid::from_bytes(row.get(1)?)))
            })?
            .collect::<rusqlite::Result<Vec<_>>>()?;
        let known = |(noun, id): (i64, Uuid)| Some(Object { noun: Noun::from_number(noun)?, id: ObjectId(id) });
        Ok(Some(objects.into_iter().filter_map(known).collect()))
    }
}
