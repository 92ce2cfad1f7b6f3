//! The SQLite files: the record's own and the device's, how they are opened, and their frozen migrations.

mod birth;
mod connection;
pub mod device;
mod migration;
mod row;

pub use connection::{OLDEST_SQLITE, OpenError};
pub(crate) use connection::{Opened, flush_what_was_found, in_memory, is_damage, is_full, open, open_to_look};
pub use migration::SCHEMA;
pub(crate) use row::{WRITTEN, as_written, blob, counter, entry_of, number};
