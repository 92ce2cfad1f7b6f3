//! The sets that come with the program: those whose figures were read in a published page.

use super::{LimitSet, Loaded, SetComplaint};
use std::sync::LazyLock;

macro_rules! files {
    ($($id:literal),+ $(,)?) => {
        [$(include_bytes!(concat!("../../limit-sets/", $id, ".json")).as_slice()),+]
    };
}

/// The files, the default set first.
pub const SHIPPED_FILES: [&[u8]; 9] = files![
    "iec-60364-6-2016",
    "bs-7671-2018",
    "iec-60364-6-2006",
    "din-vde-0105-100",
    "as-nzs-3000",
    "jp-article-58",
    "iec-60364-6-61",
    "bs-7671-16th",
    "din-vde-0100-610",
];

static SHIPPED: LazyLock<Result<Vec<Loaded>, SetComplaint>> =
    LazyLock::new(|| SHIPPED_FILES.iter().map(|bytes| LimitSet::load(bytes)).collect());

/// The sets that come with the program, the default one (IEC 60364-6:2016) first, in the order of
/// [`SHIPPED_FILES`].
///
/// # Errors
/// The complaint about a file that was shipped broken; the tests load every one.
pub fn shipped() -> Result<&'static [Loaded], &'static SetComplaint> {
    SHIPPED.as_ref().map(Vec::as_slice)
}
