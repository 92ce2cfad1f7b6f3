//! The entry line and its pad: half-typed digits, the ruler, the one-tap key, the test voltage to set.

use provenohm_assess::quantity::Comparator;

told! {
    /// The entry line.
    pub struct DraftView {
        /// As typed.
        pub text: String,
        /// Exact, more than, less than.
        pub comparator: Comparator,
        /// The digits with the decimal sign of the language, without the comparator's sign or word: they are set apart.
        pub shown: String,
        /// Why a unit key would be refused now; absent: it would not.
        pub refused: Option<String>,
        /// The ruler's marks: one for each unit key.
        pub ruler: Vec<RulerMark>,
    }

    /// Where on the ruler the typed digits would stand with a unit.
    pub struct RulerMark {
        /// The unit key.
        pub unit: UnitKey,
        /// 0 at its left end, 1 at its right end.
        pub at: f64,
    }

    /// A notch of the ruler.
    pub struct Notch {
        /// 0 at its left end, 1 at its right end.
        pub at: f64,
        /// `1 kΩ`.
        pub label: String,
    }

    /// The one-tap key for an over-range indication.
    pub struct OverRangeKey {
        /// `> 999 MΩ`, or that the limit is not set.
        pub label: String,
        /// Whether it can save.
        pub ready: bool,
    }

    /// The tester has to be set to another voltage first.
    pub struct AskVolts {
        /// `Tester set to 250 V`.
        pub words: String,
        /// What it saves, V.
        pub volts: u32,
        /// The other test voltages.
        pub others: Vec<VoltsChoice>,
    }

    /// A test voltage to choose.
    pub struct VoltsChoice {
        /// V.
        pub volts: u32,
        /// `500 V`.
        pub words: String,
    }
}

/// A unit key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, ts_rs::TS)]
#[serde(rename_all = "snake_case")]
pub enum UnitKey {
    /// kΩ
    K,
    /// MΩ
    M,
    /// GΩ
    G,
}
