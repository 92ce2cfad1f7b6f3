//! What came to this record, by the order in which it came: its own entries, and those of others, whoever brought them.
//! The order is this record's alone. It says what to tell a hub of, and decides nothing.

use super::query::{ReadError, View};
use crate::entry::{Hash, Kind, LogId, Seq};
use crate::store::{blob, counter, number};
use provenohm_assess::ids::DeviceId;
use rusqlite::{OptionalExtension as _, params};
use uuid::Uuid;

/// A point in the order of arrival: everything up to it was here.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Point(pub u64);

impl View<'_> {
    /// All that is here now.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn now(&self) -> Result<Point, ReadError> {
        let mut last = self.connection().prepare_cached("SELECT coalesce(max(id), 0) FROM entry")?;
        Ok(Point(counter(last.query_row([], |row| row.get(0))?)))
    }

    /// The logs of which something came after that point.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn logs_since(&self, point: Point) -> Result<Vec<LogId>, ReadError> {
        let mut logs = self.connection().prepare_cached("SELECT DISTINCT log FROM entry WHERE id > ?1 ORDER BY log")?;
        let logs = logs.query_map([number(point.0)], |row| Ok(LogId(Uuid::from_bytes(row.get(0)?))))?;
        Ok(logs.collect::<rusqlite::Result<_>>()?)
    }

    /// The last that came and is no seal.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn last_said(&self) -> Result<Point, ReadError> {
        // Seals are few among what came last: read backwards, the first that is none is near.
        let mut last =
            self.connection().prepare_cached("SELECT id FROM entry WHERE kind <> ?1 ORDER BY id DESC LIMIT 1")?;
        let last: Option<i64> = last.query_row([number(Kind::Seal.number())], |row| row.get(0)).optional()?;
        Ok(Point(last.map_or(0, counter)))
    }

    /// Whether anything but seals came after that point: a seal changes nothing that is said.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn says_more_since(&self, point: Point) -> Result<bool, ReadError> {
        let mut more =
            self.connection().prepare_cached("SELECT EXISTS (SELECT 1 FROM entry WHERE id > ?1 AND kind <> ?2)")?;
        Ok(more.query_row([number(point.0), number(Kind::Seal.number())], |row| row.get(0))?)
    }

    /// How many readings came after that point.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn readings_since(&self, point: Point) -> Result<u64, ReadError> {
        let mut readings =
            self.connection().prepare_cached("SELECT count(*) FROM entry WHERE id > ?1 AND kind = ?2")?;
        Ok(counter(readings.query_row([number(point.0), number(Kind::Reading.number())], |row| row.get(0))?))
    }

    /// The last entries of a log: more than one where it forks or has a gap.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn heads_of(&self, log: LogId) -> Result<Vec<(Seq, Hash)>, ReadError> {
        let mut heads =
            self.connection().prepare_cached("SELECT seq, hash FROM head WHERE log = ?1 ORDER BY seq, hash")?;
        let heads = heads.query_map([blob(&log.0)], |row| Ok((Seq(counter(row.get(0)?)), Hash(row.get(1)?))))?;
        Ok(heads.collect::<rusqlite::Result<_>>()?)
    }

    /// The device that writes a log; nothing of a log whose beginning is not here.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn device_of(&self, log: LogId) -> Result<Option<DeviceId>, ReadError> {
        let mut opened =
            self.connection().prepare_cached("SELECT device FROM opened WHERE log = ?1 ORDER BY entry LIMIT 1")?;
        let device: Option<[u8; 16]> = opened.query_row([blob(&log.0)], |row| row.get(0)).optional()?;
        Ok(device.map(|id| DeviceId(Uuid::from_bytes(id))))
    }

    /// Whether an entry is here.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn holds(&self, log: LogId, seq: Seq, hash: Hash) -> Result<bool, ReadError> {
        let mut holds = self
            .connection()
            .prepare_cached("SELECT EXISTS (SELECT 1 FROM entry WHERE log = ?1 AND seq = ?2 AND hash = ?3)")?;
        Ok(holds.query_row(params![blob(&log.0), number(seq.0), hash.0], |row| row.get(0))?)
    }
}
