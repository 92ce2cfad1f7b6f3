//! What is said of one reading: about its value, its tester and its method, each with its reasons.

use crate::ids::{CheckId, DamageId, TesterId, VerificationId};
use crate::limits::{Limit, ReducedReason};
use crate::moment::{Moment, When};
use crate::quantity::{Comparator, Ohms, Percent, Shown, Volts};
use crate::tester::{Interval, RequirementName};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How much attention something asks for. Only `Stop` blocks a sign-off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Level {
    /// Nothing to say.
    Done,
    /// Printed, not listed.
    Remark,
    /// Listed and signed with.
    Look,
    /// The record cannot stand like this.
    Stop,
}

/// What is said of the value. Ordered from the most to the least favourable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Value {
    /// Meets the limit named beside it.
    Meets,
    /// Too close to call.
    TooClose,
    /// Cannot be judged.
    CannotBeJudged,
    /// Below the limit named beside it.
    Below,
}

/// State of the tester for one reading. Ordered from the most to the least favourable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum TesterState {
    /// A verification was valid at that instant, test voltage and resistance.
    Proved,
    /// Verified once, out of date at that instant.
    Lapsed,
    /// Nothing on record covers the reading.
    NotProved,
    /// Not proved or lapsed then, and the next verification found it good.
    FoundGoodAfterwards,
    /// The next verification found it failed.
    InDoubt,
    /// Known to fail when the reading was taken.
    Barred,
    /// No tester was chosen.
    NotChosen,
}

/// Where a guard w comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum GuardSource {
    /// U of a verification's budget, with its own k.
    Budget {
        /// The verification.
        verification: VerificationId,
        /// U, % of the reading.
        percent: Percent,
    },
    /// Operating uncertainty B found at a verification.
    OperatingUncertainty {
        /// The verification.
        verification: VerificationId,
        /// B, % of the reading.
        percent: Percent,
    },
    /// The operating uncertainty the maker states.
    StatedOperatingUncertainty {
        /// % of the reading.
        percent: Percent,
    },
    /// ±(p % + n digits) of the card's range, at reference conditions.
    Accuracy {
        /// p, % of the reading.
        percent: Percent,
        /// n, steps.
        digits: u32,
        /// One step, Ω.
        resolution_ohm: Ohms,
    },
    /// 30 % for a tester that conforms to IEC 61557-2 and states no figures.
    Conforming {
        /// % of the reading.
        percent: Percent,
    },
}

/// The guard asked for by the policy, worked out at the reading.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Guard {
    /// Where it comes from.
    pub source: GuardSource,
    /// w, Ω.
    pub w_ohm: Ohms,
    /// L + w, Ω.
    pub acceptance_ohm: Ohms,
    /// The smallest indication that proves the limit with this tester at this test voltage, Ω.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub smallest_ohm: Option<Ohms>,
    /// Rests on a verification that has lapsed.
    pub lapsed: bool,
}

/// Why the value is judged so.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum ValueReason {
    /// Compared with the limit as shown (and with the guard, where there is one).
    Compared,
    /// `> x` with x below the limit, or `< x` with x above it: the limit lies in the open part.
    OpenTowardsLimit,
    /// Guarded, and no figure of uncertainty is known.
    NoUncertainty,
    /// Taken at a lower voltage than the set asks for, and that is not allowed here.
    LowerVoltage {
        /// What the set asks for, V.
        asked_v: Volts,
    },
    /// The tester backs only "no more than the top of what was proved", and that is not enough.
    ClaimCut {
        /// Top of the highest proved interval, Ω.
        top_ohm: Ohms,
    },
    /// The set has no row for this circuit.
    NoLimit,
    /// The members of a group ask for different test voltages.
    MembersDiffer,
    /// More than eight combinations of live values.
    TooManyLiveValues,
}

/// The value's part of a judgement.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct ValueJudgement {
    /// What is said.
    pub value: Value,
    /// Why.
    pub reason: ValueReason,
    /// The limit it was compared with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub limit: Option<Limit>,
    /// The guard, under *guarded*.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub guard: Option<Guard>,
}

