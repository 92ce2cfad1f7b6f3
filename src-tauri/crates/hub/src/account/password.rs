//! Passwords: Argon2id hashes of them.

use super::{AccountError, Accounts, By};
use crate::audit::{Act, note};
use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher as _, PasswordVerifier as _};
use provenohm_api::PersonId;
use provenohm_logbook::random::{self, NoRandomness, Randomness};

/// Shorter passwords are refused, characters: the least that NIST SP 800-63B, 5.1.1 asks of one a person chooses.
pub(crate) const SHORTEST: usize = 8;

/// As many bytes as RFC 9106, 3.1 recommends.
const SALT: usize = 16;

/// What makes the hashes of one password differ.
pub(crate) type Salt = [u8; SALT];

pub(crate) fn salt(random: &mut dyn Randomness) -> Result<Salt, NoRandomness> {
    random::bytes(random)
}

/// What is kept of a password. Takes long on purpose.
pub(crate) fn hash(password: &str, salt: &Salt) -> Result<String, AccountError> {
    Ok(Argon2::default().hash_password_with_salt(password.as_bytes(), salt)?.to_string())
}

/// Whether a password is the one a hash was made of. Where there is none it takes as long to refuse.
pub(crate) fn is_of(password: &str, hash: Option<&str>) -> Result<bool, AccountError> {
    let Some(hash) = hash else {
        let _ = Argon2::default().hash_password_with_salt(password.as_bytes(), &[0; SALT])?;
        return Ok(false);
    };
    let hash = PasswordHash::new(hash).map_err(argon2::password_hash::Error::from)?;
    Ok(Argon2::default().verify_password(password.as_bytes(), &hash).is_ok())
}

impl Accounts {
    /// Another password in the place of the one with this hash; what was logged in by that is no longer.
    ///
    /// # Errors
    /// `no_account` if it was changed or taken away meanwhile.
    pub(crate) fn set_password(&self, person: PersonId, of: &str, hash: &str, by: By<'_>) -> Result<(), AccountError> {
        self.0.change(|tx| {
            let changed = tx.run(
                "UPDATE account SET hash = ?3 WHERE person = ?1 AND hash = ?2",
                &[person.0.as_bytes().into(), of.into(), hash.into()],
            )?;
            if changed == 0 {
                return Err(AccountError::Refused("no_account"));
            }
            note(tx, by.at, &Act::Password { who: by.who })
        })
    }
}
