//! The job file: one job with everything its judgement rests on, as JSON.
//!
//! It is a snapshot, not the record: entries, seals and forks stay behind. Made from the record, or read from a file,
//! it is also what judging, screens and papers work from, so that a file and the record are judged by one path.

mod at;
mod board;
mod check;
mod job;
mod reading;
mod resolved;
mod review;
mod tester;
mod text;

pub use board::{Board, Circuit, Note};
pub use check::Fault;
pub use job::{CautionsRead, Job, JobFile, LiveValue, Made, Person, Rules, ToSettle};
pub use reading::{Circumstances, Corrected, Fate, NotTested, Past, ReplacedWhy, Taken};
pub use resolved::Resolved;
pub use review::{Accepted, AcceptedOf, Requested};
pub use tester::{RecordedCard, RecordedCheck, RecordedDamage, RecordedQuickCheck, RecordedVerification, Tester};
pub use text::{NotAJobFile, VERSION};
