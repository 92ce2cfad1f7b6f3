//! The tester's card: test voltages, ranges, accuracy, over-range limits.

use crate::quantity::{Comparator, Ohms, Percent, Shown, Volts};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One range of a tester at one test voltage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// Lower end of the measuring range, Ω.
    pub from_ohm: Ohms,
    /// Upper end, Ω.
    pub to_ohm: Ohms,
    /// Step of the display in this range, Ω.
    pub resolution_ohm: Ohms,
    /// Stated accuracy: per cent of the reading; absent: not stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub accuracy_percent: Option<Percent>,
    /// Stated accuracy: steps of the display, added to the per cent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub accuracy_digits: Option<u32>,
}

/// What the card says for one test voltage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct VoltageCard {
    /// Test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// Ranges, lowest first.
    pub ranges: Vec<Range>,
    /// What the display shows when the resistance is above its limit, for example `> 999 MΩ`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub over_range: Option<Shown>,
    /// The maker's stated operating uncertainty, % of the measured value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub operating_uncertainty_percent: Option<Percent>,
}

/// The card facet of a tester.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema, TS)]
#[serde(deny_unknown_fields)]
pub struct Card {
    /// Per test voltage.
    pub voltages: Vec<VoltageCard>,
    /// Whether its papers say that it conforms to IEC 61557-2 (30 % operating uncertainty).
    #[serde(default)]
    pub conforms_iec_61557_2: bool,
    /// The most it shows with the leads shorted; absent: near zero is expected.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub shorted_up_to: Option<Shown>,
    /// Months from one verification to the next; absent: [`USUAL_MONTHS`](crate::interval::USUAL_MONTHS).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub interval_months: Option<u32>,
    /// Who chooses its ranges; absent: its papers do not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub ranging: Option<Ranging>,
}

/// Who chooses the range of a tester.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Ranging {
    /// The tester does.
    Automatic,
    /// A person sets it, as one sets the test voltage.
    Manual,
}

impl Card {
    /// The range a person sets a tester of manual ranging to, to read a resistance at a test voltage: the finest that
    /// holds it. Above all of them it is the highest, below all the lowest.
    #[must_use]
    pub fn range_to_set(&self, volts: Volts, known: Ohms) -> Option<&Range> {
        if self.ranging != Some(Ranging::Manual) {
            return None;
        }
        let ranges = &self.voltages.iter().find(|one| one.test_voltage_v == volts)?.ranges;
        let holding = ranges.iter().find(|range| range.from_ohm <= known && known <= range.to_ohm);
        holding.or_else(|| ranges.iter().find(|range| range.from_ohm > known)).or_else(|| ranges.last())
    }
}

impl VoltageCard {
    /// Whether what was shown at a known resistance is within the stated accuracy of the range that holds it:
    /// |indication − resistance| ≤ p·indication + n·resolution (seen). Over-range is, where the resistance and what is
    /// permitted reach it. `None` where no range of the card holds the indication or states an accuracy.
    #[must_use]
    pub fn permits(&self, known: Ohms, shown: Shown) -> Option<bool> {
        let indicated = shown.ohms();
        let range = self.ranges.iter().find(|r| r.from_ohm <= indicated && indicated <= r.to_ohm)?;
        let share = range.accuracy_percent?.0.checked_div(Decimal::ONE_HUNDRED)?;
        let steps = range.resolution_ohm.0.checked_mul(range.accuracy_digits.unwrap_or(0).into())?;
        let permitted = indicated.0.checked_mul(share)?.checked_add(steps)?;
        let error = indicated.0.checked_sub(known.0)?;
        Some(match shown.comparator {
            Comparator::Exact => error.abs() <= permitted,
            Comparator::MoreThan => error <= permitted,
            Comparator::LessThan => -error <= permitted,
        })
    }
}
