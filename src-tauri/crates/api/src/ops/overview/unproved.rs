//! The readings whose tester was not proved: by tester and reason, where they are, and what to do.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading};
use crate::state::State;
use crate::tally::{tallies, unproved_of};
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::{CircuitId, JobId, TesterId};
use provenohm_assess::judgement::TesterState;
use provenohm_exchange::job_file::Board;
use provenohm_words::Words;
use std::collections::BTreeMap;

pub(crate) fn unproved(state: &mut State, asked: UnprovedAsk) -> Result<UnprovedView, Failure> {
    let tallies = tallies(state)?;
    if let Some(job) = asked.job.filter(|job| tallies.iter().all(|one| one.job != *job)) {
        return Err(Failure::of("not_found").because(job));
    }
    let wanted = |job: JobId| asked.job.is_none_or(|one| one == job);
    let mut jobs = Vec::new();
    for one in tallies.iter().rev().filter(|one| one.all_unproved() > 0 && wanted(one.job)) {
        let judged = state.judged_once(one.job)?;
        jobs.push(of_job(&state.words, &judged));
    }
    let readings: u32 = jobs.iter().map(|job| job.count).sum();
    let args = [("count", readings.into()), ("jobs", jobs.len().into())];
    Ok(UnprovedView { words: state.words.text_with("answer-unproved", &args), jobs })
}

fn of_job(words: &Words, judged: &Judged) -> UnprovedJob {
    // The reason in words tells groups apart: it names what a person would look up.
    let mut groups: BTreeMap<(TesterState, Option<TesterId>, String), Vec<&JudgedReading>> = BTreeMap::new();
    for one in unproved_of(judged) {
        let (tester, judgement) = (one.reading.tester, &one.judgement.tester);
        let said = words.tester_sentence(judgement, &tell::about(judged, tester, None), &one.reading);
        groups.entry((judgement.state, tester, said)).or_default().push(one);
    }
    let groups: Vec<UnprovedGroup> = groups
        .into_iter()
        .rev()
        .map(|((state, tester, said), readings)| UnprovedGroup {
            tester,
            name: tester
                .and_then(|id| judged.tester(id))
                .map_or_else(|| words.text("answer-unproved-no-tester"), |it| words.tester_named(&it.name, &it.serial)),
            state,
            count: small(readings.len()),
            words: words.text_with("answer-unproved-readings", &[("count", readings.len().into())]),
            said: Sentence { level: state.level(), words: said },
            todo: words.text(todo(state)),
            places: places(words, judged, &readings),
        })
        .collect();
    let count: u32 = groups.iter().map(|group| group.count).sum();
    UnprovedJob {
        job: judged.file.job.id,
        name: judged.file.job.name.clone(),
        place: judged.file.job.place.clone(),
        count,
        words: words.text_with("answer-unproved-readings", &[("count", count.into())]),
        groups,
    }
}

const fn todo(state: TesterState) -> &'static str {
    match state {
        TesterState::Proved | TesterState::Lapsed | TesterState::NotProved => "answer-unproved-verify",
        TesterState::FoundGoodAfterwards => "answer-unproved-afterwards",
        TesterState::InDoubt | TesterState::Barred => "answer-unproved-recall",
        TesterState::NotChosen => "answer-unproved-choose",
    }
}

/// A line a circuit, as one walks, with its pairs.
fn places(words: &Words, judged: &Judged, readings: &[&JudgedReading]) -> Vec<UnprovedPlace> {
    let mut by_circuit: BTreeMap<Option<CircuitId>, Vec<&JudgedReading>> = BTreeMap::new();
    for one in readings {
        by_circuit.entry(one.reading.pair.circuits().into_iter().next()).or_default().push(one);
    }
    let mut places: Vec<((usize, usize), UnprovedPlace)> =
        by_circuit.into_iter().map(|(circuit, readings)| place(words, judged, circuit, &readings)).collect();
    places.sort_by_key(|(at, _)| *at);
    places.into_iter().map(|(_, place)| place).collect()
}

fn place(
    words: &Words,
    judged: &Judged,
    id: Option<CircuitId>,
    readings: &[&JudgedReading],
) -> ((usize, usize), UnprovedPlace) {
    let circuits = |board: &Board| board.circuits.iter().chain(&board.removed).position(|one| Some(one.id) == id);
    let mut boards = judged.file.boards.iter().enumerate();
    let found = boards.find_map(|(at, board)| Some(((at, circuits(board)?), board)));
    let circuit = id.and_then(|id| judged.circuit(id));
    let mut pairs: Vec<String> = Vec::new();
    for one in readings {
        let pair = id.map(|id| tell::pair_name(words, judged, id, &one.reading.pair)).unwrap_or_default();
        // Two readings of one pair wait to be settled.
        if !pairs.contains(&pair) {
            pairs.push(pair);
        }
    }
    let args = [
        ("board", found.map(|(_, board)| board.name.as_str()).unwrap_or_default().into()),
        ("circuit", circuit.map(|it| tell::circuit_name(words, it)).unwrap_or_default().into()),
        ("pair", pairs.join(", ").into()),
    ];
    let place = UnprovedPlace {
        board: found.map(|(_, board)| board.id),
        circuit: id,
        words: words.text_with("answer-place", &args),
    };
    (found.map_or((usize::MAX, usize::MAX), |(at, _)| at), place)
}

fn small(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
