//! What leaves and enters the program: the bundle, which carries whole books between devices, what devices and their hub
//! ask each other, and the job file, a snapshot of one job for other software.

pub mod bundle;
pub mod hub;
pub mod import;
pub mod job_file;
pub mod join;
pub mod json;
mod renewed;
mod snapshot;

pub use renewed::{Renewed, renewed};
pub use snapshot::{NoSnapshot, as_of, entries_of, snapshot, tester};
