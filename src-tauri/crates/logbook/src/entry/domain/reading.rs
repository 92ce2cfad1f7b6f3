//! Readings and the circumstances they were taken in.

use crate::entry::coded::{coded_enum, coded_map};
use provenohm_assess::reading::{Conditions, NotTestedReason, Reading};

coded_map!(Conditions { 0: loads, 1 ? n_isolated, 2 ? reduced });
coded_map!(Reading {
    0: id,
    1: shown,
    2: pair,
    3: stage,
    4: test_voltage_v,
    5 ? tester,
    6: person,
    7: at,
    8: conditions,
});
coded_enum!(NotTestedReason {
    0 = Live,
    1 = NoAccess,
    2 = LoadConnected,
    3 = Joined,
    4 = NotPresent,
    5 = Other,
});
