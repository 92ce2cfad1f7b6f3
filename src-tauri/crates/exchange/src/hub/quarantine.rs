//! What a revoked device wrote beyond what the hub had of it: parted from all else, so that it can wait until a person accepts it.
//! The hub's store is the cut, never an instant: what is in it stays, what is not waits, whenever it says it was written.

use super::instance::{HubError, keep_in_step};
use super::line::{Desk, NoAnswer};
use super::store::Store;
use crate::bundle::{Bundle, NotABundle, write};
use crate::join::look;
use provenohm_assess::ids::DeviceId;
use provenohm_logbook::entry::body::{Body, Book};
use provenohm_logbook::entry::{Entry, Fact, Kind, LogId};
use provenohm_logbook::record::TakeInError;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// Entries, book by book.
pub type Books = BTreeMap<Book, Vec<Entry>>;

/// A bundle, parted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parted {
    /// What waits, of each device.
    pub held: BTreeMap<DeviceId, Books>,
    /// All else.
    pub rest: Books,
}

/// Parts what a bundle brings; nothing if no revoked device wrote anything of it that the store has not. Whose log is one of
/// which a part waits already, and whose beginning so is not in the record, says `held`.
///
/// # Errors
/// [`HubError`].
pub fn part(
    desk: &mut impl Desk,
    store: &mut dyn Store,
    bundle: &Bundle<'_>,
    revoked: &BTreeSet<DeviceId>,
    held_of: &dyn Fn(LogId) -> Option<DeviceId>,
) -> Result<Option<Parted>, HubError> {
    if revoked.is_empty() {
        return Ok(None);
    }
    // Another instance may have taken in how a log begins.
    keep_in_step(desk, store)?;
    let (mut held, mut rest): (BTreeMap<DeviceId, Books>, Books) = Default::default();
    for packed in &bundle.manifest().books {
        let mut writers: BTreeMap<LogId, Option<DeviceId>> = BTreeMap::new();
        for entry in bundle.entries(packed.book).map_err(not_taken)?.into_iter().flatten() {
            let entry = entry.map_err(not_taken)?;
            let log = entry.envelope().log;
            let known = match writers.get(&log) {
                Some(known) => *known,
                // What the hub has of a log says more than what a bundle says of it.
                None => desk
                    .with(|record, _| record.view().device_of(log))
                    .map_err(NoAnswer::from)?
                    .or_else(|| held_of(log))
                    .or_else(|| opened_by(&entry)),
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
    Ok(Some(Parted { held, rest }))
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

/// Whether entries that wait could be taken in together with what came along: chained and sealed as all others. What no seal
/// reached is proven by another device that vouches for it, whose word is not held. Nothing is kept of it.
///
/// # Errors
/// [`HubError::NotTaken`] says why not.
pub fn judge<'b>(desk: &mut impl Desk, parts: impl IntoIterator<Item = &'b Books>) -> Result<(), HubError> {
    let mut all = Books::new();
    for (book, entries) in parts.into_iter().flatten() {
        all.entry(*book).or_default().extend(entries.iter().cloned());
    }
    for entries in all.values_mut() {
        entries.sort_by_key(|entry| (entry.envelope().log, entry.envelope().seq, entry.hash()));
        entries.dedup_by_key(|entry| entry.hash());
    }
    let Some(bytes) = packed(&all)? else { return Ok(()) };
    let bundle = Bundle::open(&bytes).map_err(not_taken)?;
    desk.with(|record, _| look(record, &bundle, &mut |_| ControlFlow::Continue(())))?;
    Ok(())
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
