//! Names of limit sets, tags of figures, and policies.

use crate::entry::coded::{coded_enum, coded_map};
use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::limits::{ReducedReason, SetId, SetName, Tag};
use provenohm_assess::policy::{Policies, TesterPolicy, ValuePolicy};

coded_newtype!(SetId);
coded_map!(SetName { 0: id, 1: version, 2: sha256 });
coded_enum!(ReducedReason { 0 = SurgeProtector, 1 = Equipment, 2 = EquipmentConnected });
coded_enum!(Tag {
    0 = Seen,
    1 = MemoryHigh,
    2 = MemoryMedium,
    3 = MemoryLow,
    4 = Calculated,
    5 = Practice,
    6 = User,
});
coded_enum!(ValuePolicy { 0 = Simple, 1 = Guarded });
coded_enum!(TesterPolicy { 0 = Full, 1 = Usual, 2 = IndicationsOnly });
coded_map!(Policies { 0: value, 1: tester, 2 ? quick_check_days });
