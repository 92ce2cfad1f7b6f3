//! The hub's side. Each instance has a record of its own, which can be made anew from the store: with it it judges what
//! devices send, and in it its own people work. Towards the store it is a device like any other.

use super::ask::{Ends, JobThere, JobsThere, Lacks, Page, Pull, Tell};
use super::cursor::Scope;
use super::line::{Desk, Line, NoAnswer, sync};
use super::pager::page;
use super::store::{Erased, Store, StoreError};
use crate::bundle::{Bundle, Head, NotABundle};
use crate::join::{Joined, take_in};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Entry, LogId};
use provenohm_logbook::record::TakeInError;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// Why a hub does not do what a device asks.
#[derive(Debug, thiserror::Error)]
pub enum HubError {
    /// What was sent is not taken.
    #[error(transparent)]
    NotTaken(#[from] TakeInError<NotABundle>),
    /// The instance is not in step with its store.
    #[error(transparent)]
    NotInStep(#[from] NoAnswer),
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// What of the told logs a hub has not whole.
///
/// # Errors
/// [`StoreError`].
pub fn lacks(store: &mut dyn Store, tell: &Tell) -> Result<Lacks, StoreError> {
    let (epoch, _) = store.end()?;
    let logs: BTreeSet<LogId> = tell.heads.iter().map(|head| head.log).collect();
    let here = store.heads(&logs.iter().copied().collect::<Vec<_>>())?;
    let ends = |log: LogId| {
        let heads = here.get(&log).into_iter().flatten();
        heads.map(|(seq, hash)| Head { log, seq: *seq, hash: *hash }).collect::<Vec<_>>()
    };
    let mut lacking = BTreeSet::new();
    for head in &tell.heads {
        // An entry that is here came with all before it, unless the log has a gap or forks.
        if here.get(&head.log).is_none_or(|heads| heads.len() > 1) || !store.holds(head.log, head.seq, head.hash)? {
            lacking.insert(head.log);
        }
    }
    Ok(Lacks { epoch, logs: lacking.into_iter().map(|log| Ends { log, heads: ends(log) }).collect() })
}

/// Takes a bundle in that a device sent: into the instance's record, which judges it, and from there into the store. It is
/// in both when this returns.
///
/// # Errors
/// [`HubError`]; the store has nothing of it then, or all that it will have: the device sends it again.
pub fn receive(desk: &mut impl Desk, store: &mut dyn Store, bundle: &Bundle<'_>) -> Result<Joined, HubError> {
    keep_in_step(desk, store)?;
    let joined = desk.with(|record, _| take_in(record, bundle, &mut |_| ControlFlow::Continue(())))?;
    keep_in_step(desk, store)?;
    Ok(joined)
}

/// The jobs in an instance's record.
///
/// # Errors
/// [`HubError`].
pub fn jobs_there(desk: &mut impl Desk) -> Result<JobsThere, HubError> {
    let jobs = desk.with(|record, _| record.view().jobs()).map_err(NoAnswer::from)?;
    let mut jobs: Vec<JobThere> = jobs
        .into_iter()
        .map(|one| {
            let (name, place) =
                one.names.first().map(|names| (names.name.clone(), names.place.clone())).unwrap_or_default();
            JobThere { job: one.job, name, place }
        })
        .collect();
    jobs.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(JobsThere { jobs })
}

/// Brings what was recorded at an instance into the store, and what came there by others into its record.
///
/// # Errors
/// [`HubError`].
pub fn keep_in_step(desk: &mut impl Desk, store: &mut dyn Store) -> Result<(), HubError> {
    sync(desk, &mut Direct(store), &[Scope::All])?;
    Ok(())
}

/// The store at hand, without a network. What is sent was judged by the record that sends it.
struct Direct<'s>(&'s mut dyn Store);

impl Line for Direct<'_> {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        Ok(lacks(self.0, tell)?)
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        let erased: Vec<Erased> = piece.values().flatten().flat_map(Erased::by).collect();
        // First: an erasure that is in the store has been followed there.
        self.0.drop_bodies(&erased)?;
        self.0.append(piece)?;
        Ok(())
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        Ok(page(self.0, pull)?)
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        // An instance has all of them in its own record.
        Ok(JobsThere::default())
    }
}
