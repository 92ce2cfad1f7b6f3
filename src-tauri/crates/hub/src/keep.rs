//! What is done with a hub's store beside serving it: backing it up while it runs, bringing it back, moving it to another
//! engine.

use crate::account::AccountError;
use crate::base::Base;
use crate::postgres::{Database, PostgresStore};
use crate::tls::{CERTIFICATE, KEY};
use provenohm_api::Host;
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
    std::fs::create_dir_all(to).map_err(|error| NotKept::Folder(to.to_owned(), error))?;
    let (epoch, _) = from.end()?;
    // First: what waits there and is accepted meanwhile is in the entries then.
    beside(record, to)?;
    let mut copy = SqliteStore::open(&to.join(STORE), epoch)?;
    let carried = loop {
        match carry(&mut from, &mut copy, &mut |_| ControlFlow::Continue(())) {
            // The hub runs: what came meanwhile is carried too.
            Err(NotCarried::Meanwhile) => {}
            carried => break carried?,
        }
    };
    Ok(carried)
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
    std::fs::create_dir_all(record).map_err(|error| NotKept::Folder(record.to_owned(), error))?;
    let mut to = SqliteStore::open(&record.join(STORE), Epoch(Host::system().id()?))?;
    let carried = carry(&mut from, &mut to, &mut |_| ControlFlow::Continue(()))?;
    beside(backup, record)?;
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

/// Copies what lies beside the store: accounts and phones, and the key that phones know the hub by.
fn beside(from: &Path, to: &Path) -> Result<(), NotKept> {
    let (accounts, new) = (to.join(ACCOUNTS), to.join("office.sqlite.new"));
    let folder = |path: &Path| {
        let path = path.to_owned();
        move |error| NotKept::Folder(path, error)
    };
    match std::fs::remove_file(&new) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(NotKept::Folder(new, error)),
        _ => {}
    }
    Connection::open(from.join(ACCOUNTS))?.execute("VACUUM INTO ?1", [new.to_string_lossy()])?;
    // The one before stays until this one is whole.
    std::fs::rename(&new, &accounts).map_err(folder(&accounts))?;
    for name in [CERTIFICATE, KEY].into_iter().filter(|name| from.join(name).exists()) {
        // With its permissions.
        std::fs::copy(from.join(name), to.join(name)).map_err(folder(&to.join(name)))?;
    }
    Ok(())
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
