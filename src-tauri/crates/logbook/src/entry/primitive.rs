//! The small things bodies are made of.

use super::coded::{Coded, Malformed};
use super::value::Value;

impl Coded for bool {
    fn to_value(&self) -> Value {
        Value::Bool(*self)
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Bool(truth) => Ok(truth),
            _ => Err(Malformed::Expected("true or false")),
        }
    }
}

impl Coded for String {
    fn to_value(&self) -> Value {
        Value::Text(self.clone())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Text(text) => Ok(text),
            _ => Err(Malformed::Expected("text")),
        }
    }
}

macro_rules! coded_integer {
    ($($type:ty),+) => {$(
        impl Coded for $type {
            fn to_value(&self) -> Value {
                Value::Int(i64::from(*self))
            }

            fn from_value(value: Value) -> Result<Self, Malformed> {
                match value {
                    Value::Int(number) => number.try_into().map_err(|_| Malformed::OutOfBounds("a number")),
                    _ => Err(Malformed::Expected("a number")),
                }
            }
        }
    )+};
}

coded_integer!(u8, u32, i32, i64);

/// An array in the order of the list.
impl<T: Coded> Coded for Vec<T> {
    fn to_value(&self) -> Value {
        Value::Array(self.iter().map(Coded::to_value).collect())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Array(items) => items.into_iter().map(T::from_value).collect(),
            _ => Err(Malformed::Expected("a list")),
        }
    }
}

/// Bytes of any length.
#[derive(Clone, PartialEq, Eq)]
pub struct Bytes(pub Vec<u8>);

impl std::fmt::Debug for Bytes {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Bytes({} bytes)", self.0.len())
    }
}

impl Coded for Bytes {
    fn to_value(&self) -> Value {
        Value::Bytes(self.0.clone())
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Bytes(bytes) => Ok(Self(bytes)),
            _ => Err(Malformed::Expected("bytes")),
        }
    }
}
