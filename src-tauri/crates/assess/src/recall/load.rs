//! Where the output voltage held.

use crate::quantity::Ohms;
use crate::tester::{RequirementName, Statement, VoltageAtLoad};

/// Whether a requirement on the output voltage was found not met. The rated current is one: the tester must still give
/// its voltage through its rated load (IEC 61557-2:2019, 6.4; the load seen).
pub(super) fn voltage_failed(statement: &Statement) -> bool {
    let voltage = |name| matches!(name, RequirementName::RatedCurrent | RequirementName::OpenCircuitVoltage);
    statement.not_met().any(|(name, _)| voltage(name)) || statement.voltages.iter().any(|v| !v.held)
}

/// The lowest load from which up the voltage held at every load tested; none where it did not hold at the highest.
pub(super) fn held_from(voltages: &[VoltageAtLoad]) -> Option<Ohms> {
    let highest_not_held = voltages.iter().filter(|v| !v.held).map(|v| v.load_ohm).max();
    let held = voltages.iter().filter(|v| v.held).map(|v| v.load_ohm);
    held.filter(|load| highest_not_held.is_none_or(|not| *load > not)).min()
}
