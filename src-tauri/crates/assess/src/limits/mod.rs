//! Limits: dated, versioned sets of minima with their sources, and what they ask of a circuit.

mod band;
mod check;
mod demand;
mod load;
mod lookup;
mod place;
mod require;
mod set;
mod shipped;
mod source;

pub use crate::circuit::MeasureName;
pub use demand::{Demand, Limit, RequiredPair};
pub use load::{Loaded, SetComplaint, SetReason};
pub use lookup::{NoLimit, PairLimit, Under};
pub use set::{Band, LimitSet, Minimum, PairRule, Reduced, ReducedReason, Row, SetId, SetName};
pub use shipped::{SHIPPED_FILES, shipped};
pub use source::{Source, Tag};
