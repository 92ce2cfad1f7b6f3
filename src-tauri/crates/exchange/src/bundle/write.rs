//! Writing a bundle.

use super::frame::{framed, place, stored};
use super::limits::{MOST_BOOKS, MOST_BYTES, MOST_ENTRIES, MOST_MANIFEST_BYTES, MOST_RATIO, MOST_UNPACKED_BYTES};
use super::manifest::{Heads, Manifest, Packed};
use super::{MAGIC, VERSION};
use crate::join::{Progress, Watch};
use provenohm_assess::ids::DeviceId;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Coded, Entry, Hash};
use std::collections::BTreeMap;
use std::io::Write as _;
use std::ops::ControlFlow;
use zstd::stream::write::Encoder;

/// How hard it is packed: hashes and salts do not shrink, so more costs time and gains nothing.
const LEVEL: i32 = 6;

/// Entries packed between two looks at whether to go on.
const PIECE: usize = 1_000;

/// There is more than one bundle may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("there is more in this job than one bundle may hold")]
pub struct TooLarge;

/// The bytes of a bundle, packed by this device. Books without entries are left out.
///
/// # Errors
/// [`TooLarge`].
pub fn write(by: Option<DeviceId>, of: Book, books: &BTreeMap<Book, Vec<Entry>>) -> Result<Vec<u8>, TooLarge> {
    // Nobody stops it, so there is always something written.
    Ok(write_watched(by, of, books, &mut |_| ControlFlow::Continue(()))?.unwrap_or_default())
}

/// The same while somebody watches: nothing if they stop it.
pub(super) fn write_watched(
    by: Option<DeviceId>,
    of: Book,
    books: &BTreeMap<Book, Vec<Entry>>,
    watch: Watch<'_>,
) -> Result<Option<Vec<u8>>, TooLarge> {
    let mut manifest = Manifest { of, books: Vec::new(), by };
    let mut frames = Vec::new();
    let all = books.values().map(|entries| entries.len() as u64).sum();
    let mut done = 0;
    for (book, entries) in books.iter().filter(|(_, entries)| !entries.is_empty()) {
        let mut told = |packed| watch(Progress { done: done + packed, of: all });
        let Some((packed, frame)) = pack(*book, entries, &mut told)? else { return Ok(None) };
        manifest.books.push(packed);
        frames.extend(frame);
        done += entries.len() as u64;
    }
    let sum = |of: fn(&Packed) -> u64| manifest.books.iter().map(of).sum::<u64>();
    let described = manifest.to_value().encode();
    let length = u32::try_from(described.len()).map_err(|_| TooLarge)?;
    let bytes = [&MAGIC[..], &VERSION.to_be_bytes(), &length.to_be_bytes(), &described, &frames].concat();
    if u64::from(length) > MOST_MANIFEST_BYTES
        || manifest.books.len() as u64 > MOST_BOOKS
        || sum(|it| it.entries) > MOST_ENTRIES
        || sum(|it| it.unpacked) > MOST_UNPACKED_BYTES
        || bytes.len() as u64 > MOST_BYTES - 32
    {
        return Err(TooLarge);
    }
    let digest = Hash::of(&[&bytes]);
    Ok(Some([&bytes[..], &digest.0].concat()))
}

/// A book packed; nothing if whoever watches stops it.
fn pack(
    book: Book,
    entries: &[Entry],
    watch: &mut dyn FnMut(u64) -> ControlFlow<()>,
) -> Result<Option<(Packed, Vec<u8>)>, TooLarge> {
    let mut ordered: Vec<&Entry> = entries.iter().collect();
    ordered.sort_by_key(|entry| place(entry));
    ordered.dedup_by_key(|entry| place(entry));
    let mut heads = Heads::default();
    let mut plain = Vec::new();
    // Where each so many entries end.
    let mut ends = Vec::new();
    for some in ordered.chunks(PIECE) {
        for entry in some {
            framed(entry, &mut plain).ok_or(TooLarge)?;
            heads.meet(entry);
        }
        ends.push((plain.len(), some.len() as u64));
    }
    let Some(mut frame) = squeezed(&plain, &ends, watch).map_err(|_| TooLarge)? else { return Ok(None) };
    if plain.len() as u64 > (frame.len() as u64).saturating_mul(MOST_RATIO) {
        // Whoever opens it refuses what grows so much.
        frame = stored(&plain);
    }
    let packed = Packed {
        book,
        entries: ordered.len() as u64,
        unpacked: plain.len() as u64,
        packed: frame.len() as u64,
        heads: heads.finish(),
    };
    Ok(Some((packed, frame)))
}

/// One zstd frame, piece by piece, so that it can be stopped.
fn squeezed(
    plain: &[u8],
    ends: &[(usize, u64)],
    watch: &mut dyn FnMut(u64) -> ControlFlow<()>,
) -> std::io::Result<Option<Vec<u8>>> {
    let mut encoder = Encoder::new(Vec::new(), LEVEL)?;
    encoder.set_pledged_src_size(Some(plain.len() as u64))?;
    let (mut from, mut done) = (0, 0);
    for (end, entries) in ends {
        encoder.write_all(plain.get(from..*end).unwrap_or_default())?;
        (from, done) = (*end, done + entries);
        if watch(done).is_break() {
            return Ok(None);
        }
    }
    encoder.finish().map(Some)
}
