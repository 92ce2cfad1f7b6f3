//! What belongs to this device alone and is no entry: half-typed text, choices, people not yet in any book.

use super::{Record, WriteError, Writer};
use crate::entry::body::{Book, Erasure, Person};
use crate::entry::{EntryRef, Fact, Role};
use crate::store::{blob, flush_what_was_found};
use crate::view::ReadError;
use provenohm_assess::ids::PersonId;
use rusqlite::{Connection, OptionalExtension, params};
use std::sync::atomic::Ordering;

/// How the names of choices begin that were worked out from entries and are only kept: they go with any book that goes.
pub const WORKED_OUT: &str = "worked-out:";

/// The name of a choice that is about one book: it goes with that book.
#[must_use]
pub fn of_book(book: Book, what: &str) -> String {
    format!("{}{what}", before(book))
}

/// How the names of choices about a book begin.
pub(super) fn before(book: Book) -> String {
    format!("of-book:{}:", book.object().id.0)
}

impl Record {
    /// Keeps half-typed text of a person at a place, over what was there. On the disk when this returns.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn keep_draft(&mut self, person: PersonId, place: &str, text: &str) -> Result<(), WriteError> {
        self.writable()?;
        keep_draft(&self.connection, person, place, text)
    }

    /// The half-typed text of a person at a place.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn draft(&self, person: PersonId, place: &str) -> Result<Option<String>, ReadError> {
        let mut kept = self.connection.prepare_cached("SELECT text FROM draft WHERE person = ?1 AND place = ?2")?;
        Ok(kept.query_row(params![blob(&person.0), place], |row| row.get(0)).optional()?)
    }

    /// Keeps a choice of this device under a name; `None` forgets it.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn choose(&mut self, name: &str, value: Option<&str>) -> Result<(), WriteError> {
        self.writable()?;
        choose(&self.connection, name, value)
    }

    /// A choice of this device.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn choice(&self, name: &str) -> Result<Option<String>, ReadError> {
        let mut kept = self.connection.prepare_cached("SELECT value FROM setting WHERE name = ?1")?;
        Ok(kept.query_row([name], |row| row.get(0)).optional()?)
    }

    /// Makes a person known to this device, before any book names them.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn keep_person(&mut self, person: &Person) -> Result<(), WriteError> {
        self.writable()?;
        keep_person(&self.connection, person)
    }

    /// Asked before anything is written.
    pub(super) fn writable(&self) -> Result<(), WriteError> {
        if self.newer {
            return Err(WriteError::NewerRecord);
        }
        Ok(self.flush_what_was_found()?)
    }

    pub(super) fn flush_what_was_found(&self) -> rusqlite::Result<()> {
        if self.unflushed.load(Ordering::Relaxed) {
            flush_what_was_found(&self.connection)?;
            self.unflushed.store(false, Ordering::Relaxed);
        }
        Ok(())
    }
}

impl Writer<'_> {
    /// Keeps half-typed text in the same transaction; empty text drops it.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn keep_draft(&mut self, place: &str, text: &str) -> Result<(), WriteError> {
        keep_draft(self.tx, self.person, place, text)
    }

    /// Keeps a choice of this device in the same transaction; `None` forgets it.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn choose(&mut self, name: &str, value: Option<&str>) -> Result<(), WriteError> {
        choose(self.tx, name, value)
    }

    /// Drops the cards of a person from this device and from every book here that holds one, with a reason that does
    /// not repeat them. What they recorded stays, under their id alone.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn erase_person(&mut self, person: PersonId, reason: &str) -> Result<(), WriteError> {
        // Also where every card is gone already: what the try before dropped may still be in the write-ahead log.
        self.erases = true;
        self.tx.prepare_cached("DELETE FROM local_person WHERE person = ?1")?.execute([blob(&person.0)])?;
        for (book, entries) in self.view().cards_by_book(person)? {
            let entries: Vec<EntryRef> = entries.into_iter().map(|one| one.entry).collect();
            let about = self.about(entries.iter())?;
            self.append_in(book, Fact::naming(Erasure { about }, Role::Erases, entries).because(reason))?;
        }
        Ok(())
    }

    /// Changes a person's card on this device and in every book that holds it here.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn change_person(&mut self, card: &Person) -> Result<(), WriteError> {
        keep_person(self.tx, card)?;
        for (book, entries) in self.view().cards_by_book(card.person)? {
            let live = entries.into_iter().filter(|one| one.is_live()).map(|one| one.entry);
            self.append_in(book, Fact::naming(card.clone(), Role::Replaces, live))?;
        }
        Ok(())
    }
}

fn keep_draft(tx: &Connection, person: PersonId, place: &str, text: &str) -> Result<(), WriteError> {
    if text.is_empty() {
        tx.prepare_cached("DELETE FROM draft WHERE person = ?1 AND place = ?2")?
            .execute(params![blob(&person.0), place])?;
    } else {
        tx.prepare_cached(
            "INSERT INTO draft (person, place, text) VALUES (?1, ?2, ?3)
             ON CONFLICT (person, place) DO UPDATE SET text = excluded.text",
        )?
        .execute(params![blob(&person.0), place, text])?;
    }
    Ok(())
}

pub(super) fn choose(tx: &Connection, name: &str, value: Option<&str>) -> Result<(), WriteError> {
    match value {
        Some(value) => tx
            .prepare_cached(
                "INSERT INTO setting (name, value) VALUES (?1, ?2)
                 ON CONFLICT (name) DO UPDATE SET value = excluded.value",
            )?
            .execute(params![name, value])?,
        None => tx.prepare_cached("DELETE FROM setting WHERE name = ?1")?.execute([name])?,
    };
    Ok(())
}

fn keep_person(tx: &Connection, card: &Person) -> Result<(), WriteError> {
    tx.prepare_cached(
        "INSERT INTO local_person (person, name, role) VALUES (?1, ?2, ?3)
         ON CONFLICT (person) DO UPDATE SET name = excluded.name, role = excluded.role",
    )?
    .execute(params![blob(&card.person.0), card.name, card.role])?;
    Ok(())
}
