//! The tables of the accounts, brought up to this version one step after the other. A step that landed is never changed.

use super::AccountError;
use provenohm_api::Host;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};

type Step = fn(&Transaction<'_>, &mut Host) -> Result<(), AccountError>;

const STEPS: [Step; 3] = [names_and_hashes, people_and_roles, phones];

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
