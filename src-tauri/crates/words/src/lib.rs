//! Words for screen and paper: one Fluent catalogue a language, the quantities that stand in it, and the
//! sentences made from a judgement's reasons.
//!
//! Whatever a person reads comes from here. A sentence is one message of the catalogue; nothing is glued.

mod catalogue;
mod locale;
mod pseudo;
mod words;

pub use catalogue::catalogue;
pub use fluent_bundle::FluentValue as Arg;
pub use locale::Locale;
pub use words::{MissingWords, Words};
