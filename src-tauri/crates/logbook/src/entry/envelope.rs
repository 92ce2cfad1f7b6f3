//! The envelope: what every entry has, whatever its kind. Its bytes are what is hashed, chained and sent.

use super::coded::{Coded, Malformed, coded_map};
use super::ids::{EntryRef, Hash, Lamport, LogId, Salt, Seq};
use super::value::Value;
use provenohm_assess::ids::PersonId;
use provenohm_assess::moment::Moment;

/// Version of the envelope written here. Others are refused: what cannot be read cannot be chained.
pub const ENVELOPE_VERSION: u64 = 1;

/// Bytes of the largest entry, as it is sent: none larger is written, so that what is recorded can be handed on.
pub const LARGEST_ENTRY: usize = 1 << 20;

/// Bytes around envelope and body when an entry is sent, at most.
const AROUND: usize = 40;

/// Counters above this are refused, so that one hostile entry cannot end all counting.
const HIGHEST_COUNT: u64 = 1 << 60;

/// What every entry has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Envelope {
    /// Always [`ENVELOPE_VERSION`].
    pub version: u64,
    /// The log it stands in.
    pub log: LogId,
    /// Its place there.
    pub seq: Seq,
    /// Hash of the entry before it; [`Hash::NONE`] for the first.
    pub prev: Hash,
    /// Number of its kind; kinds not known here are kept all the same.
    pub kind: u64,
    /// Version of its kind.
    pub kind_version: u64,
    /// Whether what it touches must not be judged by a version that cannot read it.
    pub critical: bool,
    /// Greater than the counter of every entry its writer had seen.
    pub lamport: Lamport,
    /// The writer's clock and offset.
    pub recorded: Moment,
    /// Who recorded it; absent for what a device does by itself.
    pub person: Option<PersonId>,
    /// SHA-256 of salt and body.
    pub body_hash: Hash,
}

coded_map!(Envelope {
    0: version,
    1: log,
    2: seq,
    3: prev,
    4: kind,
    5: kind_version,
    6: critical,
    7: lamport,
    8: recorded,
    9 ? person,
    10: body_hash,
});

/// An entry: the bytes that are stored, hashed and sent, and the envelope read from them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    envelope: Envelope,
    envelope_bytes: Vec<u8>,
    hash: Hash,
    body: Option<(Salt, Vec<u8>)>,
}

/// Why bytes are not an entry.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAnEntry {
    /// The envelope cannot be read.
    #[error("the envelope cannot be read: {0}")]
    Envelope(#[from] Malformed),
    /// The envelope has a version this program does not know.
    #[error("the envelope has version {0}, this program reads version {ENVELOPE_VERSION}")]
    Version(u64),
    /// A counter beyond all use, or a first entry with a predecessor, or a later one without.
    #[error("the envelope contradicts itself")]
    Contradiction,
    /// The body is not the one the envelope was made for.
    #[error("the body is not the one this entry was written with")]
    BodyAltered,
}

impl Entry {
    /// An entry from its envelope and body; the body's hash is put into the envelope.
    #[must_use]
    pub fn new(mut envelope: Envelope, salt: Salt, body: Vec<u8>) -> Self {
        envelope.body_hash = body_hash(&salt, &body);
        let envelope_bytes = envelope.to_value().encode();
        let hash = Hash::of(&[&envelope_bytes]);
        Self { envelope, envelope_bytes, hash, body: Some((salt, body)) }
    }

    /// An entry from the bytes it is stored or sent as; without a body if that was erased.
    ///
    /// # Errors
    /// [`NotAnEntry`] says what is wrong with them.
    pub fn from_parts(envelope_bytes: Vec<u8>, body: Option<(Salt, Vec<u8>)>) -> Result<Self, NotAnEntry> {
        let envelope = Envelope::from_value(Value::decode(&envelope_bytes).map_err(Malformed::from)?)?;
        if envelope.version != ENVELOPE_VERSION {
            return Err(NotAnEntry::Version(envelope.version));
        }
        let first = envelope.seq.0 == 0;
        if envelope.seq.0 > HIGHEST_COUNT
            || envelope.lamport.0 > HIGHEST_COUNT
            || first != (envelope.prev == Hash::NONE)
        {
            return Err(NotAnEntry::Contradiction);
        }
        if let Some((salt, bytes)) = &body
            && body_hash(salt, bytes) != envelope.body_hash
        {
            return Err(NotAnEntry::BodyAltered);
        }
        let hash = Hash::of(&[&envelope_bytes]);
        Ok(Self { envelope, envelope_bytes, hash, body })
    }

    /// Whether it is too large to be sent.
    #[must_use]
    pub fn is_too_large(&self) -> bool {
        let body = self.body.as_ref().map_or(0, |(_, bytes)| bytes.len());
        self.envelope_bytes.len() + body + AROUND > LARGEST_ENTRY
    }

    /// The bytes it is sent as: `[envelope, salt, body]`, or `[envelope]` once erased.
    #[must_use]
    pub fn to_wire(&self) -> Vec<u8> {
        let mut items = vec![Value::Bytes(self.envelope_bytes.clone())];
        if let Some((salt, body)) = &self.body {
            items.push(salt.to_value());
            items.push(Value::Bytes(body.clone()));
        }
        Value::Array(items).encode()
    }

    /// Reads what [`Entry::to_wire`] wrote.
    ///
    /// # Errors
    /// [`NotAnEntry`] says what is wrong with the bytes.
    pub fn from_wire(bytes: &[u8]) -> Result<Self, NotAnEntry> {
        let Value::Array(items) = Value::decode(bytes).map_err(Malformed::from)? else {
            return Err(Malformed::Expected("an entry").into());
        };
        let mut items = items.into_iter();
        match (items.next(), items.next(), items.next(), items.next()) {
            (Some(Value::Bytes(envelope)), None, None, None) => Self::from_parts(envelope, None),
            (Some(Value::Bytes(envelope)), Some(salt), Some(Value::Bytes(body)), None) => {
                Self::from_parts(envelope, Some((Salt::from_value(salt)?, body)))
            }
            _ => Err(Malformed::Expected("an entry").into()),
        }
    }

    /// The entry without its body, as an erasure leaves it. Its hash and place in the chain stay.
    #[must_use]
    pub fn erased(self) -> Self {
        Self { body: None, ..self }
    }

    /// What it has in common with every entry.
    #[must_use]
    pub fn envelope(&self) -> &Envelope {
        &self.envelope
    }

    /// The envelope's bytes.
    #[must_use]
    pub fn envelope_bytes(&self) -> &[u8] {
        &self.envelope_bytes
    }

    /// Hash of the envelope.
    #[must_use]
    pub fn hash(&self) -> Hash {
        self.hash
    }

    /// Salt and body; absent once erased.
    #[must_use]
    pub fn body(&self) -> Option<(&Salt, &[u8])> {
        self.body.as_ref().map(|(salt, body)| (salt, body.as_slice()))
    }

    /// The name others use for it.
    #[must_use]
    pub fn reference(&self) -> EntryRef {
        EntryRef { log: self.envelope.log, seq: self.envelope.seq, short: self.hash.short() }
    }
}

fn body_hash(salt: &Salt, body: &[u8]) -> Hash {
    Hash::of(&[&salt.0, body])
}
