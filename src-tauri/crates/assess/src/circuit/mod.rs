//! Circuits, their conductors, and the pairs readings are taken between.

mod complaint;
mod conductors;
mod electrical;
mod ends;
mod pair;

pub use complaint::CircuitComplaint;
pub use electrical::{
    Conductor, Conductors, Current, Earthing, Electrical, Item, Loads, Location, Measure, MeasureName, Nominal,
};
pub use ends::NotAPair;
pub use pair::{End, Pair, PairKind, Stage, Terminal};
