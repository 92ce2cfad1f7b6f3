//! The testers a schedule relies on.

use provenohm_assess::ids::{TesterId, VerificationId};
use provenohm_assess::moment::Moment;
use serde::{Deserialize, Serialize};

use super::Sign;

/// A tester used on the job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tester {
    /// Its id in the record.
    pub id: TesterId,
    /// Short name printed on each line ("Tester A").
    pub name: String,
    /// Serial number.
    pub serial: String,
    /// Its card in words, one sentence a line: test voltages, ranges, accuracy, over-range limits.
    pub card: Vec<String>,
    /// Its worst state over the readings of this schedule, in words.
    pub state: String,
    /// How serious that state is.
    pub sign: Sign,
    /// Verifications relied on, and those that put readings in doubt, by date.
    pub verifications: Vec<Verification>,
    /// Lead checks, quick checks, damage, in words.
    pub remarks: Vec<String>,
}

/// One verification of a tester.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Verification {
    /// Its id in the record.
    pub id: VerificationId,
    /// Kind, date, who made it, certificate, valid until: one sentence.
    pub sentence: String,
    /// What it says per test voltage, one sentence each.
    pub statements: Vec<String>,
    /// When it was put on record; it can be later than the readings that rely on it.
    pub recorded_at: Moment,
    /// Who recorded it.
    pub recorded_by: String,
}
