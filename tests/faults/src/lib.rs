//! A disk under SQLite that fails on purpose. A [`Disk`] is a folder: each file SQLite opens there is reached through a
//! VFS of this crate, which stands in for the system's own in the whole process, so the program under test is as it is
//! shipped. The disk counts what is asked of it, refuses or half does what it is told to, runs full, and knows which
//! writes were flushed, so that its power can be cut at any of them.
#![cfg(unix)]

mod asked;
mod call;
mod disk;
mod platter;
mod vfs;

pub use call::{Call, Wrong};
pub use disk::Disk;
pub use platter::Left;
