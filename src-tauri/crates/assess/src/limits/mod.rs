//! Limits: dated, versioned sets of minima with their sources, and what they ask of a circuit.

mod demand;
mod set;
mod source;

pub use demand::{Demand, Limit, RequiredPair};
pub use set::{Band, LimitSet, MeasureName, Minimum, PairRule, Reduced, ReducedReason, Row, SetId, SetName};
pub use source::{Source, Tag};
