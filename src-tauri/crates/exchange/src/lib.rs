//! What leaves and enters the program: the job file, a snapshot of one job for other software.

pub mod import;
pub mod job_file;
mod renewed;
mod snapshot;

pub use renewed::{Renewed, renewed};
pub use snapshot::{NoSnapshot, as_of, entries_of, snapshot, tester};
