//! Checks between verifications, and damage.

use super::Point;
use crate::ids::{CheckId, DamageId, PersonId, TesterId};
use crate::moment::Moment;
use crate::quantity::{Comparator, Ohms, Percent, Shown, Volts};
use rust_decimal::{Decimal, RoundingStrategy};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How the leads were held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum LeadEnd {
    /// Tips together: near zero is expected.
    Shorted,
    /// Tips apart: over-range is expected.
    Open,
}

/// "Near zero", where the card says nothing: 0.05 MΩ (common practice).
const NEAR_ZERO: Ohms = Ohms(Decimal::from_parts(50_000, 0, 0, false, 0));

impl LeadEnd {
    /// Whether leads held like this were shown as expected: shorted near zero, at most what the card says; open
    /// over-range, at least the tester's limit where that is known.
    #[must_use]
    pub fn is_as_expected(self, shown: Shown, shorted_up_to: Option<Shown>, over_range: Option<Shown>) -> bool {
        let over = shown.comparator == Comparator::MoreThan;
        match self {
            Self::Shorted => !over && shown.ohms() <= shorted_up_to.map_or(NEAR_ZERO, Shown::ohms),
            Self::Open => over && over_range.is_none_or(|limit| shown.ohms() >= limit.ohms()),
        }
    }
}

/// Leads shorted or open, at the start or the end of a run. It belongs to one tester.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct LeadCheck {
    /// Its id.
    pub id: CheckId,
    /// The tester.
    pub tester: TesterId,
    /// Shorted or open.
    pub leads: LeadEnd,
    /// What was shown.
    pub shown: Shown,
    /// As expected or not, judged when taken against the card.
    pub good: bool,
    /// Who.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// Start of the job it was made in: failed, it says nothing of readings before that. Absent: it reaches back to
    /// this tester's last good check.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub job_started: Option<Moment>,
}

/// A check between verifications. Good, it proves nothing; failed, it counts as an as-found failure there.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct QuickCheck {
    /// Its id.
    pub id: CheckId,
    /// The tester.
    pub tester: TesterId,
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// Lowest resistance touched, Ω.
    pub from_ohm: Ohms,
    /// Highest resistance touched, Ω.
    pub to_ohm: Ohms,
    /// As expected or not.
    pub good: bool,
    /// When.
    pub at: Moment,
    /// What it showed at the known resistances of the check box, where written down.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points: Vec<Point>,
}

/// Expanded uncertainty of the error read at a resistance known to so many per cent, % of it: that of the resistance and
/// half a step of the display, added in full since neither is known to be the smaller (common practice), rounded up.
/// `None` for a resistance of zero, and beyond all arithmetic.
#[must_use]
pub fn check_uncertainty(known: Percent, reference: Ohms, indicated: Shown) -> Option<Percent> {
    let half_step = indicated.last_digit().0.checked_mul(Decimal::from(50))?.checked_div(reference.0)?;
    let half_step = half_step.round_dp_with_strategy(4, RoundingStrategy::AwayFromZero);
    Some(Percent(known.0.checked_add(half_step)?.normalize()))
}

/// A report that the tester was damaged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Damage {
    /// Its id.
    pub id: DamageId,
    /// The tester.
    pub tester: TesterId,
    /// The instant it happened, if known: it bars from then and looks back on nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub happened: Option<Moment>,
    /// When it was found. Without a known instant it is an as-found failure everywhere.
    pub found: Moment,
    /// In words.
    pub what: String,
}
