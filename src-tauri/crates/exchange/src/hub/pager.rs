//! Pages: what came to a hub behind a device's cursors, in whole parcels.

use super::ask::{Page, Pull, Want};
use super::cursor::Cursor;
use super::plan::MOST_BOOKS;
use super::store::{Store, StoreError};
use crate::bundle::write;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Bytes, Entry};
use std::collections::BTreeMap;

/// More than a device is given at once, whatever it asks for.
const MOST_BYTES: u64 = 32 << 20;

/// The next page for a device.
///
/// # Errors
/// [`StoreError`].
pub fn page(store: &mut dyn Store, pull: &Pull) -> Result<Page, StoreError> {
    // First, so that what comes meanwhile is behind it.
    let (epoch, end) = store.end()?;
    let elsewhere = Page { epoch, upto: None, more: false, bundle: None };
    if pull.epoch.is_some_and(|known| known != epoch) {
        return Ok(elsewhere);
    }
    let mut left = pull.most.clamp(1, MOST_BYTES);
    let mut books: BTreeMap<Book, Vec<Entry>> = BTreeMap::new();
    let (mut upto, mut more) = (Vec::new(), false);
    for want in &pull.wants {
        if !store.knows(want.from)? {
            return Ok(elsewhere);
        }
        let (at, bytes, ended) =
            if left == 0 { (want.from, 0, want.from == end) } else { up_to(store, *want, end, left, &mut books)? };
        left = left.saturating_sub(bytes);
        more |= !ended;
        upto.push(Want { scope: want.scope, from: at });
    }
    let bundle = match books.keys().next().copied() {
        None => None,
        Some(first) => Some(Bytes(write(None, first, &books).map_err(|error| StoreError::Damaged(error.to_string()))?)),
    };
    Ok(Page { epoch, upto: Some(upto), more, bundle })
}

/// Where a scope is after its next parcels, how many bytes those have, and whether that is the end.
fn up_to(
    store: &mut dyn Store,
    want: Want,
    end: Cursor,
    most: u64,
    books: &mut BTreeMap<Book, Vec<Entry>>,
) -> Result<(Cursor, u64, bool), StoreError> {
    let (mut at, mut bytes) = (want.from, 0);
    for parcel in store.parcels(want.scope, want.from.at, most)? {
        if books.len() >= MOST_BOOKS && !books.contains_key(&parcel.book) {
            return Ok((at, bytes, false));
        }
        at = parcel.cursor;
        bytes += parcel.entries.iter().map(|entry| entry.to_wire().len() as u64).sum::<u64>();
        books.entry(parcel.book).or_default().extend(parcel.entries);
    }
    // Fewer than asked for: there are no more, and the scope is where the hub is.
    let ended = bytes < most;
    Ok((if ended && at.at < end.at { end } else { at }, bytes, ended))
}
