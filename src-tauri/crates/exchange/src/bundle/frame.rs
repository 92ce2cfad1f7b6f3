//! A frame: the entries of one book, packed. Each is preceded by its length; they come in rising order of log, place
//! and hash.

use super::limits::{LARGEST_WINDOW, MOST_ENTRY_BYTES};
use super::manifest::Packed;
use super::open::NotABundle;
use provenohm_logbook::entry::{Entry, Hash, LogId, Seq};
use std::io::Read;
use zstd::stream::read::Decoder;

/// Bytes of the length ahead of each entry.
const LENGTH_BYTES: u64 = 4;

/// The bytes of an entry in a frame.
pub(super) fn framed(entry: &Entry, to: &mut Vec<u8>) -> Option<()> {
    let wire = entry.to_wire();
    let length = u32::try_from(wire.len()).ok().filter(|length| u64::from(*length) <= MOST_ENTRY_BYTES)?;
    to.extend(length.to_be_bytes());
    to.extend(wire);
    Some(())
}

/// A zstd frame that holds bytes as they are (RFC 8878, 3.1.1): a window of 128 KiB, then raw blocks of at most that.
pub(super) fn stored(plain: &[u8]) -> Vec<u8> {
    const MAGIC: [u8; 4] = 0xFD2F_B528_u32.to_le_bytes();
    const NO_CONTENT_SIZE: u8 = 0;
    const WINDOW_128_KIB: u8 = 7 << 3;
    const BLOCK: usize = 128 << 10;
    let mut frame = [&MAGIC[..], &[NO_CONTENT_SIZE, WINDOW_128_KIB]].concat();
    let blocks = plain.len().div_ceil(BLOCK);
    for (number, block) in (1..).zip(plain.chunks(BLOCK)) {
        let last = u32::from(number == blocks);
        let head = (u32::try_from(block.len()).unwrap_or_default() << 3) | last;
        let [low, middle, high, _] = head.to_le_bytes();
        frame.extend([low, middle, high]);
        frame.extend(block);
    }
    frame
}

/// Where an entry stands among the others of its book.
pub(super) fn place(entry: &Entry) -> (LogId, Seq, Hash) {
    (entry.envelope().log, entry.envelope().seq, entry.hash())
}

/// The entries of a frame, read one by one. It ends with the first that is not what it must be.
pub struct Entries<'b> {
    /// Gone once something was refused, or the frame ended.
    decoder: Option<Decoder<'static, &'b [u8]>>,
    entries: u64,
    bytes: u64,
    last: Option<(LogId, Seq, Hash)>,
}

impl<'b> Entries<'b> {
    /// The manifest's word was held against the limits before.
    pub(super) fn of(frame: &'b [u8], packed: &Packed) -> Result<Self, NotABundle> {
        let mut decoder = Decoder::with_buffer(frame).map_err(|_| NotABundle::Unpacking)?.single_frame();
        decoder.window_log_max(LARGEST_WINDOW).map_err(|_| NotABundle::Unpacking)?;
        Ok(Self { decoder: Some(decoder), entries: packed.entries, bytes: packed.unpacked, last: None })
    }

    fn read(&mut self) -> Result<Option<Entry>, NotABundle> {
        let Some(mut decoder) = self.decoder.take() else { return Ok(None) };
        if self.entries == 0 {
            let mut more = [0];
            let none_left = self.bytes == 0 && matches!(decoder.read(&mut more), Ok(0));
            return if none_left && decoder.finish().is_empty() { Ok(None) } else { Err(NotABundle::Counts) };
        }
        let mut length = [0; 4];
        self.bytes = self.bytes.checked_sub(LENGTH_BYTES).ok_or(NotABundle::Counts)?;
        decoder.read_exact(&mut length).map_err(|_| NotABundle::Unpacking)?;
        let length = u32::from_be_bytes(length);
        if u64::from(length) > MOST_ENTRY_BYTES {
            return Err(NotABundle::Limit);
        }
        self.bytes = self.bytes.checked_sub(length.into()).ok_or(NotABundle::Counts)?;
        let mut wire = vec![0; length as usize];
        decoder.read_exact(&mut wire).map_err(|_| NotABundle::Unpacking)?;
        let entry = Entry::from_wire(&wire)?;
        let place = place(&entry);
        if self.last.is_some_and(|last| last >= place) {
            return Err(NotABundle::Order);
        }
        self.last = Some(place);
        self.entries -= 1;
        self.decoder = Some(decoder);
        Ok(Some(entry))
    }
}

impl Iterator for Entries<'_> {
    type Item = Result<Entry, NotABundle>;

    fn next(&mut self) -> Option<Self::Item> {
        self.read().transpose()
    }
}
