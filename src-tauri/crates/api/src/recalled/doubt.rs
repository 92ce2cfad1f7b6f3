//! How many readings of one job are in doubt, tester by tester.

use super::RecalledJob;
use crate::failure::Failure;
use crate::judged::Judged;
use provenohm_assess::ids::{ReadingId, TesterId};
use provenohm_assess::judgement::TesterState;
use provenohm_assess::recall::Recall;
use provenohm_logbook::view::View;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::sync::Arc;

/// How many readings of a job one tester puts in doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Doubt {
    pub(crate) tester: TesterId,
    pub(crate) all: u32,
    /// Nobody has resolved them yet.
    pub(crate) open: u32,
}

/// The testers of a job that put readings of it in doubt, as the recall list of each counts them. Two that are the same
/// one are counted once.
pub(crate) fn doubts(view: &View<'_>, judged: &Arc<Judged>) -> Result<Vec<Doubt>, Failure> {
    let doubted = |state| matches!(state, TesterState::InDoubt | TesterState::Barred);
    let readings = judged.readings.iter().filter(|one| doubted(one.judgement.tester.state));
    let testers: BTreeSet<TesterId> = readings.filter_map(|one| one.reading.tester).collect();
    let mut counted: BTreeSet<ReadingId> = BTreeSet::new();
    let mut doubts = Vec::new();
    for tester in testers {
        let Some(history) = judged.history(tester) else { continue };
        let same: BTreeSet<TesterId> = std::iter::once(tester).chain(view.tester(tester)?.same).collect();
        let recalled = RecalledJob::of(view, Arc::clone(judged), &same, &Recall::of_all(history))?;
        let mut doubt = Doubt { tester, all: 0, open: 0 };
        for line in &recalled.lines {
            if recalled.reading(line).is_some_and(|one| counted.insert(one.reading.id)) {
                doubt.all += 1;
                doubt.open += u32::from(line.resolution.is_none());
            }
        }
        if doubt.all > 0 {
            doubts.push(doubt);
        }
    }
    Ok(doubts)
}
