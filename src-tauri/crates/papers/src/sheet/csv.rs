//! The lines as CSV (RFC 4180: commas, CRLF, UTF-8), for any other software; those of one board to be pasted.

use provenohm_words::Words;

use super::{Table, readings};
use crate::PaperError;
use crate::defused::defused;
use crate::fixed::Fixed;
use crate::report::Parts;

impl Parts {
    /// Every line as CSV. Digits have a decimal point whatever the language; a comparator is `exact`, `more_than` or
    /// `less_than`. A text that a spreadsheet could take for a formula has an apostrophe before it.
    ///
    /// # Errors
    /// [`PaperError::Table`] if the table cannot be written.
    pub fn csv(&self, words: &Words) -> Result<Vec<u8>, PaperError> {
        let table = readings::lines(&self.parts, &Fixed::new(words));
        written(csv::WriterBuilder::new().terminator(csv::Terminator::CRLF), &table, |_| true)
    }

    /// The lines of the boards called so as tab-separated values, to be pasted into a spreadsheet: the columns and
    /// numbers of [`Parts::csv`].
    ///
    /// # Errors
    /// [`PaperError::Table`] if the table cannot be written.
    pub fn tsv_of(&self, board: &str, words: &Words) -> Result<Vec<u8>, PaperError> {
        let table = readings::lines(&self.parts, &Fixed::new(words));
        let at = readings::BOARD;
        written(csv::WriterBuilder::new().delimiter(b'\t'), &table, |row| row.get(at).is_some_and(|name| name == board))
    }
}

fn written(
    form: &csv::WriterBuilder,
    table: &Table,
    wanted: impl Fn(&[String]) -> bool,
) -> Result<Vec<u8>, PaperError> {
    let mut writer = form.from_writer(Vec::new());
    writer.write_record(table.heads.iter().map(|head| defused(head)))?;
    for row in table.rows.iter().filter(|row| wanted(row)) {
        writer.write_record(row.iter().map(|cell| defused(cell)))?;
    }
    writer.into_inner().map_err(|error| PaperError::Table(error.into_error().into()))
}
