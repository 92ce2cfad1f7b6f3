//! Signing off: what is signed is cut first, then judged by whoever asks, then named and sealed. All in one write.

use super::{WriteError, Writer};
use crate::entry::EntryRef;
use crate::entry::body::{Book, CutEnd, SignOff};
use provenohm_assess::ids::JobId;
use std::collections::BTreeSet;

impl Writer<'_> {
    /// Seals what this device wrote in some books and gives all of them as a cut. Whoever signs is in the job's book
    /// first, so that a paper of the cut can name them.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn cut_to_sign(&mut self, job: JobId, books: &BTreeSet<Book>) -> Result<Vec<CutEnd>, WriteError> {
        self.introduce_to(job.into())?;
        for book in books {
            self.seal(*book)?;
        }
        Ok(self.view().cut(books)?)
    }

    /// What is here of a job: what a removal knows of.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn known(&self, job: JobId) -> Result<Vec<CutEnd>, WriteError> {
        Ok(self.view().cut(&[job.into()])?)
    }

    /// The number of the next sign-off of a job.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn next_sign_off(&self, job: JobId) -> Result<u64, WriteError> {
        let highest = self.view().sign_offs(job)?.iter().map(|one| one.value.number).max();
        Ok(highest.unwrap_or(0).saturating_add(1))
    }

    /// Appends a sign-off and seals it right away.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn sign_off(&mut self, said: SignOff) -> Result<EntryRef, WriteError> {
        let book = said.job.into();
        let entry = self.append(said)?;
        self.seal(book)?;
        Ok(entry)
    }
}
