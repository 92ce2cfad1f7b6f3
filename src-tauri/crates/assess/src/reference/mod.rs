//! References: the known resistors and meters a tester is proved with, each with its own certificate.

mod complaint;
mod kind;
mod value;

pub use complaint::{ReferenceComplaint, is_near};
pub use kind::{Reference, ReferenceKind};
pub use value::{CurrentRange, KnownResistance, Stated, VoltageRange};
