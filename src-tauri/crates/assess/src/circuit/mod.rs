//! Circuits, their conductors, and the pairs readings are taken between.

mod electrical;
mod pair;

pub use electrical::{Conductor, Conductors, Current, Earthing, Electrical, Item, Loads, Location, Measure, Nominal};
pub use pair::{End, Pair, PairKind, Stage, Terminal};
