//! The head of the file: the job, its rules and its people.

use super::{Accepted, Board, NotTested, Requested, Resolved, Taken, Tester};
use provenohm_assess::ids::{JobId, PersonId};
use provenohm_assess::limits::SetName;
use provenohm_assess::moment::Moment;
use provenohm_assess::policy::Policies;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One job as it stood when the file was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobFile {
    /// Always `provenohm-job`.
    pub format: String,
    /// Version of this form of the file.
    pub version: u32,
    /// When and by what the file was made.
    pub made: Made,
    /// The job.
    pub job: Job,
    /// People named in the file.
    pub people: Vec<Person>,
    /// Who read the cautions.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions_read: Vec<CautionsRead>,
    /// Testers that the readings rely on.
    pub testers: Vec<Tester>,
    /// Boards in order.
    pub boards: Vec<Board>,
    /// Readings in the order they were recorded, those that no longer stand too.
    pub readings: Vec<Taken>,
    /// Pairs that were not tested.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_tested: Vec<NotTested>,
    /// What was said of readings that a failed tester put in doubt.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recall_resolved: Vec<Resolved>,
    /// New readings that were asked for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub requested: Vec<Requested>,
    /// What was accepted with a reason.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub accepted: Vec<Accepted>,
    /// What has two live values; a person has to choose.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub to_settle: Vec<ToSettle>,
}

/// When and by what a file was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Made {
    /// When.
    pub at: Moment,
    /// Program and version.
    pub by: String,
}

/// The job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Its id in the record it came from.
    pub id: JobId,
    /// Name.
    pub name: String,
    /// Place.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// When it was started.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub started_at: Option<Moment>,
    /// True for invented demonstration data.
    #[serde(default)]
    pub invented: bool,
    /// True when that record had made it from a job file.
    #[serde(default)]
    pub from_file: bool,
    /// The limit set it is judged by.
    pub limit_set: SetName,
    /// The bytes of that set's file, as text: their SHA-256 is the one named.
    pub limit_set_text: String,
    /// Policies.
    pub policies: Policies,
    /// Further live values of limit set and policies, where two people changed them apart.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules_also: Vec<Rules>,
    /// Something about the job needs a newer version, and none of it must be judged without.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub needs_newer_version: bool,
}

/// A limit set and policies, chosen together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Rules {
    /// The limit set.
    pub limit_set: SetName,
    /// The bytes of that set's file, as text: their SHA-256 is the one named.
    pub limit_set_text: String,
    /// Policies.
    pub policies: Policies,
    /// When that was recorded.
    pub recorded_at: Moment,
}

/// A person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// Id.
    pub id: PersonId,
    /// Name.
    pub name: String,
    /// Part in the job.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub role: String,
}

/// A person has read the cautions for this job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CautionsRead {
    /// Who.
    pub person: PersonId,
    /// Version of the cautions they read.
    pub version: u32,
    /// When.
    pub at: Moment,
}

/// Something with two live values.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ToSettle {
    /// Stable: names the facet and whose it is.
    pub facet: String,
    /// The live values, each with what settles for it.
    pub values: Vec<LiveValue>,
}

/// One of several live values.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LiveValue {
    /// Names the entry that holds it.
    pub entry: String,
    /// The value in a line.
    pub value: String,
}
