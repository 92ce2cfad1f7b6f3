//! What stands on the first page: the job, the rules it was judged by, and what needs looking at.

use chrono::FixedOffset;
use provenohm_assess::ids::{JobId, ReadingId};
use provenohm_assess::moment::Moment;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Board, Digest, Sign, Signature, Tester};

/// A schedule of insulation resistance readings of one job, as of one instant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Schedule {
    /// Language of the sentences in this model: the id of their locale (`en`).
    pub language: String,
    /// True for invented demonstration data; every page then says so.
    pub demo: bool,
    /// The last instant of the record this schedule takes into account.
    pub as_of: Moment,
    /// Offset from UTC, in minutes, of every time that is printed without one.
    pub offset_minutes: i32,
    /// The job.
    pub job: JobHead,
    /// The limit set the job is judged by.
    pub limit_set: LimitSetHead,
    /// The policies, one fact each ("Value", "simple acceptance").
    pub policies: Vec<Fact>,
    /// Version of the rules that judged.
    pub rules_version: u32,
    /// What is below, unproved, missing, reduced, not tested …: worst first.
    pub findings: Vec<Finding>,
    /// The testers, with the verifications relied on.
    pub testers: Vec<Tester>,
    /// Who confirmed that they read the cautions, and who took part and did not, as sentences.
    pub cautions_read: Vec<String>,
    /// The boards, in the order of the job.
    pub boards: Vec<Board>,
    /// Digest of what the record says that this was made from: its start is the fingerprint. None where it was a file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record: Option<Digest>,
    /// The sign-offs that stand. They are no part of what is signed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signatures: Vec<Signature>,
}

impl Schedule {
    /// Offset from UTC of every time that is printed without one.
    #[must_use]
    pub fn offset(&self) -> FixedOffset {
        FixedOffset::east_opt(self.offset_minutes.saturating_mul(60)).unwrap_or(*self.as_of.offset())
    }
}

/// The job a schedule belongs to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct JobHead {
    /// Id of the job in the record.
    pub id: JobId,
    /// Its name.
    pub name: String,
    /// Where it is, if recorded.
    pub place: Option<String>,
    /// More about it: client, order, people; one fact each.
    pub facts: Vec<Fact>,
}

/// A label and what it says, both in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Fact {
    /// What it is about.
    pub label: String,
    /// What is said.
    pub text: String,
}

/// The limit set, named so that nobody can mistake it for another edition.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LimitSetHead {
    /// Id (`iec-60364-6-2016`).
    pub id: String,
    /// Title as printed ("IEC 60364-6:2016, Table 6.1").
    pub title: String,
    /// Version of the data file.
    pub version: String,
    /// SHA-256 of the data file, 64 hexadecimal digits.
    pub sha256: String,
}

/// One kind of thing to look at, with every place where it was found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Finding {
    /// How serious.
    pub sign: Sign,
    /// One sentence with the count ("2 readings are below their limit").
    pub sentence: String,
    /// Where: one entry each. Empty where the sentence says it all.
    pub places: Vec<FindingPlace>,
}

/// One place a finding points at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FindingPlace {
    /// The board's name.
    pub board: String,
    /// The circuit's reference on the board.
    pub circuit: String,
    /// Board, circuit and pair in words ("DB-1 · 7 Sockets · L–PE").
    pub place: String,
    /// The reading, if there is one; paper then gives its number in the schedule.
    pub reading: Option<ReadingId>,
    /// Why, where that differs from place to place: a reduced test voltage, not tested, withdrawn, replaced.
    pub reason: Option<String>,
}
