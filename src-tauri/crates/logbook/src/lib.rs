//! The record: append-only entries in SQLite, chained and sealed, and the tables projected from them.
//!
//! [`record::Record`] is opened at a place, read through [`record::Record::view`] and changed through
//! [`record::Record::write`] alone. An entry's bytes are described in `schemas/entry.cddl`.

pub mod chain;
pub mod entry;
mod project;
pub mod random;
pub mod record;
pub mod seal;
pub mod store;
pub mod view;
