//! The tables in a file, brought up to this version one step after the other. A step that landed is never changed.

use crate::account::AccountError;
use provenohm_api::Host;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};

type Step = fn(&Transaction<'_>, &mut Host) -> Result<(), AccountError>;

const STEPS: [Step; 6] = [names_and_hashes, people_and_roles, phones, sessions, held, tokens];

pub(super) fn bring_up(sqlite: &mut Connection, host: &mut Host) -> Result<(), AccountError> {
    let tx = sqlite.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let version: u32 = tx.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    let steps = STEPS.get(version as usize..).ok_or(AccountError::Newer)?;
    for (step, reached) in steps.iter().zip(version + 1..) {
        step(&tx, host)?;
        tx.pragma_update(None, "user_version", reached)?;
    }
    Ok(tx.commit()?)
}

/// The first version counted no steps, so its table may be there.
fn names_and_hashes(tx: &Transaction<'_>, _: &mut Host) -> Result<(), AccountError> {
    let table = "CREATE TABLE IF NOT EXISTS account (name TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL)
                 STRICT, WITHOUT ROWID;";
    Ok(tx.execute_batch(table)?)
}

/// Each account is a person with a role; whoever had one ran the office.
fn people_and_roles(tx: &Transaction<'_>, host: &mut Host) -> Result<(), AccountError> {
    tx.execute_batch(
        "ALTER TABLE account RENAME TO earlier;
         CREATE TABLE account (
             person BLOB NOT NULL PRIMARY KEY,
             name TEXT NOT NULL UNIQUE,
             role TEXT NOT NULL,
             hash TEXT
         ) STRICT, WITHOUT ROWID;
         -- The links that wait, by the hash of their code. The one of the first account has nobody yet.
         CREATE TABLE invite (
             code BLOB NOT NULL PRIMARY KEY,
             person BLOB UNIQUE REFERENCES account,
             until TEXT NOT NULL
         ) STRICT, WITHOUT ROWID;
         CREATE TABLE audit (
             number INTEGER PRIMARY KEY AUTOINCREMENT,
             at TEXT NOT NULL,
             what TEXT NOT NULL,
             who TEXT,
             about TEXT,
             role TEXT
         ) STRICT;
         CREATE TRIGGER audit_is_not_changed BEFORE UPDATE ON audit
         BEGIN SELECT RAISE(ABORT, 'a line of the audit stays as it is'); END;
         CREATE TRIGGER audit_is_not_dropped BEFORE DELETE ON audit
         BEGIN SELECT RAISE(ABORT, 'a line of the audit stays'); END;",
    )?;
    let mut earlier = tx.prepare("SELECT name, hash FROM earlier")?;
    let earlier = earlier.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect::<Result<Vec<_>, _>>()?;
    for (name, hash) in earlier {
        let (name, hash): (String, String) = (name, hash);
        let (person, sql) = (host.id()?, "INSERT INTO account (person, name, role, hash) VALUES (?1, ?2, ?3, ?4)");
        tx.execute(sql, params![person.as_bytes(), name, "office", hash])?;
    }
    Ok(tx.execute_batch("DROP TABLE earlier;")?)
}

/// The phones that are kept in step; an earlier version made their table beside the steps.
fn phones(tx: &Transaction<'_>, _: &mut Host) -> Result<(), AccountError> {
    Ok(tx.execute_batch(
        "CREATE TABLE IF NOT EXISTS phone (
             device BLOB NOT NULL PRIMARY KEY CHECK (length(device) = 16),
             name TEXT NOT NULL,
             secret BLOB NOT NULL UNIQUE CHECK (length(secret) = 32),
             enrolled TEXT NOT NULL,
             heard TEXT,
             alone INTEGER NOT NULL DEFAULT 0,
             revoked TEXT
         ) STRICT;",
    )?)
}

/// What was in memory before, so that instances over one database can share it.
fn sessions(tx: &Transaction<'_>, _: &mut Host) -> Result<(), AccountError> {
    Ok(tx.execute_batch(
        "-- By the hash of its cookie; `of` is a hash of the password's hash, so that another password ends it. Seconds.
         CREATE TABLE session (
             cookie BLOB NOT NULL PRIMARY KEY,
             person BLOB NOT NULL,
             of BLOB NOT NULL,
             heard INTEGER NOT NULL
         ) STRICT, WITHOUT ROWID;
         -- Passwords that were wrong of late, and those being tried. Seconds.
         CREATE TABLE attempt (
             id BLOB NOT NULL PRIMARY KEY,
             of BLOB NOT NULL,
             address BLOB NOT NULL,
             at INTEGER NOT NULL
         ) STRICT, WITHOUT ROWID;
         -- Codes that enrol a phone, for a quarter of an hour each. Seconds.
         CREATE TABLE enrol_code (
             code TEXT NOT NULL PRIMARY KEY,
             until INTEGER NOT NULL
         ) STRICT, WITHOUT ROWID;",
    )?)
}

/// What a revoked phone wrote beyond what the hub had.
fn held(tx: &Transaction<'_>, _: &mut Host) -> Result<(), AccountError> {
    Ok(tx.execute_batch(
        "-- Until a person accepts it.
         CREATE TABLE held (
             log BLOB NOT NULL,
             seq INTEGER NOT NULL,
             hash BLOB NOT NULL,
             device BLOB NOT NULL,
             noun INTEGER NOT NULL,
             book BLOB NOT NULL,
             entry BLOB NOT NULL,
             PRIMARY KEY (log, seq, hash)
         ) STRICT, WITHOUT ROWID;",
    )?)
}

/// For scripts.
fn tokens(tx: &Transaction<'_>, _: &mut Host) -> Result<(), AccountError> {
    Ok(tx.execute_batch(
        "CREATE TABLE token (
             id BLOB NOT NULL PRIMARY KEY,
             secret BLOB NOT NULL UNIQUE,
             name TEXT NOT NULL,
             scope TEXT NOT NULL,
             person BLOB NOT NULL REFERENCES account,
             until TEXT NOT NULL,
             used TEXT
         ) STRICT, WITHOUT ROWID;",
    )?)
}
