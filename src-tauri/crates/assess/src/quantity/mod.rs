//! Quantities as a tester shows them (digits) and as they are compared (exact decimals): reading them from text and
//! keys, and writing them.

mod parse;
mod print;
mod refusal;
mod ruler;
mod shown;
mod typed;
mod units;

pub use parse::Accuracy;
pub use print::{DecimalSign, NumberStyle};
pub use refusal::Refusal;
pub use ruler::{RULER_NOTCHES, ruler_place};
pub use shown::{Comparator, Digits, NotDigits, Shown, Unit};
pub use typed::{Display, Key, Pressed, Typed};
pub use units::{Amps, Celsius, CoverageFactor, Farads, Ohms, Percent, PpmPerKelvin, PpmPerVolt, Seconds, Volts};
