//! One line of the schedule.

use provenohm_assess::ids::{ReadingId, TesterId};
use provenohm_assess::judgement::{Level, TesterState, Value};
use provenohm_assess::limits::Tag;
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::{Ohms, Shown, Volts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The four signs, same shapes as on screen. They mean the same in black only.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Sign {
    /// Open ring: nothing recorded yet.
    ToDo,
    /// Solid disc: recorded, nothing to look at. It does not mean safe.
    Done,
    /// Triangle: recorded, looks odd.
    Look,
    /// Square: the record cannot stand as it is.
    Stop,
}

impl From<Level> for Sign {
    fn from(level: Level) -> Self {
        match level {
            Level::Done | Level::Remark => Self::Done,
            Level::Look => Self::Look,
            Level::Stop => Self::Stop,
        }
    }
}

/// The limit a reading was judged against.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limit {
    /// Minimum, Ω.
    pub minimum_ohm: Ohms,
    /// Edition and table in words ("IEC 60364-6:2016, Table 6.1"); of a figure from memory also how sure it is.
    pub source: String,
    /// How the figure reached the program, for software.
    pub tag: Tag,
}

/// One line: a reading, a pair not tested, or a pair still missing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Line {
    /// A reading.
    Reading(Box<Reading>),
    /// Not tested, with the reason.
    NotTested(NotTested),
    /// Required, and nothing is recorded.
    Missing(Missing),
}

impl Line {
    /// The reading, if the line is one.
    #[must_use]
    pub fn reading(&self) -> Option<&Reading> {
        match self {
            Self::Reading(reading) => Some(reading),
            Self::NotTested(_) | Self::Missing(_) => None,
        }
    }

    /// The sign in front of the line.
    #[must_use]
    pub fn sign(&self) -> Sign {
        match self {
            Self::Reading(reading) => reading.sign,
            Self::NotTested(_) => Sign::Look,
            Self::Missing(_) => Sign::ToDo,
        }
    }

    /// That it was accepted, if it was.
    #[must_use]
    pub fn accepted(&self) -> Option<&Accepted> {
        match self {
            Self::Reading(reading) => reading.accepted.as_ref(),
            Self::NotTested(said) => said.accepted.as_ref(),
            Self::Missing(_) => None,
        }
    }

    /// The pair in words.
    #[must_use]
    pub fn pair(&self) -> &str {
        match self {
            Self::Reading(reading) => &reading.pair,
            Self::NotTested(line) => &line.pair,
            Self::Missing(line) => &line.pair,
        }
    }
}

/// A reading with everything it takes to believe it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reading {
    /// Its id in the record.
    pub id: ReadingId,
    /// The worst level of its judgement.
    pub sign: Sign,
    /// The pair in words ("L–PE").
    pub pair: String,
    /// Stage in words, where it is worth saying ("after equipment was connected").
    pub stage: Option<String>,
    /// What the tester showed.
    pub shown: Shown,
    /// Test voltage set, V d.c.
    pub test_voltage_v: Volts,
    /// The limit, or none where the set states none.
    pub limit: Option<Limit>,
    /// The judgement of the value, for software.
    pub value: Value,
    /// The judgement of the value, one sentence ("meets 1.0 MΩ at 500 V").
    pub judgement: String,
    /// What else belongs to the judgement: method, remarks, conditions of this reading; one sentence each.
    pub remarks: Vec<String>,
    /// The tester, none where none was chosen.
    pub tester: Option<TesterId>,
    /// State of the tester for this reading, for software.
    pub state: TesterState,
    /// State of the tester for this reading, in words ("proved").
    pub tester_state: String,
    /// How serious that state is.
    pub tester_sign: Sign,
    /// When it was taken.
    pub taken_at: Moment,
    /// Who took it.
    pub person: String,
    /// Corrections of its circumstances, oldest first.
    pub corrections: Vec<Correction>,
    /// That what asks for a look was accepted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accepted: Option<Accepted>,
}

/// A pair not tested.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotTested {
    /// The pair in words.
    pub pair: String,
    /// The reason in words.
    pub reason: String,
    /// When it was said.
    pub said_at: Moment,
    /// Who said it.
    pub person: String,
    /// That it was accepted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accepted: Option<Accepted>,
}

/// A person accepted a line that asks for a look. Its judgement is as it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Accepted {
    /// Why.
    pub reason: String,
    /// Who.
    pub person: String,
    /// When.
    pub at: Moment,
}

/// A required pair with nothing recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Missing {
    /// The pair in words.
    pub pair: String,
}

/// A correction of a reading's circumstances; its digits never change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Correction {
    /// What was corrected, from what to what, one sentence ("Test voltage was 250 V, is 500 V").
    pub sentence: String,
    /// Why.
    pub reason: String,
    /// Who corrected it.
    pub person: String,
    /// When.
    pub at: Moment,
}

/// How a reading left the schedule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "fate")]
pub enum Fate {
    /// Withdrawn; nothing took its place.
    Withdrawn,
    /// It stood beside another of its pair, and that one was chosen.
    NotChosen,
    /// Replaced by another reading.
    Replaced {
        /// The reading that took its place.
        by: ReadingId,
    },
}

/// A reading that was withdrawn, replaced or not chosen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Past {
    /// The reading as it stood, judged as it would be.
    pub reading: Reading,
    /// What became of it.
    pub fate: Fate,
    /// The reason in words ("repaired, tested again").
    pub reason: String,
    /// Who withdrew or replaced it, or chose another.
    pub person: String,
    /// When.
    pub at: Moment,
}
