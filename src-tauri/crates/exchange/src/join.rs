//! Joining: what others recorded is looked at, then taken in. A file brings it today; whatever else brings entries is
//! taken in by the same.

use crate::bundle::{Bundle, NotABundle};
use provenohm_assess::ids::TesterId;
use provenohm_logbook::entry::Entry;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::record::{Fate, Record, Sum, TakeInError, Taken, Taking, WriteError};
use provenohm_logbook::view::{ReadError, View};
use std::collections::{BTreeMap, BTreeSet};
use std::convert::Infallible;
use std::ops::ControlFlow;

/// What brings books of entries.
pub trait Carrier {
    /// Why it may stop before the end.
    type Stopped;

    /// The books it brings, and how many entries of each.
    fn books(&self) -> BTreeMap<Book, u64>;

    /// The entries of one of these books.
    ///
    /// # Errors
    /// What keeps it from giving any.
    fn entries(&self, book: Book) -> Result<impl Iterator<Item = Result<Entry, Self::Stopped>>, Self::Stopped>;
}

impl Carrier for Bundle<'_> {
    type Stopped = NotABundle;

    fn books(&self) -> BTreeMap<Book, u64> {
        self.manifest().books.iter().map(|packed| (packed.book, packed.entries)).collect()
    }

    fn entries(&self, book: Book) -> Result<impl Iterator<Item = Result<Entry, NotABundle>>, NotABundle> {
        Ok(Bundle::entries(self, book)?.into_iter().flatten())
    }
}

/// Entries at hand.
impl Carrier for BTreeMap<Book, Vec<Entry>> {
    type Stopped = Infallible;

    fn books(&self) -> BTreeMap<Book, u64> {
        self.iter().map(|(book, entries)| (*book, entries.len() as u64)).collect()
    }

    fn entries(&self, book: Book) -> Result<impl Iterator<Item = Result<Entry, Infallible>>, Infallible> {
        Ok(self.get(&book).into_iter().flatten().cloned().map(Ok))
    }
}

/// What was brought, and what became of it or would become of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Joined {
    /// Book by book, in rising order.
    pub books: Vec<Brought>,
    /// Testers that readings rely on and of which nothing is here or was brought.
    pub lacks: BTreeSet<TesterId>,
}

/// One book that was brought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Brought {
    /// Its name, as the record has it with these entries in it.
    pub name: String,
    /// What taking it in does.
    pub taken: Taken,
}

impl Joined {
    /// The sum of all books.
    #[must_use]
    pub fn sum(&self) -> Sum {
        self.books.iter().fold(Sum::default(), |sum, one| sum + one.taken.sum)
    }
}

/// How far it is, in steps of even length: done, of all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Done.
    pub done: u64,
    /// In all.
    pub of: u64,
}

/// Hears how far it is, and can stop it.
pub type Watch<'w> = &'w mut dyn FnMut(Progress) -> ControlFlow<()>;

/// Tells what taking these books in would do. Nothing is kept of it.
///
/// # Errors
/// [`TakeInError`]: they would not be taken in.
pub fn look<C: Carrier>(record: &mut Record, carrier: &C, watch: Watch<'_>) -> Result<Joined, TakeInError<C::Stopped>> {
    each(record, carrier, watch, |_| Ok(Fate::Dropped))
}

/// Takes these books in: all or none, even if it is stopped or the power goes.
///
/// # Errors
/// [`TakeInError`]; then nothing was taken in.
pub fn take_in<C: Carrier>(
    record: &mut Record,
    carrier: &C,
    watch: Watch<'_>,
) -> Result<Joined, TakeInError<C::Stopped>> {
    take_in_with(record, carrier, watch, |_| Ok(()))
}

/// The same, with something of this device that is kept together with them.
pub(crate) fn take_in_with<C: Carrier>(
    record: &mut Record,
    carrier: &C,
    watch: Watch<'_>,
    also: impl FnOnce(&mut Taking<'_>) -> Result<(), WriteError>,
) -> Result<Joined, TakeInError<C::Stopped>> {
    each(record, carrier, watch, |taking| also(taking).map(|()| Fate::Kept))
}

fn each<C: Carrier>(
    record: &mut Record,
    carrier: &C,
    watch: Watch<'_>,
    end: impl FnOnce(&mut Taking<'_>) -> Result<Fate, WriteError>,
) -> Result<Joined, TakeInError<C::Stopped>> {
    let books = carrier.books();
    // Each entry is taken, and then proven.
    let of = 2 * books.values().sum::<u64>();
    record.take_in(|taking| {
        let mut joined = Joined::default();
        let mut before = 0;
        for (book, count) in &books {
            let entries = carrier.entries(*book).map_err(TakeInError::Source)?;
            let taken = taking.book(*book, entries, &mut |done| watch(Progress { done: before + done, of }))?;
            let (name, lacks) = look_at(&taking.view(), *book, &books)?;
            joined.books.push(Brought { name, taken });
            joined.lacks.extend(lacks);
            before += 2 * count;
        }
        Ok((joined, end(taking)?))
    })
}

/// The name of a book, and the testers it lacks.
fn look_at(
    view: &View<'_>,
    book: Book,
    brought: &BTreeMap<Book, u64>,
) -> Result<(String, BTreeSet<TesterId>), ReadError> {
    let mut lacks = BTreeSet::new();
    let name = match book {
        Book::Job { job } => {
            for tester in view.testers_of(job)? {
                if !brought.contains_key(&tester.into()) && view.logs(tester.into())?.is_empty() {
                    lacks.insert(tester);
                }
            }
            view.job(job)?.names.first().map(|names| names.name.clone())
        }
        Book::Tester { tester } => view.tester(tester)?.identity.first().map(|identity| identity.name.clone()),
        Book::Reference { reference } => {
            view.known_reference(reference)?.card.first().map(|card| card.reference.name.clone())
        }
    };
    Ok((name.unwrap_or_default(), lacks))
}
