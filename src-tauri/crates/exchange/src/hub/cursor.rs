//! Where a device is in what came to its hub.

use provenohm_assess::ids::JobId;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Coded, Hash, Malformed, Value};
use uuid::Uuid;

/// The life of a hub's store: another one after it was lost or set back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Epoch(pub Uuid);

/// A point in the order in which entries came to a hub.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cursor {
    /// How many parcels came up to it.
    pub at: u64,
    /// Made from the hashes of everything up to it: a hub that was set back without knowing has another one there.
    pub mark: [u8; 32],
}

impl Cursor {
    /// The point behind a parcel with these entries.
    #[must_use]
    pub fn after(self, entries: impl IntoIterator<Item = Hash>) -> Self {
        let mut bytes = self.mark.to_vec();
        bytes.extend(entries.into_iter().flat_map(|hash| hash.0));
        Self { at: self.at + 1, mark: Hash::of(&[&bytes]).0 }
    }
}

/// Whose entries a device wants.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Scope {
    /// All there are: another instance over the same store.
    All,
    /// Testers and references, which everybody has.
    Register,
    /// One job.
    Job(JobId),
}

impl Scope {
    /// Whether it holds a book.
    #[must_use]
    pub fn holds(self, book: Book) -> bool {
        match self {
            Self::All => true,
            Self::Register => !matches!(book, Book::Job { .. }),
            Self::Job(job) => book == job.into(),
        }
    }
}

impl Coded for Epoch {
    fn to_value(&self) -> Value {
        self.0.to_value()
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        Coded::from_value(value).map(Self)
    }
}

/// `[at, mark]`.
impl Coded for Cursor {
    fn to_value(&self) -> Value {
        Value::Array(vec![self.at.to_value(), self.mark.to_value()])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let Value::Array(items) = value else { return Err(Malformed::Expected("a cursor")) };
        let [at, mark] = <[Value; 2]>::try_from(items).map_err(|_| Malformed::Expected("a cursor"))?;
        Ok(Self { at: Coded::from_value(at)?, mark: Coded::from_value(mark)? })
    }
}

/// `[0]`, `[1]` or `[2, job]`.
impl Coded for Scope {
    fn to_value(&self) -> Value {
        match self {
            Self::All => Value::Array(vec![Value::Int(0)]),
            Self::Register => Value::Array(vec![Value::Int(1)]),
            Self::Job(job) => Value::Array(vec![Value::Int(2), job.0.to_value()]),
        }
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let Value::Array(items) = value else { return Err(Malformed::Expected("a scope")) };
        match &items[..] {
            [Value::Int(0)] => Ok(Self::All),
            [Value::Int(1)] => Ok(Self::Register),
            [Value::Int(2), job] => Ok(Self::Job(JobId(Coded::from_value(job.clone())?))),
            _ => Err(Malformed::Expected("a scope")),
        }
    }
}
