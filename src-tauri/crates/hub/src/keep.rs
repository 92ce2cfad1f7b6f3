//! What is done with a hub's store beside serving it: backing it up while it runs, bringing it back, moving it to another
//! engine.

use crate::account::AccountError;
use crate::base::Base;
use crate::postgres::{Database, PostgresStore};
use crate::tls::{CERTIFICATE, KEY};
use provenohm_api::{Api, Host};
use provenohm_exchange::hub::{Carried, Epoch, NotCarried, SqliteStore, Store, StoreError, carry};
use provenohm_logbook::random::NoRandomness;
use rusqlite::Connection;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use tokio::runtime::Handle;

/// The store of a record's folder, and the accounts and phones beside it.
pub(crate) const STORE: &str = "entries.sqlite";
pub(crate) const ACCOUNTS: &str = "office.sqlite";

/// Why a store was not backed up, brought back or moved.
#[derive(Debug, thiserror::Error)]
pub enum NotKept {
    /// There is no hub in that folder.
    #[error("there is no hub in {0}")]
    NoHub(PathBuf),
    /// There is no hub in that database.
    #[error("there is no hub in that database")]
    NoneInDatabase,
    /// There is one already where it should go.
    #[error("there is a hub in {0} already")]
    Occupied(PathBuf),
    /// A folder cannot be made.
    #[error("{0}: {1}")]
    Folder(PathBuf, std::io::Error),
    /// Accounts cannot be copied.
    #[error("the accounts cannot be copied: {0}")]
    Copied(#[from] rusqlite::Error),
    /// Accounts cannot be carried.
    #[error(transparent)]
    Accounts(#[from] AccountError),
    /// Entries were not carried.
    #[error(transparent)]
    NotCarried(#[from] NotCarried),
    /// A store cannot be opened.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The system gives no random bytes.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
}

/// Backs up the hub of a folder into another, which may hold an earlier backup of it. The hub may run meanwhile; afterwards
/// heads, counts and the digest over all entries are looked at in both.
///
/// # Errors
/// [`NotKept`].
pub fn back_up(record: &Path, to: &Path) -> Result<Carried, NotKept> {
    let mut from = open_store_of(record)?;
    let mut copy = copy_of(&mut from, to)?;
    // First: what waits there and is accepted meanwhile is in the entries then.
    accounts(record, to)?;
    key(record, to)?;
    entries(&mut from, &mut copy)
}

/// The same of a hub in a database, into the same folder: what several instances share, and the key that phones know it by
/// from the folder of one of them.
///
/// # Errors
/// [`NotKept`].
pub fn back_up_database(url: &str, instance: Option<&Path>, to: &Path, runtime: Handle) -> Result<Carried, NotKept> {
    let database = Database::of(url, runtime)?;
    let mut from = PostgresStore::there(database.clone())?.ok_or(NotKept::NoneInDatabase)?;
    if from.is_closed()? {
        return Err(StoreError::Closed.into());
    }
    if let Some(instance) = instance.filter(|instance| !Api::is_record(instance)) {
        return Err(NotKept::NoHub(instance.to_owned()));
    }
    let mut copy = copy_of(&mut from, to)?;
    let made = tempfile::tempdir_in(to).map_err(not_in(to))?;
    Base::in_database(database)?.copy(&Base::in_file(&made.path().join(ACCOUNTS), &mut Host::system())?)?;
    accounts(made.path(), to)?;
    if let Some(instance) = instance {
        key(instance, to)?;
    }
    entries(&mut from, &mut copy)
}

/// The copy of a store in a folder, a new one or an earlier backup of the same. Asked before anything there is replaced: a backup
/// of another hub is left alone.
fn copy_of(from: &mut dyn Store, to: &Path) -> Result<SqliteStore, NotKept> {
    std::fs::create_dir_all(to).map_err(not_in(to))?;
    let (epoch, _) = from.end()?;
    let mut copy = SqliteStore::open(&to.join(STORE), epoch)?;
    let (_, at) = copy.end()?;
    if from.knows(at)? { Ok(copy) } else { Err(NotCarried::Other.into()) }
}

/// Copies the entries, behind what an earlier backup has of them.
fn entries(from: &mut dyn Store, copy: &mut SqliteStore) -> Result<Carried, NotKept> {
    loop {
        match carry(from, copy, &mut |_| ControlFlow::Continue(())) {
            // The hub runs: what came meanwhile is carried too.
            Err(NotCarried::Meanwhile) => {}
            carried => return Ok(carried?),
        }
    }
}

/// Brings a backup back into a folder that holds no hub. It is in a new life then, so that devices compare what they have
/// with it and fill it up.
///
/// # Errors
/// [`NotKept`].
pub fn restore(backup: &Path, record: &Path) -> Result<Carried, NotKept> {
    let mut from = open_store_of(backup)?;
    if record.join(STORE).exists() || record.join(ACCOUNTS).exists() {
        return Err(NotKept::Occupied(record.to_owned()));
    }
    std::fs::create_dir_all(record).map_err(not_in(record))?;
    let mut to = SqliteStore::open(&record.join(STORE), Epoch(Host::system().id()?))?;
    let carried = carry(&mut from, &mut to, &mut |_| ControlFlow::Continue(()))?;
    accounts(backup, record)?;
    key(backup, record)?;
    // Of an earlier version it is brought up; whoever was logged in when it was backed up is not any more.
    Base::in_file(&record.join(ACCOUNTS), &mut Host::system())?.forget_sessions()?;
    Ok(carried)
}

/// Moves a hub from its folder into PostgreSQL: entries, accounts, phones and what was done about them. Stopped, it goes on
/// where it was; at the end the old store takes nothing more.
///
/// # Errors
/// [`NotKept`].
pub fn move_to(record: &Path, url: &str, runtime: Handle) -> Result<Carried, NotKept> {
    let mut from = store_of(record)?;
    let (epoch, _) = from.end()?;
    let database = Database::of(url, runtime)?;
    let mut to = PostgresStore::within(database.clone(), epoch)?;
    // First: what came between the last look and this would be in the old one alone.
    carry(&mut from, &mut to, &mut |_| ControlFlow::Continue(())).or_else(|error| match error {
        NotCarried::Meanwhile => Ok(Carried::default()),
        other => Err(other),
    })?;
    from.close()?;
    let carried = carry(&mut from, &mut to, &mut |_| ControlFlow::Continue(()))?;
    let accounts = Base::in_file(&record.join(ACCOUNTS), &mut Host::system())?;
    accounts.carry(&Base::in_database(database)?)?;
    Ok(carried)
}

/// Copies accounts and phones.
fn accounts(from: &Path, to: &Path) -> Result<(), NotKept> {
    let (accounts, new) = (to.join(ACCOUNTS), to.join("office.sqlite.new"));
    match std::fs::remove_file(&new) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(NotKept::Folder(new, error)),
        _ => {}
    }
    Connection::open(from.join(ACCOUNTS))?.execute("VACUUM INTO ?1", [new.to_string_lossy()])?;
    // The one before stays until this one is whole.
    std::fs::rename(&new, &accounts).map_err(not_in(&accounts))
}

/// Copies the key that phones know the hub by, where it has one of its own.
fn key(from: &Path, to: &Path) -> Result<(), NotKept> {
    for name in [CERTIFICATE, KEY].into_iter().filter(|name| from.join(name).exists()) {
        // With its permissions.
        std::fs::copy(from.join(name), to.join(name)).map_err(not_in(&to.join(name)))?;
    }
    Ok(())
}

fn not_in(path: &Path) -> impl FnOnce(std::io::Error) -> NotKept + use<> {
    let path = path.to_owned();
    move |error| NotKept::Folder(path, error)
}

/// One that was not moved: what it holds would be of the day it was.
fn open_store_of(folder: &Path) -> Result<SqliteStore, NotKept> {
    let mut store = store_of(folder)?;
    if store.is_closed()? { Err(StoreError::Closed.into()) } else { Ok(store) }
}

fn store_of(folder: &Path) -> Result<SqliteStore, NotKept> {
    let file = folder.join(STORE);
    if !file.is_file() {
        return Err(NotKept::NoHub(folder.to_owned()));
    }
    // It is there, so the new life is not used.
    Ok(SqliteStore::open(&file, Epoch(Host::system().id()?))?)
}
