//! The bundle: one file with whole books, a job's and those of the testers its readings rely on. `schemas/bundle.cddl`
//! gives its bytes.
//!
//! Nothing of a bundle is believed: it says how much it holds and what its logs end with, and all of it is held
//! against [`limits`] before room is made, and against the entries when they are read.

mod frame;
mod hand_over;
pub mod limits;
mod manifest;
mod open;
mod write;

pub use frame::Entries;
pub use hand_over::{HandOverError, HandedOver, books_of, hand_over, hand_over_watched};
pub use manifest::{Head, Manifest, Packed};
pub use open::{Bundle, NotABundle};
pub use write::{TooLarge, write};

/// What a bundle begins with.
pub const MAGIC: [u8; 8] = *b"PvBundle";

/// Version of the format written and read here.
pub const VERSION: u16 = 1;

/// The ending of a bundle's file name.
pub const ENDING: &str = "provenohm-bundle";
