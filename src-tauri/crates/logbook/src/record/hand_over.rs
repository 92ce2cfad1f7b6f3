//! What leaves the device is sealed first.

use super::{By, ReadError, Record, WriteError};
use crate::entry::Entry;
use crate::entry::body::Book;

/// Why a book cannot be handed over.
#[derive(Debug, thiserror::Error)]
pub enum HandOverError {
    /// It cannot be sealed.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// It cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
}

impl Record {
    /// Seals this device's logs in some books, then gives all their entries, book by book and log by log.
    ///
    /// # Errors
    /// [`HandOverError`] in words.
    pub fn hand_over(&mut self, by: By<'_>, books: &[Book]) -> Result<Vec<Entry>, HandOverError> {
        self.write(by, |writer| books.iter().try_for_each(|book| writer.seal(*book).map(drop)))?;
        let mut entries = Vec::new();
        for book in books {
            entries.extend(self.view().entries(*book)?);
        }
        Ok(entries)
    }
}
