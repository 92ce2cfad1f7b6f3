//! How long a cable holds its charge.

use super::{Refused, words};
use provenohm_assess::discharge::discharge_time;
use provenohm_assess::quantity::{Farads, Ohms, Seconds, Volts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How long a cable holds its charge.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DischargeTold {
    /// What it discharges through, Ω.
    pub through_ohm: Ohms,
    /// Its capacitance, F.
    pub capacitance_f: Farads,
    /// The voltage at first, V.
    pub from_v: Volts,
    /// The voltage it falls to, V.
    pub to_v: Volts,
    /// t = R·C·ln(V₀/V), rounded up to three digits, s.
    pub time_s: Seconds,
    /// What a person reads.
    pub lines: Vec<String>,
}

/// How long a cable of that capacitance takes to fall from one voltage to another through a resistance.
///
/// # Errors
/// [`Refused`] for figures that are not above zero, or beyond all arithmetic.
pub fn discharge((through, capacitance): (Ohms, Farads), (from, to): (Volts, Volts)) -> Result<DischargeTold, Refused> {
    let words = words();
    let time = discharge_time(through, capacitance, from, to);
    let time = time.ok_or_else(|| Refused(words.text("answer-discharge-open")))?;
    let args = [
        ("through", words.ohms(through).into()),
        ("capacitance", words.farads(capacitance).into()),
        ("from", words.volts(from).into()),
        ("to", words.volts(to).into()),
        ("time", words.seconds(time).into()),
    ];
    Ok(DischargeTold {
        through_ohm: through,
        capacitance_f: capacitance,
        from_v: from,
        to_v: to,
        time_s: time,
        lines: vec![words.text_with("answer-discharge", &args), words.text("caution-discharge")],
    })
}
