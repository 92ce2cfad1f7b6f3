//! The bench: what a run is made of, and what was measured in it.

use crate::entry::coded::{choice, chosen, coded_choice, coded_enum, coded_map};
use crate::entry::ids::coded_newtype;
use crate::entry::{Coded, Fields, Malformed, MapOf, Value};
use provenohm_assess::bench::{
    BenchRun, Conditions, DecisionRule, EditionId, LoadReading, LoadRole, LookedAt, Measured, MeasuredWhat,
    MeterReading, PlannedPoint, PlannedWhat, Polarity, Resistor, Series, Supply, TesterLook, TesterPosition, Warmth,
};
use provenohm_assess::quantity::{Amps, Volts};

coded_newtype!(EditionId);
coded_enum!(DecisionRule { 0 = Simple, 1 = GuardU, 2 = GuardPartU });
coded_enum!(LookedAt { 0 = Yes, 1 = No, 2 = NotLooked });
coded_enum!(Series { 0 = AsFound, 1 = AsLeft });
coded_enum!(Supply { 0 = Nominal, 1 = LowestBattery });
coded_enum!(TesterPosition { 0 = Reference, 1 = TurnedLeft, 2 = TurnedRight });
coded_enum!(Warmth { 0 = Reference, 1 = Cold, 2 = Warm, 3 = Other });
coded_enum!(LoadRole { 0 = Rated, 1 = Further });
coded_enum!(Polarity { 0 = LinePositive, 1 = EarthPositive });
coded_map!(TesterLook { 0: case, 1: leads, 2: marked_category, 3: marked_standard, 4: battery });
coded_map!(Conditions { 0: supply, 1: position, 2 ? temperature_c });
coded_map!(Resistor { 0: reference, 1: nominal_ohm });
coded_map!(MeterReading<Volts> { 0: reference, 1: shown });
coded_map!(MeterReading<Amps> { 0: reference, 1: shown });
coded_map!(LoadReading { 0: role, 1: load, 2 ? voltage, 3 ? current });
coded_choice!(PlannedWhat {
    0 = Indication { 0: resistor },
    1 = OpenCircuit { 0 ? load },
    2 = RatedLoad { 0 ? load },
    3 = FurtherLoad { 0: load },
    4 = ShortCircuit {},
    5 = LeadsOpen {},
    6 = LeadsShorted {},
    7 = Ripple {},
    8 = Polarity {},
});
coded_map!(PlannedPoint { 0: test_voltage_v, 1: item, 2: repeats, 3: supply, 4: position, 5 ~ warmth });
coded_map!(BenchRun {
    0: id,
    1: tester,
    2: references,
    3: edition,
    4: rule,
    5: adjusted,
    6 ? mark,
    7: look,
    8: by,
    9: started,
    10: plan,
});
coded_map!(Measured { 0: id, 1: bench, 2: series, 3: test_voltage_v, 4: conditions, 5: at, 6: item });

/// `[number, map]`, as other choices; what was measured at a load is that map itself.
impl Coded for MeasuredWhat {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        let code = match self {
            Self::Indication { resistor, across, shown } => {
                map.put(0, resistor);
                map.put_if(1, across);
                map.put(2, shown);
                0
            }
            Self::OpenCircuit { load, voltage } => {
                map.put_if(0, load);
                map.put(1, voltage);
                1
            }
            Self::AtLoad(reading) => return Value::Array(vec![Value::Int(2), reading.to_value()]),
            Self::ShortCircuit { current } => {
                map.put(0, current);
                3
            }
            Self::Ripple { current } => {
                map.put(0, current);
                4
            }
            Self::LeadsOpen { shown } => {
                map.put(0, shown);
                5
            }
            Self::LeadsShorted { shown } => {
                map.put(0, shown);
                6
            }
            Self::Polarity { positive } => {
                map.put(0, positive);
                7
            }
        };
        choice(code, map)
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let (code, mut fields) = chosen(value)?;
        let made = match code {
            0 => Self::Indication { resistor: fields.take(0)?, across: fields.take_if(1)?, shown: fields.take(2)? },
            1 => Self::OpenCircuit { load: fields.take_if(0)?, voltage: fields.take(1)? },
            2 => Self::AtLoad(load_reading(&mut fields)?),
            3 => Self::ShortCircuit { current: fields.take(0)? },
            4 => Self::Ripple { current: fields.take(0)? },
            5 => Self::LeadsOpen { shown: fields.take(0)? },
            6 => Self::LeadsShorted { shown: fields.take(0)? },
            7 => Self::Polarity { positive: fields.take(0)? },
            code => return Err(Malformed::UnknownCode { of: "MeasuredWhat", code }),
        };
        fields.end()?;
        Ok(made)
    }
}

fn load_reading(fields: &mut Fields) -> Result<LoadReading, Malformed> {
    Ok(LoadReading {
        role: fields.take(0)?,
        load: fields.take(1)?,
        voltage: fields.take_if(2)?,
        current: fields.take_if(3)?,
    })
}
