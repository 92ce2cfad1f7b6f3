//! What revoked phones wrote beyond what the hub had: kept aside, and taken in once somebody of the office accepts it, or
//! thrown away.

use crate::Office;
use crate::account::{AccountError, By};
use crate::audit::{Act, note};
use crate::phones::{Phones, name_of};
use crate::refused::Refused;
use axum::http::StatusCode;
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::{Bundle, Head};
use provenohm_exchange::hub::{Books, HubError, Tell, judge, packed, part, receive};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, LogId, Seq};
use std::collections::BTreeSet;
use uuid::Uuid;

/// What may wait of one phone, bytes: far more than a season's work.
const MOST: i64 = 64 << 20;

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
                    let cells = [
                        envelope.log.0.as_bytes().into(),
                        number(envelope.seq.0).into(),
                        (&entry.hash().0).into(),
                        device.into(),
                        object.noun.number().into(),
                        object.id.0.as_bytes().into(),
                        wire.as_slice().into(),
                    ];
                    if tables.run(keep, &cells)? == 1 {
                        kept += number(wire.len() as u64);
                    }
                    if kept > MOST {
                        return Err(AccountError::Refused("held_full"));
                    }
                }
            }
            Ok(())
        })
    }

    /// Whose log is one of which a part waits.
    fn held_of(&self, log: LogId) -> Result<Option<DeviceId>, AccountError> {
        let of = "SELECT device FROM held WHERE log = ?1 LIMIT 1";
        self.0.ask(|tables| {
            let line = tables.line(of, &[log.0.as_bytes().into()])?;
            line.map(|line| Ok(DeviceId(Uuid::from_bytes(line.array(0)?)))).transpose()
        })
    }

    /// Those of the heads that were told that wait here, with what leads to them: nobody has to send that again.
    pub(crate) fn held(&self, tell: &Tell) -> Result<Vec<Waits>, AccountError> {
        let is_held = "SELECT device FROM held WHERE log = ?1 AND seq = ?2 AND hash = ?3";
        let run = "SELECT min(seq), count(DISTINCT seq) FROM held WHERE log = ?1 AND seq <= ?2";
        self.0.ask(|tables| {
            let mut held = Vec::new();
            if tables.line("SELECT device FROM held LIMIT 1", &[])?.is_none() {
                return Ok(held);
            }
            for head in &tell.heads {
                let cells = [head.log.0.as_bytes().into(), number(head.seq.0).into(), (&head.hash.0).into()];
                if tables.line(is_held, &cells)?.is_none() {
                    continue;
                }
                let Some(line) = tables.line(run, &cells[..2])? else { continue };
                let (from, places) = (line.number(0)?, line.number(1)?);
                // Where something is missing in between it has to be sent, though its end is here.
                if places == number(head.seq.0) - from + 1 {
                    held.push(Waits { head: *head, from: Seq(from.unsigned_abs()) });
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

    /// These were taken in; with the first of a phone it is noted who accepted them.
    fn let_in(&self, device: DeviceId, books: &Books, first: Option<By<'_>>) -> Result<(), AccountError> {
        let gone = "DELETE FROM held WHERE log = ?1 AND seq = ?2 AND hash = ?3";
        self.0.change(|tables| {
            for entry in books.values().flatten() {
                let envelope = entry.envelope();
                let (log, seq) = (envelope.log.0.as_bytes().into(), number(envelope.seq.0).into());
                tables.run(gone, &[log, seq, (&entry.hash().0).into()])?;
            }
            let Some(by) = first else { return Ok(()) };
            let about = &name_of(tables, device)?;
            note(tables, by.at, &Act::PhoneAccepted { who: by.who, about })
        })
    }

    /// Throws away what waits of a phone; false if nothing does. Refused where that is not as much as was shown: what came
    /// meanwhile nobody has thought about.
    pub(crate) fn drop_held(&self, device: DeviceId, shown: Option<u64>, by: By<'_>) -> Result<bool, AccountError> {
        self.0.change(|tables| {
            let dropped = tables.run("DELETE FROM held WHERE device = ?1", &[device.0.as_bytes().into()])?;
            if dropped == 0 {
                return Ok(false);
            }
            if shown != Some(dropped) {
                return Err(AccountError::Refused("waiting_changed"));
            }
            let about = &name_of(tables, device)?;
            note(tables, by.at, &Act::PhoneDropped { who: by.who, about })?;
            Ok(true)
        })
    }
}

/// An end that waits, and the place from which on all that leads to it does.
pub(crate) struct Waits {
    head: Head,
    from: Seq,
}

impl Waits {
    /// Whether it is this end, and what is there goes up to where it begins.
    pub(crate) fn behind(&self, head: &Head, there: &[Head]) -> bool {
        let reached = self.from.0 == 0 || there.iter().any(|end| end.seq.0 + 1 >= self.from.0);
        self.head == *head && reached
    }
}

/// What of a bundle was kept aside.
pub(crate) enum Aside {
    /// Nothing: no revoked phone wrote any of it.
    Nothing,
    /// All of it.
    All,
    /// A part; this is the rest.
    But(Vec<u8>),
}

/// Keeps aside what of a bundle is of revoked phones, if it could be taken in once somebody accepts it.
pub(crate) fn keep_aside(office: &Office, bundle: &Bundle<'_>) -> Result<Aside, Refused> {
    let by_accounts = |error| Refused::by_accounts(&office.words, error);
    let revoked = office.phones.revoked().map_err(by_accounts)?;
    // What cannot be read is of nobody: then it is refused for want of its beginning, and nothing is lost.
    let held_of = |log| office.phones.held_of(log).ok().flatten();
    let parted = part(&mut office.api.desk(), &mut **office.store(), bundle, &revoked, &held_of);
    let Some(parted) = parted.map_err(|error| by_hub(office, error))? else { return Ok(Aside::Nothing) };
    let waiting = parted.held.keys().map(|device| office.phones.waiting(*device)).collect::<Result<Vec<_>, _>>();
    let waiting = waiting.map_err(by_accounts)?;
    let all = waiting.iter().chain(parted.held.values()).chain([&parted.rest]);
    judge(&mut office.api.desk(), all).map_err(|error| by_hub(office, error))?;
    for (device, books) in &parted.held {
        office.phones.hold(*device, books).map_err(by_accounts)?;
        tracing::warn!(%device, "a revoked phone's work is kept aside");
    }
    // Moved meanwhile, it would wait where nobody looks: it is sent again, to where the hub is now.
    if office.store().is_closed().map_err(|error| Refused::broke(&office.words, error))? {
        return Err(Refused::of(&office.words, StatusCode::GONE, "hub_moved"));
    }
    let rest = packed(&parted.rest).map_err(|error| by_hub(office, error))?;
    Ok(rest.map_or(Aside::All, Aside::But))
}

fn by_hub(office: &Office, error: HubError) -> Refused {
    match error {
        HubError::NotTaken(error) => {
            Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "not_taken").because(&error)
        }
        other => Refused::broke(&office.words, other),
    }
}

/// Books taken in at once: fewer than a bundle may hold.
const AT_ONCE: usize = 400;

/// Takes in what waits of a phone; false if nothing does.
pub(crate) fn accept(office: &Office, device: DeviceId, by: By<'_>) -> Result<bool, Refused> {
    let broke = |error: &dyn std::fmt::Display| Refused::broke(&office.words, error);
    let mut waiting = office.phones.waiting(device).map_err(|error| broke(&error))?;
    let any = !waiting.is_empty();
    let mut first = Some(by);
    while !waiting.is_empty() {
        let rest = waiting.keys().nth(AT_ONCE).copied().map(|book| waiting.split_off(&book)).unwrap_or_default();
        if let Some(bytes) = packed(&waiting).map_err(|error| by_hub(office, error))? {
            let bundle = Bundle::open(&bytes).map_err(|error| broke(&error))?;
            receive(&mut office.api.desk(), &mut **office.store(), &bundle).map_err(|error| by_hub(office, error))?;
        }
        // Taken in twice it is the same; lost it would be gone.
        office.phones.let_in(device, &waiting, first.take()).map_err(|error| broke(&error))?;
        waiting = rest;
    }
    Ok(any)
}

fn number(counted: u64) -> i64 {
    i64::try_from(counted).unwrap_or(i64::MAX)
}
