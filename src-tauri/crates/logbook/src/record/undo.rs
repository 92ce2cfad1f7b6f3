//! Undo: a withdrawal of the last act of this person on this device that still stands. It has no end: undoing again
//! reaches the act before. Nothing is removed.

use super::{WriteError, Writer};
use crate::entry::body::{Book, Withdrawal};
use crate::entry::{EntryRef, Fact, Kind, Object, Role};
use crate::store::{blob, counter};
use crate::view::Left;
use rusqlite::params;
use std::collections::BTreeMap;

/// What undo took back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Undone {
    /// The entries withdrawn, in the order they had been written.
    pub withdrawn: Vec<EntryRef>,
    /// The entries that withdraw them, one a book.
    pub by: Vec<EntryRef>,
}

impl Writer<'_> {
    /// Takes back this person's last act on this device in a book, or in any.
    /// `None` when there is nothing left to take back.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn undo(&mut self, only: Option<Book>) -> Result<Option<Undone>, WriteError> {
        let Some(act) = self.last_standing_act(only)? else { return Ok(None) };
        let withdrawn = act.iter().map(|(entry, _)| *entry).collect();
        let mut books: BTreeMap<Book, Vec<EntryRef>> = BTreeMap::new();
        for (entry, book) in act {
            books.entry(book).or_default().push(entry);
        }
        let by =
            books.into_iter().map(|(book, entries)| self.withdraw_in(book, entries, None)).collect::<Result<_, _>>()?;
        Ok(Some(Undone { withdrawn, by }))
    }

    /// Withdraws entries of one book, with a reason.
    ///
    /// # Errors
    /// [`WriteError::NoReason`] without one; [`WriteError::UnknownEntry`] for an entry of no book here.
    pub fn withdraw(&mut self, entries: &[EntryRef], reason: &str) -> Result<Vec<EntryRef>, WriteError> {
        if reason.trim().is_empty() {
            return Err(WriteError::NoReason);
        }
        self.withdraw_all(entries, Some(reason))
    }

    /// Withdraws entries as an undo does, which gives no reason.
    ///
    /// # Errors
    /// [`WriteError::UnknownEntry`] for an entry of no book here; [`WriteError::LeavesWork`] for one that began what has been
    /// worked on since, [`WriteError::BegunElsewhere`] for one of another record.
    pub fn take_back(&mut self, entries: &[EntryRef]) -> Result<Vec<EntryRef>, WriteError> {
        let by = self.withdraw_all(entries, None)?;
        for entry in entries {
            match self.view().left_of(*entry)? {
                Left::Nothing => {}
                Left::Work => return Err(WriteError::LeavesWork),
                Left::Elsewhere => return Err(WriteError::BegunElsewhere),
            }
        }
        Ok(by)
    }

    fn withdraw_all(&mut self, entries: &[EntryRef], reason: Option<&str>) -> Result<Vec<EntryRef>, WriteError> {
        let mut books: BTreeMap<Book, Vec<EntryRef>> = BTreeMap::new();
        for entry in entries {
            let book = self.view().book_of(entry.log)?.ok_or(WriteError::UnknownEntry(*entry))?;
            books.entry(book).or_default().push(*entry);
        }
        books.into_iter().map(|(book, entries)| self.withdraw_in(book, entries, reason)).collect()
    }

    /// Chooses between live values of one book: `keeps` stay current, `sets_aside` do not.
    ///
    /// # Errors
    /// [`WriteError::NothingKept`] without one to keep; else as [`Writer::append_in`].
    pub fn settle(
        &mut self,
        keeps: &[EntryRef],
        sets_aside: &[EntryRef],
        reason: Option<&str>,
    ) -> Result<EntryRef, WriteError> {
        let first = keeps.first().ok_or(WriteError::NothingKept)?;
        let book = self.view().book_of(first.log)?.ok_or(WriteError::UnknownEntry(*first))?;
        let about = self.about(keeps.iter().chain(sets_aside))?;
        let body = crate::entry::body::Settlement { about };
        let mut fact = Fact::naming(body, Role::Keeps, keeps.iter().copied())
            .and_naming(Role::SetsAside, sets_aside.iter().copied());
        fact.reason = reason.map(str::to_owned);
        self.append_in(book, fact)
    }

    fn withdraw_in(
        &mut self,
        book: Book,
        entries: Vec<EntryRef>,
        reason: Option<&str>,
    ) -> Result<EntryRef, WriteError> {
        let about = self.about(entries.iter())?;
        let mut fact = Fact::naming(Withdrawal { about }, Role::Withdraws, entries);
        fact.reason = reason.map(str::to_owned);
        self.append_in(book, fact)
    }

    /// What some entries are about, in rising order.
    pub(super) fn about<'e>(&self, entries: impl Iterator<Item = &'e EntryRef>) -> Result<Vec<Object>, WriteError> {
        let mut about = Vec::new();
        for entry in entries {
            about.extend(self.view().objects_of(*entry)?);
        }
        about.sort_unstable();
        about.dedup();
        Ok(about)
    }

    /// The entries of the last act that undo reaches, with their books.
    fn last_standing_act(&self, only: Option<Book>) -> Result<Option<Vec<(EntryRef, Book)>>, WriteError> {
        let mut acts = self.tx.prepare_cached(
            "SELECT a.act, e.log, e.seq, e.hash, e.kind FROM own_act a
             JOIN entry e ON e.id = a.entry
             JOIN standing s ON s.entry = e.id
             WHERE a.device = ?1 AND a.person = ?2 AND s.withdrawn = 0 AND s.readable = 1
             ORDER BY a.act DESC, e.id",
        )?;
        let mut rows = acts.query(params![blob(&self.device.id().0), blob(&self.person.0)])?;
        let mut found: Option<(i64, Vec<(EntryRef, Book)>)> = None;
        while let Some(row) = rows.next()? {
            let act: i64 = row.get(0)?;
            if found.as_ref().is_some_and(|(last, _)| *last != act) {
                break;
            }
            let entry = crate::view::reference(row, 1)?;
            let undoable = Kind::from_number(counter(row.get(4)?)).is_some_and(Kind::undoable);
            let book = self.view().book_of(entry.log)?;
            if let Some(book) = book.filter(|book| undoable && only.is_none_or(|only| only == *book)) {
                found.get_or_insert_with(|| (act, Vec::new())).1.push((entry, book));
            }
        }
        Ok(found.map(|(_, entries)| entries))
    }
}
