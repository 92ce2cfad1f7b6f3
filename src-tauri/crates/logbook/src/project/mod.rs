//! The projection: what the entries say now, kept in tables beside them.
//!
//! It is a function of the set of entries, whatever the order they arrived in. Each entry gives rows of its own
//! (`opened`, `about`, `naming`); only `head` and `standing` depend on other entries, and both are worked out
//! again from what is there whenever an entry that bears on them arrives.

mod arrival;
mod erasure;
mod head;
mod rebuild;
mod standing;

pub(crate) use arrival::{Arrival, arrive};
pub(crate) use rebuild::{VERSION, clear, dump, rebuild};
