//! The frame of every body: what it is about, which entries it names and why, and the content of its kind.
//! The frame never changes, so that a version that does not know a kind still knows what it touches.

use super::Body;
use crate::entry::coded::{coded_enum, coded_map};
use crate::entry::{Coded, EntryRef, Fields, Kind, Malformed, MapOf, ObjectId, Value};

/// Version of every kind's content as written here.
pub(crate) const CONTENT_VERSION: u64 = 1;

/// What sort of thing an object is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Noun {
    /// A job.
    Job,
    /// A board.
    Board,
    /// A circuit.
    Circuit,
    /// A reading.
    Reading,
    /// A tester.
    Tester,
    /// A verification.
    Verification,
    /// A lead check or quick check.
    Check,
    /// A damage report.
    Damage,
    /// A person.
    Person,
    /// A note.
    Note,
    /// A device.
    Device,
    /// A reference.
    Reference,
    /// A bench run.
    Bench,
    /// One thing measured at a bench.
    Measured,
}

coded_enum!(Noun {
    0 = Job,
    1 = Board,
    2 = Circuit,
    3 = Reading,
    4 = Tester,
    5 = Verification,
    6 = Check,
    7 = Damage,
    8 = Person,
    9 = Note,
    10 = Device,
    11 = Reference,
    12 = Bench,
    13 = Measured,
});

impl Noun {
    /// The noun of a number, if it is known here.
    #[must_use]
    pub fn from_number(number: i64) -> Option<Self> {
        Self::from_value(Value::Int(number)).ok()
    }

    /// Its number in the record.
    #[must_use]
    pub fn number(self) -> i64 {
        match self.to_value() {
            Value::Int(number) => number,
            _ => -1,
        }
    }
}

/// One thing an entry is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Object {
    /// What sort of thing.
    pub noun: Noun,
    /// Which.
    pub id: ObjectId,
}

coded_map!(Object { 0: noun, 1: id });

/// What naming another entry does to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// It is no longer current; this one is.
    Replaces,
    /// It is taken back: as if it had not been written, but still shown.
    Withdraws,
    /// It stays current by a person's choice.
    Keeps,
    /// It stops being current by a person's choice.
    SetsAside,
    /// Its circumstances are corrected.
    Corrects,
    /// Its correction of the same circumstances is no longer current.
    Overrules,
    /// Its body is dropped, if it is personal data.
    Erases,
}

coded_enum!(Role {
    0 = Replaces,
    1 = Withdraws,
    2 = Keeps,
    3 = SetsAside,
    4 = Corrects,
    5 = Overrules,
    6 = Erases,
});

impl Role {
    /// Its number in the record.
    #[must_use]
    pub fn number(self) -> i64 {
        match self.to_value() {
            Value::Int(number) => number,
            _ => -1,
        }
    }
}

/// Another entry, and what naming it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Naming {
    /// What it does.
    pub role: Role,
    /// To which entry.
    pub entry: EntryRef,
}

coded_map!(Naming { 0: role, 1: entry });

/// What an entry says, and the entries it names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// The content of its kind.
    pub body: Body,
    /// Entries it names, in rising order.
    pub names: Vec<Naming>,
    /// Why it says so, in the person's words. Never in an erasure the data itself.
    pub reason: Option<String>,
}

impl From<Body> for Fact {
    fn from(body: Body) -> Self {
        Self { body, names: Vec::new(), reason: None }
    }
}

impl Fact {
    /// The body with entries named under one role.
    #[must_use]
    pub fn naming(body: impl Into<Body>, role: Role, entries: impl IntoIterator<Item = EntryRef>) -> Self {
        let mut names: Vec<Naming> = entries.into_iter().map(|entry| Naming { role, entry }).collect();
        names.sort_unstable();
        names.dedup();
        Self { body: body.into(), names, reason: None }
    }

    /// The same with further entries named.
    #[must_use]
    pub fn and_naming(mut self, role: Role, entries: impl IntoIterator<Item = EntryRef>) -> Self {
        self.names.extend(entries.into_iter().map(|entry| Naming { role, entry }));
        self.names.sort_unstable();
        self.names.dedup();
        self
    }

    /// The same with the reason for it.
    #[must_use]
    pub fn because(mut self, reason: impl Into<String>) -> Self {
        self.reason = Some(reason.into());
        self
    }

    /// Entries named under `role`.
    pub fn named(&self, role: Role) -> impl Iterator<Item = EntryRef> + '_ {
        self.names.iter().filter(move |naming| naming.role == role).map(|naming| naming.entry)
    }

    /// The body's bytes.
    #[must_use]
    pub fn encode(&self) -> Vec<u8> {
        let mut frame = MapOf::default();
        frame.put(0, &self.body.objects());
        frame.put(1, &self.names);
        frame.put(2, &Content(self.body.content()));
        frame.put_if(3, &self.reason);
        frame.finish().encode()
    }

    /// Reads a body of a kind and version.
    ///
    /// # Errors
    /// [`Malformed`] if the kind, its version or a key is not known here, or the bytes are not what
    /// [`Fact::encode`] would have written. Such an entry is kept and forwarded all the same.
    pub fn decode(kind: u64, version: u64, bytes: &[u8]) -> Result<Self, Malformed> {
        let unknown = Malformed::UnknownKind { kind, version };
        let Some(kind) = Kind::from_number(kind) else { return Err(unknown) };
        if version != CONTENT_VERSION {
            return Err(unknown);
        }
        let mut frame = Fields::of(Value::decode(bytes)?)?;
        let _objects: Vec<Object> = frame.take(0)?;
        let names = frame.take(1)?;
        let Content(content) = frame.take(2)?;
        let reason = frame.take_if(3)?;
        frame.end()?;
        let fact = Self { body: Body::from_content(kind, content)?, names, reason };
        if fact.encode() == bytes { Ok(fact) } else { Err(Malformed::OutOfBounds("the order of what is listed")) }
    }
}

/// What a body is about and what it names, read from the frame alone: also of kinds not known here.
/// Nothing, where even the frame cannot be read.
#[must_use]
pub fn touched(bytes: &[u8]) -> (Vec<Object>, Vec<Naming>) {
    let read = || -> Result<_, Malformed> {
        let mut frame = Fields::of(Value::decode(bytes)?)?;
        Ok((frame.take(0)?, frame.take(1)?))
    };
    read().unwrap_or_default()
}

/// An item passed through as it is.
struct Content(Value);

impl Coded for Content {
    fn to_value(&self) -> Value {
        self.0.clone()
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        Ok(Self(value))
    }
}
