//! References: the known resistors and meters of a bench.

use super::{Choice, Sentence};
use provenohm_assess::ids::ReferenceId;

choice! {
    /// What a reference is.
    pub enum ReferenceKindName {
        /// One known resistor, or a few in one case.
        Resistor,
        /// A box whose resistance is set.
        DecadeBox,
        /// A voltmeter.
        Voltmeter,
        /// A high-voltage probe with its meter.
        HighVoltageProbe,
        /// A current meter.
        CurrentMeter,
    }

    /// How an uncertainty is stated.
    pub enum StatedAs {
        /// U with its k.
        Expanded,
        /// A tolerance, taken as rectangular.
        Tolerance,
    }
}

told! {
    /// The references on this device.
    pub struct ReferencesView {
        /// By name.
        pub references: Vec<ReferenceLine>,
        /// What a reference can be.
        pub kinds: Vec<Choice>,
        /// How an uncertainty can be stated.
        pub stated_as: Vec<Choice>,
        /// An empty form with one empty value.
        pub fresh: ReferenceForm,
        /// What the last act did, and how it is taken back.
        pub done: Option<super::Done>,
    }

    /// One reference.
    pub struct ReferenceLine {
        /// Which.
        pub id: ReferenceId,
        /// Name, kind and serial number.
        pub title: String,
        /// Its certificate and each value, in words.
        pub lines: Vec<String>,
        /// Whether its certificate is in date today.
        pub state: Sentence,
        /// What can be edited, as typed.
        pub form: ReferenceForm,
    }
}

asked! {
    /// A reference as typed.
    pub struct ReferenceForm {
        /// What it is.
        pub kind: ReferenceKindName,
        /// What people call it.
        pub name: String,
        /// Serial number.
        #[serde(default)]
        pub serial: String,
        /// Certificate number.
        #[serde(default)]
        pub certificate: String,
        /// Last day of the certificate; empty: none was set.
        #[serde(default)]
        pub valid_until: String,
        /// What a voltmeter or probe loads the tester with, for example `10 MΩ`.
        #[serde(default)]
        pub input_resistance: String,
        /// Its values or ranges.
        pub values: Vec<ReferenceValueForm>,
    }

    /// One value of a resistor, or one range of a meter, as typed.
    pub struct ReferenceValueForm {
        /// As marked: `1 MΩ`, `600 V`, `2 mA`.
        pub nominal: String,
        /// What the certificate states, in the same form; empty: as marked.
        #[serde(default)]
        pub stated: String,
        /// Uncertainty or tolerance, % of the stated value.
        #[serde(default)]
        pub within_percent: String,
        /// Uncertainty or tolerance with its unit, added to the per cent.
        #[serde(default)]
        pub within: String,
        /// How it is stated.
        pub stated_as: StatedAs,
        /// k of an expanded uncertainty; empty: 2.
        #[serde(default)]
        pub k: String,
        /// Most change since the certificate, %; empty: not known.
        #[serde(default)]
        pub drift_percent: String,
        /// Voltage coefficient, ppm/V; empty: not known. Resistors alone.
        #[serde(default)]
        pub voltage_coefficient: String,
        /// The voltage it was stated at, V. Resistors alone.
        #[serde(default)]
        pub stated_at: String,
        /// Temperature coefficient, ppm/K; empty: not known. Resistors alone.
        #[serde(default)]
        pub temperature_coefficient: String,
        /// The most voltage it may be used at, V; empty: not stated. Resistors alone.
        #[serde(default)]
        pub rated_voltage: String,
        /// Step of the display, with its unit; empty: not known. Meters alone.
        #[serde(default)]
        pub resolution: String,
    }

    /// A new reference, or a change to one.
    pub struct SaveReference {
        /// Which; absent: a new one.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub reference: Option<ReferenceId>,
        /// As typed.
        pub form: ReferenceForm,
    }

    /// One reference.
    pub struct OfReference {
        /// Which.
        pub reference: ReferenceId,
    }
}
