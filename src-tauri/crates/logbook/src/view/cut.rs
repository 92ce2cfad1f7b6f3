//! An exact cut of some books: what it covers, what came after it, and the fingerprint of what books say.

use super::query::{ReadError, View, reference};
use crate::entry::body::{Book, CutEnd};
use crate::entry::{Entry, EntryRef, Hash, Kind, LogId, Object, Role, Seq};
use crate::store::{blob, counter, entry_of, number};
use provenohm_assess::ids::PersonId;
use provenohm_assess::moment::Moment;
use rusqlite::params;
use std::collections::BTreeSet;

/// What a cut covers of what is here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Covered {
    /// The entries, log by log from their ends.
    pub entries: Vec<Entry>,
    /// Bodies among them that were erased.
    pub erased: u64,
    /// The first place of each log, from its end, that the cut covers and that is not here as it was.
    pub missing: Vec<(LogId, Seq)>,
}

/// Rows a cut covers, and the first place of each of its ends that is not here.
type Rows = (BTreeSet<i64>, Vec<(LogId, Seq)>);

/// An entry that no cut covers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Later {
    /// The entry.
    pub entry: EntryRef,
    /// Its kind; absent where this version does not know it.
    pub kind: Option<Kind>,
    /// Its book.
    pub book: Book,
    /// Who recorded it.
    pub by: Option<PersonId>,
    /// When, by the writer's clock.
    pub recorded: Moment,
}

/// The condition for entries that say something: not those a log is opened or sealed with, not a sign-off, and not what
/// takes one back.
fn says_something() -> String {
    let named = |compared: &str| {
        format!(
            "EXISTS (SELECT 1 FROM naming n JOIN entry t ON t.log = n.log AND t.seq = n.seq
                     AND substr(t.hash, 1, 8) = n.short
                     WHERE n.entry = e.id AND n.role = {} AND t.kind {compared} {})",
            Role::Withdraws.number(),
            Kind::SignOff.number()
        )
    };
    format!(
        "e.kind NOT IN ({}, {}, {}) AND NOT (e.kind = {} AND {} AND NOT {})",
        Kind::LogOpened.number(),
        Kind::Seal.number(),
        Kind::SignOff.number(),
        Kind::Withdrawal.number(),
        named("="),
        named("<>"),
    )
}

