//! Seals: Ed25519 signatures by a device's key over the head of one of its logs.

mod evidence;

pub use evidence::{BorneOut, borne_out};

use crate::entry::body::Sealed;
use crate::entry::{Coded, Hash, LogId, Seq, Value};
use crate::random::{self, NoRandomness, Randomness};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};

/// Sets these signatures apart from any other use of the key.
const PURPOSE: &str = "provenohm seal 1";

/// A log is sealed at least after this many entries.
pub const LONGEST_UNSEALED: u64 = 256;

/// A device's signing key. Made on the device; it leaves it in no file of the record.
#[derive(Clone)]
pub struct DeviceKey(SigningKey);

impl std::fmt::Debug for DeviceKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("DeviceKey(kept)")
    }
}

impl DeviceKey {
    /// A new key.
    ///
    /// # Errors
    /// [`NoRandomness`] if the source failed.
    pub fn make(random: &mut dyn Randomness) -> Result<Self, NoRandomness> {
        random::bytes(random).map(|secret| Self(SigningKey::from_bytes(&secret)))
    }

    /// The key of its secret.
    pub(crate) fn from_secret(secret: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(secret))
    }

    /// Its secret, for the device's own file.
    pub(crate) fn secret(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The public key that logs name in their first entry.
    #[must_use]
    pub fn public(&self) -> [u8; 32] {
        self.0.verifying_key().to_bytes()
    }

    /// Seals a head.
    #[must_use]
    pub fn seal(&self, log: LogId, seq: Seq, head: Hash) -> Sealed {
        Sealed { seq, head, signature: self.0.sign(&message(log, seq, head)).to_bytes() }
    }
}

/// The bytes that are signed: `["provenohm seal 1", log, seq, head hash]` in the record's CBOR.
#[must_use]
pub fn message(log: LogId, seq: Seq, head: Hash) -> Vec<u8> {
    Value::Array(vec![PURPOSE.to_owned().to_value(), log.to_value(), seq.to_value(), head.to_value()]).encode()
}

/// Whether `sealed` is a signature by `key` over that head of `log`.
#[must_use]
pub fn holds(key: &[u8; 32], log: LogId, sealed: &Sealed) -> bool {
    let message = message(log, sealed.seq, sealed.head);
    VerifyingKey::from_bytes(key)
        .is_ok_and(|key| key.verify_strict(&message, &Signature::from_bytes(&sealed.signature)).is_ok())
}
