//! The lines as CSV (RFC 4180: commas, CRLF, UTF-8), for any other software.

use provenohm_words::Words;

use super::entries::entries;
use super::{Table, data};
use crate::PaperError;
use crate::defused::defused;
use crate::fixed::Fixed;
use crate::report::Parts;

impl Parts {
    /// Every line as CSV, with column names, codes, ISO 8601 times and decimal points that are the same in every
    /// language; the words for people stand in columns of their own. A text that a spreadsheet could take for a formula
    /// has an apostrophe before it.
    ///
    /// # Errors
    /// [`PaperError::Table`] if the table cannot be written.
    pub fn csv(&self, words: &Words) -> Result<Vec<u8>, PaperError> {
        let table = data::table(&entries(&self.parts), &Fixed::new(words));
        written(csv::WriterBuilder::new().terminator(csv::Terminator::CRLF), &table)
    }
}

fn written(form: &csv::WriterBuilder, table: &Table) -> Result<Vec<u8>, PaperError> {
    let mut writer = form.from_writer(Vec::new());
    writer.write_record(table.heads.iter().map(|head| defused(head)))?;
    for row in &table.rows {
        writer.write_record(row.iter().map(|cell| defused(cell)))?;
    }
    writer.into_inner().map_err(|error| PaperError::Table(error.into_error().into()))
}