impl View<'_> {
    /// All that is here of some books, as a cut, in rising order.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn cut<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<Vec<CutEnd>, ReadError> {
        let mut cut = Vec::new();
        for book in books {
            for (log, seq, hash) in self.heads(*book)? {
                let end = CutEnd { log, seq, hash, from: None };
                let mut first = None;
                self.follow(end, |_, seq| first = Some(seq))?;
                cut.push(CutEnd { from: first.filter(|first| first.0 > 0), ..end });
            }
        }
        cut.sort_unstable();
        Ok(cut)
    }

    /// What a cut covers of what is here.
    ///
    /// # Errors
    /// [`ReadError`] in words; an altered entry is one.
    pub fn covered(&self, cut: &[CutEnd]) -> Result<Covered, ReadError> {
        let mut covered = Covered::default();
        let (rows, missing) = self.rows_of(cut)?;
        covered.missing = missing;
        let mut one = self.connection.prepare_cached("SELECT envelope, salt, body FROM entry WHERE id = ?1")?;
        for row in rows {
            let entry = one.query_row([row], entry_of)??;
            covered.erased += u64::from(entry.body().is_none());
            covered.entries.push(entry);
        }
        Ok(covered)
    }

    /// What some books say that a cut does not cover, in the one order that holds on every device.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn after<'b>(
        &self,
        cut: &[CutEnd],
        books: impl IntoIterator<Item = &'b Book>,
    ) -> Result<Vec<Later>, ReadError> {
        let (rows, _) = self.rows_of(cut)?;
        let mut later = Vec::new();
        for book in books {
            let mut statement = self.connection.prepare_cached(&format!(
                "SELECT e.envelope, e.salt, e.body, e.id, e.log, e.seq, e.hash, e.kind FROM entry e
                 WHERE e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) AND e.kind <> ?3
                   AND {} ORDER BY e.lamport, e.log, e.seq, e.hash",
                says_something()
            ))?;
            let Object { noun, id } = book.object();
            let mut found = statement.query(params![noun.number(), blob(&id.0), number(Kind::Person.number())])?;
            while let Some(row) = found.next()? {
                if rows.contains(&row.get(3)?) {
                    continue;
                }
                let entry = entry_of(row)??;
                later.push(Later {
                    entry: reference(row, 4)?,
                    kind: Kind::from_number(counter(row.get(7)?)),
                    book: *book,
                    by: entry.envelope().person,
                    recorded: entry.envelope().recorded,
                });
            }
        }
        Ok(later)
    }

    /// The latest instant at which something was recorded of what the fingerprint of some books covers, by the writers'
    /// clocks.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn last_recorded<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<Option<Moment>, ReadError> {
        let sql = format!(
            "SELECT e.envelope, e.salt, e.body FROM entry e
             WHERE e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) AND {}
             ORDER BY e.recorded_ms DESC, e.hash LIMIT 1",
            says_something()
        );
        let mut last = None;
        for book in books {
            let Object { noun, id } = book.object();
            let found = self.entries_where(&sql, params![noun.number(), blob(&id.0)])?;
            last = last.max(found.first().map(|entry| entry.envelope().recorded));
        }
        Ok(last)
    }

    /// The fingerprint of what some books say: equal on every device that holds the same. Seals, sign-offs and what
    /// takes those back leave it as it was.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn fingerprint<'b>(&self, books: impl IntoIterator<Item = &'b Book>) -> Result<Hash, ReadError> {
        let mut hashes: BTreeSet<[u8; 32]> = BTreeSet::new();
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT e.hash FROM entry e
             WHERE e.log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2) AND {}",
            says_something()
        ))?;
        for book in books {
            let Object { noun, id } = book.object();
            let found = statement.query_map(params![noun.number(), blob(&id.0)], |row| row.get(0))?;
            hashes.extend(found.collect::<rusqlite::Result<Vec<[u8; 32]>>>()?);
        }
        let parts: Vec<&[u8]> =
            std::iter::once(b"provenohm record 1".as_slice()).chain(hashes.iter().map(<[u8; 32]>::as_slice)).collect();
        Ok(Hash::of(&parts))
    }

    /// The rows a cut covers, and the first place of each end that is not here.
    fn rows_of(&self, cut: &[CutEnd]) -> Result<Rows, ReadError> {
        let (mut rows, mut missing) = (BTreeSet::new(), Vec::new());
        for end in cut {
            let lacks = self.follow(*end, |row, _| {
                rows.insert(row);
            })?;
            missing.extend(lacks.map(|seq| (end.log, seq)));
        }
        Ok((rows, missing))
    }

    /// Meets the entries of an end of a cut, from the last to the first. Tells the first place that is not here, if the
    /// cut covers it.
    fn follow(&self, end: CutEnd, mut each: impl FnMut(i64, Seq)) -> Result<Option<Seq>, ReadError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT id, seq, hash, prev FROM entry WHERE log = ?1 AND seq <= ?2 AND seq >= ?3 ORDER BY seq DESC",
        )?;
        let from = end.from.unwrap_or(Seq(0));
        let mut found = statement.query(params![blob(&end.log.0), number(end.seq.0), number(from.0)])?;
        let (mut at, mut wanted) = (end.seq, end.hash);
        while let Some(row) = found.next()? {
            let seq = Seq(counter(row.get(1)?));
            if seq < at {
                return Ok(Some(at));
            }
            if seq > at || Hash(row.get(2)?) != wanted {
                continue;
            }
            each(row.get(0)?, seq);
            if at == from {
                return Ok(None);
            }
            (at, wanted) = (Seq(at.0 - 1), Hash(row.get(3)?));
        }
        Ok(Some(at))
    }
}
