//! What an edition of the tester standard asks of a tester: figures, each with its source and how sure it is.

mod edition;
mod operating;
mod shipped;

pub use edition::{Edition, EditionComplaint, Figure};
pub use operating::{OperatingParts, operating_uncertainty};
pub use shipped::{SHIPPED_EDITIONS, edition, shipped_editions};
