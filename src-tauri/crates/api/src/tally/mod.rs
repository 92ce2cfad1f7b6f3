//! What every job on this device comes to, counted: for the list of jobs. Worked out from the record, and kept until
//! something arrives that a job rests on, so that opening the list judges only what has changed. A test holds what is
//! kept equal to what the record says anew.

mod count;
#[cfg(test)]
mod tests;

pub(crate) use count::Tally;

use crate::failure::Failure;
use crate::recalled::doubts;
use crate::state::{State, maker};
use provenohm_assess::RULES_VERSION;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_logbook::entry::{EntryRef, Noun, Object};
use provenohm_logbook::view::{Arrival, View};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Setting under which what was counted is kept.
const TALLIES: &str = "worked-out:tallies";

/// One job, counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct JobTally {
    pub(crate) job: JobId,
    pub(crate) name: String,
    pub(crate) place: String,
    pub(crate) invented: bool,
    pub(crate) boards: usize,
    pub(crate) tally: Tally,
    /// Readings in doubt, and those of them that nobody has resolved.
    pub(crate) in_doubt: u32,
    pub(crate) in_doubt_open: u32,
}

/// What was counted, by which program, and the last entry it took into account.
#[derive(Serialize, Deserialize)]
struct Kept {
    by: String,
    last: Option<(i64, String)>,
    jobs: Vec<JobTally>,
}

/// Every job that stands, in the order they began.
pub(crate) fn tallies(state: &mut State) -> Result<Vec<JobTally>, Failure> {
    let by = format!("{}, rules {RULES_VERSION}", maker());
    // Asked before anything is counted: what arrives meanwhile is counted again next time.
    let last = state.record.view().last_arrival()?;
    let last = last.map(|last| (last.place, last.entry.to_string()));
    let kept = state.setting::<Kept>(TALLIES)?.filter(|kept| kept.by == by);
    let current = match &kept {
        Some(kept) => current(&state.record.view(), kept)?,
        None => Vec::new(),
    };
    let ids: Vec<JobId> = state.record.view().jobs()?.iter().map(|job| job.job).collect();
    let mut jobs = Vec::with_capacity(ids.len());
    for id in ids {
        jobs.push(match current.iter().find(|one| one.job == id) {
            Some(one) => one.clone(),
            None => count(state, id)?,
        });
    }
    let counted = Kept { by, last, jobs };
    let changed = kept.is_none_or(|kept| kept.last != counted.last || kept.jobs != counted.jobs);
    if changed && !state.record.is_read_only() {
        // A full disk must not keep the list from opening: what is not kept is only counted again.
        let _kept = state.keep_setting(TALLIES, &counted);
    }
    Ok(counted.jobs)
}

/// What was kept and still holds: the jobs that nothing has arrived about since, nor about a tester they rely on.
fn current(view: &View<'_>, kept: &Kept) -> Result<Vec<JobTally>, Failure> {
    let Some((place, entry)) = &kept.last else { return Ok(Vec::new()) };
    let Ok(entry) = entry.parse::<EntryRef>() else { return Ok(Vec::new()) };
    let Some(touched) = view.arrived_since(Arrival { place: *place, entry })? else { return Ok(Vec::new()) };
    let stale = jobs_touched(view, &touched)?;
    Ok(kept.jobs.iter().filter(|one| !stale.contains(&one.job)).cloned().collect())
}

fn jobs_touched(view: &View<'_>, touched: &[Object]) -> Result<BTreeSet<JobId>, Failure> {
    let mut jobs = BTreeSet::new();
    for object in touched {
        match object.noun {
            Noun::Job => drop(jobs.insert(JobId(object.id.0))),
            Noun::Tester => {
                let tester = TesterId(object.id.0);
                for one in std::iter::once(tester).chain(view.tester(tester)?.same) {
                    jobs.extend(view.jobs_of(one)?);
                }
            }
            _ => {}
        }
    }
    Ok(jobs)
}

/// Counts a job. Its readings are not kept for it: there may be very many jobs.
fn count(state: &mut State, job: JobId) -> Result<JobTally, Failure> {
    let judged = state.judged_once(job)?;
    let doubts = doubts(&state.record.view(), &judged)?;
    Ok(JobTally {
        job,
        name: judged.file.job.name.clone(),
        place: judged.file.job.place.clone(),
        invented: judged.file.job.invented,
        boards: judged.boards.len(),
        tally: Tally::of_job(&judged),
        in_doubt: doubts.iter().map(|one| one.all).sum(),
        in_doubt_open: doubts.iter().map(|one| one.open).sum(),
    })
}
