//! What leaves the device is sealed first.

use super::{By, Record, WriteError};
use crate::entry::Entry;
use crate::entry::body::Book;

impl Record {
    /// Seals this device's logs in some books and gives all their entries, book by book and log by log. Both happen in
    /// one transaction: what another program appends meanwhile is not among them, sealed or not.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn hand_over(&mut self, by: By<'_>, books: &[Book]) -> Result<Vec<(Book, Vec<Entry>)>, WriteError> {
        let handed = self.write(by, |writer| {
            let each = books.iter().map(|book| {
                writer.seal(*book)?;
                Ok::<_, WriteError>((*book, writer.view().entries(*book)?))
            });
            each.collect::<Result<_, _>>()
        })?;
        Ok(handed.value)
    }
}
