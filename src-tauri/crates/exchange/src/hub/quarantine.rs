//! What a revoked device wrote beyond what the hub had of it: parted from all else, so that it can wait until a person accepts it.
//! The hub's store is the cut, never an instant: what is in it stays, what is not waits, whenever it says it was written.

use super::instance::HubError;
use super::line::{Desk, NoAnswer};
use super::store::Store;
use crate::bundle::{Bundle, NotABundle, write};
use provenohm_assess::ids::DeviceId;
use provenohm_logbook::entry::body::{Body, Book};
use provenohm_logbook::entry::{Entry, Fact, Kind, LogId};
use provenohm_logbook::record::TakeInError;
use std::collections::{BTreeMap, BTreeSet};

/// Entries, book by book.
pub type Books = BTreeMap<Book, Vec<Entry>>;

/// A bundle, parted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parted {
    /// What waits, of each device.
    pub held: BTreeMap<DeviceId, Books>,
    /// All else, as a bundle; nothing if there is no other entry.
    pub rest: Option<Vec<u8>>,
}

/// Parts what a bundle brings; nothing if no revoked device wrote anything of it that the store has not.
///
/// # Errors
/// [`HubError`].
pub fn part(
    desk: &mut impl Desk,
    store: &mut dyn Store,
    bundle: &Bundle<'_>,
    revoked: &BTreeSet<DeviceId>,
) -> Result<Option<Parted>, HubError> {
    if revoked.is_empty() {
        return Ok(None);
    }
    let (mut held, mut rest): (BTreeMap<DeviceId, Books>, Books) = Default::default();
    for packed in &bundle.manifest().books {
        let mut writers: BTreeMap<LogId, Option<DeviceId>> = BTreeMap::new();
        for entry in bundle.entries(packed.book).map_err(not_taken)?.into_iter().flatten() {
            let entry = entry.map_err(not_taken)?;
            let log = entry.envelope().log;
            let known = match writers.get(&log) {
                Some(known) => *known,
                None => match opened_by(&entry) {
                    Some(device) => Some(device),
                    None => desk.with(|record, _| record.view().device_of(log)).map_err(NoAnswer::from)?,
                },
            };
            writers.insert(log, known);
            let new = |store: &mut dyn Store| store.holds(log, entry.envelope().seq, entry.hash()).map(|here| !here);
            match known.filter(|device| revoked.contains(device)) {
                Some(device) if new(store)? => {
                    held.entry(device).or_default().entry(packed.book).or_default().push(entry);
                }
                _ => rest.entry(packed.book).or_default().push(entry),
            }
        }
    }
    if held.is_empty() {
        return Ok(None);
    }
    Ok(Some(Parted { held, rest: packed(&rest)? }))
}

/// Whose log begins with this entry.
fn opened_by(entry: &Entry) -> Option<DeviceId> {
    let envelope = entry.envelope();
    let (_, body) = entry.body().filter(|_| envelope.kind == Kind::LogOpened.number())?;
    match Fact::decode(envelope.kind, envelope.kind_version, body).ok()?.body {
        Body::LogOpened(opened) => Some(opened.device),
        _ => None,
    }
}

/// Packs entries at hand; nothing if there are none.
///
/// # Errors
/// [`HubError`] if that is more than goes into one bundle.
pub fn packed(books: &Books) -> Result<Option<Vec<u8>>, HubError> {
    // Of which book a bundle says it is matters to nobody here.
    let bundle = books.keys().next().map(|book| write(None, *book, books)).transpose();
    Ok(bundle.map_err(NoAnswer::from)?)
}

fn not_taken(error: NotABundle) -> HubError {
    HubError::NotTaken(TakeInError::Source(error))
}
