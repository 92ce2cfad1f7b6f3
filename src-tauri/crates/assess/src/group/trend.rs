//! A circuit against its earlier visits: a falling value matters more than one above the minimum (seen).

use super::figures::significant;
use crate::moment::Moment;
use crate::quantity::{Comparator, Shown, Volts};
use rust_decimal::{Decimal, RoundingStrategy};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Significant digits of a ratio.
const DIGITS: u32 = 2;

/// What one pair read at one visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Visit {
    /// When.
    pub at: Moment,
    /// What was shown.
    pub shown: Shown,
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
}

/// This visit's reading over an earlier one's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Ratio {
    /// Exact digits, or open towards one side because a reading was.
    pub comparator: Comparator,
    /// To two significant digits, rounded towards the open side's end.
    #[ts(type = "string")]
    pub value: Decimal,
}

/// An earlier visit beside this one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Trend {
    /// The earlier visit.
    pub earlier: Visit,
    /// It was taken at another test voltage: insulation reads differently there, and a surge protector may not be heard, so
    /// there is no ratio.
    pub other_voltage: bool,
    /// Absent where both readings are open, the earlier one was zero, or the test voltages differ.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub ratio: Option<Ratio>,
}

/// This visit beside each earlier one, the latest first. Visits that are not earlier are left out.
#[must_use]
pub fn trend(now: Visit, visits: &[Visit]) -> Vec<Trend> {
    let mut earlier: Vec<Visit> = visits.iter().copied().filter(|v| v.at < now.at).collect();
    earlier.sort_by_key(|v| std::cmp::Reverse(v.at));
    let beside = |earlier: Visit| {
        let other_voltage = earlier.test_voltage_v != now.test_voltage_v;
        let ratio = if other_voltage { None } else { ratio(now.shown, earlier.shown) };
        Trend { earlier, other_voltage, ratio }
    };
    earlier.into_iter().map(beside).collect()
}

fn ratio(now: Shown, then: Shown) -> Option<Ratio> {
    use Comparator::{Exact, LessThan, MoreThan};
    let (comparator, strategy) = match (now.comparator, then.comparator) {
        (Exact, Exact) => (Exact, RoundingStrategy::MidpointAwayFromZero),
        (Exact | LessThan, MoreThan) | (LessThan, Exact) => (LessThan, RoundingStrategy::AwayFromZero),
        (Exact | MoreThan, LessThan) | (MoreThan, Exact) => (MoreThan, RoundingStrategy::ToZero),
        (MoreThan, MoreThan) | (LessThan, LessThan) => return None,
    };
    let value = now.ohms().0.checked_div(then.ohms().0)?;
    Some(Ratio { comparator, value: significant(value, DIGITS, strategy)? })
}
