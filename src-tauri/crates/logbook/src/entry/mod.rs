//! An entry: one immutable fact. Its envelope, its kinds and bodies, and their bytes.

pub mod body;
mod coded;
mod domain;
mod envelope;
mod ids;
mod kind;
mod primitive;
pub mod time;
mod value;

pub use body::{Body, Fact, Naming, Noun, Object, Role};
pub use coded::{Coded, Fields, Malformed, MapOf};
pub use envelope::{ENVELOPE_VERSION, Entry, Envelope, LARGEST_ENTRY, NotAnEntry};
pub use ids::{EntryRef, Hash, Lamport, LogId, NoReference, ObjectId, Salt, Seq};
pub use kind::Kind;
pub use primitive::Bytes;
pub use value::{NotCanonical, Value};
