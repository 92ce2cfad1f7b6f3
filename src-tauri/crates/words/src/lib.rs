//! Words for screen and paper: one Fluent catalogue a language, the quantities that stand in it, and the
//! sentences made from a judgement's reasons.
//!
//! Whatever a person reads comes from here. A sentence is one message of the catalogue; nothing is glued. Keys that
//! begin with `said-` are filled in by this crate, the others by whoever shows them.

mod bench;
mod catalogue;
mod cautions;
mod circuit;
mod complaints;
mod dates;
mod failure;
mod guard;
mod json;
mod limits;
mod locale;
mod method;
mod pseudo;
mod quantity;
mod recall;
mod reference;
mod refusal;
mod small;
mod tester;
mod typed_dates;
mod value;
mod words;

pub use bench::AboutBench;
pub use catalogue::catalogue;
pub use circuit::{PairNames, conductor_name};
pub use fluent_bundle::FluentValue as Arg;
pub use locale::Locale;
pub use tester::AboutTester;
pub use words::{MissingWords, Words};
