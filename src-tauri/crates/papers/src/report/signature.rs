//! What a paper says of sign-offs: whether it is what somebody signed, and if not, what came after.

use provenohm_assess::moment::Moment;
use serde::{Deserialize, Serialize};

use super::Digest;

/// A sign-off that stands, with what bears it out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Signature {
    /// Its number among the sign-offs of the job.
    pub number: u64,
    /// The name as typed.
    pub name: String,
    /// When.
    pub at: Moment,
    /// Digest of the model that was signed: that of the schedule without what it says of sign-offs.
    pub model: Digest,
    /// Entries on record after it, when this paper was made.
    pub after: u32,
    /// Readings whose tester was found failed since.
    pub in_doubt: u32,
    /// The entries that bear it out, base64: the first of its log, the sign-off, the seal over it.
    pub entries: Vec<String>,
}
