//! Documents: the schedule of results as PDF, XLSX, CSV and preview pictures, all from one report model; the recall list;
//! the report of a tester's verification.
//!
//! The way through: fill a [`report::Schedule`], cut it with [`report::Parts::of`], typeset each part with
//! [`Pages::typeset`], or write all of them as a table with [`report::Parts::xlsx`] and [`report::Parts::csv`].

mod defused;
mod error;
mod fixed;
mod pdf;
pub mod recall;
pub mod report;
mod sheet;
pub mod tester_report;
mod view;

pub use defused::{defused, plain};
pub use error::PaperError;
pub use pdf::{Attached, MOST_PDF_BYTES, NotAttached, Pages, Scale, attached, maker};
