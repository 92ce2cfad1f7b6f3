//! What names a log, an entry, an object.

use super::coded::{Coded, Malformed};
use super::value::Value;
use sha2::{Digest, Sha256};
use std::fmt;
use uuid::Uuid;

/// One device's chain of entries in one book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LogId(pub Uuid);

/// Whatever an entry is about: a job, board, circuit, reading, tester, person …
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ObjectId(pub Uuid);

/// Place of an entry in its log, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Seq(pub u64);

/// A count that is greater than that of every entry its writer had seen: the order of what knew of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Lamport(pub u64);

/// SHA-256 of an entry's envelope, or of a salt and body.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hash(pub [u8; 32]);

/// Sixteen random bytes that keep a dropped body from being guessed from its hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Salt(pub [u8; 16]);

/// Names an entry: its log, its place there, and the first 8 bytes of its hash.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryRef {
    /// The log.
    pub log: LogId,
    /// The place in it.
    pub seq: Seq,
    /// Tells the two branches of a fork apart.
    pub short: [u8; 8],
}

impl Hash {
    /// What the first entry of a log has in place of its predecessor's hash.
    pub const NONE: Self = Self([0; 32]);

    /// SHA-256 of the parts, one after the other.
    #[must_use]
    pub fn of(parts: &[&[u8]]) -> Self {
        let mut sha = Sha256::new();
        for part in parts {
            sha.update(part);
        }
        Self(sha.finalize().into())
    }

    /// The first 8 bytes.
    #[must_use]
    pub fn short(&self) -> [u8; 8] {
        let mut short = [0; 8];
        short.copy_from_slice(&self.0[..8]);
        short
    }
}

impl fmt::Display for Hash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl std::str::FromStr for Hash {
    type Err = NoReference;

    /// Reads what [`fmt::Display`] wrote.
    fn from_str(text: &str) -> Result<Self, NoReference> {
        let mut hash = [0; 32];
        if text.len() != 64 || !text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')) {
            return Err(NoReference);
        }
        for (byte, at) in hash.iter_mut().zip((0..).step_by(2)) {
            let digits = text.get(at..at + 2).ok_or(NoReference)?;
            *byte = u8::from_str_radix(digits, 16).map_err(|_| NoReference)?;
        }
        Ok(Self(hash))
    }
}

impl fmt::Debug for Hash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Hash({self})")
    }
}

/// `log:seq:hash8`, for messages and file names of the trade's tools.
impl fmt::Display for EntryRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:", self.log.0, self.seq.0)?;
        self.short.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for EntryRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// Why text is no reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a reference reads log:seq:hash8")]
pub struct NoReference;

impl std::str::FromStr for EntryRef {
    type Err = NoReference;

    fn from_str(text: &str) -> Result<Self, NoReference> {
        let mut parts = text.split(':');
        let (Some(log), Some(seq), Some(hex), None) = (parts.next(), parts.next(), parts.next(), parts.next()) else {
            return Err(NoReference);
        };
        if hex.len() != 16 || !hex.is_ascii() {
            return Err(NoReference);
        }
        let mut short = [0; 8];
        for (place, byte) in short.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&hex[2 * place..2 * place + 2], 16).map_err(|_| NoReference)?;
        }
        Ok(Self {
            log: LogId(log.parse().map_err(|_| NoReference)?),
            seq: Seq(seq.parse().map_err(|_| NoReference)?),
            short,
        })
    }
}

impl Coded for Uuid {
    fn to_value(&self) -> Value {
        Value::Bytes(self.as_bytes().to_vec())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        <[u8; 16]>::from_value(value).map(Self::from_bytes)
    }
}

impl<const N: usize> Coded for [u8; N] {
    fn to_value(&self) -> Value {
        Value::Bytes(self.to_vec())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Bytes(bytes) => bytes.try_into().map_err(|_| Malformed::OutOfBounds("length of bytes")),
            _ => Err(Malformed::Expected("bytes")),
        }
    }
}

impl Coded for u64 {
    fn to_value(&self) -> Value {
        // Counters of ours stay far below 2⁶³; a larger one could not be read back and is held at the bound.
        Value::Int(i64::try_from(*self).unwrap_or(i64::MAX))
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Int(number) => number.try_into().map_err(|_| Malformed::OutOfBounds("a count")),
            _ => Err(Malformed::Expected("a count")),
        }
    }
}

macro_rules! coded_newtype {
    ($($type:ident),+) => {$(
        impl Coded for $type {
            fn to_value(&self) -> Value {
                self.0.to_value()
            }

            fn from_value(value: Value) -> Result<Self, Malformed> {
                Coded::from_value(value).map(Self)
            }
        }
    )+};
}
pub(crate) use coded_newtype;

coded_newtype!(LogId, ObjectId, Seq, Lamport, Hash, Salt);

/// `[log, seq, first 8 bytes of the hash]`.
impl Coded for EntryRef {
    fn to_value(&self) -> Value {
        Value::Array(vec![self.log.to_value(), self.seq.to_value(), self.short.to_value()])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let Value::Array(items) = value else { return Err(Malformed::Expected("a reference")) };
        let [log, seq, short] = <[Value; 3]>::try_from(items).map_err(|_| Malformed::Expected("a reference"))?;
        Ok(Self { log: LogId::from_value(log)?, seq: Seq::from_value(seq)?, short: Coded::from_value(short)? })
    }
}
