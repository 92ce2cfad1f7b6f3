//! What was begun, a job or a tester: listed until its beginning is taken back, and after that as long as somebody else's
//! work is about it.

use super::{ReadError, View};
use crate::entry::{EntryRef, Kind, Noun, Object};
use crate::store::{blob, number};
use rusqlite::{OptionalExtension, params};
use uuid::Uuid;

/// What keeps a log in order, or says that somebody came by, is no work on what it is about.
const NO_WORK: [Kind; 5] = [Kind::LogOpened, Kind::Seal, Kind::Withdrawal, Kind::DeviceKnown, Kind::CautionsRead];

/// What is left of the work on something whose beginning was taken back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Left {
    /// Nothing but what came with its beginning.
    Nothing,
    /// Other acts stand about it.
    Work,
    /// That cannot be told here: the beginning is no act of this record.
    Elsewhere,
}

impl View<'_> {
    /// The ids that entries of a kind began something under, in order. One that was taken back is among them if another
    /// device, which did not know, has worked on it: nobody's work is lost from sight because others took theirs back.
    pub(super) fn begun(&self, noun: Noun, kind: Kind) -> Result<Vec<Uuid>, ReadError> {
        let ids = self
            .connection
            .prepare_cached(&format!(
                "SELECT DISTINCT a.object FROM entry e
                 CROSS JOIN about a ON a.entry = e.id CROSS JOIN standing s ON s.entry = e.id
                 WHERE e.kind = ?1 AND a.noun = ?2 AND {} ORDER BY a.object",
                holds(noun)
            ))?
            .query_map(params![number(kind.number()), noun.number()], |row| Ok(Uuid::from_bytes(row.get(0)?)))?
            .collect::<rusqlite::Result<_>>()?;
        Ok(ids)
    }

    /// Whether something is among those that were begun.
    pub(super) fn is_begun(&self, object: Object, kind: Kind) -> Result<bool, ReadError> {
        let begun = self
            .connection
            .prepare_cached(&format!(
                "SELECT EXISTS (
                   SELECT 1 FROM about a CROSS JOIN entry e ON e.id = a.entry CROSS JOIN standing s ON s.entry = e.id
                   WHERE a.noun = ?2 AND a.object = ?3 AND a.kind = ?1 AND {})",
                holds(object.noun)
            ))?
            .query_row(params![number(kind.number()), object.noun.number(), blob(&object.id.0)], |row| row.get(0))?;
        Ok(begun)
    }

    /// What is left where an entry was taken back that may have begun something.
    pub(crate) fn left_of(&self, taken_back: EntryRef) -> Result<Left, ReadError> {
        let begins = [Kind::JobOpened, Kind::TesterIdentity].map(|kind| number(kind.number()));
        let gone = self
            .connection
            .prepare_cached(
                "SELECT e.id, a.noun, a.object FROM entry e CROSS JOIN about a ON a.entry = e.id AND a.subject = 1
                 WHERE e.log = ?1 AND e.seq = ?2 AND substr(e.hash, 1, 8) = ?3 AND e.kind IN (?4, ?5)
                   AND NOT EXISTS (SELECT 1 FROM about b CROSS JOIN standing t ON t.entry = b.entry
                                   WHERE b.noun = a.noun AND b.object = a.object AND b.kind = e.kind AND t.withdrawn = 0)",
            )?
            .query_row(
                params![blob(&taken_back.log.0), number(taken_back.seq.0), taken_back.short, begins[0], begins[1]],
                |row| Ok((row.get::<_, i64>(0)?, row.get::<_, i64>(1)?, row.get::<_, [u8; 16]>(2)?)),
            )
            .optional()?;
        let Some((entry, noun, object)) = gone else { return Ok(Left::Nothing) };
        let act: Option<i64> = self
            .connection
            .prepare_cached("SELECT act FROM own_act WHERE entry = ?1")?
            .query_row([entry], |row| row.get(0))
            .optional()?;
        let Some(act) = act else { return Ok(Left::Elsewhere) };
        let work = self
            .connection
            .prepare_cached(&format!(
                "SELECT EXISTS (
                   SELECT 1 FROM about b CROSS JOIN standing t ON t.entry = b.entry
                   WHERE b.noun = ?1 AND b.object = ?2 AND {} AND t.withdrawn = 0
                     AND NOT EXISTS (SELECT 1 FROM own_act o WHERE o.act = ?3 AND o.entry = b.entry))",
                is_work("b.kind")
            ))?
            .query_row(params![noun, object, act], |row| row.get(0))?;
        Ok(if work { Left::Work } else { Left::Nothing })
    }
}

/// Of an entry `e` that began `a`, and stands as `s`: whether that holds. All work on a job is in its own book, so logs of other
/// devices are enough to look at; a tester is worked with in the books of jobs.
fn holds(noun: Noun) -> String {
    let elsewhere = if noun == Noun::Job {
        "SELECT 1 FROM opened here CROSS JOIN opened there ON there.noun = a.noun AND there.book = a.object
         CROSS JOIN entry w ON w.log = there.log CROSS JOIN standing t ON t.entry = w.id
         WHERE here.log = e.log"
    } else {
        "SELECT 1 FROM opened here CROSS JOIN about b ON b.noun = a.noun AND b.object = a.object
         CROSS JOIN entry w ON w.id = b.entry CROSS JOIN opened there ON there.log = w.log
         CROSS JOIN standing t ON t.entry = w.id
         WHERE here.log = e.log"
    };
    format!(
        "a.subject = 1 AND s.readable = 1 AND (s.withdrawn = 0 OR EXISTS (
           {elsewhere} AND there.device <> here.device AND t.withdrawn = 0 AND {}))",
        is_work("w.kind")
    )
}

fn is_work(kind: &str) -> String {
    let none = NO_WORK.map(|kind| kind.number().to_string()).join(", ");
    format!("{kind} NOT IN ({none})")
}
