//! Bodies about readings.

use crate::entry::coded::{coded_enum, coded_map};
use provenohm_assess::circuit::{Pair, Stage};
use provenohm_assess::ids::{JobId, PersonId, ReadingId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_assess::quantity::Volts;
use provenohm_assess::reading::{Conditions, NotTestedReason, Reading};

/// Why a reading takes the place of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ReplacedWhy {
    /// The digits had been typed wrong.
    Mistyped,
    /// The circuit was repaired and tested again; the earlier reading stays on paper.
    Repaired,
    /// The test was repeated.
    Repeated,
}

coded_enum!(ReplacedWhy { 0 = Mistyped, 1 = Repaired, 2 = Repeated });

/// A reading was taken. Its digits, comparator, unit and pair never change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadingTaken {
    /// Its job.
    pub job: JobId,
    /// The reading.
    pub reading: Reading,
    /// Why it replaces the readings its entry names; absent if it names none.
    pub why: Option<ReplacedWhy>,
}

coded_map!(ReadingTaken { 0: job, 1: reading, 2 ? why });

/// Corrected circumstances of the readings listed; what is absent stays as it was. Always with a reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    /// Their job.
    pub job: JobId,
    /// The readings, in rising order of their ids.
    pub readings: Vec<ReadingId>,
    /// The tester they were taken with.
    pub tester: Option<TesterId>,
    /// The test voltage set, V d.c.
    pub test_voltage_v: Option<Volts>,
    /// When they were taken.
    pub at: Option<Moment>,
    /// The conditions they were taken under.
    pub conditions: Option<Conditions>,
}

coded_map!(Correction {
    0: job,
    1: readings,
    2 ? tester,
    3 ? test_voltage_v,
    4 ? at,
    5 ? conditions,
});

/// A slot was not tested.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotTested {
    /// Its job.
    pub job: JobId,
    /// The pair.
    pub pair: Pair,
    /// The stage.
    pub stage: Stage,
    /// Why.
    pub reason: NotTestedReason,
    /// Why, in words, with another reason.
    pub words: Option<String>,
    /// Who says so.
    pub person: PersonId,
    /// When.
    pub at: Moment,
    /// The readings that stood there when it was said: beside them it says that no other could be taken. Beside any
    /// other it is a second value.
    pub beside: Vec<ReadingId>,
}

coded_map!(NotTested { 0: job, 1: pair, 2: stage, 3: reason, 4 ? words, 5: person, 6: at, 7 * beside });