/// Why the tester is in that state; the first that stands decides, the rest stay as reasons.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum TesterReason {
    /// Verified good, in date.
    ProvedBy {
        /// The verification relied on.
        verification: VerificationId,
        /// When made.
        made: When,
        /// Its last day.
        valid_until: NaiveDate,
        /// When it was entered, if that was after the reading.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        recorded_later: Option<Moment>,
    },
    /// The last good verification was out of date.
    LapsedOn {
        /// The verification.
        verification: VerificationId,
        /// Its last day; absent: none was set.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        valid_until: Option<NaiveDate>,
    },
    /// Nothing on record at or before the reading.
    NothingOnRecord,
    /// Verified, but not at this test voltage.
    VoltageNotCovered {
        /// The test voltage, V.
        test_voltage_v: Volts,
    },
    /// Verified, but the indicated resistance is outside what was proved.
    OutsideProvedRange {
        /// What was proved.
        holds: Vec<Interval>,
    },
    /// Adjusted since the last proof.
    AdjustedSince {
        /// When.
        made: When,
    },
    /// The policy asks for more than the verification tested.
    NotAllTested {
        /// The verification.
        verification: VerificationId,
    },
    /// The verification is a conditional fail: it says neither good nor failed.
    ConditionallyFailed {
        /// The verification.
        verification: VerificationId,
    },
    /// The verification gives no interval, and the card has no range at this test voltage to stand in for it.
    NoRangeStated {
        /// The verification.
        verification: VerificationId,
    },
    /// A bench that tested neither the leads shorted nor a resistance at or below the limit, so its interval does not count.
    LowEndNotTested {
        /// The verification.
        verification: VerificationId,
    },
    /// A verification at or before the reading failed.
    FailedBefore {
        /// The verification.
        verification: VerificationId,
        /// When made.
        made: When,
        /// The requirement that failed, if it was one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        requirement: Option<RequirementName>,
        /// The known resistance at which it failed, if it was one, Ω. Neither: it failed without saying where, or as a whole.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        point_ohm: Option<Ohms>,
    },
    /// A quick check at or before the reading failed.
    QuickCheckFailedBefore {
        /// The check.
        check: CheckId,
        /// When.
        at: Moment,
    },
    /// Damaged at or before the reading.
    DamagedBefore {
        /// The report.
        damage: DamageId,
        /// When.
        at: Moment,
    },
    /// The next verification found it failed.
    FailedAfter {
        /// The verification.
        verification: VerificationId,
        /// When made.
        made: When,
        /// The requirement that failed, if it was one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        requirement: Option<RequirementName>,
        /// The known resistance at which it failed, if it was one, Ω. Neither: it failed without saying where, or as a whole.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        point_ohm: Option<Ohms>,
    },
    /// A later quick check failed.
    QuickCheckFailedAfter {
        /// The check.
        check: CheckId,
        /// When.
        at: Moment,
    },
    /// Found damaged later, at an unknown instant before.
    DamagedAfter {
        /// The report.
        damage: DamageId,
        /// When found.
        at: Moment,
    },
    /// The next verification found it good.
    GoodAfter {
        /// The verification.
        verification: VerificationId,
        /// When made.
        made: When,
    },
    /// Adjusted later with nothing stated as found: the reading can't be confirmed.
    NotConfirmable {
        /// The verification that adjusted it.
        verification: VerificationId,
    },
    /// No tester was chosen for the reading.
    NoTester,
    /// Two live values of the tester's card or identity.
    LiveValues,
}

/// A remark on the proof itself; printed, never flagged by itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum TesterRemark {
    /// Indications hold there by points of which one conforms with a condition.
    HoldsOnCondition,
    /// The verification does not show the low end, where the limit is judged.
    LowEndNotShown,
    /// A requirement was not tested.
    RequirementNotTested {
        /// Which.
        requirement: RequirementName,
    },
    /// A requirement is known to fail, and the policy does not ask for it or its figure is from memory.
    RequirementFailed {
        /// Which.
        requirement: RequirementName,
    },
    /// The certificate gives no intervals; the card's range stands in.
    CardRangeStandsIn,
    /// Not every requirement of the tester standard was tested, and the paper does not say which.
    NotAllTested,
    /// The paper says that the tester does not conform, without saying in what; the policy asks for indications only.
    DoesNotConform,
}

