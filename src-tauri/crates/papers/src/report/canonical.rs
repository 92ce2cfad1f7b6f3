//! Canonical bytes of the model and their digest.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

/// SHA-256 of canonical bytes, 64 lower-case hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct Digest(String);

impl Digest {
    /// The digest of `bytes`.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect())
    }
    /// A digest that was worked out elsewhere; nothing unless it is 64 lower-case hexadecimal digits.
    #[must_use]
    pub fn named(digits: &str) -> Option<Self> {
        let good = digits.len() == 64 && digits.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
        good.then(|| Self(digits.to_owned()))
    }
    /// All 64 digits.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
    /// The short form people compare.
    #[must_use]
    pub fn fingerprint(&self) -> Fingerprint {
        Fingerprint(self.0.as_bytes().chunks(4).take(4).map(String::from_utf8_lossy).collect::<Vec<_>>().join(" "))
    }
}

/// The first 16 digits of a digest in groups of four, for people to compare by eye or by telephone.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(transparent)]
pub struct Fingerprint(String);

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
