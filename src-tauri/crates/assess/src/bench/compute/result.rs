//! What a bench run comes to: every step of the computation, to be followed by hand.

use super::untold::Untold;
use super::{Budgeted, Decision, LoadResult, PointRemark, PointResult, WhyUndecided};
use crate::bench::{DecisionRule, EditionId, Polarity, Series, TesterLook};
use crate::ids::{BenchId, MeasuredId, ReferenceId, TesterId};
use crate::limits::Source;
use crate::quantity::{Ohms, Percent, Shown, Volts};
use crate::tester::{Conforms, RequirementName, RequirementResult, Statement};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Why a requirement is not decided, or only with a remark.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum WhyNotTested {
    /// Nothing was measured for it.
    NotMeasured,
    /// It was measured, and could not be decided by it.
    Undecided {
        /// Why.
        reason: WhyUndecided,
    },
    /// No change of this kind was measured.
    PartNotTested {
        /// Which.
        part: OperatingPart,
    },
    /// A conditional fail: the limit lies within the uncertainty of the measurement.
    TooCloseToCall,
}

/// A part of the operating uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum OperatingPart {
    /// A, under reference conditions.
    Intrinsic,
    /// E1, by position; tested when turned both ways.
    Position,
    /// E2, by supply voltage; tested at the lowest battery voltage.
    Supply,
    /// E3, by temperature; tested near both ends of the rated range.
    Temperature,
}

/// Operating uncertainty at one known resistance, % of the indication. A part that was not tested there is taken from the
/// resistance at that test voltage where it was largest; tested nowhere, it is absent.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct OperatingAt {
    /// The known resistance.
    pub known_ohm: Ohms,
    /// A.
    pub intrinsic: f64,
    /// E1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub position: Option<f64>,
    /// E2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub supply: Option<f64>,
    /// E3.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub temperature: Option<f64>,
    /// B from the parts there are.
    pub operating: f64,
    /// U of the point, %.
    pub expanded: f64,
    /// An indication was over-range: the figure is the least it can be.
    pub at_least: bool,
}

/// What was found of one requirement of the tester standard.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct RequirementFound {
    /// Which.
    pub name: RequirementName,
    /// Met, not met, not tested.
    pub result: RequirementResult,
    /// The decision, where there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub decision: Option<Decision>,
    /// The least favourable figure found: V, A or %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub found: Option<f64>,
    /// U of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub expanded: Option<f64>,
    /// What is asked: V, A or %.
    #[ts(type = "string")]
    pub asked: Decimal,
    /// Where that stands, and how sure it is.
    pub source: Source,
    /// Why it is not tested.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub why: Vec<WhyNotTested>,
}

/// Why an interval ends where it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum IntervalEnd {
    /// Nothing was tested beyond.
    NothingTested,
    /// The next point is outside the permitted error.
    NotConforming {
        /// It.
        known_ohm: Ohms,
    },
    /// The next point is a conditional fail.
    ConditionalFail {
        /// It.
        known_ohm: Ohms,
    },
    /// The next point could not be decided.
    Undecided {
        /// It.
        known_ohm: Ohms,
    },
    /// A range of the tester lies there in which no point conforms.
    RangeNotTested {
        /// Its lower end.
        from_ohm: Ohms,
        /// Its upper end.
        to_ohm: Ohms,
    },
    /// A higher resistance was shown this low.
    ShownLow {
        /// It.
        known_ohm: Ohms,
        /// What was shown.
        shown: Shown,
    },
}

/// An interval of resistance in which indications hold, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct HeldInterval {
    /// Lower end: the higher of the lowest known resistance and its indication.
    pub from_ohm: Ohms,
    /// Upper end: the lower of the highest known resistance and its indication.
    pub to_ohm: Ohms,
    /// Why not lower.
    pub below: IntervalEnd,
    /// Why not higher.
    pub above: IntervalEnd,
    /// How many points it rests on.
    pub points: usize,
    /// A conditional pass is among them.
    pub conditional: bool,
}

