//! What entries bear on: themselves, and whatever they name, directly or through what they name.

use super::query::{ReadError, View};
use crate::entry::{EntryRef, Kind, Noun};
use crate::store::{blob, number};
use provenohm_assess::ids::ReadingId;
use rusqlite::params;
use uuid::Uuid;

/// The readings some entries bear on. Everything else about readings is as it was before those entries were written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Touched {
    /// The readings, in the one order that holds on every device; twice where a device gave an id twice.
    pub readings: Vec<ReadingId>,
    /// Whether something said of slots that were not tested is among it.
    pub not_tested: bool,
}

/// What places an entry among all others: counter, log, seq, hash.
type Place = (i64, [u8; 16], i64, [u8; 32]);

impl View<'_> {
    /// What some entries bear on.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn touched(&self, entries: &[EntryRef]) -> Result<Touched, ReadError> {
        let mut all = Vec::new();
        for entry in entries {
            all.extend(self.named_from(*entry)?);
        }
        all.sort_unstable();
        all.dedup();
        let mut touched = Touched::default();
        let mut readings = Vec::new();
        for entry in all {
            touched.not_tested |= self.is_of_kind(entry, Kind::NotTested)?;
            readings.extend(self.readings_of(entry)?);
        }
        readings.sort_unstable();
        readings.dedup();
        touched.readings = readings.into_iter().map(|(_, reading)| ReadingId(reading)).collect();
        Ok(touched)
    }

    /// The rows of an entry and of what it names, as far as naming goes.
    fn named_from(&self, entry: EntryRef) -> Result<Vec<i64>, ReadError> {
        let rows = self
            .connection
            .prepare_cached(
                "WITH RECURSIVE reached (id) AS (
                     SELECT id FROM entry WHERE log = ?1 AND seq = ?2 AND substr(hash, 1, 8) = ?3
                     UNION
                     SELECT e.id FROM reached r JOIN naming n ON n.entry = r.id
                     JOIN entry e ON e.log = n.log AND e.seq = n.seq AND substr(e.hash, 1, 8) = n.short
                 )
                 SELECT id FROM reached",
            )?
            .query_map(params![blob(&entry.log.0), number(entry.seq.0), entry.short], |row| row.get(0))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(rows)
    }

    fn is_of_kind(&self, entry: i64, kind: Kind) -> Result<bool, ReadError> {
        let mut of = self.connection.prepare_cached("SELECT kind = ?2 FROM entry WHERE id = ?1")?;
        Ok(of.query_row(params![entry, number(kind.number())], |row| row.get(0))?)
    }

    /// The readings an entry is about, each with what places it among the others.
    fn readings_of(&self, entry: i64) -> Result<Vec<(Place, Uuid)>, ReadError> {
        let found = self
            .connection
            .prepare_cached(
                "SELECT t.lamport, t.log, t.seq, t.hash, a.object FROM about a
                 JOIN about b ON b.noun = a.noun AND b.object = a.object AND b.kind = ?3
                 JOIN entry t ON t.id = b.entry
                 WHERE a.entry = ?1 AND a.noun = ?2",
            )?
            .query_map(params![entry, Noun::Reading.number(), number(Kind::Reading.number())], |row| {
                let place = (row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?);
                Ok((place, Uuid::from_bytes(row.get(4)?)))
            })?
            .collect::<rusqlite::Result<_>>()?;
        Ok(found)
    }
}
