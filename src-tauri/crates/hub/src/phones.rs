//! The phones of a hub: the codes by which they are enrolled, and what is known of each. In the accounts' file, which no bundle
//! carries; of a code and of a phone's secret their hash alone.

use crate::account::AccountError;
use crate::secret::{Kept, Secret};
use provenohm_api::Host;
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::hub::EnrolCode;
use provenohm_logbook::entry::Hash;
use provenohm_logbook::random;
use rusqlite::{Connection, OptionalExtension as _, Row, params};
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use uuid::Uuid;

/// How long a code works.
const LASTS: Duration = Duration::from_secs(15 * 60);

/// A phone, as it is kept. Instants are in RFC 3339.
pub(crate) struct Phone {
    /// The device's id.
    pub(crate) device: DeviceId,
    /// What its person calls it.
    pub(crate) name: String,
    /// When it was enrolled.
    pub(crate) enrolled: String,
    /// When it was heard last; never if it only was enrolled.
    pub(crate) heard: Option<String>,
    /// Entries it told of that are not here yet.
    pub(crate) alone: u64,
    /// When it was revoked.
    pub(crate) revoked: Option<String>,
}

struct Given {
    code: EnrolCode,
    until: Instant,
}

/// The phones of one hub.
pub(crate) struct Phones {
    file: Mutex<Connection>,
    /// Of 60 bits for a quarter of an hour: guessing needs no limit, which a stranger could use to void them.
    codes: Mutex<Vec<Given>>,
}

impl Phones {
    /// Of a file that the accounts have brought up to this version.
    pub(crate) fn open(file: &Path) -> Result<Self, AccountError> {
        let phones = Connection::open(file)?;
        phones.busy_timeout(Duration::from_secs(30))?;
        phones.pragma_update(None, "synchronous", "full")?;
        Ok(Self { file: Mutex::new(phones), codes: Mutex::default() })
    }

    /// A new code.
    pub(crate) fn give_code(&self, random: &mut Host, now: Instant) -> Result<EnrolCode, AccountError> {
        let code = EnrolCode::of(random::bytes(random)?);
        let mut codes = self.codes();
        codes.retain(|given| given.until > now);
        codes.push(Given { code: code.clone(), until: now + LASTS });
        Ok(code)
    }

    /// Uses up the code by which a phone says this.
    pub(crate) fn use_code(
        &self,
        said: Hash,
        pin: Option<[u8; 32]>,
        device: DeviceId,
        now: Instant,
    ) -> Option<EnrolCode> {
        let mut codes = self.codes();
        codes.retain(|given| given.until > now);
        let at = codes.iter().position(|given| given.code.by_phone(pin, device) == said)?;
        Some(codes.remove(at).code)
    }

    /// Keeps a phone; one that was enrolled before has another secret from now on. False if it is revoked.
    pub(crate) fn enrol(&self, device: DeviceId, name: &str, secret: &Secret, at: &str) -> Result<bool, AccountError> {
        let kept = self.file().execute(
            "INSERT INTO phone (device, name, secret, enrolled) VALUES (?1, ?2, ?3, ?4)
             ON CONFLICT (device) DO UPDATE SET name = ?2, secret = ?3, enrolled = ?4 WHERE revoked IS NULL",
            params![device.0.as_bytes(), name, secret.kept().bytes(), at],
        )?;
        Ok(kept == 1)
    }

    /// Whose secret this is, of those that are not revoked.
    pub(crate) fn of_secret(&self, said: &str) -> Result<Option<DeviceId>, AccountError> {
        let kept = Kept::of(said);
        let device: Option<[u8; 16]> = self
            .file()
            .prepare_cached("SELECT device FROM phone WHERE secret = ?1 AND revoked IS NULL")?
            .query_row([kept.bytes()], |row| row.get(0))
            .optional()?;
        Ok(device.map(|id| DeviceId(Uuid::from_bytes(id))))
    }

    /// A phone was heard, and told of so many entries that are not here.
    pub(crate) fn heard(&self, device: DeviceId, at: &str, alone: u64) -> Result<(), AccountError> {
        self.file().prepare_cached("UPDATE phone SET heard = ?2, alone = ?3 WHERE device = ?1")?.execute(params![
            device.0.as_bytes(),
            at,
            i64::try_from(alone).unwrap_or(i64::MAX)
        ])?;
        Ok(())
    }

    /// Revokes a phone: its secret opens nothing from now on. Its name; nothing if it is not known, or was revoked.
    pub(crate) fn revoke(&self, device: DeviceId, at: &str) -> Result<Option<String>, AccountError> {
        let revoked = "UPDATE phone SET revoked = ?2 WHERE device = ?1 AND revoked IS NULL RETURNING name";
        let file = self.file();
        Ok(file.query_row(revoked, params![device.0.as_bytes(), at], |row| row.get(0)).optional()?)
    }

    /// All of them, by name.
    pub(crate) fn all(&self) -> Result<Vec<Phone>, AccountError> {
        let file = self.file();
        let mut all = file.prepare_cached(
            "SELECT device, name, enrolled, heard, alone, revoked FROM phone ORDER BY revoked IS NOT NULL, name, device",
        )?;
        let phone = |row: &Row<'_>| {
            Ok(Phone {
                device: DeviceId(Uuid::from_bytes(row.get(0)?)),
                name: row.get(1)?,
                enrolled: row.get(2)?,
                heard: row.get(3)?,
                alone: row.get::<_, i64>(4)?.unsigned_abs(),
                revoked: row.get(5)?,
            })
        };
        Ok(all.query_map([], phone)?.collect::<rusqlite::Result<_>>()?)
    }

    fn file(&self) -> MutexGuard<'_, Connection> {
        self.file.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn codes(&self) -> MutexGuard<'_, Vec<Given>> {
        self.codes.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
