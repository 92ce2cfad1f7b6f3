//! A person's sign-off: who, over exactly which entries, and over what the papers made of them.

use crate::entry::coded::coded_map;
use crate::entry::{Hash, LogId, Seq};
use provenohm_assess::ids::{JobId, PersonId};

/// One end of what a sign-off covers: an entry, and all that it follows in its log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CutEnd {
    /// The log.
    pub log: LogId,
    /// Place of its last entry that is covered.
    pub seq: Seq,
    /// Hash of that entry.
    pub hash: Hash,
    /// Place of the first entry that is covered, where earlier ones were not here. What fills the gap later is not signed.
    pub from: Option<Seq>,
}

coded_map!(CutEnd { 0: log, 1: seq, 2: hash, 3 ? from });

/// A named person's statement over an exact cut of the record. What comes later never enters it, whatever its clock
/// says. It is taken back by a withdrawal with a reason, and stays on record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SignOff {
    /// The job.
    pub job: JobId,
    /// Its number among the sign-offs of the job, from 1.
    pub number: u64,
    /// Who signs.
    pub person: PersonId,
    /// The name as typed.
    pub name: String,
    /// What is covered of the books of the job and of the testers its readings rely on, in rising order.
    pub cut: Vec<CutEnd>,
    /// SHA-256 of the limit set.
    pub limit_set: Hash,
    /// Version of the rules that judged.
    pub rules: u64,
    /// Language of the report model.
    pub language: String,
    /// SHA-256 of the report model's canonical bytes, without what it says of sign-offs.
    pub model: Hash,
}

coded_map!(SignOff { 0: job, 1: number, 2: person, 3: name, 4: cut, 5: limit_set, 6: rules, 7: language, 8: model });
