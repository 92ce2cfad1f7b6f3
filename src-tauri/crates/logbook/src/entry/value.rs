//! The one shape of CBOR the record uses: integers, bytes, text, booleans, arrays, and maps with integer keys.
//!
//! Deterministic as RFC 8949 §4.2.1 asks: shortest forms, definite lengths, keys in rising order, no key twice.
//! No floats, no tags, no nulls: an absent thing is an absent key.

use minicbor::data::Type;
use minicbor::{Decoder, Encoder};
use std::convert::Infallible;

/// Arrays and maps inside each other, at most. Bodies of today reach 9.
const DEEPEST: usize = 24;

/// One item of the record's CBOR.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// An integer from −2⁶³ to 2⁶³ − 1.
    Int(i64),
    /// A byte string.
    Bytes(Vec<u8>),
    /// A text string.
    Text(String),
    /// A boolean.
    Bool(bool),
    /// An array.
    Array(Vec<Value>),
    /// A map with integer keys, in rising order.
    Map(Vec<(u64, Value)>),
}

/// Why bytes are not an item of the record's CBOR.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotCanonical {
    /// The bytes end early, hold a type that is not used here, or text that is not UTF-8.
    #[error("the bytes are no CBOR of the record: {0}")]
    Syntax(String),
    /// The same content has a shorter or otherwise prescribed form.
    #[error("the bytes are not in the one prescribed form")]
    Form,
    /// Bytes follow the item.
    #[error("bytes follow the item")]
    Trailing,
    /// Nested deeper than the record allows.
    #[error("nested deeper than {DEEPEST}")]
    TooDeep,
}

impl Value {
    /// The item's bytes; equal items have equal bytes.
    #[must_use]
    pub fn encode(&self) -> Vec<u8> {
        let mut encoder = Encoder::new(Vec::new());
        // Writing to memory cannot fail: the error type has no value.
        let written: Result<(), minicbor::encode::Error<Infallible>> = self.write(&mut encoder);
        debug_assert!(written.is_ok());
        encoder.into_writer()
    }

    fn write(&self, to: &mut Encoder<Vec<u8>>) -> Result<(), minicbor::encode::Error<Infallible>> {
        match self {
            Self::Int(number) => to.i64(*number)?.ok(),
            Self::Bytes(bytes) => to.bytes(bytes)?.ok(),
            Self::Text(text) => to.str(text)?.ok(),
            Self::Bool(truth) => to.bool(*truth)?.ok(),
            Self::Array(items) => {
                to.array(items.len() as u64)?;
                items.iter().try_for_each(|item| item.write(to))
            }
            Self::Map(pairs) => {
                to.map(pairs.len() as u64)?;
                pairs.iter().try_for_each(|(key, item)| {
                    to.u64(*key)?;
                    item.write(to)
                })
            }
        }
    }

    /// Reads exactly one item that fills `bytes`.
    ///
    /// # Errors
    /// [`NotCanonical`] for anything [`Value::encode`] would not have written.
    pub fn decode(bytes: &[u8]) -> Result<Self, NotCanonical> {
        let mut decoder = Decoder::new(bytes);
        let value = Self::read(&mut decoder, 0)?;
        if decoder.position() != bytes.len() {
            return Err(NotCanonical::Trailing);
        }
        // Longer integer forms and unordered or repeated keys are read above and found out here.
        if value.encode() != bytes || !value.keys_rise() {
            return Err(NotCanonical::Form);
        }
        Ok(value)
    }

    fn read(from: &mut Decoder<'_>, depth: usize) -> Result<Self, NotCanonical> {
        if depth > DEEPEST {
            return Err(NotCanonical::TooDeep);
        }
        let syntax = |error: minicbor::decode::Error| NotCanonical::Syntax(error.to_string());
        Ok(match from.datatype().map_err(syntax)? {
            Type::U8 | Type::U16 | Type::U32 | Type::U64 | Type::I8 | Type::I16 | Type::I32 | Type::I64 => {
                Self::Int(from.i64().map_err(syntax)?)
            }
            Type::Bytes => Self::Bytes(from.bytes().map_err(syntax)?.to_vec()),
            Type::String => Self::Text(from.str().map_err(syntax)?.to_owned()),
            Type::Bool => Self::Bool(from.bool().map_err(syntax)?),
            Type::Array => {
                let count = from.array().map_err(syntax)?.unwrap_or_default();
                // No room is set aside by what the bytes claim: a lying count ends with the bytes.
                let mut items = Vec::new();
                for _ in 0..count {
                    items.push(Self::read(from, depth + 1)?);
                }
                Self::Array(items)
            }
            Type::Map => {
                let count = from.map().map_err(syntax)?.unwrap_or_default();
                let mut pairs = Vec::new();
                for _ in 0..count {
                    let key = from.u64().map_err(syntax)?;
                    pairs.push((key, Self::read(from, depth + 1)?));
                }
                Self::Map(pairs)
            }
            other => return Err(NotCanonical::Syntax(format!("type {other} is not used"))),
        })
    }

    fn keys_rise(&self) -> bool {
        match self {
            Self::Array(items) => items.iter().all(Self::keys_rise),
            Self::Map(pairs) => {
                pairs.windows(2).all(|two| two[0].0 < two[1].0) && pairs.iter().all(|(_, item)| item.keys_rise())
            }
            _ => true,
        }
    }
}
