//! The schedule as tables: one row a line, comparator, digits and unit in columns of their own.

mod csv;
mod readings;
mod tables;
mod xlsx;

use provenohm_assess::quantity::Comparator;

/// A table: its heads, and as many cells in every row.
pub(crate) struct Table {
    /// What the sheet is called.
    pub(crate) name: String,
    /// Column heads.
    pub(crate) heads: Vec<String>,
    /// Rows.
    pub(crate) rows: Vec<Vec<String>>,
}

/// How comparators are written in every file.
const fn comparator_code(comparator: Comparator) -> &'static str {
    match comparator {
        Comparator::Exact => "exact",
        Comparator::MoreThan => "more_than",
        Comparator::LessThan => "less_than",
    }
}
