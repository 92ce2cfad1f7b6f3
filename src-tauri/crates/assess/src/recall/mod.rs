//! What follows from a failed verification, a failed quick check or damage: which readings are put in doubt, and which
//! of them still clear the limit.
//!
//! A reading is put in doubt exactly where the tester's state for it is another one with the failing entries on record
//! than without them, and is *in doubt* or *barred* with them.

mod class;
mod entries;
mod error;
mod line;
mod load;

pub use class::{Again, Class, Unknown};
pub use entries::FailingEntry;
pub use line::{Cause, Line, Recall};
