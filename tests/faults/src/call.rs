//! What SQLite asks of a disk, and how that goes wrong.

use rusqlite::ffi;
use std::ffi::c_int;

/// What SQLite asks of a disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Call {
    /// A file is opened, and made where there is none.
    Open,
    /// Bytes are read.
    Read,
    /// Bytes are written.
    Write,
    /// What was written is flushed.
    Sync,
    /// A file is cut.
    Truncate,
    /// A file is deleted.
    Delete,
    /// Memory is shared with other programs, in a file.
    Map,
}

impl Call {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Open, Self::Read, Self::Write, Self::Sync, Self::Truncate, Self::Delete, Self::Map];

    pub(crate) fn error(self) -> c_int {
        match self {
            Self::Open => ffi::SQLITE_CANTOPEN,
            Self::Read => ffi::SQLITE_IOERR_READ,
            Self::Write => ffi::SQLITE_IOERR_WRITE,
            Self::Sync => ffi::SQLITE_IOERR_FSYNC,
            Self::Truncate => ffi::SQLITE_IOERR_TRUNCATE,
            Self::Delete => ffi::SQLITE_IOERR_DELETE,
            Self::Map => ffi::SQLITE_IOERR_SHMMAP,
        }
    }

    /// Whether it leaves something that a cut of the power could undo or tear.
    pub(crate) fn changes(self) -> bool {
        !matches!(self, Self::Read | Self::Map)
    }
}

/// How a call goes wrong. Whoever asked is told in every case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// Nothing is done.
    Once,
    /// Half of it is done.
    Half,
    /// Nothing is done, nor of any later call of its kind, until the disk is mended.
    Onwards,
}

/// What a call meets.
pub(crate) enum Met {
    Nothing,
    Half,
    Refused,
    PowerCut,
}
