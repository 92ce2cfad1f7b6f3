//! What was begun, a job or a tester: listed until its beginning is taken back, and after that as long as somebody else's
//! work is about it.

use super::{ReadError, View};
use crate::entry::{EntryRef, Kind, Noun, Object};
use crate::store::{blob, number};
use rusqlite::params;
use uuid::Uuid;

/// Entries that keep a log in order say nothing of what it is about.
const NO_WORK: [Kind; 3] = [Kind::LogOpened, Kind::Seal, Kind::Withdrawal];

/// Of entries of a kind that began something, those whose beginning holds. `?1` the kind, `?2` the noun, then what is no work.
const HOLDS: &str = "e.kind = ?1 AND a.kind = ?1 AND a.noun = ?2 AND a.subject = 1 AND s.readable = 1
     AND (s.withdrawn = 0 OR EXISTS (
       SELECT 1 FROM about b CROSS JOIN entry w ON w.id = b.entry CROSS JOIN standing t ON t.entry = b.entry
       WHERE b.noun = a.noun AND b.object = a.object AND b.kind NOT IN (?3, ?4, ?5) AND t.withdrawn = 0
         AND NOT EXISTS (SELECT 1 FROM opened here CROSS JOIN opened there
                         WHERE here.log = e.log AND there.log = w.log AND there.device = here.device)))";

impl View<'_> {
    /// The ids that entries of a kind began something under, in order. One that was taken back is among them if another
    /// device, which did not know, has worked on it: nobody's work is lost from sight because others took theirs back.
    pub(super) fn begun(&self, noun: Noun, kind: Kind) -> Result<Vec<Uuid>, ReadError> {
        let [opened, seal, withdrawal] = NO_WORK.map(|kind| number(kind.number()));
        let ids = self
            .connection
            .prepare_cached(&format!(
                "SELECT DISTINCT a.object FROM entry e
                 CROSS JOIN about a ON a.entry = e.id CROSS JOIN standing s ON s.entry = e.id
                 WHERE {HOLDS} ORDER BY a.object"
            ))?
            .query_map(params![number(kind.number()), noun.number(), opened, seal, withdrawal], |row| {
                Ok(Uuid::from_bytes(row.get(0)?))
            })?
            .collect::<rusqlite::Result<_>>()?;
        Ok(ids)
    }

    /// Whether something is among those that were begun.
    pub(super) fn is_begun(&self, object: Object, kind: Kind) -> Result<bool, ReadError> {
        let [opened, seal, withdrawal] = NO_WORK.map(|kind| number(kind.number()));
        let begun = self
            .connection
            .prepare_cached(&format!(
                "SELECT EXISTS (
                   SELECT 1 FROM about a CROSS JOIN entry e ON e.id = a.entry CROSS JOIN standing s ON s.entry = e.id
                   WHERE a.object = ?6 AND {HOLDS})"
            ))?
            .query_row(
                params![number(kind.number()), object.noun.number(), opened, seal, withdrawal, blob(&object.id.0)],
                |row| row.get(0),
            )?;
        Ok(begun)
    }

    /// Whether the beginning of something, which this device wrote and took back, leaves work of other acts without it.
    pub(crate) fn leaves_work(&self, beginning: EntryRef) -> Result<bool, ReadError> {
        let [opened, seal, withdrawal] = NO_WORK.map(|kind| number(kind.number()));
        let begins = [Kind::JobOpened, Kind::TesterIdentity].map(|kind| number(kind.number()));
        let left = self
            .connection
            .prepare_cached(
                "SELECT EXISTS (
                   SELECT 1 FROM entry e CROSS JOIN about a ON a.entry = e.id AND a.subject = 1
                   WHERE e.log = ?1 AND e.seq = ?2 AND substr(e.hash, 1, 8) = ?3 AND e.kind IN (?4, ?5)
                     AND NOT EXISTS (SELECT 1 FROM about b CROSS JOIN standing t ON t.entry = b.entry
                                     WHERE b.noun = a.noun AND b.object = a.object AND b.kind = e.kind AND t.withdrawn = 0)
                     AND EXISTS (SELECT 1 FROM about b CROSS JOIN standing t ON t.entry = b.entry
                                 WHERE b.noun = a.noun AND b.object = a.object AND b.kind NOT IN (?6, ?7, ?8)
                                   AND t.withdrawn = 0
                                   AND b.entry NOT IN (SELECT act.entry FROM own_act began CROSS JOIN own_act act
                                                       WHERE began.entry = e.id AND act.act = began.act)))",
            )?
            .query_row(
                params![
                    blob(&beginning.log.0),
                    number(beginning.seq.0),
                    beginning.short,
                    begins[0],
                    begins[1],
                    opened,
                    seal,
                    withdrawal
                ],
                |row| row.get(0),
            )?;
        Ok(left)
    }
}
