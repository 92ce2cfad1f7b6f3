//! Opening a bundle: what it says of itself is checked against its bytes, to the last one.

use super::frame::Entries;
use super::limits::{
    LEAST_ENTRY_BYTES, MOST_BOOKS, MOST_BYTES, MOST_ENTRIES, MOST_MANIFEST_BYTES, MOST_RATIO, MOST_UNPACKED_BYTES,
};
use super::manifest::{Heads, Manifest, Packed};
use super::{MAGIC, VERSION};
use crate::join::{Progress, Watch};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Coded, Hash, Malformed, NotAnEntry, Value};
use std::ops::ControlFlow;

/// Whoever watches hears of each so many entries.
const EACH: u64 = 1_000;

/// Bytes of the digest a bundle ends with.
const DIGEST_BYTES: usize = 32;

/// Why bytes are no bundle.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotABundle {
    /// They begin otherwise.
    #[error("this file is no bundle")]
    Other,
    /// A newer version wrote it.
    #[error("this bundle was made by a newer version, which is needed to read it")]
    Newer,
    /// The digest at its end is another: something went wrong on its way.
    #[error("this bundle was altered or cut off on its way: ask for it again")]
    Damaged,
    /// It is larger than any true bundle.
    #[error("this bundle holds more than a bundle may hold")]
    Limit,
    /// The manifest cannot be read.
    #[error("this bundle does not say what it holds: {0}")]
    Manifest(#[from] Malformed),
    /// What it says it holds is not what it holds.
    #[error("this bundle does not hold what it says")]
    Counts,
    /// A frame cannot be unpacked.
    #[error("this bundle cannot be unpacked")]
    Unpacking,
    /// Books or entries are not in their order, or twice.
    #[error("what this bundle holds is not in its order")]
    Order,
    /// An entry cannot be read.
    #[error("an entry of this bundle cannot be read: {0}")]
    Entry(#[from] NotAnEntry),
}

/// A bundle that was opened: its bytes are what they say, its entries can be read. Whose they are is for the record to
/// judge.
#[derive(Clone, Debug)]
pub struct Bundle<'b> {
    manifest: Manifest,
    frames: &'b [u8],
}

impl<'b> Bundle<'b> {
    /// Opens a bundle, and reads it once from end to end.
    ///
    /// # Errors
    /// [`NotABundle`] says what is wrong with it.
    pub fn open(bytes: &'b [u8]) -> Result<Self, NotABundle> {
        // Nobody stops it, so it is opened or refused.
        Self::open_watched(bytes, &mut |_| ControlFlow::Continue(()))?.ok_or(NotABundle::Unpacking)
    }

    /// The same while somebody watches: nothing if they stop it.
    ///
    /// # Errors
    /// [`NotABundle`] says what is wrong with it.
    pub fn open_watched(bytes: &'b [u8], watch: Watch<'_>) -> Result<Option<Self>, NotABundle> {
        let rest = bytes.strip_prefix(&MAGIC).ok_or(NotABundle::Other)?;
        let (version, rest) = rest.split_first_chunk().ok_or(NotABundle::Damaged)?;
        if u16::from_be_bytes(*version) != VERSION {
            return Err(NotABundle::Newer);
        }
        if bytes.len() as u64 > MOST_BYTES {
            return Err(NotABundle::Limit);
        }
        let (rest, digest) = rest.split_last_chunk::<DIGEST_BYTES>().ok_or(NotABundle::Damaged)?;
        let (told, _) = bytes.split_at(bytes.len() - DIGEST_BYTES);
        if Hash::of(&[told]).0 != *digest {
            return Err(NotABundle::Damaged);
        }
        let (length, rest) = rest.split_first_chunk().ok_or(NotABundle::Counts)?;
        let length = u32::from_be_bytes(*length);
        if u64::from(length) > MOST_MANIFEST_BYTES {
            return Err(NotABundle::Limit);
        }
        let (manifest, frames) = rest.split_at_checked(length as usize).ok_or(NotABundle::Counts)?;
        let manifest = Manifest::from_value(Value::decode(manifest).map_err(Malformed::from)?)?;
        within_limits(&manifest, frames.len() as u64)?;
        let bundle = Self { manifest, frames };
        let (mut done, of) = (0, bundle.manifest.books.iter().map(|packed| packed.entries).sum());
        for packed in &bundle.manifest.books {
            if bundle.holds(packed, &mut |read| watch(Progress { done: done + read, of }))?.is_break() {
                return Ok(None);
            }
            done += packed.entries;
        }
        Ok(Some(bundle))
    }

    /// What it holds.
    #[must_use]
    pub fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    /// The entries of a book in rising order; none of a book that is not in it.
    ///
    /// # Errors
    /// [`NotABundle::Unpacking`] if there is no room to unpack it.
    pub fn entries(&self, book: Book) -> Result<Option<Entries<'b>>, NotABundle> {
        let mut rest = self.frames;
        for packed in &self.manifest.books {
            let size = usize::try_from(packed.packed).map_err(|_| NotABundle::Counts)?;
            let (frame, after) = rest.split_at_checked(size).ok_or(NotABundle::Counts)?;
            if packed.book == book {
                return Entries::of(frame, packed).map(Some);
            }
            rest = after;
        }
        Ok(None)
    }

    /// A book's frame is what the manifest says.
    fn holds(
        &self,
        packed: &Packed,
        watch: &mut dyn FnMut(u64) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, NotABundle> {
        let mut heads = Heads::default();
        for (read, entry) in (1..).zip(self.entries(packed.book)?.ok_or(NotABundle::Counts)?) {
            heads.meet(&entry?);
            if read % EACH == 0 && watch(read).is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        if heads.finish() == packed.heads { Ok(ControlFlow::Continue(())) } else { Err(NotABundle::Counts) }
    }
}

/// Holds the manifest's word against what a bundle may hold and against the bytes that are there.
fn within_limits(manifest: &Manifest, frames: u64) -> Result<(), NotABundle> {
    let books = &manifest.books;
    if !books.windows(2).all(|two| two[0].book < two[1].book) {
        return Err(NotABundle::Order);
    }
    if !books.iter().any(|packed| packed.book == manifest.of) {
        return Err(NotABundle::Counts);
    }
    let sum = |of: fn(&Packed) -> u64| books.iter().try_fold(0u64, |sum, packed| sum.checked_add(of(packed)));
    let [entries, unpacked, packed] = [sum(|it| it.entries), sum(|it| it.unpacked), sum(|it| it.packed)];
    if packed != Some(frames) {
        return Err(NotABundle::Counts);
    }
    if books.len() as u64 > MOST_BOOKS
        || entries.is_none_or(|entries| entries > MOST_ENTRIES)
        || unpacked.is_none_or(|unpacked| unpacked > MOST_UNPACKED_BYTES)
        || books.iter().any(|it| it.unpacked > it.packed.saturating_mul(MOST_RATIO))
    {
        return Err(NotABundle::Limit);
    }
    if books.iter().any(|it| it.entries == 0 || it.entries.saturating_mul(LEAST_ENTRY_BYTES) > it.unpacked) {
        return Err(NotABundle::Counts);
    }
    Ok(())
}
