//! Quantities as a tester shows them (digits) and as they are compared (exact decimals).

mod shown;
mod units;

pub use shown::{Comparator, Digits, Shown, Unit};
pub use units::{Ohms, Percent, Volts};
