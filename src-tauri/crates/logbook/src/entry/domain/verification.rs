//! Verifications. When one was recorded is the envelope's, and not written twice.

use crate::entry::coded::{choice, chosen, coded_enum, coded_map};
use crate::entry::{Coded, Malformed, MapOf, Value};
use provenohm_assess::moment::When;
use provenohm_assess::tester::{
    Conforms, Holds, Interval, Outcome, Point, ProofKind, Requirement, RequirementName, RequirementResult, Statement,
    VoltageAtLoad, VoltageFinding,
};

coded_enum!(ProofKind { 0 = Calibration, 1 = Bench });
coded_enum!(Outcome { 0 = Good, 1 = Failed, 2 = ConditionalFail, 3 = NotStated });
coded_enum!(Conforms { 0 = Yes, 1 = No, 2 = NotAllTested, 3 = NotStated });
coded_map!(Interval { 0: from_ohm, 1: to_ohm, 2 ~ conditional });
coded_map!(Point { 0: reference_ohm, 1: indicated, 2: good, 3 ? error_uncertainty_percent });
coded_map!(VoltageAtLoad { 0: load_ohm, 1: measured_v, 2: held });
coded_enum!(RequirementName {
    0 = OperatingUncertainty,
    1 = OpenCircuitVoltage,
    2 = RatedCurrent,
    3 = ShortCircuitCurrent,
});
coded_enum!(RequirementResult { 0 = Met, 1 = NotMet, 2 = NotTested });
coded_map!(Requirement { 0: name, 1: result, 2: tag });
coded_map!(Statement {
    0: outcome,
    1: conforms,
    2 ? edition,
    3: holds,
    4: requirements,
    5: points,
    6: leads_shorted_good,
    7 ? operating_uncertainty_percent,
    8 ? expanded_uncertainty_percent,
    9 * voltages,
    10 * undecided,
});
coded_map!(VoltageFinding { 0: test_voltage_v, 1 ? as_found, 2 ? as_left });

/// `[0, {0: moment}]`, or `[1, {0: day, 1: minutes east of UTC}]`.
impl Coded for When {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        match self {
            Self::At(moment) => {
                map.put(0, moment);
                choice(0, map)
            }
            Self::Day { date, offset_minutes } => {
                map.put(0, date);
                map.put(1, offset_minutes);
                choice(1, map)
            }
        }
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let (code, mut fields) = chosen(value)?;
        let made = match code {
            0 => Self::At(fields.take(0)?),
            1 => Self::Day { date: fields.take(0)?, offset_minutes: fields.take(1)? },
            code => return Err(Malformed::UnknownCode { of: "When", code }),
        };
        fields.end()?;
        Ok(made)
    }
}

/// `[0, {0: intervals}]`, or `[1, {}]` where the certificate does not say.
impl Coded for Holds {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        match self {
            Self::In(intervals) => {
                map.put(0, intervals);
                choice(0, map)
            }
            Self::NotStated => choice(1, map),
        }
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let (code, mut fields) = chosen(value)?;
        let made = match code {
            0 => Self::In(fields.take(0)?),
            1 => Self::NotStated,
            code => return Err(Malformed::UnknownCode { of: "Holds", code }),
        };
        fields.end()?;
        Ok(made)
    }
}
