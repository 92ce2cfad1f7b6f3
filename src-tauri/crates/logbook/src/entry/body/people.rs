//! Bodies about people, sameness and notes.

use crate::entry::body::Object;
use crate::entry::coded::coded_map;
use provenohm_assess::ids::{CircuitId, DeviceId, JobId, NoteId, PersonId, TesterId};
use provenohm_assess::moment::Moment;

/// A person as the record knows them. Each book that names a person holds their card, so that it can travel alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// Who.
    pub person: PersonId,
    /// Name as they write it.
    pub name: String,
    /// Role, in words; may be empty.
    pub role: String,
}

coded_map!(Person { 0: person, 1: name, 2: role });

/// Two ids mean one person. Can be withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SamePerson {
    /// One id.
    pub one: PersonId,
    /// The other.
    pub other: PersonId,
}

coded_map!(SamePerson { 0: one, 1: other });

/// Two ids mean one tester. Can be withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SameTester {
    /// One id.
    pub one: TesterId,
    /// The other.
    pub other: TesterId,
}

coded_map!(SameTester { 0: one, 1: other });

/// A person vouches for a device: that it is one of those this job is recorded on. Can be withdrawn. It counts if it was
/// written on a device that is known itself; the one the job was begun on is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DeviceKnown {
    /// The job.
    pub job: JobId,
    /// The device.
    pub device: DeviceId,
    /// Its public key, as the first entry of its log names it: another key is another device.
    pub key: [u8; 32],
}

coded_map!(DeviceKnown { 0: job, 1: device, 2: key });

/// Two ids mean one circuit, added on two devices apart: what was read on either counts for it. Can be withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SameCircuit {
    /// Their job.
    pub job: JobId,
    /// One id.
    pub one: CircuitId,
    /// The other.
    pub other: CircuitId,
}

coded_map!(SameCircuit { 0: job, 1: one, 2: other });

/// Two things that look like one are two: nobody is asked again. Can be withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Different {
    /// One.
    pub one: Object,
    /// The other, of the same sort.
    pub other: Object,
}

coded_map!(Different { 0: one, 1: other });

/// A note on something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Its id.
    pub note: NoteId,
    /// What it is on.
    pub of: Object,
    /// In words.
    pub text: String,
    /// Who noted it, where a job file says so of a note that came in with it; absent: whoever this entry is by.
    pub person: Option<PersonId>,
    /// When, likewise; absent: when this entry was recorded.
    pub at: Option<Moment>,
}

coded_map!(Note { 0: note, 1: of, 2: text, 3 ? person, 4 ? at });
