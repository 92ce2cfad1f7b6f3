//! Testers: card, checks, damage.

use crate::entry::coded::{coded_choice, coded_enum, coded_map};
use provenohm_assess::recall::FailingEntry;
use provenohm_assess::tester::{Card, Damage, LeadCheck, LeadEnd, QuickCheck, Range, Ranging, VoltageCard};

coded_map!(Range { 0: from_ohm, 1: to_ohm, 2: resolution_ohm, 3 ? accuracy_percent, 4 ? accuracy_digits });
coded_map!(VoltageCard { 0: test_voltage_v, 1: ranges, 2 ? over_range, 3 ? operating_uncertainty_percent });
coded_map!(Card { 0: voltages, 1: conforms_iec_61557_2, 2 ? shorted_up_to, 3 ? interval_months, 4 ? ranging });
coded_enum!(Ranging { 0 = Automatic, 1 = Manual });
coded_enum!(LeadEnd { 0 = Shorted, 1 = Open });
coded_map!(LeadCheck { 0: id, 1: tester, 2: leads, 3: shown, 4: good, 5: person, 6: at, 7 ? job_started });
coded_map!(QuickCheck { 0: id, 1: tester, 2: test_voltage_v, 3: from_ohm, 4: to_ohm, 5: good, 6: at, 7 * points });
coded_map!(Damage { 0: id, 1: tester, 2 ? happened, 3: found, 4: what });
coded_choice!(FailingEntry {
    0 = Verification { 0: id },
    1 = QuickCheck { 0: id },
    2 = Damage { 0: id },
});
