//! What a bundle may hold at most. A job of 10,000 readings stays below a hundredth of each of these.

/// Bytes of the file.
pub const MOST_BYTES: u64 = 256 << 20;

/// Bytes of the manifest.
pub const MOST_MANIFEST_BYTES: u64 = 1 << 20;

/// Books.
pub const MOST_BOOKS: u64 = 1_000;

/// Entries of all books.
pub const MOST_ENTRIES: u64 = 2_000_000;

/// Bytes of one entry: none larger is recorded.
pub const MOST_ENTRY_BYTES: u64 = provenohm_logbook::entry::LARGEST_ENTRY as u64;

/// Bytes of one entry at least: its envelope holds a log, two hashes and a moment. Counts are held against it.
pub const LEAST_ENTRY_BYTES: u64 = 100;

/// Bytes of all entries, unpacked.
pub const MOST_UNPACKED_BYTES: u64 = 1 << 30;

/// Unpacked bytes to each packed one. Hashes and salts do not shrink; a book of long texts that shrinks more is stored
/// as it is.
pub const MOST_RATIO: u64 = 64;

/// Power of two of the bytes that unpacking may look back on.
pub const LARGEST_WINDOW: u32 = 23;
