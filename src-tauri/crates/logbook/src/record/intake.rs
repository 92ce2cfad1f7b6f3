//! Entries on their way into a book: each is judged as it comes, and all of them together before they stay.

use super::own_log;
use super::take_in::{Sum, TakeInError, Taken};
use crate::chain::{Ends, Met, Proof, walk};
use crate::entry::body::Book;
use crate::entry::{Entry, EntryRef, Fact, Fields, Kind, Lamport, LogId, Object, Seq, Value};
use crate::project::{self, Arrival};
use crate::store::{blob, counter, number};
use crate::view::{ToSettle, View};
use rusqlite::{Connection, OptionalExtension, params};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// How far ahead of everything here a counter may be. No device counts that far by itself; without a bound one entry
/// could bring every counter to its end.
const FARTHEST_AHEAD: u64 = 1 << 40;

/// Hears how many entries were gone through to prove new ones, after each so many, and can stop it.
pub(super) type Walked<'w> = &'w mut dyn FnMut(u64) -> ControlFlow<()>;
const EACH: u64 = 1_000;

/// Why entries are not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The first entry of a log, which names its key, is neither among them nor here.
    #[error("the beginning of the log {} is missing, so nobody can tell whose entries these are", .0.0)]
    NoBeginning(LogId),
    /// A log has two beginnings, or one that is not at its place.
    #[error("the log {} begins more than once", .0.0)]
    BeginsTwice(LogId),
    /// An entry stands in the book of something else.
    #[error("the entry {0} belongs into another book")]
    OtherBook(EntryRef),
    /// A log is that of another book.
    #[error("the log {} belongs into another book", .0.0)]
    OtherLog(LogId),
    /// An entry lost its body, and is none whose body may be dropped.
    #[error("the entry {0} came without its content")]
    NoContent(EntryRef),
    /// A body is not in the record's encoding, which newer versions keep to as well.
    #[error("the content of the entry {0} cannot be read")]
    NotReadable(EntryRef),
    /// A seal does not hold.
    #[error("the seal {0} does not hold")]
    BadSeal(EntryRef),
    /// No seal reaches an entry, and no later log names it.
    #[error("no seal covers the entry {0}")]
    NotSealed(EntryRef),
    /// A counter is out of all proportion.
    #[error("the counter of the entry {0} is out of all proportion")]
    FarAhead(EntryRef),
    /// The counts contradict each other.
    #[error("the counts do not add up")]
    DoesNotAddUp(Sum),
}

pub(super) struct Intake<'t> {
    tx: &'t Connection,
    book: Book,
    /// The last row before anything came.
    last: i64,
    /// The highest counter before.
    highest: Lamport,
    sum: Sum,
    completed: BTreeSet<i64>,
    mended: u64,
    /// Logs with new entries, and the lowest place of one.
    logs: BTreeMap<LogId, Seq>,
    closed: BTreeSet<LogId>,
    erases: bool,
}

impl<'t> Intake<'t> {
    pub(super) fn begin(tx: &'t Connection, book: Book, highest: Lamport) -> rusqlite::Result<Self> {
        let mut last = tx.prepare_cached("SELECT coalesce(max(id), 0) FROM entry")?;
        Ok(Self {
            tx,
            book,
            last: last.query_row([], |row| row.get(0))?,
            highest,
            sum: Sum::default(),
            completed: BTreeSet::new(),
            mended: 0,
            logs: BTreeMap::new(),
            closed: BTreeSet::new(),
            erases: false,
        })
    }

    pub(super) fn came(&self) -> u64 {
        self.sum.came
    }

    pub(super) fn erases(&self) -> bool {
        self.erases
    }

