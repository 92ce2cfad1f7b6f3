//! The schedule as tables: one row a line, comparator, digits and unit in columns of their own.

mod codes;
mod csv;
mod data;
mod entries;
mod readings;
mod tables;
mod xlsx;

pub(crate) use codes::comparator as comparator_code;
pub(crate) use xlsx::{created, put};

use crate::fixed::Fixed;
use crate::report::Reading;

/// A table: its heads, and as many cells in every row.
pub(crate) struct Table {
    /// What the sheet is called.
    pub(crate) name: String,
    /// Column heads.
    pub(crate) heads: Vec<String>,
    /// Rows.
    pub(crate) rows: Vec<Vec<String>>,
}

/// The corrections of a reading's circumstances, each with its reason.
fn corrections(reading: &Reading, fixed: &Fixed<'_>) -> Vec<String> {
    let said = reading.corrections.iter();
    said.map(|it| fixed.with("correction", &[("sentence", &it.sentence), ("reason", &it.reason)])).collect()
}
