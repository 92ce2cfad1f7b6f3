//! Circuits, conductors and pairs.

use crate::entry::coded::{coded_choice, coded_enum, coded_map};
use crate::entry::{Coded, Malformed, Value};
use provenohm_assess::circuit::{
    Conductor, Conductors, Current, Electrical, End, Item, Loads, Location, Measure, Nominal, Pair, Stage, Terminal,
};
use std::collections::BTreeSet;

coded_enum!(Current { 0 = Ac, 1 = Dc });
coded_map!(Nominal { 0: volts, 1: current, 2 ? to_earth });
coded_choice!(Measure {
    0 = None {},
    1 = Selv {},
    2 = Pelv {},
    3 = Felv { 0: supply },
    4 = Separation {},
});
coded_enum!(Conductor { 0 = L, 1 = L1, 2 = L2, 3 = L3, 4 = N, 5 = Plus, 6 = M, 7 = Minus });
coded_enum!(Conductors {
    0 = SinglePhase,
    1 = SinglePhasePen,
    2 = TwoPhase,
    3 = TwoPhaseN,
    4 = ThreePhase,
    5 = ThreePhaseN,
    6 = ThreePhasePen,
    7 = Dc,
    8 = DcMidpoint,
});
coded_enum!(Loads { 0 = Out, 1 = Connected, 2 = Electronics });
coded_enum!(Item { 0 = HeatingElement, 1 = FunctionalEarth });
coded_enum!(Location { 0 = Wet, 1 = FireRisk });
coded_map!(Electrical {
    0: nominal,
    1: measure,
    2: conductors,
    3: loads,
    4: joined_to_earth,
    5: spd_stays,
    6 ? item,
    7 ? location,
});
coded_enum!(Stage { 0 = Before, 1 = After });
coded_choice!(Terminal {
    0 = Live { 0: circuit, 1: conductor },
    1 = OtherCircuits {},
    2 = Earth {},
});
coded_map!(Pair { 0: a, 1: b });

/// The terminals in their own order; never none.
impl Coded for End {
    fn to_value(&self) -> Value {
        Value::Array(self.0.iter().map(Coded::to_value).collect())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let terminals: BTreeSet<Terminal> = Vec::from_value(value)?.into_iter().collect();
        if terminals.is_empty() { Err(Malformed::OutOfBounds("an end")) } else { Ok(Self(terminals)) }
    }
}
