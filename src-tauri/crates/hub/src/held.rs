//! What revoked phones wrote beyond what the hub had: kept aside, and taken in once somebody of the office accepts it.

use crate::Office;
use crate::account::AccountError;
use crate::phones::Phones;
use crate::refused::Refused;
use axum::http::StatusCode;
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, Head};
use provenohm_exchange::hub::{Books, HubError, Tell, packed, part, receive};
use provenohm_exchange::join::Joined;
use provenohm_logbook::entry::Entry;
use provenohm_logbook::entry::body::Book;
use std::collections::BTreeSet;
use uuid::Uuid;

/// What may wait of one phone, bytes: far more than a season's work.
const MOST: i64 = 256 << 20;

impl Phones {
    /// The phones that are revoked.
    fn revoked(&self) -> Result<BTreeSet<DeviceId>, AccountError> {
        let revoked = "SELECT device FROM phone WHERE revoked IS NOT NULL";
        self.0.ask(|tables| {
            let lines = tables.lines(revoked, &[])?;
            lines.iter().map(|line| Ok(DeviceId(Uuid::from_bytes(line.array(0)?)))).collect()
        })
    }

    /// Keeps it aside; what is kept already is not kept twice.
    ///
    /// # Errors
    /// `held_full`.
    fn hold(&self, device: DeviceId, books: &Books) -> Result<(), AccountError> {
        let size = "SELECT coalesce(sum(length(entry)), 0) FROM held WHERE device = ?1";
        let keep = "INSERT INTO held (log, seq, hash, device, noun, book, entry) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)
                    ON CONFLICT (log, seq, hash) DO NOTHING";
        let device = device.0.as_bytes();
        self.0.change(|tables| {
            let mut kept = tables.line(size, &[device.into()])?.ok_or(AccountError::Unreadable)?.number(0)?;
            for (book, entries) in books {
                let object = book.object();
                for entry in entries {
                    let (envelope, wire) = (entry.envelope(), entry.to_wire());
                    kept += number(wire.len() as u64);
                    if kept > MOST {
                        return Err(AccountError::Refused("held_full"));
                    }
                    let cells = [
                        envelope.log.0.as_bytes().into(),
                        number(envelope.seq.0).into(),
                        (&entry.hash().0).into(),
                        device.into(),
                        object.noun.number().into(),
                        object.id.0.as_bytes().into(),
                        wire.as_slice().into(),
                    ];
                    tables.run(keep, &cells)?;
                }
            }
            Ok(())
        })
    }

    /// Those of the heads that were told that wait here: nobody has to send them again.
    pub(crate) fn held(&self, tell: &Tell) -> Result<Vec<Head>, AccountError> {
        let is_held = "SELECT device FROM held WHERE log = ?1 AND seq = ?2 AND hash = ?3";
        self.0.ask(|tables| {
            let mut held = Vec::new();
            if tables.line("SELECT device FROM held LIMIT 1", &[])?.is_none() {
                return Ok(held);
            }
            for head in &tell.heads {
                let cells = [head.log.0.as_bytes().into(), number(head.seq.0).into(), (&head.hash.0).into()];
                if tables.line(is_held, &cells)?.is_some() {
                    held.push(*head);
                }
            }
            Ok(held)
        })
    }

    /// What waits of a phone.
    fn waiting(&self, device: DeviceId) -> Result<Books, AccountError> {
        let waiting = "SELECT noun, book, entry FROM held WHERE device = ?1 ORDER BY log, seq, hash";
        self.0.ask(|tables| {
            let mut books = Books::new();
            for line in tables.lines(waiting, &[device.0.as_bytes().into()])? {
                let book = Book::numbered(line.number(0)?, Uuid::from_bytes(line.array(1)?));
                let entry = Entry::from_wire(&line.bytes(2)?).map_err(|_| AccountError::Unreadable)?;
                books.entry(book).or_default().push(entry);
            }
            Ok(books)
        })
    }

    /// These were taken in.
    fn let_in(&self, books: &Books) -> Result<(), AccountError> {
        let gone = "DELETE FROM held WHERE log = ?1 AND seq = ?2 AND hash = ?3";
        self.0.change(|tables| {
            for entry in books.values().flatten() {
                let envelope = entry.envelope();
                let (log, seq) = (envelope.log.0.as_bytes().into(), number(envelope.seq.0).into());
                tables.run(gone, &[log, seq, (&entry.hash().0).into()])?;
            }
            Ok(())
        })
    }
}

/// Keeps aside what of a bundle is of revoked phones; what is left of it, if anything had to be.
pub(crate) fn keep_aside(office: &Office, bundle: &Bundle<'_>) -> Result<Option<Option<Vec<u8>>>, Refused> {
    let by_accounts = |error| Refused::by_accounts(&office.words, error);
    let revoked = office.phones.revoked().map_err(by_accounts)?;
    let parted = part(&mut office.api.desk(), &mut **office.store(), bundle, &revoked);
    let Some(parted) = parted.map_err(|error| Refused::broke(&office.words, error))? else { return Ok(None) };
    for (device, books) in &parted.held {
        tracing::warn!(%device, "a revoked phone's work is kept aside");
        office.phones.hold(*device, books).map_err(by_accounts)?;
    }
    Ok(Some(parted.rest))
}

/// Takes in what waits of a phone.
pub(crate) fn accept(office: &Office, device: DeviceId) -> Result<Joined, Refused> {
    let broke = |error: &dyn std::fmt::Display| Refused::broke(&office.words, error);
    let not_taken = |error: &dyn std::fmt::Display| {
        Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "not_taken").because(error)
    };
    let books = office.phones.waiting(device).map_err(|error| broke(&error))?;
    let Some(bytes) = packed(&books).map_err(|error| broke(&error))? else {
        return Err(Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "not_found"));
    };
    let bundle = Bundle::open(&bytes).map_err(|error| not_taken(&error))?;
    let joined = receive(&mut office.api.desk(), &mut **office.store(), &bundle).map_err(|error| match error {
        HubError::NotTaken(error) => not_taken(&error),
        other => broke(&other),
    })?;
    // Taken in twice it is the same; lost it would be gone.
    office.phones.let_in(&books).map_err(|error| broke(&error))?;
    Ok(joined)
}

fn number(counted: u64) -> i64 {
    i64::try_from(counted).unwrap_or(i64::MAX)
}
