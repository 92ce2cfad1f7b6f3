//! A store carried into another: to another engine, into a backup, out of one. It may be stopped at any entry and begun again;
//! a hub may go on taking entries meanwhile.

use super::cursor::Scope;
use super::store::{Erased, Store, StoreError, Whole};
use crate::join::{Progress, Watch};
use std::collections::BTreeMap;

/// Bytes carried between two looks at whether to go on.
const PIECE: u64 = 4 << 20;

/// What was carried.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Carried {
    /// Entries that are in both now.
    pub entries: u64,
    /// Logs they are in.
    pub logs: u64,
    /// The digest over all of them in their order, hexadecimal.
    pub digest: String,
}

/// Why a store was not carried.
#[derive(Debug, thiserror::Error)]
pub enum NotCarried {
    /// One of the two refuses.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The other holds something else already.
    #[error("what is there already is not the beginning of this store: carry it into an empty one")]
    Other,
    /// Something came meanwhile; again, and it is carried too.
    #[error("something came while it was carried: do it again")]
    Meanwhile,
    /// The two are not the same afterwards.
    #[error("what was carried is not what was there: {0}")]
    Differs(&'static str),
    /// Somebody stopped it; begun again it goes on there.
    #[error("stopped; begun again it goes on where it was")]
    Stopped,
}

/// Carries everything of one store behind what the other has of it. Afterwards both hold the same, which is looked at.
///
/// # Errors
/// [`NotCarried`]; what was carried stays, and is gone on from.
pub fn carry(from: &mut dyn Store, to: &mut dyn Store, watch: Watch<'_>) -> Result<Carried, NotCarried> {
    let (_, end) = from.end()?;
    let (_, mut at) = to.end()?;
    if !from.knows(at)? {
        return Err(NotCarried::Other);
    }
    while at.at < end.at {
        for parcel in from.parcels(Scope::All, at.at, PIECE)? {
            // What is carried here from before still has what this erases.
            let erased: Vec<Erased> = parcel.entries.iter().flat_map(Erased::by).collect();
            to.drop_bodies(&erased)?;
            to.append(&BTreeMap::from([(parcel.book, parcel.entries)]))?;
            at = to.end()?.1;
            // Made from the hashes of everything up to here, on both sides by itself.
            if at != parcel.cursor {
                return Err(NotCarried::Differs("the digest over the entries"));
            }
        }
        if watch(Progress { done: at.at, of: end.at }).is_break() {
            return Err(NotCarried::Stopped);
        }
    }
    same(from, to)
}

fn same(from: &mut dyn Store, to: &mut dyn Store) -> Result<Carried, NotCarried> {
    let (there, here) = (from.whole()?, to.whole()?);
    let ((_, end), (_, carried)) = (from.end()?, to.end()?);
    if end != carried {
        return Err(NotCarried::Meanwhile);
    }
    let Whole { entries, heads } = here;
    if there.entries != entries {
        return Err(NotCarried::Differs("the number of entries"));
    }
    if there.heads != heads {
        return Err(NotCarried::Differs("the heads of logs"));
    }
    let mut logs: Vec<_> = heads.iter().map(|(log, _, _)| *log).collect();
    logs.dedup();
    let digest = carried.mark.iter().map(|byte| format!("{byte:02x}")).collect();
    Ok(Carried { entries, logs: logs.len() as u64, digest })
}
