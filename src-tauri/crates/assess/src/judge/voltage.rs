//! The test voltage a reading was taken at, against the one the set asks for.

use super::Wanted;
use crate::judgement::MethodReason;
use crate::limits::Limit;
use crate::quantity::Volts;
use crate::reading::Reading;

/// What follows from the test voltage.
pub(super) struct AtVoltage<'a> {
    /// The limit at that voltage.
    pub(super) limit: &'a Limit,
    /// Taken at a lower voltage that no rule allows: what the set asks for.
    pub(super) too_low: Option<Volts>,
    /// What is said of the method.
    pub(super) method: Option<MethodReason>,
}

/// A reduced voltage is allowed only where the set has a rule, the reading carries one of its reasons, and it was not
/// taken below the rule's voltage. A set that states no test voltage takes any.
pub(super) fn at_voltage<'a>(reading: &Reading, wanted: &'a Wanted, limit: &'a Limit) -> AtVoltage<'a> {
    let taken_v = reading.test_voltage_v;
    let Some(asked_v) = limit.test_voltage_v.filter(|asked| *asked != taken_v) else {
        return AtVoltage { limit, too_low: None, method: None };
    };
    if taken_v > asked_v {
        return AtVoltage { limit, too_low: None, method: Some(MethodReason::HigherVoltage { taken_v, asked_v }) };
    }
    let allowed = wanted.reduced.as_ref().zip(reading.conditions.reduced).filter(|((lower, reasons), reason)| {
        reasons.contains(reason) && lower.test_voltage_v.is_some_and(|volts| taken_v >= volts)
    });
    match allowed {
        Some(((lower, _), reason)) => {
            let method = MethodReason::ReducedVoltage { taken_v, asked_v, reason };
            AtVoltage { limit: lower, too_low: None, method: Some(method) }
        }
        None => {
            let method = MethodReason::LowerVoltage { taken_v, asked_v };
            AtVoltage { limit, too_low: Some(asked_v), method: Some(method) }
        }
    }
}
