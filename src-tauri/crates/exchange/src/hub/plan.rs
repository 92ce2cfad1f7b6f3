//! What a device sends: pieces that what the hub has before each of them proves.

use super::ask::Lacks;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Kind, LogId, Seq};
use provenohm_logbook::record::{By, Record, Runs, WriteError};
use provenohm_logbook::view::{ReadError, View};
use std::collections::{BTreeMap, VecDeque};

/// Books in one piece: fewer than a bundle may hold.
pub(super) const MOST_BOOKS: usize = 500;

/// What is to be sent yet.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    books: VecDeque<(Book, Runs)>,
    /// Of the book that was begun: stretches that can be taken in one after the other.
    stretches: VecDeque<(Book, Vec<Entry>)>,
}

impl Plan {
    /// Sends of each log what comes behind the last entry that both have; all of it where it forks or has a gap.
    ///
    /// # Errors
    /// [`ReadError`].
    pub fn of(view: &View<'_>, lacks: &Lacks) -> Result<Self, ReadError> {
        let mut books: BTreeMap<Book, Runs> = BTreeMap::new();
        for ends in &lacks.logs {
            let Some(book) = view.book_of(ends.log)? else { continue };
            // Only of a chain that is whole here and there does one entry tell of all before it.
            let from = match (&ends.heads[..], view.heads_of(ends.log)?.len()) {
                ([head], 1) if view.holds(ends.log, head.seq, head.hash)? => Seq(head.seq.0 + 1),
                _ => Seq(0),
            };
            books.entry(book).or_default().insert(ends.log, from);
        }
        Ok(Self { books: books.into_iter().collect(), stretches: VecDeque::new() })
    }

    /// The next piece, at least so many bytes if there are; nothing once all was given.
    ///
    /// # Errors
    /// [`WriteError`].
    pub fn next(
        &mut self,
        record: &mut Record,
        by: By<'_>,
        bytes: u64,
    ) -> Result<Option<BTreeMap<Book, Vec<Entry>>>, WriteError> {
        let mut piece: BTreeMap<Book, Vec<Entry>> = BTreeMap::new();
        let mut size = 0;
        while size < bytes && piece.len() < MOST_BOOKS {
            match self.stretches.pop_front() {
                Some((book, entries)) => {
                    size += entries.iter().map(|entry| entry.to_wire().len() as u64).sum::<u64>();
                    piece.entry(book).or_default().extend(entries);
                }
                None => {
                    let Some((book, runs)) = self.books.pop_front() else { break };
                    // People went on since the logs were told: what they recorded goes along, and nothing goes unsealed.
                    record.seal(By { person: by.person, at: by.at, random: &mut *by.random })?;
                    let by = By { person: by.person, at: by.at, random: &mut *by.random };
                    self.stretches.extend(stretches(record.hand_on(by, book, &runs)?).map(|one| (book, one)));
                }
            }
        }
        Ok((!piece.is_empty()).then_some(piece))
    }
}

/// Stretches of logs that end with a seal each; then all that none of those covers, which may be proven by one another.
fn stretches(entries: Vec<Entry>) -> impl Iterator<Item = Vec<Entry>> {
    let mut sealed = Vec::new();
    let mut rest = Vec::new();
    let mut logs: BTreeMap<LogId, Vec<Entry>> = BTreeMap::new();
    for entry in entries {
        logs.entry(entry.envelope().log).or_default().push(entry);
    }
    for (_, mut log) in logs {
        let forks = log.windows(2).any(|two| match two {
            [one, other] => one.hash() != other.envelope().prev,
            _ => false,
        });
        // A seal covers one branch of a fork, and nothing before a gap.
        while !forks && let Some(seal) = log.iter().position(|entry| entry.envelope().kind == Kind::Seal.number()) {
            let after = log.split_off(seal + 1);
            sealed.push(std::mem::replace(&mut log, after));
        }
        rest.extend(log);
    }
    sealed.into_iter().chain((!rest.is_empty()).then_some(rest))
}
