//! What the record says: read models, one a noun. Everything here is a function of the set of entries.

mod alike;
mod arrived;
mod begun;
mod bench;
mod board;
mod circumstance;
mod cut;
mod device;
mod facet;
mod index;
mod job;
mod people;
mod query;
mod reading;
mod removed;
mod review;
mod sameness;
mod settled;
mod sign_off;
mod since;
mod tester;
mod to_settle;
mod touched;

pub use arrived::Arrival;
pub use bench::{Bench, KnownReference};
pub use board::{Board, Circuit};
pub use circumstance::{Circumstance, Claim};
pub use cut::{Covered, Later};
pub use device::JobDevice;
pub use facet::{Acting, Facet, Standing, Stated};
pub use index::{Beyond, Unreadable};
pub use job::Job;
pub use people::KnownPerson;
pub use query::{ReadError, View};
pub use reading::ReadingOnRecord;
pub use since::Point;

pub use tester::Tester;
pub use to_settle::{Question, ToSettle};
pub use touched::Touched;

pub(crate) use begun::Left;
pub(crate) use query::reference;
