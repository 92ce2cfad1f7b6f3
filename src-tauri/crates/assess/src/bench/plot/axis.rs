//! The resistance axis: one tick a decade.

use crate::quantity::Ohms;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// A tick of a resistance axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Tick {
    /// Where: log10 of the resistance in ohms.
    pub log: f64,
    /// The resistance, for its label.
    pub ohm: Ohms,
}

/// The decades that hold everything from one resistance to another, both ends included; at least one decade wide.
/// Nothing above zero to show: none.
#[must_use]
pub fn decades(ohms: impl IntoIterator<Item = Ohms>) -> Vec<Tick> {
    let above_zero: Vec<Decimal> = ohms.into_iter().map(|o| o.0).filter(|o| *o > Decimal::ZERO).collect();
    let (Some(low), Some(high)) = (above_zero.iter().min(), above_zero.iter().max()) else { return Vec::new() };
    let mut ticks = Vec::new();
    // 1 mΩ to 10²¹ Ω: beyond that there is no resistance to plot.
    for power in -3..=21_i32 {
        let Some(at) = power_of_ten(power) else { break };
        if at.checked_mul(Decimal::TEN).is_some_and(|next| next <= *low) {
            continue;
        }
        ticks.push(Tick { log: f64::from(power), ohm: Ohms(at) });
        if at >= *high && ticks.len() > 1 {
            break;
        }
    }
    ticks
}

fn power_of_ten(power: i32) -> Option<Decimal> {
    match u32::try_from(power) {
        Ok(power) => (0..power).try_fold(Decimal::ONE, |at, _| at.checked_mul(Decimal::TEN)),
        Err(_) => Some(Decimal::new(1, power.unsigned_abs())),
    }
}
