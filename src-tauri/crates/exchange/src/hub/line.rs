//! Keeping in step: a device and its hub, over whatever carries bytes between them.

use super::PIECE_BYTES;
use super::ask::{JobsThere, Lacks, Page, Pull, Tell};
use super::cursor::{Epoch, Scope};
use super::device::{Link, Pulled, take, told, wants};
use super::plan::Plan;
use super::store::StoreError;
use crate::bundle::{NotABundle, TooLarge};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, Malformed};
use provenohm_logbook::record::{By, Record, Sum, TakeInError, WriteError};
use provenohm_logbook::view::{Point, ReadError};
use std::collections::BTreeMap;

/// Carries what is asked to a hub, and its answer back.
pub trait Line {
    /// Tells what logs end with.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer>;

    /// Sends entries that what was sent before proves.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer>;

    /// Asks for what came.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer>;

    /// Asks which jobs there are.
    ///
    /// # Errors
    /// [`NoAnswer`].
    fn jobs(&mut self) -> Result<JobsThere, NoAnswer>;
}

/// Why there is no answer that helps.
#[derive(Debug, thiserror::Error)]
pub enum NoAnswer {
    /// The hub was not reached, or the connection broke off: nothing is wrong, it is asked again later.
    #[error("the hub was not reached")]
    NotReached,
    /// What answers there does not know the code: it is another program, or somebody in between.
    #[error("what answers there is not the hub that gave the code")]
    NotTheHub,
    /// What answers there has another key than the hub had.
    #[error("what answers there has another key than the hub had")]
    OtherKey,
    /// The hub does not do it, and says why.
    #[error("{words}")]
    Refused {
        /// A stable code.
        code: String,
        /// For a person.
        words: String,
    },
    /// It answers with something else.
    #[error("the hub's answer cannot be read: {0}")]
    Unreadable(#[from] Malformed),
    /// What it sent is not taken.
    #[error(transparent)]
    NotTaken(#[from] TakeInError<NotABundle>),
    /// This record cannot be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// This record cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// The store at hand refuses.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// More than travels in one piece.
    #[error(transparent)]
    TooLarge(#[from] TooLarge),
    /// The hub says each time that its store is another one.
    #[error("the hub says that it is another one each time it is asked")]
    NeverTheSame,
}

/// What keeping in step did.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Synced {
    /// Entries that were sent.
    pub sent: u64,
    /// What came.
    pub came: Sum,
}

/// Lends a record for one step at a time, with who acts and when: nobody holds it while a network is waited for.
pub trait Desk {
    /// Does a step with the record.
    fn with<T>(&mut self, step: impl FnOnce(&mut Record, By<'_>) -> T) -> T;
}

/// Sends what the hub lacks and takes what came there, until neither has anything the other wants. It may be broken off
/// anywhere and begun again.
///
/// # Errors
/// [`NoAnswer`]; what was done until then stays.
pub fn sync(desk: &mut impl Desk, line: &mut dyn Line, scopes: &[Scope]) -> Result<Synced, NoAnswer> {
    sync_watched(desk, line, scopes, &mut |_| {})
}

/// The same while somebody is told how far it is, after each piece and each page.
///
/// # Errors
/// [`NoAnswer`]; what was done until then stays.
pub fn sync_watched(
    desk: &mut impl Desk,
    line: &mut dyn Line,
    scopes: &[Scope],
    tell: &mut dyn FnMut(Synced),
) -> Result<Synced, NoAnswer> {
    let mut synced = Synced::default();
    // A store in another life is compared with once; one that is another each time is not waited for.
    for _ in 0..3 {
        if let Some(had) = send(desk, line, &mut synced, tell)?
            && pull(desk, line, scopes, had, &mut synced, tell)?
        {
            return Ok(synced);
        }
        desk.with(|record, _| Link::forget(record))?;
    }
    Err(NoAnswer::NeverTheSame)
}

/// What the hub has of this record: everything up to a point, in this life.
type Had = (Epoch, Point);

/// Sends what is lacking; nothing if the hub is in another life, or another record in the place of this one, and all has to be told.
fn send(
    desk: &mut impl Desk,
    line: &mut dyn Line,
    synced: &mut Synced,
    tell: &mut dyn FnMut(Synced),
) -> Result<Option<Had>, NoAnswer> {
    let (heads, point, link) = desk.with(told)?;
    let lacks = line.tell(&heads)?;
    if link.epoch.is_some_and(|known| known != lacks.epoch) {
        return Ok(None);
    }
    let mut plan = desk.with(|record, _| Plan::of(&record.view(), &lacks))?;
    while let Some(piece) = desk.with(|record, by| plan.next(record, by, PIECE_BYTES))? {
        line.send(&piece)?;
        synced.sent += piece.values().map(|entries| entries.len() as u64).sum::<u64>();
        tell(*synced);
    }
    desk.with(|record, _| {
        // A record that was set aside meanwhile has another order of arrival.
        let same = Link::of(record)? == link;
        same.then(|| Link::note(record, lacks.epoch, link.told)).transpose()
    })
    .map(|noted| noted.map(|()| (lacks.epoch, point)))
    .map_err(NoAnswer::from)
}

/// Takes what came, and then notes what the hub had: from there on its cursors tell if the hub is set back. False if the hub is in
/// another life.
fn pull(
    desk: &mut impl Desk,
    line: &mut dyn Line,
    scopes: &[Scope],
    (epoch, point): Had,
    synced: &mut Synced,
    tell: &mut dyn FnMut(Synced),
) -> Result<bool, NoAnswer> {
    loop {
        let asked = desk.with(|record, _| wants(record, scopes, PIECE_BYTES))?;
        if asked.epoch != Some(epoch) {
            return Ok(false);
        }
        let page = line.pull(&asked)?;
        let pulled = desk.with(|record, _| {
            let pulled = take(record, &asked, &page);
            match &pulled {
                // What it builds on was not told here, perhaps: all is asked for again.
                Err(TakeInError::Source(_) | TakeInError::Refused(_)) => Link::forget(record)?,
                Ok(Pulled::Taken { more: false, .. }) => Link::note(record, epoch, point)?,
                _ => {}
            }
            pulled.map_err(NoAnswer::from)
        })?;
        match pulled {
            Pulled::Elsewhere => return Ok(false),
            Pulled::Taken { joined, more } => {
                synced.came = synced.came + joined.sum();
                tell(*synced);
                if !more {
                    return Ok(true);
                }
            }
        }
    }
}
