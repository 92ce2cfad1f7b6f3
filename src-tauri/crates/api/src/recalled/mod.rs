//! The readings a failed tester puts in doubt, gathered over every job, with what became of each.

mod doubt;
mod job;
mod whose;

pub(crate) use doubt::{Doubt, doubts};
pub(crate) use job::{RecalledJob, RecalledLine, Resolution};
pub(crate) use whose::{Whose, whose};

use crate::failure::Failure;
use crate::judged::JudgedReading;
use crate::ops::testers::is_invented;
use crate::state::State;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_assess::recall::{FailingEntry, Recall};
use provenohm_assess::tester::TesterHistory;
use provenohm_exchange::job_file::Tester;
use std::collections::BTreeSet;

/// Everything a tester puts in doubt.
pub(crate) struct Recalled {
    pub(crate) tester: Tester,
    /// The tester is invented.
    pub(crate) invented: bool,
    /// What found it failed, or its damage, the earliest first.
    pub(crate) entries: Vec<FailingEntry>,
    /// Jobs with readings in doubt, by the most urgent line in each, those alike in the order they began.
    pub(crate) jobs: Vec<RecalledJob>,
}

impl Recalled {
    /// Gathers it over every job that stands.
    pub(crate) fn of(state: &mut State, id: TesterId) -> Result<Self, Failure> {
        let on_record = state.record.view().tester(id)?;
        if on_record.identity.live.is_empty() {
            return Err(Failure::of("not_found"));
        }
        let tester = provenohm_exchange::tester(&state.record.view(), id, &mut Vec::new())?;
        let ids: BTreeSet<TesterId> = std::iter::once(id).chain(on_record.same).collect();
        // With two live cards a reading is a *Stop* already; what was found does not hang on the card.
        let history = tester.histories().into_iter().next();
        let history =
            history.unwrap_or(TesterHistory { tester: id, card: None, events: Vec::new(), lead_checks: Vec::new() });
        let entries = FailingEntry::of(&history);
        let recall = Recall::new(&history, &entries);
        let mut jobs = Vec::new();
        for job in if entries.is_empty() { Vec::new() } else { jobs_of(state, &ids)? } {
            let judged = state.judged(job)?;
            let recalled = RecalledJob::of(&state.record.view(), judged, &ids, &recall)?;
            if !recalled.lines.is_empty() {
                jobs.push(recalled);
            }
        }
        // Stable: jobs alike stay in their order. What was resolved keeps its place, so that a list worked through stays put.
        jobs.sort_by_key(RecalledJob::urgency);
        let invented = is_invented(&state.record.view(), id)?;
        Ok(Self { tester, invented, entries, jobs })
    }

    /// Every reading of every job.
    pub(crate) fn readings(&self) -> impl Iterator<Item = &JudgedReading> {
        self.jobs.iter().flat_map(|job| job.lines.iter().filter_map(|line| job.reading(line)))
    }

    /// Every line of every job.
    pub(crate) fn lines(&self) -> impl Iterator<Item = &RecalledLine> {
        self.jobs.iter().flat_map(|job| &job.lines)
    }
}

/// The jobs that stand and have readings of a tester, in the order they began.
fn jobs_of(state: &State, testers: &BTreeSet<TesterId>) -> Result<Vec<JobId>, Failure> {
    let view = state.record.view();
    let mut relying: BTreeSet<JobId> = BTreeSet::new();
    for tester in testers {
        relying.extend(view.jobs_of(*tester)?);
    }
    let mut jobs = Vec::new();
    for id in relying {
        // Only those that rely on it are read: a firm has thousands of others.
        let opened = view.job(id)?.opened;
        let began = opened.iter().filter(|one| !one.standing.withdrawn).map(|one| one.recorded).min();
        jobs.extend(began.map(|began| (began, id)));
    }
    jobs.sort_unstable();
    Ok(jobs.into_iter().map(|(_, id)| id).collect())
}
