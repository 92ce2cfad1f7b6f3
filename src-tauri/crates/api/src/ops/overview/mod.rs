//! The office's work at a glance: every job with what it lacks, testers by when they are due, recalls with their progress.
//! Nothing is counted here: figures are those of the tally that the list of jobs keeps.

mod due;
mod recalls;
mod unproved;

pub(crate) use unproved::unproved;

use crate::failure::Failure;
use crate::ops::sign_off::signed_lines;
use crate::state::State;
use crate::tally::{JobTally, Tally, tallies};
use crate::tell;
use crate::views::*;
use provenohm_assess::judgement::{Level, TesterState};
use provenohm_words::Words;

pub(crate) fn overview(state: &mut State, _: NoInput) -> Result<OverviewView, Failure> {
    let tallies = tallies(state)?;
    let now = state.host.now();
    let testers = due::testers(state, now)?;
    let recalls = recalls::recalls(state, &tallies)?;
    let words = &state.words;
    let jobs: Vec<OverviewJob> = tallies.iter().rev().map(|one| job(words, one)).collect();
    let args = [
        ("jobs", jobs.len().into()),
        ("lacking", jobs.iter().filter(|job| !job.lacks.is_empty()).count().into()),
        ("unproved", jobs.iter().filter(|job| job.unproved > 0).count().into()),
    ];
    Ok(OverviewView { words: words.text_with("answer-overview", &args), jobs, testers, recalls })
}

fn job(words: &Words, one: &JobTally) -> OverviewJob {
    let Tally { circuits, done, of, look, stop, asked, .. } = one.tally;
    let (all, open) = (one.in_doubt(), one.in_doubt_open());
    let progress = [("done", done.into()), ("of", of.into())];
    OverviewJob {
        id: one.job,
        name: one.name.clone(),
        place: one.place.clone(),
        demo: one.invented,
        circuits,
        done,
        of,
        progress: words.text_with("answer-overview-progress", &progress),
        stop,
        look,
        asked,
        to_settle: one.to_settle,
        missing: one.missing,
        lacks: lacks(words, one),
        unproved: one.all_unproved(),
        unproved_words: unproved_words(words, one),
        in_doubt: all,
        resolved: all - open,
        recall: progress_of(words, all, open),
        is_signed: !one.signed.is_empty(),
        signed: match &one.signed[..] {
            [] => vec![Sentence { level: Level::Remark, words: words.text("answer-not-signed") }],
            signed => signed.iter().flat_map(|it| signed_lines(words, it)).collect(),
        },
    }
}

/// What a job lacks, the gravest first.
fn lacks(words: &Words, one: &JobTally) -> Vec<Sentence> {
    let tally = &one.tally;
    let counted = |level, key: &str, count: u32| {
        (count > 0).then(|| Sentence { level, words: words.text_with(key, &[("count", count.into())]) })
    };
    let said = |level| move |words| Sentence { level, words };
    let empty = (tally.circuits == 0).then(|| words.text("answer-overview-empty"));
    [
        counted(Level::Stop, "answer-overview-stop", tally.stop),
        counted(Level::Stop, "answer-to-settle", one.to_settle),
        counted(Level::Look, "answer-overview-look", tally.look),
        tell::asked_for(words, tally).map(said(Level::Look)),
        counted(Level::Look, "answer-missing-readings", one.missing),
        counted(Level::Remark, "answer-overview-todo", tally.of - tally.done),
        empty.map(said(Level::Remark)),
    ]
    .into_iter()
    .flatten()
    .chain(one.lacking.lines(words).into_iter().map(said(Level::Look)))
    .collect()
}

/// How many readings by the state of their tester, the gravest first.
fn unproved_words(words: &Words, one: &JobTally) -> Vec<Sentence> {
    let line = |(state, count): (&TesterState, &u32)| {
        let key = match state {
            TesterState::NotChosen => "answer-overview-unproved-none",
            _ => "answer-overview-unproved",
        };
        let args = [("count", (*count).into()), ("state", words.tester_state(*state).into())];
        Sentence { level: state.level(), words: words.text_with(key, &args) }
    };
    one.unproved.iter().rev().map(line).collect()
}

/// How many readings put in doubt were resolved; nothing where none is in doubt.
fn progress_of(words: &Words, all: u32, open: u32) -> Option<Sentence> {
    let level = if open == 0 { Level::Remark } else { Level::Look };
    let args = [("resolved", (all - open).into()), ("all", all.into())];
    (all > 0).then(|| Sentence { level, words: words.text_with("recall-resolved-of", &args) })
}
