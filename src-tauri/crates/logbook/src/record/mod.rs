//! The record on a device: opened, read, and written through one door.

mod door;
mod forget;
mod guard;
mod hand_over;
mod inspect;
mod intake;
mod local;
mod own_log;
mod receive;
mod salvage;
mod sign_off;
mod take_in;
mod time_travel;
mod undo;

pub use door::{Appended, By, Receipt, WriteError, Writer};
pub use hand_over::{Leaving, Runs};
pub use inspect::{InspectError, Inspected};
pub use intake::Refusal;
pub use local::{WORKED_OUT, of_book};
pub use receive::{ReceiveError, Received};
pub use salvage::{Salvaged, set_aside};
pub use take_in::{Fate, Sum, TakeInError, Taken, Taking};
pub use undo::Undone;

use crate::project;
use crate::random::Randomness;
use crate::store::device::Device;
use crate::store::{self, OpenError};
use crate::view::{ReadError, View};
use rusqlite::{Connection, TransactionBehavior};
use std::fs::File;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;

/// Where a record is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The record's file. Backups may carry it.
    pub record: PathBuf,
    /// The device's own file. By it a restored or copied record is noticed, and by its birth a copy of itself.
    pub device: PathBuf,
}

/// A record.
#[derive(Debug)]
pub struct Record {
    connection: Connection,
    device: Device,
    newer: bool,
    /// What was found at opening has still to be flushed.
    unflushed: AtomicBool,
}

impl Record {
    /// Opens the record of a place, or makes it. Logs that may have gone on elsewhere are closed here.
    ///
    /// # Errors
    /// [`OpenError`] in words.
    pub fn open(place: &Place, random: &mut dyn Randomness) -> Result<Self, OpenError> {
        // One program at a time makes the files: SQLite refuses, without waiting, a second one that changes a new
        // file to write-ahead logging. The lock ends when the file is closed, however that comes about.
        let opening = File::create(place.device.with_extension("lock"))?;
        opening.lock()?;
        let device = Device::open(&place.device, random)?;
        // Heads are read before the record: another program may append in between, which must not look like a loss.
        let heads = device.heads()?;
        let store::Opened { connection, newer, unflushed } = store::open(&place.record)?;
        let mut record = Self { connection, device, newer, unflushed: unflushed.into() };
        if !newer {
            record.guard(&heads)?;
            record.project_anew_if_needed()?;
        }
        Ok(record)
    }

    /// A record that lives as long as the program, on a device of its own.
    ///
    /// # Errors
    /// [`OpenError`] in words.
    pub fn in_memory(random: &mut dyn Randomness) -> Result<Self, OpenError> {
        let (connection, device) = (store::in_memory()?, Device::in_memory(random)?);
        let mut record = Self { connection, device, newer: false, unflushed: false.into() };
        record.project_anew_if_needed()?;
        Ok(record)
    }

    /// Whether a newer version has written this record: it is read here, not changed.
    #[must_use]
    pub fn is_read_only(&self) -> bool {
        self.newer
    }

    /// This device.
    #[must_use]
    pub fn device(&self) -> &Device {
        &self.device
    }

    /// Keeps in the device's own file what it knows of the hub it is enrolled at; nothing forgets it.
    ///
    /// # Errors
    /// [`WriteError`] in words.
    pub fn keep_hub(&mut self, told: Option<&str>) -> Result<(), WriteError> {
        Ok(self.device.keep_hub(told)?)
    }

    /// What the record says now.
    #[must_use]
    pub fn view(&self) -> View<'_> {
        View::new(&self.connection)
    }

    /// A number that changes when another program writes to this record: what was worked out before is then out of date.
    ///
    /// # Errors
    /// [`ReadError`] in words.
    pub fn written_elsewhere(&self) -> Result<i64, ReadError> {
        let mut version = self.connection.prepare_cached("PRAGMA data_version")?;
        Ok(version.query_row([], |row| row.get(0))?)
    }

    /// Reads several things of one and the same moment, whatever another program appends meanwhile.
    ///
    /// # Errors
    /// Whatever `read` returns, or what SQLite says.
    pub fn at_once<T, E: From<ReadError>>(&self, read: impl FnOnce(View<'_>) -> Result<T, E>) -> Result<T, E> {
        let transaction = self.connection.unchecked_transaction().map_err(ReadError::from)?;
        read(View::new(&transaction))
    }

    /// Makes the projected tables anew from the entries.
    ///
    /// # Errors
    /// What SQLite says.
    pub fn rebuild(&mut self) -> rusqlite::Result<()> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        project::rebuild(&transaction)?;
        transaction.commit()
    }

    /// Every row of the projected tables as text: equal for equal sets of entries.
    ///
    /// # Errors
    /// What SQLite says.
    pub fn projection(&self) -> rusqlite::Result<String> {
        project::dump(&self.connection)
    }

    fn project_anew_if_needed(&mut self) -> rusqlite::Result<()> {
        let found: i64 =
            self.connection.query_row("SELECT number FROM file WHERE name = 'projection'", [], |row| row.get(0))?;
        if found == project::VERSION { Ok(()) } else { self.rebuild() }
    }
}
