//! Judgement: quantities, circuits, limits, testers and what may be said of a reading.
//!
//! Pure: no input or output, no clock, no randomness. Time, ids and limits are passed in; the same
//! arguments give the same judgement on every device.

pub mod bench;
pub mod circuit;
pub mod discharge;
pub mod group;
pub mod guard;
pub mod ids;
pub mod interval;
pub mod judge;
pub mod judgement;
pub mod limits;
pub mod moment;
pub mod policy;
pub mod quantity;
pub mod reading;
pub mod recall;
pub mod reference;
pub mod standard;
pub mod tester;
pub mod uncertainty;

/// The version of the rules in this crate. Papers name it; it rises whenever a judgement could come out
/// differently for the same record.
pub const RULES_VERSION: u32 = 6;
