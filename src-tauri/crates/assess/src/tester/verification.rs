//! A verification: one dated proof of a tester, with what it says per test voltage.

use crate::ids::{TesterId, VerificationId};
use crate::limits::Tag;
use crate::moment::{Moment, When};
use crate::quantity::{Ohms, Percent, Shown, Volts};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Who made it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum ProofKind {
    /// A laboratory's calibration.
    Calibration,
    /// A bench verification.
    Bench,
}

/// What a statement says on the whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Found good.
    Good,
    /// Found failed.
    Failed,
    /// Only with the condition that the decision carries (a conditional fail): silent.
    ConditionalFail,
    /// The paper does not state it.
    #[default]
    NotStated,
}

/// Whether the tester conforms to its standard at that voltage.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Conforms {
    /// Yes: everything required was tested and met.
    Yes,
    /// No.
    No,
    /// Not everything was tested.
    NotAllTested,
    /// The certificate does not say.
    #[default]
    NotStated,
}

/// An interval of indicated resistance in which indications hold, both ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Interval {
    /// Lower end, Ω.
    pub from_ohm: Ohms,
    /// Upper end, Ω.
    pub to_ohm: Ohms,
    /// A conditional pass is among the points it rests on.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[ts(optional, as = "Option<bool>")]
    pub conditional: bool,
}

impl Interval {
    /// Whether it begins at zero or above and does not end below its beginning.
    #[must_use]
    pub fn is_upright(self) -> bool {
        self.from_ohm >= Ohms::default() && self.to_ohm >= self.from_ohm
    }
}

/// Where indications hold.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// In these intervals, lowest first; none: nowhere.
    In(Vec<Interval>),
    /// The certificate does not say; the card's measuring range stands in.
    #[default]
    NotStated,
}

/// One known resistance and what the tester showed at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// The known resistance, Ω.
    pub reference_ohm: Ohms,
    /// What was shown.
    pub indicated: Shown,
    /// Whether the indication was within what is permitted there.
    pub good: bool,
    /// Expanded uncertainty (95 %) of the error found here, % of the known resistance; absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub error_uncertainty_percent: Option<Percent>,
}

/// The output voltage measured at one load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct VoltageAtLoad {
    /// The load with the voltmeter across it, Ω.
    pub load_ohm: Ohms,
    /// What was measured, V d.c.
    pub measured_v: Volts,
    /// Whether it was within what is asked of the tester there.
    pub held: bool,
}

/// A requirement of the tester standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum RequirementName {
    /// Operating uncertainty within the marked measuring range.
    OperatingUncertainty,
    /// Open-circuit voltage.
    OpenCircuitVoltage,
    /// Rated current through the rated load.
    RatedCurrent,
    /// Measuring current with the leads shorted.
    ShortCircuitCurrent,
}

/// What was found of a requirement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum RequirementResult {
    /// Tested and met.
    Met,
    /// Tested and not met.
    NotMet,
    /// Not tested.
    NotTested,
}

/// One requirement, its result, and how sure its figure is: one judged by a figure from memory never fails a tester.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Requirement {
    /// Which.
    pub name: RequirementName,
    /// Result.
    pub result: RequirementResult,
    /// How sure the figure is that it was judged by.
    pub tag: Tag,
}

/// What one verification says of one test voltage, as found or as left.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields, default)]
pub struct Statement {
    /// On the whole.
    pub outcome: Outcome,
    /// Against the tester standard.
    pub conforms: Conforms,
    /// Edition of the tester standard, for example `IEC 61557-2:2019`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub edition: Option<String>,
    /// Where indications hold.
    pub holds: Holds,
    /// Requirements tested one by one, where known.
    pub requirements: Vec<Requirement>,
    /// Points, where known.
    pub points: Vec<Point>,
    /// Points that are neither good nor failed: too close to call, or without a stated accuracy to compare with. They
    /// prove nothing and bar nothing; a recall reckons with their errors.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub undecided: Vec<Point>,
    /// Whether leads shorted was tested at this voltage and shown near zero.
    pub leads_shorted_good: bool,
    /// The output voltage at loads, where measured.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub voltages: Vec<VoltageAtLoad>,
    /// Operating uncertainty B, % of the measured value, if known with no part untested.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub operating_uncertainty_percent: Option<Percent>,
    /// Expanded uncertainty U of the budget, % of the measured value, with its own k.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub expanded_uncertainty_percent: Option<Percent>,
}

/// What a verification says of one test voltage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct VoltageFinding {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// Before any adjustment.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub as_found: Option<Statement>,
    /// After the adjustment. Where nothing was adjusted, either stands for both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub as_left: Option<Statement>,
}

/// One dated proof of a tester.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Verification {
    /// Its id.
    pub id: VerificationId,
    /// The tester.
    pub tester: TesterId,
    /// Laboratory or bench.
    pub kind: ProofKind,
    /// When it was made.
    pub made: When,
    /// Its last day; absent: none was set, and it never counts as in date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub valid_until: Option<NaiveDate>,
    /// Who made it, as written on the paper.
    pub by: String,
    /// Certificate number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub certificate: Option<String>,
    /// Whether the tester was adjusted.
    pub adjusted: bool,
    /// `Failed` when the paper says so without saying at which voltage.
    #[serde(default)]
    pub overall: Outcome,
    /// Per test voltage.
    pub findings: Vec<VoltageFinding>,
    /// When it was entered into the record.
    pub recorded_at: Moment,
}
