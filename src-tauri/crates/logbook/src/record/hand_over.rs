//! What leaves the device is sealed first. What is not as it was written stays here, and is a gap elsewhere.

use super::{By, Record, WriteError, Writer};
use crate::entry::body::Book;
use crate::entry::{Body, Entry, EntryRef, Fact, Hash, Kind, LogId, Object};
use crate::store::{WRITTEN, as_written, blob};
use crate::view::{ReadError, View};
use rusqlite::{Connection, params};
use std::collections::BTreeSet;

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