    pub(super) fn take<S>(&mut self, entry: &Entry) -> Result<(), TakeInError<S>> {
        let envelope = entry.envelope();
        self.sum.came += 1;
        let arrival = project::arrive(self.tx, entry)?;
        // What is here already was judged when it came.
        if !matches!(arrival, Arrival::Known | Arrival::Mended) {
            self.judge(entry)?;
        }
        match arrival {
            Arrival::Known | Arrival::Mended => {
                self.sum.same += 1;
                self.mended += u64::from(arrival == Arrival::Mended);
                return Ok(());
            }
            // It came a moment ago without its body.
            Arrival::Completed(row) if row > self.last => {
                self.sum.same += 1;
                return Ok(());
            }
            Arrival::Completed(row) => {
                self.completed.insert(row);
                self.sum.joined += 1;
            }
            Arrival::New(_) => {
                self.sum.joined += 1;
                // Only this device writes its own logs: an entry of one that is new here was written by a copy.
                if own_log::close(self.tx, envelope.log, "forked")? {
                    self.closed.insert(envelope.log);
                }
            }
        }
        self.erases |= Kind::from_number(envelope.kind) == Some(Kind::Erasure);
        let lowest = self.logs.entry(envelope.log).or_insert(envelope.seq);
        *lowest = envelope.seq.min(*lowest);
        Ok(())
    }

    /// What can be told of one entry alone.
    fn judge(&self, entry: &Entry) -> Result<(), Refusal> {
        let (envelope, name) = (entry.envelope(), entry.reference());
        let kind = Kind::from_number(envelope.kind);
        if (kind == Some(Kind::LogOpened)) != (envelope.seq.0 == 0) {
            return Err(Refusal::BeginsTwice(envelope.log));
        }
        if envelope.lamport.0 > self.highest.0.saturating_add(FARTHEST_AHEAD) {
            return Err(Refusal::FarAhead(name));
        }
        let Some((_, body)) = entry.body() else {
            return if kind.is_none_or(Kind::erasable) { Ok(()) } else { Err(Refusal::NoContent(name)) };
        };
        match Fact::decode(envelope.kind, envelope.kind_version, body) {
            Ok(fact) if fact.body.book().is_some_and(|own| own != self.book) => Err(Refusal::OtherBook(name)),
            Ok(_) => Ok(()),
            // Kept for a version that knows it, as long as it is in the encoding that all of them share.
            Err(_) => match Value::decode(body).map(Fields::of) {
                Ok(Ok(_)) => Ok(()),
                _ => Err(Refusal::NotReadable(name)),
            },
        }
    }

    /// What can be told of all of them together.
    pub(super) fn finish<S>(mut self, watch: Walked<'_>) -> Result<Taken, TakeInError<S>> {
        for log in self.logs.keys() {
            self.begins_once(*log)?;
        }
        let vouched = self.all_proven(watch)?;
        let view = View::new(self.tx);
        let nothing_new = self.logs.is_empty();
        let asked = match self.book {
            _ if nothing_new => Vec::new(),
            // A tester may look as if it stood in another book too.
            Book::Tester { tester } => view.testers_to_settle(&BTreeSet::from([tester]))?,
            Book::Job { .. } | Book::Reference { .. } => view.to_settle(self.book)?,
        };
        let to_settle = self.waiting(asked)?;
        if !self.sum.adds_up() || self.new_rows()? != self.sum.joined + self.sum.to_settle {
            return Err(Refusal::DoesNotAddUp(self.sum).into());
        }
        Ok(Taken {
            book: self.book,
            sum: self.sum,
            to_settle,
            gaps: view.gaps(self.book)?,
            forks: view.forks(self.book)?,
            newer: self.newer()?,
            mended: self.mended,
            vouched,
            closed: self.closed,
        })
    }

    fn begins_once<S>(&self, log: LogId) -> Result<(), TakeInError<S>> {
        let Object { noun, id } = self.book.object();
        let (all, opening, of_this): (i64, i64, bool) = self
            .tx
            .prepare_cached(
                "SELECT count(*), count(o.entry), coalesce(max(o.noun = ?2 AND o.book = ?3), 0)
                 FROM entry e LEFT JOIN opened o ON o.entry = e.id WHERE e.log = ?1 AND e.seq = 0",
            )?
            .query_row(params![blob(&log.0), noun.number(), blob(&id.0)], |row| {
                Ok((row.get(0)?, row.get(1)?, row.get(2)?))
            })?;
        match (all, opening) {
            (1, 1) if of_this => Ok(()),
            (1, 1) => Err(Refusal::OtherLog(log).into()),
            (0 | 1, _) => Err(Refusal::NoBeginning(log).into()),
            _ => Err(Refusal::BeginsTwice(log).into()),
        }
    }

