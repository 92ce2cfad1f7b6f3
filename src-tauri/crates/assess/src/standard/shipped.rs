//! The editions that come with the program.

use super::{Edition, EditionComplaint};
use crate::bench::EditionId;
use std::sync::LazyLock;

macro_rules! files {
    ($($id:literal),+ $(,)?) => {
        [$(include_bytes!(concat!("../../standards/", $id, ".json")).as_slice()),+]
    };
}

/// The files, the newest edition first.
pub const SHIPPED_EDITIONS: [&[u8]; 3] = files!["iec-61557-2-2019", "iec-61557-2-2007", "iec-61557-2-1997"];

static SHIPPED: LazyLock<Result<Vec<Edition>, EditionComplaint>> =
    LazyLock::new(|| SHIPPED_EDITIONS.iter().map(|bytes| Edition::load(bytes)).collect());

/// The editions that come with the program, the newest first.
///
/// # Errors
/// The complaint about a file that was shipped broken; the tests load every one.
pub fn shipped_editions() -> Result<&'static [Edition], &'static EditionComplaint> {
    SHIPPED.as_ref().map(Vec::as_slice)
}

/// A shipped edition by its id.
///
/// # Errors
/// As [`shipped_editions`].
pub fn edition(id: &EditionId) -> Result<Option<&'static Edition>, &'static EditionComplaint> {
    Ok(shipped_editions()?.iter().find(|edition| edition.id == *id))
}
