//! How a reading put in doubt is sorted, with the figures it was sorted by.

use crate::quantity::{Ohms, Percent};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What is left of a reading put in doubt. Ordered from the least to the most urgent.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Class {
    /// It still clears the limit even with the error found on that date; it may have differed before.
    StillClears {
        /// The least resistance it can stand for with that error, Ω.
        lowest_ohm: Ohms,
        /// e + U of the error that was reckoned with, %; absent where a known resistance was shown over-range, or the
        /// indications themselves hold.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        error_percent: Option<Percent>,
    },
    /// Nothing on record lets it be reckoned.
    CannotBeJudged {
        /// Why.
        because: Unknown,
    },
    /// No longer certain: test again.
    TestAgain {
        /// Why.
        because: Again,
    },
}

/// Why a reading put in doubt cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case")]
pub enum Unknown {
    /// No known resistance was measured at that test voltage as found.
    NothingMeasured,
    /// It lies below the lowest resistance measured.
    BelowLowestPoint,
    /// The uncertainty of the error found is not known.
    UncertaintyNotKnown,
    /// The output voltage fell short and no load is known from which up it held.
    LoadNotKnown,
    /// The paper says that it failed and not in what.
    NotSaidInWhat,
    /// The limit set has no limit for it.
    NoLimit,
    /// The reading could not be judged before either.
    NotJudgedBefore,
}

/// Why a reading put in doubt is to be tested again.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema, TS)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Again {
    /// With the error found it may lie below the limit.
    MayBeBelow {
        /// The least resistance it can stand for, Ω.
        lowest_ohm: Ohms,
        /// e + U of the error that was reckoned with, %; absent as in [`Class::StillClears`].
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[ts(optional)]
        error_percent: Option<Percent>,
    },
    /// The output voltage did not hold at that resistance.
    VoltageFell {
        /// The load from which up it held, Ω.
        held_from_ohm: Ohms,
    },
    /// It was below the limit, or too close to it, as read.
    DidNotMeet,
}
