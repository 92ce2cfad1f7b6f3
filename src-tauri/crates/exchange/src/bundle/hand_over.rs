//! A job as a bundle: its book, the books of the testers it relies on, and those of the references these were proved by.

use super::write::{TooLarge, write_watched};
use crate::join::Watch;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::record::{By, Record, WriteError};
use provenohm_logbook::view::{ReadError, View};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// A job that was handed over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandedOver {
    /// The bundle.
    pub bytes: Vec<u8>,
    /// The books in it.
    pub books: Vec<Book>,
    /// How many entries they hold.
    pub entries: u64,
    /// Entries that are not as they were written and stayed out.
    pub altered: u64,
    /// Entries that nothing proves without those, and that stayed out too.
    pub unproven: u64,
}

/// Why a job is not handed over.
#[derive(Debug, thiserror::Error)]
pub enum HandOverError {
    /// It is not in this record.
    #[error("the job is not in this record")]
    NoSuchJob,
    /// There is too much of it.
    #[error(transparent)]
    TooLarge(#[from] TooLarge),
    /// Somebody stopped it.
    #[error("stopped")]
    Stopped,
    /// It cannot be sealed.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// It cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
}

/// The books a job travels with: its own, and those of the testers its readings rely on or that were chosen for it,
/// under every id that means the same tester.
///
/// # Errors
/// [`ReadError`].
pub fn books_of(view: &View<'_>, job: JobId, also: &[TesterId]) -> Result<BTreeSet<Book>, ReadError> {
    let mut books = BTreeSet::from([job.into()]);
    for tester in view.testers_of(job)?.into_iter().chain(also.iter().copied()) {
        books.insert(tester.into());
        // A damaged record says less, and hands over what it still can.
        match view.same_tester(tester) {
            Err(error) if error.is_damage() => {}
            same => books.extend(same?.into_iter().map(Book::from)),
        }
    }
    Ok(books)
}

/// The same with the books of the references that bench runs of these testers name. Nothing is judged by them: a run
/// carries its references as they stood.
fn travelling(view: &View<'_>, job: JobId, also: &[TesterId]) -> Result<BTreeSet<Book>, ReadError> {
    let mut books = books_of(view, job, also)?;
    for book in books.clone() {
        let Book::Tester { tester } = book else { continue };
        match view.references_proving(tester) {
            Err(error) if error.is_damage() => {}
            references => books.extend(references?.into_iter().map(Book::from)),
        }
    }
    Ok(books)
}

/// Seals what this device wrote of a job, and packs it with all that others wrote, the testers of `also` with it.
///
/// # Errors
/// [`HandOverError`].
pub fn hand_over(record: &mut Record, by: By<'_>, job: JobId, also: &[TesterId]) -> Result<HandedOver, HandOverError> {
    hand_over_watched(record, by, job, also, &mut |_| ControlFlow::Continue(()))
}

/// The same while somebody watches, who can stop it: then nothing is handed over, and what was sealed stays sealed.
///
/// # Errors
/// [`HandOverError`].
pub fn hand_over_watched(
    record: &mut Record,
    by: By<'_>,
    job: JobId,
    also: &[TesterId],
    watch: Watch<'_>,
) -> Result<HandedOver, HandOverError> {
    let books: Vec<Book> = travelling(&record.view(), job, also)?.into_iter().collect();
    let (mut entries, mut altered, mut unproven) = (BTreeMap::new(), 0, 0);
    for book in record.hand_over(by, &books)? {
        altered += book.altered;
        unproven += book.unproven;
        if !book.entries.is_empty() {
            entries.insert(book.book, book.entries);
        }
    }
    if !entries.contains_key(&job.into()) {
        return Err(HandOverError::NoSuchJob);
    }
    Ok(HandedOver {
        bytes: write_watched(Some(record.device().id()), job.into(), &entries, watch)?.ok_or(HandOverError::Stopped)?,
        books: entries.keys().copied().collect(),
        entries: entries.values().map(|entries| entries.len() as u64).sum(),
        altered,
        unproven,
    })
}