    /// Looks for what proves each new entry; seals first, later logs only where one has none. How many of them another
    /// device vouches for.
    fn all_proven<S>(&self, watch: Walked<'_>) -> Result<u64, TakeInError<S>> {
        match self.unproven(&Ends::default(), watch)? {
            None => return Ok(0),
            Some(Refusal::NotSealed(_)) => {}
            Some(other) => return Err(other.into()),
        }
        let ends = Ends::of(self.tx, self.book)?;
        if let Some(refusal) = self.unproven(&ends, watch)? {
            return Err(refusal.into());
        }
        let mut vouched = 0;
        self.each_new(&ends, watch, &mut |met| vouched += u64::from(met.proof == Some(Proof::Vouched)))?;
        Ok(vouched)
    }

    fn unproven<S>(&self, ends: &Ends, watch: Walked<'_>) -> Result<Option<Refusal>, TakeInError<S>> {
        let mut found = None;
        self.each_new(ends, watch, &mut |met| {
            if met.bad_seal {
                found = Some(Refusal::BadSeal(met.entry));
            } else if met.proof.is_none() && !matches!(found, Some(Refusal::BadSeal(_))) {
                found = Some(Refusal::NotSealed(met.entry));
            }
        })?;
        Ok(found)
    }

    fn each_new<S>(&self, ends: &Ends, watch: Walked<'_>, each: &mut dyn FnMut(&Met)) -> Result<(), TakeInError<S>> {
        let mut walked = 0;
        for (log, lowest) in &self.logs {
            let through = walk(self.tx, *log, *lowest, ends, &mut |met| {
                if met.row > self.last {
                    each(&met);
                }
                walked += 1;
                if walked % EACH == 0 { watch(walked) } else { ControlFlow::Continue(()) }
            })?;
            if through.is_break() {
                return Err(TakeInError::Stopped);
            }
        }
        Ok(())
    }

    /// The questions that new entries are part of; these move from the joined to those to settle.
    fn waiting(&mut self, all: Vec<ToSettle>) -> rusqlite::Result<Vec<ToSettle>> {
        let mut new: BTreeSet<EntryRef> = BTreeSet::new();
        let mut waiting = Vec::new();
        for question in all {
            let mut touched = false;
            for entry in &question.entries {
                if self.is_new(*entry)? {
                    touched = true;
                    new.insert(*entry);
                }
            }
            if touched {
                waiting.push(question);
            }
        }
        self.sum.to_settle = new.len() as u64;
        self.sum.joined = self.sum.joined.saturating_sub(self.sum.to_settle);
        Ok(waiting)
    }

    fn is_new(&self, entry: EntryRef) -> rusqlite::Result<bool> {
        let row: Option<i64> = self
            .tx
            .prepare_cached("SELECT id FROM entry WHERE log = ?1 AND seq = ?2 AND substr(hash, 1, 8) = ?3")?
            .query_row(params![blob(&entry.log.0), number(entry.seq.0), entry.short], |row| row.get(0))
            .optional()?;
        Ok(row.is_some_and(|row| row > self.last || self.completed.contains(&row)))
    }

    /// Counted in the record itself, not while they came.
    fn new_rows(&self) -> rusqlite::Result<u64> {
        let rows: i64 = self
            .tx
            .prepare_cached("SELECT count(*) FROM entry WHERE id > ?1")?
            .query_row([self.last], |row| row.get(0))?;
        Ok(counter(rows) + self.completed.len() as u64)
    }

    fn newer(&self) -> rusqlite::Result<u64> {
        self.tx
            .prepare_cached(
                "SELECT count(*) FROM entry e JOIN standing s ON s.entry = e.id
                 WHERE e.id > ?1 AND s.readable = 0 AND e.body IS NOT NULL",
            )?
            .query_row([self.last], |row| row.get(0))
            .map(counter)
    }
}
