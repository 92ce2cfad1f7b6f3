//! The manifest: what a bundle says it holds, ahead of it.

use provenohm_assess::ids::DeviceId;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Coded, Entry, Fields, Hash, LogId, Malformed, MapOf, Seq, Value};
use std::collections::BTreeSet;

/// What a bundle says it holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Manifest {
    /// The book it is about: a job's. The others are what it relies on.
    pub of: Book,
    /// Every book in it, in rising order.
    pub books: Vec<Packed>,
    /// The device that packed it; nothing is judged by it.
    pub by: Option<DeviceId>,
}

/// One book in a bundle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packed {
    /// The book.
    pub book: Book,
    /// How many entries.
    pub entries: u64,
    /// Bytes of them, unpacked.
    pub unpacked: u64,
    /// Bytes of its frame in the file.
    pub packed: u64,
    /// What its logs end with, in rising order; more than one of a log where it forks or has a gap.
    pub heads: Vec<Head>,
}

/// The end of a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Head {
    /// The log.
    pub log: LogId,
    /// Place of its last entry.
    pub seq: Seq,
    /// Hash of it.
    pub hash: Hash,
}

/// Finds the heads of a book whose entries come in rising order.
#[derive(Debug, Default)]
pub(super) struct Heads(BTreeSet<Head>);

impl Heads {
    pub(super) fn meet(&mut self, entry: &Entry) {
        let envelope = entry.envelope();
        let (log, seq) = (envelope.log, envelope.seq);
        if let Some(before) = seq.0.checked_sub(1) {
            self.0.remove(&Head { log, seq: Seq(before), hash: envelope.prev });
        }
        self.0.insert(Head { log, seq, hash: entry.hash() });
    }

    pub(super) fn finish(self) -> Vec<Head> {
        self.0.into_iter().collect()
    }
}

impl Coded for Manifest {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        map.put(0, &self.of);
        map.put(1, &self.books);
        map.put_if(2, &self.by);
        map.finish()
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let mut fields = Fields::of(value)?;
        let read = Self { of: fields.take(0)?, books: fields.take(1)?, by: fields.take_if(2)? };
        fields.end()?;
        Ok(read)
    }
}

impl Coded for Packed {
    fn to_value(&self) -> Value {
        let mut map = MapOf::default();
        map.put(0, &self.book);
        map.put(1, &self.entries);
        map.put(2, &self.unpacked);
        map.put(3, &self.packed);
        map.put(4, &self.heads);
        map.finish()
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let mut fields = Fields::of(value)?;
        let read = Self {
            book: fields.take(0)?,
            entries: fields.take(1)?,
            unpacked: fields.take(2)?,
            packed: fields.take(3)?,
            heads: fields.take(4)?,
        };
        fields.end()?;
        Ok(read)
    }
}

/// `[log, seq, hash]`.
impl Coded for Head {
    fn to_value(&self) -> Value {
        Value::Array(vec![self.log.to_value(), self.seq.to_value(), self.hash.to_value()])
    }

    fn from_value(value: Value) -> Result<Self, Malformed> {
        let Value::Array(items) = value else { return Err(Malformed::Expected("a head")) };
        let [log, seq, hash] = <[Value; 3]>::try_from(items).map_err(|_| Malformed::Expected("a head"))?;
        Ok(Self { log: Coded::from_value(log)?, seq: Coded::from_value(seq)?, hash: Coded::from_value(hash)? })
    }
}
