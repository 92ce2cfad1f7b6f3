//! What every job on this device comes to, counted: for the list of jobs and the overview. Worked out from the record, and kept until
//! something arrives that a job rests on, so that opening the list judges only what has changed. A test holds what is
//! kept equal to what the record says anew.

mod count;
#[cfg(test)]
mod tests;

pub(crate) use count::Tally;

use crate::failure::Failure;
use crate::judged::{Judged, JudgedBoard, JudgedReading};
use crate::lacking::Lacking;
use crate::ops::settle::how_many;
use crate::recalled::{Doubt, doubts};
use crate::signed::{Signed, Standing, standing_of};
use crate::state::{State, maker};
use provenohm_assess::RULES_VERSION;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_assess::judgement::TesterState;
use provenohm_logbook::entry::{EntryRef, Noun, Object};
use provenohm_logbook::view::{Arrival, View};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

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
    /// Required pairs without a reading, on boards that were begun.
    pub(crate) missing: u32,
    /// Readings that stand and whose tester was not proved, by its state for them.
    pub(crate) unproved: BTreeMap<TesterState, u32>,
    /// Readings in doubt, tester by tester.
    pub(crate) doubts: Vec<Doubt>,
    /// The sign-offs that stand.
    pub(crate) signed: Vec<Signed>,
    /// What of it is not here or cannot be read.
    pub(crate) lacking: Lacking,
    /// The testers its readings rely on.
    pub(crate) testers: BTreeSet<TesterId>,
    /// Things that wait to be settled: of the job and of those testers.
    pub(crate) to_settle: u32,
}

impl JobTally {
    /// Readings in doubt.
    pub(crate) fn in_doubt(&self) -> u32 {
        self.doubts.iter().map(|one| one.all).sum()
    }

    /// Those of them that nobody has resolved.
    pub(crate) fn in_doubt_open(&self) -> u32 {
        self.doubts.iter().map(|one| one.open).sum()
    }

    /// Readings whose tester was not proved.
    pub(crate) fn all_unproved(&self) -> u32 {
        self.unproved.values().sum()
    }
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
    let mut current: Vec<JobTally> = kept.jobs.iter().filter(|one| !stale.contains(&one.job)).cloned().collect();
    // Whether testers, references or people look alike is asked over all of them, whichever job they belong to.
    if touched.iter().any(|one| matches!(one.noun, Noun::Tester | Noun::Reference | Noun::Person)) {
        for one in &mut current {
            one.to_settle = how_many(view, one.job, &one.testers)?;
        }
    }
    Ok(current)
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
    let signed = standing_of(state, &judged)?;
    let view = state.record.view();
    let testers: BTreeSet<TesterId> = view.testers_of(job)?.into_iter().collect();
    let mut unproved = BTreeMap::new();
    for one in unproved_of(&judged) {
        *unproved.entry(one.judgement.tester.state).or_default() += 1;
    }
    let missing = judged.boards.iter().map(JudgedBoard::lacking).sum::<usize>();
    Ok(JobTally {
        job,
        name: judged.file.job.name.clone(),
        place: judged.file.job.place.clone(),
        invented: judged.file.job.invented,
        boards: judged.boards.len(),
        tally: Tally::of_job(&judged),
        missing: u32::try_from(missing).unwrap_or(u32::MAX),
        unproved,
        doubts: doubts(&view, &judged)?,
        signed: signed.iter().map(Standing::counted).collect(),
        lacking: Lacking::of(&view, job)?,
        to_settle: how_many(&view, job, &testers)?,
        testers,
    })
}

/// The readings that stand and whose tester was not proved for them.
pub(crate) fn unproved_of(judged: &Judged) -> impl Iterator<Item = &JudgedReading> {
    judged.readings.iter().filter(|one| one.taken.stands() && one.judgement.tester.state != TesterState::Proved)
}
