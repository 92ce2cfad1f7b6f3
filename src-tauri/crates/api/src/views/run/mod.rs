//! The Run screen: what it shows, what it is asked, what came of it.

mod asks;
mod entry;
mod group;
mod saved;
mod screen;

pub use asks::*;
pub use entry::*;
pub use group::*;
pub use saved::*;
pub use screen::*;
