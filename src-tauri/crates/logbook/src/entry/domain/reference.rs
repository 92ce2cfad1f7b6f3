//! References: known resistors and meters with their certificates.

use crate::entry::coded::{coded_choice, coded_map};
use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::quantity::{Amps, Celsius, CoverageFactor, PpmPerKelvin, PpmPerVolt};
use provenohm_assess::reference::{CurrentRange, KnownResistance, Reference, ReferenceKind, Stated, VoltageRange};

coded_newtype!(Amps, Celsius, CoverageFactor, PpmPerKelvin, PpmPerVolt);
coded_choice!(Stated { 0 = Expanded { 0: k }, 1 = Tolerance {} });
coded_map!(KnownResistance {
    0: nominal_ohm,
    1: stated_ohm,
    2 ? within_percent,
    3 ? within_ohm,
    4: stated,
    5 ? drift_percent,
    6 ? voltage_coefficient,
    7 ? stated_at_v,
    8 ? temperature_coefficient,
    9 ? rated_voltage_v,
});
coded_map!(VoltageRange {
    0: nominal_v,
    1: stated_v,
    2 ? within_percent,
    3 ? within_v,
    4: stated,
    5 ? resolution_v,
    6 ? drift_percent,
});
coded_map!(CurrentRange {
    0: nominal_a,
    1: stated_a,
    2 ? within_percent,
    3 ? within_a,
    4: stated,
    5 ? resolution_a,
    6 ? drift_percent,
});
coded_choice!(ReferenceKind {
    0 = Resistor { 0: values },
    1 = DecadeBox { 0: values },
    2 = Voltmeter { 0: ranges, 1: input_resistance_ohm },
    3 = HighVoltageProbe { 0: ranges, 1: input_resistance_ohm },
    4 = CurrentMeter { 0: ranges },
});
coded_map!(Reference { 0: id, 1: name, 2: serial, 3 ? certificate, 4 ? valid_until, 5: what });
