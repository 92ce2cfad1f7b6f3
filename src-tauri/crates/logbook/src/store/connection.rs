//! Opening a record file.

use super::migration::{self, SCHEMA};
use crate::random::NoRandomness;
use rusqlite::config::DbConfig;
use rusqlite::ffi::SQLITE_IOERR_SHMSIZE;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use std::io;
use std::path::Path;
use std::time::Duration;

/// The first SQLite that cannot lose a commit in WAL mode when a checkpoint and a commit meet, 3.51.3.
pub const OLDEST_SQLITE: i32 = 3_051_003;

/// Says that a file is a record ("PvOh").
const APPLICATION: i32 = 0x5076_4f68;

/// How long one writer waits for another.
const PATIENCE: Duration = Duration::from_secs(30);

/// Why a record cannot be opened.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// SQLite is too old to be trusted with commits.
    #[error("SQLite {0} is too old: 3.51.3 or newer is needed")]
    OldSqlite(&'static str),
    /// The file is a database of something else.
    #[error("this file is no record")]
    NotARecord,
    /// A newer version has written it in a way this one cannot even read.
    #[error("this record was written by a newer version, which is needed to read it")]
    NeedsNewer,
    /// The device's identity cannot be made.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
    /// The disk is full: opening a record takes a little of it.
    #[error("the disk is full: what was recorded so far is saved")]
    DiskFull,
    /// The folder cannot be written.
    #[error("the record cannot be opened: {0}")]
    Folder(io::Error),
    /// SQLite refuses.
    #[error("the record cannot be opened: {0}")]
    Sqlite(rusqlite::Error),
}

impl From<io::Error> for OpenError {
    fn from(error: io::Error) -> Self {
        if error.kind() == io::ErrorKind::StorageFull { Self::DiskFull } else { Self::Folder(error) }
    }
}

impl From<rusqlite::Error> for OpenError {
    fn from(error: rusqlite::Error) -> Self {
        if is_full(&error) { Self::DiskFull } else { Self::Sqlite(error) }
    }
}

impl OpenError {
    /// Whether the file is not what was written: another try changes nothing.
    #[must_use]
    pub fn is_damage(&self) -> bool {
        match self {
            Self::NotARecord => true,
            Self::Sqlite(error) => is_damage(error),
            _ => false,
        }
    }
}

/// Whether SQLite says that a file's bytes are not those of its format.
pub(crate) fn is_damage(error: &rusqlite::Error) -> bool {
    matches!(error.sqlite_error_code(), Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase))
}

/// Whether SQLite says that the disk is full, be it for the file by which programs share a write-ahead log.
pub(crate) fn is_full(error: &rusqlite::Error) -> bool {
    error.sqlite_error_code() == Some(ErrorCode::DiskFull)
        || error.sqlite_error().is_some_and(|error| error.extended_code == SQLITE_IOERR_SHMSIZE)
}

/// A connection to a record.
pub(crate) struct Opened {
    pub(crate) connection: Connection,
    /// A newer version has written the file: then it is only read.
    pub(crate) newer: bool,
    /// What was found was not flushed, for want of room: it has to be before anything is added.
    pub(crate) unflushed: bool,
}

/// Opens a record file, or makes it.
pub(crate) fn open(path: &Path) -> Result<Opened, OpenError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(path, flags)?;
    prepare(connection)
}

/// Opens a record file to look at it: nothing in it is changed.
pub(crate) fn open_to_look(path: &Path) -> Result<Connection, OpenError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut connection = Connection::open_with_flags(path, flags)?;
    connection.busy_timeout(PATIENCE)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    match what_it_is(&mut connection) {
        Ok(0) => Err(OpenError::NotARecord),
        Ok(_) => Ok(connection),
        Err(error) => Err(error),
    }
}

/// A record that lives as long as the program.
pub(crate) fn in_memory() -> Result<Connection, OpenError> {
    Ok(prepare(Connection::open_in_memory()?)?.connection)
}

fn prepare(mut connection: Connection) -> Result<Opened, OpenError> {
    if rusqlite::version_number() < OLDEST_SQLITE {
        return Err(OpenError::OldSqlite(rusqlite::version()));
    }
    connection.busy_timeout(PATIENCE)?;
    let found = what_it_is(&mut connection)?;
    if found > SCHEMA {
        let readable_from: u32 =
            connection.query_row("SELECT number FROM file WHERE name = 'readable_from'", [], |row| row.get(0))?;
        if readable_from > SCHEMA {
            return Err(OpenError::NeedsNewer);
        }
        connection.pragma_update(None, "query_only", true)?;
        return Ok(Opened { connection, newer: true, unflushed: false });
    }
    set_up(&connection)?;
    // Where the disk is full it is read all the same.
    let unflushed = match flush_what_was_found(&connection) {
        Err(error) if is_full(&error) => true,
        flushed => flushed.map(|()| false)?,
    };
    migration::run(&mut connection, APPLICATION)?;
    Ok(Opened { connection, newer: false, unflushed })
}

/// Every commit is on the disk before it returns; what is dropped is overwritten.
pub(super) fn set_up(connection: &Connection) -> rusqlite::Result<()> {
    connection.pragma_update(None, "journal_mode", "wal")?;
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "secure_delete", true)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // A plan does not depend on what is bound. Otherwise many of the kept statements are planned anew at each use,
    // which takes longer than running them.
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    connection.set_prepared_statement_cache_capacity(128);
    Ok(())
}

/// Writes what is found in the write-ahead log to its place, and flushes it there. After a flush that failed, a system may
/// show bytes that its disk never got, and not try them again: a commit that was refused for it then reads as whole, and
/// whatever is appended behind it is lost with it when the power goes.
pub(crate) fn flush_what_was_found(connection: &Connection) -> rusqlite::Result<()> {
    connection.query_row("PRAGMA wal_checkpoint(PASSIVE)", [], |_| Ok(()))
}

/// The schema's version; 0 for an empty file. Looked at in one piece, as another program may be making it right now.
fn what_it_is(connection: &mut Connection) -> Result<u32, OpenError> {
    let look = connection.transaction()?;
    let empty: bool = look.query_row("SELECT count(*) = 0 FROM sqlite_schema", [], |row| row.get(0))?;
    let application: i32 = look.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let found: u32 = look.pragma_query_value(None, "user_version", |row| row.get(0))?;
    match (application, found, empty) {
        (APPLICATION, ..) | (0, 0, true) => Ok(found),
        _ => Err(OpenError::NotARecord),
    }
}
