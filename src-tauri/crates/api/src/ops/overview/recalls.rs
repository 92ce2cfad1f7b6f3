//! How far the recall of each tester is, over every job.

use crate::failure::Failure;
use crate::state::State;
use crate::tally::JobTally;
use crate::views::{RecallProgress, Sentence};
use provenohm_assess::ids::TesterId;
use provenohm_assess::judgement::Level;
use std::collections::BTreeMap;

#[derive(Default)]
struct Sum {
    jobs: u32,
    all: u32,
    open: u32,
}

/// Testers that put readings in doubt, those with readings that nobody has resolved first.
pub(super) fn recalls(state: &State, tallies: &[JobTally]) -> Result<Vec<RecallProgress>, Failure> {
    let on_record = state.record.view().testers()?;
    // In one job a tester may be known by another of its ids than in the next.
    let one_of = |id: TesterId| on_record.iter().find(|it| it.tester == id || it.same.contains(&id));
    let mut sums: BTreeMap<TesterId, Sum> = BTreeMap::new();
    for doubts in tallies.iter().map(|tally| &tally.doubts) {
        let mut here: BTreeMap<TesterId, (u32, u32)> = BTreeMap::new();
        for doubt in doubts {
            let tester = one_of(doubt.tester).map_or(doubt.tester, |it| it.tester);
            let (all, open) = here.entry(tester).or_default();
            *all += doubt.all;
            *open += doubt.open;
        }
        for (tester, (all, open)) in here {
            let sum = sums.entry(tester).or_default();
            sum.jobs += 1;
            sum.all += all;
            sum.open += open;
        }
    }
    let words = &state.words;
    let line = |(tester, sum): (TesterId, Sum)| {
        let identity = one_of(tester).and_then(|it| it.identity.first());
        let resolved = sum.all - sum.open;
        let args = [("resolved", resolved.into()), ("all", sum.all.into()), ("jobs", sum.jobs.into())];
        let level = if sum.open == 0 { Level::Remark } else { Level::Look };
        RecallProgress {
            tester,
            name: identity.map(|it| it.name.clone()).unwrap_or_default(),
            serial: identity.map(|it| it.serial.clone()).unwrap_or_default(),
            jobs: sum.jobs,
            all: sum.all,
            resolved,
            said: Sentence { level, words: words.text_with("answer-overview-recall", &args) },
        }
    };
    let mut recalls: Vec<RecallProgress> = sums.into_iter().map(line).collect();
    recalls.sort_by(|one, other| {
        (one.resolved == one.all, &one.name, &one.serial).cmp(&(
            other.resolved == other.all,
            &other.name,
            &other.serial,
        ))
    });
    Ok(recalls)
}
