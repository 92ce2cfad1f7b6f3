//! One reference with its certificate.

use super::{CurrentRange, KnownResistance, VoltageRange};
use crate::ids::ReferenceId;
use crate::quantity::Ohms;
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What it is, with the values its certificate states.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, rename_all = "snake_case", tag = "kind")]
pub enum ReferenceKind {
    /// One known resistor, or a few in one case.
    Resistor {
        /// Its values.
        values: Vec<KnownResistance>,
    },
    /// A box whose resistance is set by switches or sockets, each setting used listed with its value.
    DecadeBox {
        /// Its settings.
        values: Vec<KnownResistance>,
    },
    /// A voltmeter.
    Voltmeter {
        /// Its ranges.
        ranges: Vec<VoltageRange>,
        /// What it loads the tester with, Ω.
        input_resistance_ohm: Ohms,
    },
    /// A high-voltage probe with its meter, read as one.
    HighVoltageProbe {
        /// Its ranges.
        ranges: Vec<VoltageRange>,
        /// What it loads the tester with, Ω.
        input_resistance_ohm: Ohms,
    },
    /// A current meter.
    CurrentMeter {
        /// Its ranges.
        ranges: Vec<CurrentRange>,
    },
}

/// A known resistor or meter used to prove a tester, with its own certificate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Reference {
    /// Its id.
    pub id: ReferenceId,
    /// What people call it.
    pub name: String,
    /// Serial number.
    pub serial: String,
    /// Certificate number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub certificate: Option<String>,
    /// Last day of its certificate; absent: none was set, and it never counts as in date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub valid_until: Option<NaiveDate>,
    /// What it is, with its values.
    pub what: ReferenceKind,
}

impl Reference {
    /// Its known resistances; none for a meter.
    #[must_use]
    pub fn resistances(&self) -> &[KnownResistance] {
        match &self.what {
            ReferenceKind::Resistor { values } | ReferenceKind::DecadeBox { values } => values,
            _ => &[],
        }
    }

    /// The known resistance marked with a nominal value.
    #[must_use]
    pub fn resistance(&self, nominal: Ohms) -> Option<&KnownResistance> {
        self.resistances().iter().find(|value| value.nominal_ohm == nominal)
    }

    /// What a known resistance becomes with this voltmeter or probe across it: R·`R_m` / (R + `R_m`). None for anything
    /// else, and for figures beyond all arithmetic.
    #[must_use]
    pub fn across(&self, known: Ohms) -> Option<Ohms> {
        let meter = self.input_resistance()?.0;
        let product = known.0.checked_mul(meter)?;
        product.checked_div(known.0.checked_add(meter)?).map(Ohms)
    }

    /// What it loads a tester with when it is put across the terminals; none for anything but a voltmeter or a probe.
    #[must_use]
    pub const fn input_resistance(&self) -> Option<Ohms> {
        match &self.what {
            ReferenceKind::Voltmeter { input_resistance_ohm, .. }
            | ReferenceKind::HighVoltageProbe { input_resistance_ohm, .. } => Some(*input_resistance_ohm),
            _ => None,
        }
    }
}
