//! Bodies about the record itself.

use crate::entry::body::Object;
use crate::entry::coded::{coded_choice, coded_enum, coded_map};
use crate::entry::{EntryRef, Hash, ObjectId, Seq};
use provenohm_assess::ids::{DeviceId, JobId, ReferenceId, TesterId};
use uuid::Uuid;

/// All logs of one job, of one tester or of one reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Book {
    /// One job's.
    Job {
        /// The job.
        job: JobId,
    },
    /// One tester's.
    Tester {
        /// The tester.
        tester: TesterId,
    },
    /// One reference's.
    Reference {
        /// The reference.
        reference: ReferenceId,
    },
}

coded_choice!(Book { 0 = Job { 0: job }, 1 = Tester { 0: tester }, 2 = Reference { 0: reference } });

impl From<JobId> for Book {
    fn from(job: JobId) -> Self {
        Self::Job { job }
    }
}

impl From<TesterId> for Book {
    fn from(tester: TesterId) -> Self {
        Self::Tester { tester }
    }
}

impl From<ReferenceId> for Book {
    fn from(reference: ReferenceId) -> Self {
        Self::Reference { reference }
    }
}

impl Book {
    /// The job, tester or reference it is the book of.
    #[must_use]
    pub fn object(self) -> Object {
        use crate::entry::Noun;
        match self {
            Self::Job { job } => Object { noun: Noun::Job, id: ObjectId(job.0) },
            Self::Tester { tester } => Object { noun: Noun::Tester, id: ObjectId(tester.0) },
            Self::Reference { reference } => Object { noun: Noun::Reference, id: ObjectId(reference.0) },
        }
    }
}

impl Book {
    /// The book of what has this id, by the number of its noun.
    #[must_use]
    pub fn numbered(noun: i64, id: Uuid) -> Self {
        use crate::entry::Noun;
        match Noun::from_number(noun) {
            Some(Noun::Job) => JobId(id).into(),
            Some(Noun::Reference) => ReferenceId(id).into(),
            _ => TesterId(id).into(),
        }
    }
}

/// Why a device opened a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OpenedWhy {
    /// It had none in this book.
    First,
    /// The record was restored or copied: its former log may have gone on elsewhere.
    Restored,
    /// Its former log was found to fork.
    Forked,
    /// The book had been removed from this device and came back.
    Returned,
}

coded_enum!(OpenedWhy { 0 = First, 1 = Restored, 2 = Forked, 3 = Returned });

/// The first entry of a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LogOpened {
    /// The book it belongs to.
    pub book: Book,
    /// The device that writes it.
    pub device: DeviceId,
    /// The device's Ed25519 public key: seals in this log verify by it.
    pub key: [u8; 32],
    /// Why it was opened.
    pub why: OpenedWhy,
    /// The last entry this device knew of its former log in this book.
    pub after: Option<EntryRef>,
}

coded_map!(LogOpened { 0: book, 1: device, 2: key, 3: why, 4 ? after });

/// A signature over the entry before it and so over all before that.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// Place of the sealed head.
    pub seq: Seq,
    /// Its hash.
    pub head: Hash,
    /// Ed25519 by the device's key over what `seal::message` makes.
    pub signature: [u8; 64],
}

coded_map!(Sealed { 0: seq, 1: head, 2: signature });

/// Takes back the entries it names as withdrawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Withdrawal {
    /// What the withdrawn entries are about.
    pub about: Vec<Object>,
}

coded_map!(Withdrawal { 0: about });

/// A person's choice between live values: keeps some, sets others aside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settlement {
    /// What the entries chosen between are about.
    pub about: Vec<Object>,
}

coded_map!(Settlement { 0: about });

/// Drops the bodies of the personal data it names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Erasure {
    /// What they are about.
    pub about: Vec<Object>,
}

coded_map!(Erasure { 0: about });

/// Reserved: a file kept outside entries that belongs to something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attachment {
    /// What it belongs to.
    pub of: Object,
    /// SHA-256 of the file.
    pub sha256: Hash,
    /// Its size in bytes.
    pub size: u64,
    /// Its media type.
    pub media_type: String,
}

coded_map!(Attachment { 0: of, 1: sha256, 2: size, 3: media_type });
