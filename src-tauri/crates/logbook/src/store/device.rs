//! The device: its id, its key, and the heads of its logs, in a file of its own. A copy of that file is no identity: it
//! was carried here by a backup or from another device, so this device goes on as a new one.
//!
//! If the record lacks an entry this file has seen written, the record was restored or copied: its logs may have
//! gone on elsewhere, so they are closed before anything is appended. The heads are noted after the record's own
//! commit and before it is shown as saved; a crash in between leaves this file one behind, which closes nothing.

use super::birth::Birth;
use super::connection::{OpenError, flush_what_was_found, is_full};
use crate::entry::{Hash, LogId, Seq};
use crate::random::{self, Randomness};
use crate::seal::DeviceKey;
use provenohm_assess::ids::DeviceId;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;
use uuid::Builder;

/// This device, as far as the record knows it.
#[derive(Debug)]
pub struct Device {
    id: DeviceId,
    key: DeviceKey,
    heads: Heads,
}

#[derive(Debug)]
enum Heads {
    Memory { heads: BTreeMap<LogId, (Seq, Hash)>, hub: Option<String> },
    File(Connection),
}

impl Device {
    /// A device that lives as long as the program.
    ///
    /// # Errors
    /// [`OpenError::NoRandomness`] if no key can be made.
    pub fn in_memory(random: &mut dyn Randomness) -> Result<Self, OpenError> {
        let id = DeviceId(Builder::from_random_bytes(random::bytes(random)?).into_uuid());
        Ok(Self { id, key: DeviceKey::make(random)?, heads: Heads::Memory { heads: BTreeMap::new(), hub: None } })
    }

    /// The device of a file; a new one if the file is not there, or was copied to where it is.
    ///
    /// # Errors
    /// [`OpenError`] if the file cannot be read or made.
    pub fn open(path: &Path, random: &mut dyn Randomness) -> Result<Self, OpenError> {
        let mut file = Connection::open(path)?;
        file.busy_timeout(Duration::from_secs(30))?;
        file.pragma_update(None, "journal_mode", "wal")?;
        file.pragma_update(None, "synchronous", "full")?;
        file.pragma_update(None, "secure_delete", true)?;
        match flush_what_was_found(&file) {
            // Heads that are lost with it are caught up from the record.
            Err(error) if is_full(&error) => {}
            flushed => flushed?,
        }
        let transaction = file.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute_batch(
            "CREATE TABLE IF NOT EXISTS device (
                 one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1), id BLOB NOT NULL, secret BLOB NOT NULL
             ) STRICT;
             CREATE TABLE IF NOT EXISTS head (
                 log BLOB NOT NULL PRIMARY KEY, seq INTEGER NOT NULL, hash BLOB NOT NULL
             ) STRICT, WITHOUT ROWID;
             CREATE TABLE IF NOT EXISTS hub (
                 one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1), told TEXT NOT NULL
             ) STRICT;
             CREATE TABLE IF NOT EXISTS born (
                 one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1), birth TEXT NOT NULL
             ) STRICT;",
        )?;
        forget_if_copied(&transaction, Birth::of(path)?)?;
        let known: Option<([u8; 16], [u8; 32])> = transaction
            .query_row("SELECT id, secret FROM device", [], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        let (id, key) = match known {
            Some((id, secret)) => (DeviceId(uuid::Uuid::from_bytes(id)), DeviceKey::from_secret(&secret)),
            None => {
                let id = DeviceId(Builder::from_random_bytes(random::bytes(random)?).into_uuid());
                let key = DeviceKey::make(random)?;
                transaction.execute(
                    "INSERT INTO device (one, id, secret) VALUES (1, ?1, ?2)",
                    params![id.0.as_bytes(), key.secret()],
                )?;
                (id, key)
            }
        };
        transaction.commit()?;
        // The identity is on the disk. The heads that follow may lag behind after a power cut, which closes nothing.
        file.pragma_update(None, "synchronous", "normal")?;
        Ok(Self { id, key, heads: Heads::File(file) })
    }

    /// Its id.
    #[must_use]
    pub fn id(&self) -> DeviceId {
        self.id
    }

    /// Its key.
    #[must_use]
    pub fn key(&self) -> &DeviceKey {
        &self.key
    }

    /// What it knows of the hub it is enrolled at: no backup that leaves this file out carries it.
    ///
    /// # Errors
    /// What SQLite says.
    pub fn hub(&self) -> rusqlite::Result<Option<String>> {
        match &self.heads {
            Heads::Memory { hub, .. } => Ok(hub.clone()),
            Heads::File(file) => file.query_row("SELECT told FROM hub", [], |row| row.get(0)).optional(),
        }
    }

    /// Keeps what it knows of its hub; nothing forgets it.
    pub(crate) fn keep_hub(&mut self, told: Option<&str>) -> rusqlite::Result<()> {
        match &mut self.heads {
            Heads::Memory { hub, .. } => *hub = told.map(str::to_owned),
            Heads::File(file) => {
                file.execute("DELETE FROM hub WHERE ?1 IS NULL", [told])?;
                file.execute(
                    "INSERT INTO hub (one, told) SELECT 1, ?1 WHERE ?1 IS NOT NULL
                     ON CONFLICT (one) DO UPDATE SET told = excluded.told",
                    [told],
                )?;
            }
        }
        Ok(())
    }

    /// The last entry of each log this device has seen written by itself.
    pub(crate) fn heads(&self) -> rusqlite::Result<BTreeMap<LogId, (Seq, Hash)>> {
        match &self.heads {
            Heads::Memory { heads, .. } => Ok(heads.clone()),
            Heads::File(file) => file
                .prepare_cached("SELECT log, seq, hash FROM head")?
                .query_map([], |row| {
                    let log = LogId(uuid::Uuid::from_bytes(row.get(0)?));
                    Ok((log, (Seq(super::counter(row.get(1)?)), Hash(row.get(2)?))))
                })?
                .collect(),
        }
    }

    /// Notes the last entry of a log. An earlier one than is noted changes nothing.
    pub(crate) fn note(&mut self, log: LogId, seq: Seq, hash: Hash) -> rusqlite::Result<()> {
        match &mut self.heads {
            Heads::Memory { heads, .. } => {
                let noted = heads.entry(log).or_insert((seq, hash));
                if noted.0 < seq {
                    *noted = (seq, hash);
                }
            }
            Heads::File(file) => {
                file.prepare_cached(
                    "INSERT INTO head (log, seq, hash) VALUES (?1, ?2, ?3)
                     ON CONFLICT (log) DO UPDATE SET seq = excluded.seq, hash = excluded.hash
                     WHERE excluded.seq > head.seq",
                )?
                .execute(params![log.0.as_bytes(), super::number(seq.0), hash.0])?;
            }
        }
        Ok(())
    }
}

/// Drops what a copied file says of its device. A file of before births were noted is taken to be where it was made.
fn forget_if_copied(device: &Connection, birth: Option<Birth>) -> rusqlite::Result<()> {
    let Some(birth) = birth else { return Ok(()) };
    let noted: Option<String> = device.query_row("SELECT birth FROM born", [], |row| row.get(0)).optional()?;
    if noted.as_ref() == Some(&birth.0) {
        return Ok(());
    }
    if noted.is_some() {
        device.execute_batch("DELETE FROM device; DELETE FROM head; DELETE FROM hub;")?;
    }
    device.execute(
        "INSERT INTO born (one, birth) VALUES (1, ?1) ON CONFLICT (one) DO UPDATE SET birth = ?1",
        [&birth.0],
    )?;
    Ok(())
}
