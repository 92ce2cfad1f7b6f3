//! Why a paper could not be made.

use thiserror::Error;

use crate::report::ModelError;

/// Why a paper could not be made.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum PaperError {
    /// The model cannot be put on paper.
    #[error(transparent)]
    Model(#[from] ModelError),
    /// A list too long for pages; its table takes any length.
    #[error("{lines} lines are more than the {most} that fit on pages; the CSV file takes all of them")]
    TooLong {
        /// Lines there are.
        lines: usize,
        /// Lines that fit.
        most: usize,
    },
    /// Whoever watched stopped it.
    #[error("stopped")]
    Stopped,
    /// The embedded fonts could not be read.
    #[error("the embedded fonts cannot be read")]
    Fonts,
    /// The typesetter refused; that is a fault of this program.
    #[error("the pages could not be typeset: {0}")]
    Typeset(String),
    /// The data for the template could not be written.
    #[error("the data for the pages could not be written: {0}")]
    View(#[from] serde_json::Error),
    /// The picture of a page could not be written.
    #[error("the picture of the page could not be written: {0}")]
    Picture(String),
    /// There is no such page.
    #[error("there is no page {page}; the document has {pages}")]
    NoSuchPage {
        /// The page asked for, from 1.
        page: usize,
        /// Pages there are.
        pages: usize,
    },
    /// The spreadsheet could not be written.
    #[error("the spreadsheet could not be written: {0}")]
    Sheet(#[from] rust_xlsxwriter::XlsxError),
    /// The table could not be written.
    #[error("the table could not be written: {0}")]
    Table(#[from] csv::Error),
}
