//! Devices and their hub. A device tells what its logs end with, sends what the hub lacks of them, and takes page by
//! page what came from others; all of it may be repeated, and broken off anywhere.
//!
//! The hub keeps entries and nothing else, each once, in the order in which they came (`store`). What a device is told to have come
//! moves with the taking in, in one transaction. Entries travel as a bundle: the same bytes, limits and checks as a file's.

mod ask;
mod carry;
mod cursor;
mod device;
mod enrol;
mod instance;
mod line;
mod pager;
mod plan;
mod quarantine;
mod sqlite;
mod store;

pub use ask::{Ends, JobThere, JobsThere, Lacks, Page, Pull, Tell, Want, read, written};
pub use carry::{Carried, NotCarried, carry};
pub use cursor::{Cursor, Epoch, Scope};
pub use device::{Link, Pulled, take, told, wants};
pub use enrol::EnrolCode;
pub use instance::{HubError, jobs_there, keep_in_step, lacks, receive};
pub use line::{Desk, Line, NoAnswer, Synced, sync, sync_watched};
pub use pager::page;
pub use plan::Plan;
pub use quarantine::{Books, Parted, judge, packed, part};
pub use sqlite::SqliteStore;
pub use store::{Erased, Parcel, Store, StoreError, Whole};

/// The version of what is asked and answered. A hub says which it speaks.
pub const PROTOCOL: u64 = 1;

/// Bytes of entries sent in one piece, unless one stretch up to a seal is longer.
pub const PIECE_BYTES: u64 = 1 << 20;