/// The tester's part of a judgement.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct TesterJudgement {
    /// The tester.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub tester: Option<TesterId>,
    /// Its state for this reading.
    pub state: TesterState,
    /// Reasons, the deciding one first.
    pub reasons: Vec<TesterReason>,
    /// Remarks on the proof.
    pub remarks: Vec<TesterRemark>,
}

/// Something about how the reading was taken.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum MethodReason {
    /// Taken at a lower voltage than the set asks for, without a rule that allows it. *Look*.
    LowerVoltage {
        /// Taken at, V.
        taken_v: Volts,
        /// Asked, V.
        asked_v: Volts,
    },
    /// Taken at a higher voltage. *Look*.
    HigherVoltage {
        /// Taken at, V.
        taken_v: Volts,
        /// Asked, V.
        asked_v: Volts,
    },
    /// Taken at the reduced voltage the set allows, with the reason. Remark.
    ReducedVoltage {
        /// Taken at, V.
        taken_v: Volts,
        /// Asked, V.
        asked_v: Volts,
        /// Why.
        reason: ReducedReason,
    },
    /// A pair the set forbids with the loads of that reading. *Stop*.
    ForbiddenPair,
    /// Over-range, with no good leads-shorted check that day. Remark.
    LeadsNotChecked,
    /// A later leads-shorted check failed: the leads may have been open. *Look*.
    LeadsInDoubt {
        /// The failed check.
        check: CheckId,
        /// When.
        at: Moment,
    },
    /// A later leads-open check failed: the leads may have read low. Remark.
    LeadsMayReadLow {
        /// The failed check.
        check: CheckId,
        /// When.
        at: Moment,
    },
    /// The job asks for a quick check of the tester within so many days before a reading, and there is none. *Look*.
    NoQuickCheck {
        /// Days asked for.
        days: u32,
    },
    /// N was not isolated from PE. *Look*.
    NeutralNotIsolated,
    /// Loads were connected. Remark.
    LoadsConnected,
    /// Fewer digits than the card shows in that range. *Look*.
    FewerDigits {
        /// One step of the card, Ω.
        resolution_ohm: Ohms,
    },
    /// More digits than the card shows in any range that holds them: that display cannot have shown it. *Look*.
    MoreDigits {
        /// The finest step of the card there, Ω.
        resolution_ohm: Ohms,
    },
    /// On a conductor that its circuit does not have, or has no more. *Look*.
    NoSuchConductor,
    /// Above the tester's own over-range limit at that voltage. *Look*.
    AboveTesterLimit {
        /// The limit.
        limit: Shown,
    },
    /// Two decades or more below the median of the readings of the same pair kind on the board. *Look*.
    FarBelowOthers {
        /// That median, Ω.
        median_ohm: Ohms,
        /// Whether it is that, or lies above or below: the others may be over-range.
        comparator: Comparator,
        /// How many readings it is taken over, at least five.
        readings: usize,
    },
    /// A device clock that cannot be right. *Look*.
    DoubtfulClock,
    /// Something the reading rests on has two live values. *Stop*.
    TwoLiveValues,
    /// Judged at reference conditions only. Remark.
    AtReferenceConditions,
    /// A critical entry this version cannot read. *Stop*.
    NeedsNewerVersion,
}

/// What is said of one reading.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Judgement {
    /// About its value.
    pub value: ValueJudgement,
    /// About its tester.
    pub tester: TesterJudgement,
    /// About how it was taken, the gravest first.
    pub method: Vec<MethodReason>,
    /// The highest level of the three parts.
    pub level: Level,
    /// Version of the rules that said so.
    pub rules: u32,
}
