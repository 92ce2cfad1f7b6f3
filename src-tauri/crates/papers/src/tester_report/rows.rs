//! The rows of a tester report's tables, every figure as text with its unit.

use super::Plot;
use crate::report::{Fact, Sign};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A sentence and how much attention it asks for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Said {
    /// Its sign.
    pub sign: Sign,
    /// The sentence.
    pub text: String,
}

/// A reference with its certificate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReferenceTold {
    /// Name, kind and serial number.
    pub title: String,
    /// Certificate; stated values with U and k, or tolerance; drift, coefficients, rating, input resistance.
    pub lines: Vec<String>,
    /// Until when it is valid, or that it had lapsed and what that costs.
    pub valid: Said,
}

/// One indication at a known resistance, or its repeats.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PointLine {
    /// Its number in this report.
    pub number: u32,
    /// The resistor, and the meter across it with what that makes of it.
    pub resistor: String,
    /// Conditions; empty: reference conditions.
    pub conditions: String,
    /// The known resistance at the terminals; empty: not known.
    pub known: String,
    /// Each indication.
    pub shown: Vec<String>,
    /// Their mean; over-range, the bound.
    pub mean: String,
    /// Mean − known resistance.
    pub error: String,
    /// The same, % of the known resistance.
    pub error_percent: String,
    /// U of the error.
    pub expanded: String,
    /// Permitted error.
    pub permitted: String,
    /// What it is made of: `3 % of 0.88 MΩ + 2 × 10 kΩ`.
    pub permitted_from: String,
    /// Permitted error over the reference's U (k = 2); empty: not known.
    pub ratio: String,
    /// The decision, or why there is none.
    pub decision: Said,
    /// Remarks.
    pub remarks: Vec<String>,
    /// The budget of the error; absent: there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub budget: Option<BudgetTable>,
}

/// A voltage or current at a load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoadLine {
    /// Its number in this report.
    pub number: u32,
    /// What it was measured for.
    pub title: String,
    /// Conditions; empty: reference conditions.
    pub conditions: String,
    /// The load, the meter included; empty: none.
    pub load: String,
    /// Voltage with U; empty: not known.
    pub voltage: String,
    /// Current with U; empty: not known.
    pub current: String,
    /// The decision, or why there is none; absent: nothing is asked of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decision: Option<Said>,
    /// Remarks.
    pub remarks: Vec<String>,
    /// The budget of what decides; absent: there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub budget: Option<BudgetTable>,
}

/// A budget, line by line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BudgetTable {
    /// Whose it is.
    pub title: String,
    /// Its lines.
    pub lines: Vec<BudgetLine>,
    /// u, effective degrees of freedom, k, U: a label and a figure each.
    pub sums: Vec<Fact>,
}

/// One line of a budget.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BudgetLine {
    /// The input.
    pub input: String,
    /// Its estimate.
    pub estimate: String,
    /// Its distribution.
    pub distribution: String,
    /// Half-width or expanded uncertainty; empty: u was found directly.
    pub half_width: String,
    /// What that is divided by; empty: nothing.
    pub divisor: String,
    /// Its standard uncertainty u.
    pub standard: String,
    /// Its sensitivity c.
    pub sensitivity: String,
    /// What it adds, |c|·u.
    pub contribution: String,
    /// Degrees of freedom; ∞ without end.
    pub dof: String,
}

/// One fact as it was read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuredLine {
    /// When.
    pub at: String,
    /// Test voltage, and the series where the tester was adjusted.
    pub volts: String,
    /// What.
    pub what: String,
    /// Meter it was read on, or across the resistor; empty: none.
    pub meter: String,
    /// Conditions; empty: reference conditions.
    pub conditions: String,
    /// What was read.
    pub shown: String,
}

/// The error at one resistance over the verifications.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DriftTable {
    /// Test voltage and resistance.
    pub title: String,
    /// The picture.
    pub plot: Plot,
    /// What the line says, or why there is none.
    pub said: String,
    /// One line a verification.
    pub lines: Vec<DriftLine>,
}

/// One verification in a table of drift.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DriftLine {
    /// When.
    pub when: String,
    /// Error, %.
    pub error: String,
    /// U, %.
    pub expanded: String,
    /// That the tester was adjusted afterwards; empty: it was not.
    pub adjusted: String,
}
