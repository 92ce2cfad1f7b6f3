//! The ruler under the entry line: seven decades, so that a jump is seen by its place.

use super::{Ohms, Unit};
use rust_decimal::prelude::ToPrimitive;

/// Notches of the ruler, one a decade, 1 kΩ to 10 GΩ.
pub const RULER_NOTCHES: [(u32, Unit); 8] = [
    (1, Unit::KiloOhm),
    (10, Unit::KiloOhm),
    (100, Unit::KiloOhm),
    (1, Unit::MegaOhm),
    (10, Unit::MegaOhm),
    (100, Unit::MegaOhm),
    (1, Unit::GigaOhm),
    (10, Unit::GigaOhm),
];

/// Where a resistance stands on a logarithmic ruler from 1 kΩ (0) to 10 GΩ (1); beyond an end, at that end.
/// A place on a screen, never compared with anything.
#[must_use]
pub fn ruler_place(ohms: Ohms) -> f64 {
    let decades_above_1_kohm = ohms.0.to_f64().unwrap_or(0.0).max(1.0).log10() - 3.0;
    (decades_above_1_kohm / 7.0).clamp(0.0, 1.0)
}
