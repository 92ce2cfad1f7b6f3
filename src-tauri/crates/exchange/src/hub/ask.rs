//! What is asked of a hub, and what it answers, in the record's CBOR.

use super::cursor::{Cursor, Epoch, Scope};
use crate::bundle::Head;
use provenohm_assess::ids::JobId;
use provenohm_logbook::entry::{Bytes, Coded, Fields, LogId, Malformed, MapOf, Value};

/// A device tells what logs end with on it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tell {
    /// In rising order.
    pub heads: Vec<Head>,
}

/// The hub answers with what those of them end with there that it has not whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacks {
    /// The life its store is in.
    pub epoch: Epoch,
    /// The logs.
    pub logs: Vec<Ends>,
}

/// What a log ends with at the hub.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ends {
    /// The log.
    pub log: LogId,
    /// None where it is not there at all.
    pub heads: Vec<Head>,
}

/// A device asks for what it has not seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pull {
    /// The life of the store its cursors are of; absent the first time.
    pub epoch: Option<Epoch>,
    /// Whose entries, and from where.
    pub wants: Vec<Want>,
    /// Bytes of entries it would have at once.
    pub most: u64,
}

/// One scope, and where the device is in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Want {
    /// Whose entries.
    pub scope: Scope,
    /// Everything up to there was taken in.
    pub from: Cursor,
}

/// A page of what came.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// The life of the store.
    pub epoch: Epoch,
    /// Where the device is once it took this in; absent if its cursors are of another life, and all has to be compared.
    pub upto: Option<Vec<Want>>,
    /// Whether there is more.
    pub more: bool,
    /// A bundle; absent if nothing came.
    pub bundle: Option<Bytes>,
}

/// A job that is at the hub.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobThere {
    /// The job.
    pub job: JobId,
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub place: String,
}

/// The jobs at a hub.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct JobsThere {
    /// By name.
    pub jobs: Vec<JobThere>,
}

macro_rules! message {
    ($type:ident { $($key:literal $put:ident $take:ident $field:ident),+ }) => {
        impl Coded for $type {
            fn to_value(&self) -> Value {
                let mut map = MapOf::default();
                $(map.$put($key, &self.$field);)+
                map.finish()
            }

            fn from_value(value: Value) -> Result<Self, Malformed> {
                let mut fields = Fields::of(value)?;
                let read = Self { $($field: fields.$take($key)?),+ };
                fields.end()?;
                Ok(read)
            }
        }
    };
}

message!(Tell { 0 put take heads });
message!(Lacks { 0 put take epoch, 1 put take logs });
message!(Ends { 0 put take log, 1 put take heads });
message!(Pull { 0 put_if take_if epoch, 1 put take wants, 2 put take most });
message!(Want { 0 put take scope, 1 put take from });
message!(JobThere { 0 put take job, 1 put take name, 2 put take place });
message!(JobsThere { 0 put take jobs });
message!(Page { 0 put take epoch, 1 put_if take_if upto, 2 put take more, 3 put_if take_if bundle });

/// The bytes of a message.
#[must_use]
pub fn written<T: Coded>(message: &T) -> Vec<u8> {
    message.to_value().encode()
}

/// Reads a message.
///
/// # Errors
/// [`Malformed`] says what is wrong with it.
pub fn read<T: Coded>(bytes: &[u8]) -> Result<T, Malformed> {
    T::from_value(Value::decode(bytes)?)
}