/// Why conforming points make no interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum NoInterval {
    /// A lower resistance was shown as high as that: the indication proves nothing.
    ShownHigh {
        /// Bottom of the interval that does not count.
        from_ohm: Ohms,
        /// Its top.
        to_ohm: Ohms,
        /// The lower resistance.
        known_ohm: Ohms,
        /// What was shown.
        shown: Shown,
    },
    /// One point stands alone and spans nothing.
    SinglePoint {
        /// It.
        known_ohm: Ohms,
    },
    /// The ends cross: what was shown at the lowest is above what was shown at the highest.
    EndsCross {
        /// The lowest known resistance.
        from_ohm: Ohms,
        /// The highest.
        to_ohm: Ohms,
    },
    /// No point conforms.
    NoPointConforms,
    /// No indication was taken.
    NothingTested,
}

/// Leads as shown at the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LeadsFound {
    /// What was shown; the least favourable of several.
    pub shown: Shown,
    /// As expected: over-range when open, at most what the card says when shorted.
    pub good: bool,
}

/// A current measured at the terminals.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct CurrentResult {
    /// The fact.
    pub measured: MeasuredId,
    /// Its peak a.c. part, and not the whole current.
    pub ripple: bool,
    /// The current with its budget, A.
    pub current_a: Budgeted,
    /// Against the most that is allowed.
    pub decision: Decision,
    /// Remarks.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub remarks: Vec<PointRemark>,
}

/// What follows for one test voltage, in one series.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct VoltageResult {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// As found or as left.
    pub series: Series,
    /// Indications at known resistances, lowest first.
    pub points: Vec<PointResult>,
    /// Voltages and currents at loads, lightest first.
    pub loads: Vec<LoadResult>,
    /// Short-circuit currents and ripple.
    pub currents: Vec<CurrentResult>,
    /// Leads shorted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub leads_shorted: Option<LeadsFound>,
    /// Leads open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub leads_open: Option<LeadsFound>,
    /// Polarity, as recorded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub polarity: Option<Polarity>,
    /// Operating uncertainty, lowest resistance first.
    pub operating: Vec<OperatingAt>,
    /// Requirements of the tester standard.
    pub requirements: Vec<RequirementFound>,
    /// Whether it conforms to the tester standard.
    pub conforms: Conforms,
    /// Where indications hold, lowest first.
    pub intervals: Vec<HeldInterval>,
    /// What makes no interval.
    pub no_intervals: Vec<NoInterval>,
    /// The smallest load from which on the output voltage was at least the nominal one; absent: not at any that was tested.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub voltage_holds_from_ohm: Option<Ohms>,
    /// The statement of the verification.
    pub statement: Statement,
}

/// What a bench run comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct BenchResult {
    /// The run.
    pub bench: BenchId,
    /// The tester.
    pub tester: TesterId,
    /// Edition of the tester standard, by id.
    pub edition: EditionId,
    /// The same, as people call it.
    pub edition_title: String,
    /// The decision rule.
    pub rule: DecisionRule,
    /// Whether the tester was adjusted.
    pub adjusted: bool,
    /// The look at the tester.
    pub look: TesterLook,
    /// Version of the rules.
    pub rules_version: u32,
    /// References whose certificates had lapsed when they were used.
    pub lapsed: Vec<ReferenceId>,
    /// What nobody measured or stated, and no budget could take in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub untold: Vec<Untold>,
    /// Facts with figures beyond all arithmetic; left out.
    pub unusable: Vec<MeasuredId>,
    /// Per test voltage and series, lowest voltage first, as found before as left.
    pub voltages: Vec<VoltageResult>,
}

/// A percentage from a computed one, rounded up to 0.01 so that it never looks smaller than it is.
pub(super) fn percent_up(percent: f64) -> Option<Percent> {
    use rust_decimal::RoundingStrategy::AwayFromZero;
    use rust_decimal::prelude::FromPrimitive;
    Decimal::from_f64(percent).map(|p| Percent(p.round_dp_with_strategy(2, AwayFromZero).normalize()))
}
