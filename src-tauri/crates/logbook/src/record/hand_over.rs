//! What leaves the device is sealed first. What is not as it was written stays here, and is a gap elsewhere.

use super::{By, Record, WriteError, Writer, own_log};
use crate::entry::body::Book;
use crate::entry::{Body, Entry, EntryRef, Fact, Hash, Kind, LogId, Object, Seq};
use crate::store::{WRITTEN, as_written, blob, number};
use crate::view::{ReadError, View};
use rusqlite::{Connection, params};
use std::collections::{BTreeMap, BTreeSet};

/// A book as it leaves the device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaving {
    /// Which.
    pub book: Book,
    /// Its entries, log by log.
    pub entries: Vec<Entry>,
    /// Entries that are not as they were written and stay out.
    pub altered: u64,
    /// Entries that nothing proves any more, since those are missing between them and a seal. Nobody would take them, so
    /// they stay out too.
    pub unproven: u64,
}

impl Record {
    /// Seals this device's logs in some books and gives all their entries, book by book and log by log. Both happen in
    /// one transaction: what another program appends meanwhile is not among them, sealed or not.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn hand_over(&mut self, by: By<'_>, books: &[Book]) -> Result<Vec<Leaving>, WriteError> {
        let handed = self.write(by, |writer| books.iter().map(|book| writer.leaving(*book)).collect())?;
        Ok(handed.value)
    }
}

/// Logs of a book, each from a place on.
pub type Runs = BTreeMap<LogId, Seq>;

impl Record {
    /// Seals this device's logs in every book. Nothing is written where all is sealed.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn seal(&mut self, by: By<'_>) -> Result<(), WriteError> {
        let books = own_log::unsealed(&self.connection)?;
        if !books.is_empty() {
            self.write(by, |writer| books.iter().try_for_each(|book| writer.seal(*book).map(drop)))?;
        }
        Ok(())
    }

    /// What of a book leaves the device, of these logs only and each only from its place on: [`Record::seal`] was called
    /// before. Log by log.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn hand_on(&mut self, by: By<'_>, book: Book, runs: &Runs) -> Result<Vec<Entry>, WriteError> {
        if self.view().gaps(book)?.is_empty()
            && let Some(whole) = whole_runs(&self.connection, runs)?
        {
            return Ok(whole);
        }
        // Something is missing or damaged: what leaves is what the whole book still proves.
        let leaving = self.hand_over(by, &[book])?.into_iter().flat_map(|leaving| leaving.entries);
        let asked = |entry: &Entry| runs.get(&entry.envelope().log).is_some_and(|from| *from <= entry.envelope().seq);
        Ok(leaving.filter(asked).collect())
    }
}

/// The entries of these logs; nothing if one of them is not as it was written.
fn whole_runs(tx: &Connection, runs: &Runs) -> Result<Option<Vec<Entry>>, ReadError> {
    let mut entries = Vec::new();
    let mut run =
        tx.prepare_cached(&format!("SELECT {WRITTEN} FROM entry WHERE log = ?1 AND seq >= ?2 ORDER BY seq, hash"))?;
    for (log, from) in runs {
        let mut rows = run.query(params![blob(&log.0), number(from.0)])?;
        while let Some(row) = rows.next()? {
            let Ok(entry) = as_written(row) else { return Ok(None) };
            entries.push(entry);
        }
    }
    Ok(Some(entries))
}

impl Writer<'_> {
    fn leaving(&mut self, book: Book) -> Result<Leaving, WriteError> {
        self.seal(book)?;
        let loose = match leaving(self.tx, book)? {
            whole if whole.loose.is_empty() => return Ok(whole.leaving),
            torn => torn.loose,
        };
        // Damage tore these from the seals behind them: this device says that it knows them.
        for end in loose {
            self.vouch(book, end)?;
        }
        Ok(leaving(self.tx, book)?.leaving)
    }
}

/// What leaves, and the ends of chains that nothing proves.
struct Torn {
    leaving: Leaving,
    loose: Vec<EntryRef>,
}

fn leaving(tx: &Connection, book: Book) -> Result<Torn, ReadError> {
    let Object { noun, id } = book.object();
    let mut statement = tx.prepare_cached(&format!(
        "SELECT {WRITTEN} FROM entry WHERE log IN (SELECT log FROM opened WHERE noun = ?1 AND book = ?2)
         ORDER BY log, seq, hash"
    ))?;
    let mut rows = statement.query(params![noun.number(), blob(&id.0)])?;
    let mut leaving = Leaving { book, entries: Vec::new(), altered: 0, unproven: 0 };
    while let Some(row) = rows.next()? {
        match as_written(row) {
            Ok(entry) => leaving.entries.push(entry),
            Err(_) => leaving.altered += 1,
        }
    }
    // A chain that lacks a link proves less; any other was whole when it came or was written.
    if leaving.altered == 0 && View::new(tx).gaps(book)?.is_empty() {
        return Ok(Torn { leaving, loose: Vec::new() });
    }
    let proven = proven(&leaving.entries);
    let (entries, unproven): (Vec<_>, Vec<_>) =
        leaving.entries.into_iter().partition(|entry| proven.contains(&entry.hash()));
    let followed: BTreeSet<Hash> = unproven.iter().map(|entry| entry.envelope().prev).collect();
    let begun = begun(&unproven).union(&begun(&entries)).copied().collect::<BTreeSet<LogId>>();
    let loose =
        unproven.iter().filter(|entry| begun.contains(&entry.envelope().log) && !followed.contains(&entry.hash()));
    let loose = loose.map(Entry::reference).collect();
    Ok(Torn { leaving: Leaving { entries, unproven: unproven.len() as u64, ..leaving }, loose })
}

/// The logs of which the first entry is among them.
fn begun(entries: &[Entry]) -> BTreeSet<LogId> {
    entries.iter().map(Entry::envelope).filter(|it| it.seq.0 == 0).map(|it| it.log).collect()
}

/// The entries that a seal reaches among them, or that lead up to an end which a later log names, itself proven. Of a
/// log without its beginning none: nobody could tell whose they are.
fn proven(entries: &[Entry]) -> BTreeSet<Hash> {
    let begun = begun(entries);
    let mut named: BTreeSet<EntryRef> = BTreeSet::new();
    loop {
        let (mut kept, mut followed, mut names) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
        for entry in entries.iter().rev().filter(|entry| begun.contains(&entry.envelope().log)) {
            let seal = Kind::from_number(entry.envelope().kind) == Some(Kind::Seal);
            if seal || followed.contains(&entry.hash()) || named.contains(&entry.reference()) {
                followed.insert(entry.envelope().prev);
                kept.insert(entry.hash());
                names.extend(after(entry));
            }
        }
        if names == named {
            return kept;
        }
        named = names;
    }
}

/// The end of the log before this one, if this is the first entry of a log that names one.
fn after(entry: &Entry) -> Option<EntryRef> {
    let envelope = entry.envelope();
    let (_, body) = entry.body().filter(|_| envelope.seq.0 == 0)?;
    match Fact::decode(envelope.kind, envelope.kind_version, body).ok()?.body {
        Body::LogOpened(opened) => opened.after,
        _ => None,
    }
}
