//! The phones of a hub: the codes by which they are enrolled, and what is known of each. Of a phone's secret its hash alone is
//! kept; of a code that waits all of it, since each side says a hash of it that nobody can know before.

use crate::account::{AccountError, By};
use crate::audit::{Act, note};
use crate::base::{Base, Line, Tables};
use crate::secret::{Kept, Secret};
use provenohm_api::{Host, Moment};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::hub::EnrolCode;
use provenohm_logbook::entry::Hash;
use provenohm_logbook::random;
use std::sync::Arc;
use uuid::Uuid;

/// How long a code works, s. It has 60 bits: guessing needs no limit, which a stranger could use to void them.
const LASTS: i64 = 15 * 60;

/// A phone, as it is kept.
pub(crate) struct Phone {
    /// The device's id.
    pub(crate) device: DeviceId,
    /// What its person calls it.
    pub(crate) name: String,
    /// When it was enrolled.
    pub(crate) enrolled: Moment,
    /// When it was heard last; never if it only was enrolled.
    pub(crate) heard: Option<Moment>,
    /// Entries it told of that are not here yet.
    pub(crate) alone: u64,
    /// When it was revoked.
    pub(crate) revoked: Option<Moment>,
    /// Entries it wrote beyond what was here when it was revoked, which wait to be accepted.
    pub(crate) held: u64,
}

/// The phones of one hub.
pub(crate) struct Phones(pub(crate) Arc<Base>);

impl Phones {
    /// Lets a code be used, for a while.
    pub(crate) fn give_code(&self, code: &EnrolCode, by: By<'_>) -> Result<(), AccountError> {
        let now = by.at.timestamp();
        self.0.change(|tables| {
            tables.run("DELETE FROM enrol_code WHERE until <= ?1", &[now.into()])?;
            let keep = "INSERT INTO enrol_code (code, until) VALUES (?1, ?2)";
            tables.run(keep, &[code.told().into(), (now + LASTS).into()])?;
            note(tables, by.at, &Act::PhoneCode { who: by.who })
        })
    }

    /// Uses up the code by which a phone says this.
    pub(crate) fn use_code(
        &self,
        said: Hash,
        pin: Option<[u8; 32]>,
        device: DeviceId,
        now: Moment,
    ) -> Result<Option<EnrolCode>, AccountError> {
        // Whoever says anything at all is asked about, so nothing is changed for them.
        let known = |tables: &mut dyn Tables| {
            for line in tables.lines("SELECT code FROM enrol_code WHERE until > ?1", &[now.timestamp().into()])? {
                let kept = line.text(0)?;
                let code = EnrolCode::typed(&kept).ok_or(AccountError::Unreadable)?;
                if code.by_phone(pin, device) == said {
                    return Ok(Some((code, kept)));
                }
            }
            Ok(None)
        };
        let Some((code, kept)) = self.0.ask(known)? else { return Ok(None) };
        let used =
            self.0.change(|tables| tables.run("DELETE FROM enrol_code WHERE code = ?1", &[kept.as_str().into()]))?;
        Ok((used == 1).then_some(code))
    }

    /// Keeps a phone; one that was enrolled before has another secret from now on. False if it is revoked.
    pub(crate) fn enrol(
        &self,
        device: DeviceId,
        name: &str,
        secret: &Secret,
        at: Moment,
    ) -> Result<bool, AccountError> {
        let keep = "INSERT INTO phone (device, name, secret, enrolled) VALUES (?1, ?2, ?3, ?4)
                    ON CONFLICT (device) DO UPDATE SET name = ?2, secret = ?3, enrolled = ?4 WHERE phone.revoked IS NULL";
        let cells = [device.0.as_bytes().into(), name.into(), secret.kept().bytes().into(), at.into()];
        self.0.change(|tables| {
            let is_kept = tables.run(keep, &cells)? == 1;
            if is_kept {
                note(tables, at, &Act::PhoneEnrolled { about: name })?;
            }
            Ok(is_kept)
        })
    }

    /// Whose secret this is, of those that are not revoked.
    pub(crate) fn of_secret(&self, said: &str) -> Result<Option<DeviceId>, AccountError> {
        let known = "SELECT device FROM phone WHERE secret = ?1 AND revoked IS NULL";
        self.0.ask(|tables| {
            let line = tables.line(known, &[Kept::of(said).bytes().into()])?;
            line.map(|line| Ok(DeviceId(Uuid::from_bytes(line.array(0)?)))).transpose()
        })
    }

    /// A phone was heard, and told of so many entries that are not here.
    pub(crate) fn heard(&self, device: DeviceId, at: Moment, alone: u64) -> Result<(), AccountError> {
        let alone = i64::try_from(alone).unwrap_or(i64::MAX);
        let cells = [device.0.as_bytes().into(), at.into(), alone.into()];
        self.0.change(|tables| tables.run("UPDATE phone SET heard = ?2, alone = ?3 WHERE device = ?1", &cells))?;
        Ok(())
    }

    /// Revokes a phone: its secret opens nothing from now on. False if it is not known, or was revoked.
    pub(crate) fn revoke(&self, device: DeviceId, by: By<'_>) -> Result<bool, AccountError> {
        let revoke = "UPDATE phone SET revoked = ?2 WHERE device = ?1 AND revoked IS NULL RETURNING name";
        self.0.change(|tables| {
            let line = tables.line(revoke, &[device.0.as_bytes().into(), by.at.into()])?;
            let Some(name) = line.map(|line| line.text(0)).transpose()? else { return Ok(false) };
            note(tables, by.at, &Act::PhoneRevoked { who: by.who, about: &name })?;
            Ok(true)
        })
    }

    /// All of them, by name.
    pub(crate) fn all(&self) -> Result<Vec<Phone>, AccountError> {
        let all = "SELECT device, name, enrolled, heard, alone, revoked,
                          (SELECT count(*) FROM held WHERE held.device = phone.device) FROM phone
                   ORDER BY revoked IS NOT NULL, name, device";
        self.0.ask(|tables| tables.lines(all, &[])?.iter().map(phone).collect())
    }
}

/// What a phone is called.
pub(crate) fn name_of(tables: &mut dyn Tables, device: DeviceId) -> Result<String, AccountError> {
    let line = tables.line("SELECT name FROM phone WHERE device = ?1", &[device.0.as_bytes().into()])?;
    line.ok_or(AccountError::Unreadable)?.text(0)
}

/// A new code.
pub(crate) fn enrol_code(random: &mut Host) -> Result<EnrolCode, AccountError> {
    Ok(EnrolCode::of(random::bytes(random)?))
}

fn phone(line: &Line) -> Result<Phone, AccountError> {
    Ok(Phone {
        device: DeviceId(Uuid::from_bytes(line.array(0)?)),
        name: line.text(1)?,
        enrolled: line.moment(2)?,
        heard: line.moment_if(3)?,
        alone: line.number(4)?.unsigned_abs(),
        revoked: line.moment_if(5)?,
        held: line.number(6)?.unsigned_abs(),
    })
}
