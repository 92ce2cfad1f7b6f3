//! When a tester is to be verified again: the policy's last day, warnings ahead of it, and a proposal from what the
//! tester itself was found to do.

mod due;
mod found;
mod staircase;

pub use due::{Due, Next, USUAL_MONTHS, WARN_DAYS, due, last_day, next_verification};
pub use found::{AsFound, as_found};
pub use staircase::{Change, Proposal, Staircase, Step};
