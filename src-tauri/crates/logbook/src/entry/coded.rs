//! How a type of ours becomes an item of the record's CBOR, and back. Written down per type, once, as a small table.

use super::value::{NotCanonical, Value};
use std::collections::BTreeMap;

/// Why an item is not what was expected there.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Malformed {
    /// Not the record's CBOR at all.
    #[error(transparent)]
    NotCanonical(#[from] NotCanonical),
    /// Another type of item.
    #[error("expected {0}")]
    Expected(&'static str),
    /// A key that must be there is not.
    #[error("key {0} is missing")]
    Missing(u64),
    /// A key this version does not know: the entry comes from a newer one.
    #[error("key {0} is not known here")]
    UnknownKey(u64),
    /// A code this version does not know: the entry comes from a newer one.
    #[error("code {code} of {of} is not known here")]
    UnknownCode {
        /// The type whose code it is.
        of: &'static str,
        /// The code.
        code: i64,
    },
    /// A kind or version of a kind this version does not know.
    #[error("kind {kind} version {version} is not known here")]
    UnknownKind {
        /// The kind's number.
        kind: u64,
        /// The version of the kind.
        version: u64,
    },
    /// A value outside what the type allows.
    #[error("{0} is out of its bounds")]
    OutOfBounds(&'static str),
}

/// A type with one form in the record's CBOR: `from_value(to_value(x)) == x`.
pub trait Coded: Sized {
    /// The item.
    fn to_value(&self) -> Value;

    /// Reads the item.
    ///
    /// # Errors
    /// [`Malformed`] for an item `to_value` would not have made.
    fn from_value(value: Value) -> Result<Self, Malformed>;
}

/// A map under construction.
#[derive(Debug, Default)]
pub struct MapOf(BTreeMap<u64, Value>);

impl MapOf {
    /// Puts `item` at `key`.
    pub fn put<T: Coded>(&mut self, key: u64, item: &T) {
        self.0.insert(key, item.to_value());
    }

    /// Adds a field that is left out where it is what it is by default.
    pub fn put_unless_usual<T: Coded + Default + PartialEq>(&mut self, key: u64, item: &T) {
        if *item != T::default() {
            self.put(key, item);
        }
    }

    /// Puts `item` at `key` if there is one.
    pub fn put_if<T: Coded>(&mut self, key: u64, item: &Option<T>) {
        if let Some(item) = item {
            self.put(key, item);
        }
    }

    /// The map, its keys in rising order.
    #[must_use]
    pub fn finish(self) -> Value {
        Value::Map(self.0.into_iter().collect())
    }
}

/// A map being read.
#[derive(Debug)]
pub struct Fields(BTreeMap<u64, Value>);

impl Fields {
    /// Starts reading a map.
    ///
    /// # Errors
    /// [`Malformed::Expected`] if it is none.
    pub fn of(value: Value) -> Result<Self, Malformed> {
        match value {
            Value::Map(pairs) => Ok(Self(pairs.into_iter().collect())),
            _ => Err(Malformed::Expected("a map")),
        }
    }

    /// Takes what must be at `key`.
    ///
    /// # Errors
    /// [`Malformed`] if it is missing or something else.
    pub fn take<T: Coded>(&mut self, key: u64) -> Result<T, Malformed> {
        T::from_value(self.0.remove(&key).ok_or(Malformed::Missing(key))?)
    }

    /// Takes what may be at `key`.
    ///
    /// # Errors
    /// [`Malformed`] if something else is there.
    pub fn take_if<T: Coded>(&mut self, key: u64) -> Result<Option<T>, Malformed> {
        self.0.remove(&key).map(T::from_value).transpose()
    }

    /// Ends reading.
    ///
    /// # Errors
    /// [`Malformed::UnknownKey`] if a key was left, which a newer version has written.
    pub fn end(self) -> Result<(), Malformed> {
        self.0.into_keys().next().map_or(Ok(()), |key| Err(Malformed::UnknownKey(key)))
    }
}

/// A struct as a map: `key: field`, `key ? field` where the field is an `Option` and may be absent, `key * field`
/// where it is a list and absent when empty, or `key ~ field` where it is absent when it is what it is by default.
macro_rules! coded_map {
    ($type:ty { $($key:literal $mode:tt $field:ident),* $(,)? }) => {
        impl $crate::entry::Coded for $type {
            fn to_value(&self) -> $crate::entry::Value {
                let Self { $($field),* } = self;
                #[allow(unused_mut)]
                let mut map = $crate::entry::MapOf::default();
                $($crate::entry::coded::coded_map!(@put map $key $mode $field);)*
                map.finish()
            }

            fn from_value(value: $crate::entry::Value) -> Result<Self, $crate::entry::Malformed> {
                #[allow(unused_mut)]
                let mut fields = $crate::entry::Fields::of(value)?;
                $(let $field = $crate::entry::coded::coded_map!(@take fields $key $mode);)*
                fields.end()?;
                Ok(Self { $($field),* })
            }
        }
    };
    (@put $map:ident $key:literal : $field:ident) => { $map.put($key, $field) };
    (@put $map:ident $key:literal ? $field:ident) => { $map.put_if($key, $field) };
    (@put $map:ident $key:literal * $field:ident) => {
        if !$field.is_empty() {
            $map.put($key, $field)
        }
    };
    (@put $map:ident $key:literal ~ $field:ident) => { $map.put_unless_usual($key, $field) };
    (@take $fields:ident $key:literal ~) => { $fields.take_if($key)?.unwrap_or_default() };
    (@take $fields:ident $key:literal *) => { $fields.take_if($key)?.unwrap_or_default() };
    (@take $fields:ident $key:literal :) => { $fields.take($key)? };
    (@take $fields:ident $key:literal ?) => { $fields.take_if($key)? };
}

/// An enum without data as its number.
macro_rules! coded_enum {
    ($type:ident { $($code:literal = $variant:ident),+ $(,)? }) => {
        impl $crate::entry::Coded for $type {
            fn to_value(&self) -> $crate::entry::Value {
                $crate::entry::Value::Int(match self { $(Self::$variant => $code),+ })
            }

            fn from_value(value: $crate::entry::Value) -> Result<Self, $crate::entry::Malformed> {
                match value {
                    $($crate::entry::Value::Int($code) => Ok(Self::$variant),)+
                    $crate::entry::Value::Int(code) => {
                        Err($crate::entry::Malformed::UnknownCode { of: stringify!($type), code })
                    }
                    _ => Err($crate::entry::Malformed::Expected("a code")),
                }
            }
        }
    };
}

/// An enum with data as `[number, map]`; `number = Variant { key: field, … }`.
macro_rules! coded_choice {
    ($type:ident { $($code:literal = $variant:ident { $($key:literal $mode:tt $field:ident),* $(,)? }),+ $(,)? }) => {
        impl $crate::entry::Coded for $type {
            fn to_value(&self) -> $crate::entry::Value {
                let (code, map): (i64, $crate::entry::MapOf) = match self {
                    $(Self::$variant { $($field),* } => {
                        #[allow(unused_mut)]
                        let mut map = $crate::entry::MapOf::default();
                        $($crate::entry::coded::coded_map!(@put map $key $mode $field);)*
                        ($code, map)
                    })+
                };
                $crate::entry::coded::choice(code, map)
            }

            fn from_value(value: $crate::entry::Value) -> Result<Self, $crate::entry::Malformed> {
                #[allow(unused_mut)]
                let (code, mut fields) = $crate::entry::coded::chosen(value)?;
                let made = match code {
                    $($code => {
                        $(let $field = $crate::entry::coded::coded_map!(@take fields $key $mode);)*
                        Self::$variant { $($field),* }
                    })+
                    code => return Err($crate::entry::Malformed::UnknownCode { of: stringify!($type), code }),
                };
                fields.end()?;
                Ok(made)
            }
        }
    };
}

/// `[number, map]`.
pub(crate) fn choice(code: i64, map: MapOf) -> Value {
    Value::Array(vec![Value::Int(code), map.finish()])
}

/// Reads `[number, map]`.
pub(crate) fn chosen(value: Value) -> Result<(i64, Fields), Malformed> {
    let Value::Array(items) = value else { return Err(Malformed::Expected("[code, map]")) };
    let [Value::Int(code), map] = <[Value; 2]>::try_from(items).map_err(|_| Malformed::Expected("[code, map]"))? else {
        return Err(Malformed::Expected("[code, map]"));
    };
    Ok((code, Fields::of(map)?))
}

pub(crate) use {coded_choice, coded_enum, coded_map};
