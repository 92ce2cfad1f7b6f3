//! People: their cards, and who is one and the same.

use super::facet::{Facet, Stated};
use super::query::{ReadError, View};
use crate::entry::body::{Book, Person, SamePerson};
use crate::entry::{Kind, Noun, Object, ObjectId};
use crate::store::blob;
use provenohm_assess::ids::PersonId;
use rusqlite::OptionalExtension;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// A person as far as the record, or this device, knows them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownPerson {
    /// Who.
    pub person: PersonId,
    /// Their card, from all books.
    pub card: Facet<Person>,
    /// Name and role on this device alone, where no book has them.
    pub local: Option<Person>,
    /// Whether their card was erased.
    pub erased: bool,
    /// Other ids that mean the same person.
    pub same: Vec<PersonId>,
}

impl View<'_> {
    /// Everybody known here, by id.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn people(&self) -> Result<Vec<KnownPerson>, ReadError> {
        let mut ids: BTreeSet<Uuid> = self.subjects(Noun::Person, Kind::Person)?.into_iter().collect();
        let mut local = self.connection.prepare_cached("SELECT person FROM local_person")?;
        for id in local.query_map([], |row| Ok(Uuid::from_bytes(row.get(0)?)))? {
            ids.insert(id?);
        }
        ids.into_iter().map(|id| self.person(PersonId(id))).collect()
    }

    /// One person.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn person(&self, person: PersonId) -> Result<KnownPerson, ReadError> {
        let object = Object { noun: Noun::Person, id: ObjectId(person.0) };
        let stated = self.stated::<Person>(object)?;
        let erased = stated.is_empty() && !self.stated::<crate::entry::body::Erasure>(object)?.is_empty();
        let mut same = self.same_as(person.0, |one: &SamePerson| (one.one.0, one.other.0))?;
        same.remove(&person.0);
        Ok(KnownPerson {
            person,
            card: Facet::of(stated),
            local: self.local_person(person)?,
            erased,
            same: same.into_iter().map(PersonId).collect(),
        })
    }

    /// All ids that live statements of sameness lead to from `start`, itself among them.
    pub(super) fn same_as<T: crate::entry::body::Content>(
        &self,
        start: Uuid,
        two: impl Fn(&T) -> (Uuid, Uuid),
    ) -> Result<BTreeSet<Uuid>, ReadError> {
        let pairs: Vec<(Uuid, Uuid)> =
            self.all_stated::<T>()?.iter().filter(|one| one.is_live()).map(|one| two(&one.value)).collect();
        let mut same = BTreeSet::from([start]);
        loop {
            let before = same.len();
            for (one, other) in &pairs {
                if same.contains(one) || same.contains(other) {
                    same.extend([*one, *other]);
                }
            }
            if same.len() == before {
                return Ok(same);
            }
        }
    }

    /// A person's card: the first of any book, else this device's own word.
    pub fn card(&self, person: PersonId) -> Result<Option<Person>, ReadError> {
        let known = self.person(person)?;
        Ok(known.card.first().cloned().or(known.local))
    }

    /// Whether a book holds a card of this person that stands.
    pub(crate) fn names(&self, book: Book, person: PersonId) -> Result<bool, ReadError> {
        let Object { noun, id } = book.object();
        Ok(self
            .connection
            .prepare_cached(
                "SELECT EXISTS (SELECT 1 FROM about a
                 JOIN entry e ON e.id = a.entry JOIN standing s ON s.entry = e.id JOIN opened o ON o.log = e.log
                 WHERE a.noun = ?1 AND a.object = ?2 AND a.subject = 1 AND e.kind = ?3 AND s.withdrawn = 0
                   AND o.noun = ?4 AND o.book = ?5)",
            )?
            .query_row(
                rusqlite::params![
                    Noun::Person.number(),
                    blob(&person.0),
                    crate::store::number(Kind::Person.number()),
                    noun.number(),
                    blob(&id.0)
                ],
                |row| row.get(0),
            )?)
    }

    /// The cards of a person in each book, the earlier ones too.
    pub(crate) fn cards_by_book(&self, person: PersonId) -> Result<BTreeMap<Book, Vec<Stated<Person>>>, ReadError> {
        let mut books: BTreeMap<Book, Vec<Stated<Person>>> = BTreeMap::new();
        let object = Object { noun: Noun::Person, id: ObjectId(person.0) };
        for one in self.stated::<Person>(object)? {
            if let Some(book) = self.book_of(one.entry.log)? {
                books.entry(book).or_default().push(one);
            }
        }
        Ok(books)
    }

    fn local_person(&self, person: PersonId) -> Result<Option<Person>, ReadError> {
        Ok(self
            .connection
            .prepare_cached("SELECT name, role FROM local_person WHERE person = ?1")?
            .query_row([blob(&person.0)], |row| Ok(Person { person, name: row.get(0)?, role: row.get(1)? }))
            .optional()?)
    }
}
