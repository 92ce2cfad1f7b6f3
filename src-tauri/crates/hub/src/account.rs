//! Who may log in: names and Argon2id hashes of passwords, in a file beside the record that no bundle carries.

use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher as _, PasswordVerifier as _};
use provenohm_logbook::random::{self, NoRandomness, Randomness};
use rusqlite::{Connection, OptionalExtension as _, params};
use std::path::Path;
use std::sync::{Mutex, PoisonError};

/// Shorter passwords are refused, characters: the least that NIST SP 800-63B, 5.1.1 asks of one a person chooses.
pub(crate) const SHORTEST: usize = 8;

/// As many bytes as RFC 9106, 3.1 recommends.
const SALT: usize = 16;

/// Accounts cannot be read or kept.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// SQLite refuses.
    #[error("the accounts cannot be read or kept: {0}")]
    Sqlite(#[from] rusqlite::Error),
    /// A password cannot be hashed, or what is kept of one cannot be read.
    #[error("a password cannot be hashed: {0}")]
    Hash(#[from] argon2::password_hash::Error),
    /// The system gives no salt.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
}

/// The accounts of one hub.
pub(crate) struct Accounts(Mutex<Connection>);

impl Accounts {
    pub(crate) fn open(file: &Path) -> Result<Self, AccountError> {
        let accounts = Connection::open(file)?;
        accounts.pragma_update(None, "journal_mode", "wal")?;
        accounts.pragma_update(None, "synchronous", "full")?;
        accounts.pragma_update(None, "secure_delete", true)?;
        accounts.execute_batch(
            "CREATE TABLE IF NOT EXISTS account (name TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL) STRICT, WITHOUT ROWID;",
        )?;
        Ok(Self(Mutex::new(accounts)))
    }

    pub(crate) fn is_empty(&self) -> Result<bool, AccountError> {
        Ok(self.sqlite().query_row("SELECT NOT EXISTS (SELECT 1 FROM account)", [], |row| row.get(0))?)
    }

    /// Adds the first account. False if there is one already.
    pub(crate) fn add_first(
        &self,
        name: &str,
        password: &str,
        random: &mut dyn Randomness,
    ) -> Result<bool, AccountError> {
        let salt = random::bytes::<SALT>(random)?;
        let hash = Argon2::default().hash_password_with_salt(password.as_bytes(), &salt)?.to_string();
        let added = self.sqlite().execute(
            "INSERT INTO account (name, hash) SELECT ?1, ?2 WHERE NOT EXISTS (SELECT 1 FROM account)",
            params![name, hash],
        )?;
        Ok(added == 1)
    }

    /// Whether the password is that of the name. A name nobody has takes as long to refuse.
    pub(crate) fn is_password_of(&self, name: &str, password: &str) -> Result<bool, AccountError> {
        let kept: Option<String> =
            self.sqlite().query_row("SELECT hash FROM account WHERE name = ?1", [name], |row| row.get(0)).optional()?;
        let Some(kept) = kept else {
            let _ = Argon2::default().hash_password_with_salt(password.as_bytes(), &[0; SALT])?;
            return Ok(false);
        };
        let kept = PasswordHash::new(&kept).map_err(argon2::password_hash::Error::from)?;
        Ok(Argon2::default().verify_password(password.as_bytes(), &kept).is_ok())
    }

    fn sqlite(&self) -> std::sync::MutexGuard<'_, Connection> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
