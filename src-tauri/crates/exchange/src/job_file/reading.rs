//! Readings: what was shown never changes; circumstances are corrected, readings withdrawn, replaced or not chosen, with reasons.

use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{DeviceId, PersonId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::Volts;
use provenohm_assess::reading::{Conditions, NotTestedReason, Reading};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A reading with what became of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Taken {
    /// The reading as it was recorded.
    pub reading: Reading,
    /// When it was recorded.
    pub recorded_at: Moment,
    /// The clock of the device that recorded it cannot have been right.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub doubtful_clock: bool,
    /// Something bears on it that needs a newer version, and it must not be judged without.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub needs_newer_version: bool,
    /// Why it replaces another reading, if it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<ReplacedWhy>,
    /// The device that recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub device: Option<DeviceId>,
    /// Corrections of its circumstances, oldest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub corrections: Vec<Corrected>,
    /// Its circumstances as they stand in every combination, where two people corrected one of them apart; empty where
    /// there is one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub live: Vec<Circumstances>,
    /// When a person chose to let it stand beside another reading of its slot; absent: nobody did.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept_at: Option<Moment>,
    /// What became of it, if it no longer stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub past: Option<Past>,
}

/// Why a reading takes the place of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReplacedWhy {
    /// The digits had been typed wrong.
    Mistyped,
    /// The circuit was repaired and tested again.
    Repaired,
    /// The test was repeated.
    Repeated,
}

/// One correction of a reading's circumstances; what is absent stayed as it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Corrected {
    /// The tester.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tester: Option<TesterId>,
    /// The test voltage, V d.c.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub test_voltage_v: Option<Volts>,
    /// When it was taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Moment>,
    /// The conditions.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub conditions: Option<Conditions>,
    /// Why.
    pub reason: String,
    /// Who corrected.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub person: Option<PersonId>,
    /// When that was recorded.
    pub recorded_at: Moment,
}

/// The circumstances a reading was taken under.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Circumstances {
    /// The tester; absent: none chosen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tester: Option<TesterId>,
    /// The test voltage, V d.c.
    pub test_voltage_v: Volts,
    /// When it was taken.
    pub at: Moment,
    /// The conditions.
    #[serde(default)]
    pub conditions: Conditions,
    /// When the last of what makes them was recorded.
    pub recorded_at: Moment,
}

/// What became of a reading that no longer stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Past {
    /// Withdrawn, replaced, or not chosen.
    pub fate: Fate,
    /// Why, in words; empty where a replacement says why by itself, or for an undo.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reason: String,
    /// Who.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub person: Option<PersonId>,
    /// When that was recorded.
    pub recorded_at: Moment,
}

/// Withdrawn, replaced, or not chosen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Fate {
    /// Withdrawn.
    Withdrawn,
    /// It stood beside another of its slot, and a person chose that one.
    NotChosen,
    /// Replaced by another reading.
    Replaced {
        /// That one.
        by: ReadingId,
        /// Why.
        why: ReplacedWhy,
    },
}

/// A slot that was not tested.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NotTested {
    /// The two ends.
    pub pair: Pair,
    /// Before or after equipment.
    pub stage: Stage,
    /// Why.
    pub reason: NotTestedReason,
    /// Why, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// Who says so.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// When that was recorded.
    pub recorded_at: Moment,
    /// The readings that stood there when it was said. Beside any other that stands it is a second value.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<ReadingId>,
}

impl NotTested {
    /// Whether another word on the same pair says the same.
    #[must_use]
    pub fn says_the_same(&self, other: &Self) -> bool {
        (self.reason, &self.words) == (other.reason, &other.words)
    }
}

impl Taken {
    /// The reading as it stands, with its corrections.
    #[must_use]
    pub fn current(&self) -> Reading {
        self.corrections.iter().fold(self.reading.clone(), |mut reading, correction| {
            correction.apply(&mut reading);
            reading
        })
    }

    /// The reading with every live value of its circumstances: as it stands, then the others.
    #[must_use]
    pub fn every(&self) -> Vec<Reading> {
        let current = self.current();
        let mut every = vec![current.clone()];
        for Circumstances { tester, test_voltage_v, at, conditions, recorded_at: _ } in self.live.iter().cloned() {
            let one = Reading { tester, test_voltage_v, at, conditions, ..current.clone() };
            if !every.contains(&one) {
                every.push(one);
            }
        }
        every
    }

    /// When the last of it was put on record: the reading, or what corrected it.
    #[must_use]
    pub fn last_recorded_at(&self) -> Moment {
        self.corrections.iter().map(|one| one.recorded_at).fold(self.recorded_at, Moment::max)
    }

    /// The reading that took its place.
    #[must_use]
    pub fn replaced_by(&self) -> Option<ReadingId> {
        match self.past.as_ref()?.fate {
            Fate::Replaced { by, .. } => Some(by),
            Fate::Withdrawn | Fate::NotChosen => None,
        }
    }

    /// Whether it stands: neither withdrawn, replaced nor set aside.
    #[must_use]
    pub fn stands(&self) -> bool {
        self.past.is_none()
    }
}

impl Corrected {
    /// Puts the corrected circumstances into a reading.
    pub fn apply(&self, reading: &mut Reading) {
        reading.tester = self.tester.or(reading.tester);
        reading.test_voltage_v = self.test_voltage_v.unwrap_or(reading.test_voltage_v);
        reading.at = self.at.unwrap_or(reading.at);
        reading.conditions = self.conditions.unwrap_or(reading.conditions);
    }
}
