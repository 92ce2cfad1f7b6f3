//! The runs of a tester, and beginning one.

use super::plan::chosen;
use super::run::{Run, edition, editions, tester_title};
use super::seat::Seat;
use super::step::steps;
use super::{say, view};
use crate::failure::Failure;
use crate::ops::references::{line, standing};
use crate::read::{Fields, NAME_MOST};
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{BenchRun, TesterLook};
use provenohm_assess::ids::{BenchId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_logbook::entry::body::BenchOpened;

/// More points than a bench measures.
pub(crate) const MOST_POINTS: usize = 2_000;

pub(crate) fn benches(state: &mut State, asked: OfTester) -> Result<BenchesView, Failure> {
    let today = state.host.now().date_naive();
    let tester = state.record.view().tester(asked.tester)?;
    let identity = tester.identity.first().cloned().ok_or_else(|| Failure::of("not_found"))?;
    let mut runs = Vec::new();
    for bench in state.record.view().benches_of(asked.tester)? {
        let run = Run::of(state, bench.bench)?;
        runs.push((run.run().started, bench_line(state, &run)?));
    }
    runs.sort_by_key(|(started, _)| std::cmp::Reverse(*started));
    let words = &state.words;
    Ok(BenchesView {
        tester: asked.tester,
        title: tester_title(words, &identity),
        runs: runs.into_iter().map(|(_, line)| line).collect(),
        references: standing(state)?.iter().map(|one| line(words, one, today)).collect(),
        editions: editions()?
            .into_iter()
            .map(|one| Choice { id: one.id.0.clone(), words: one.title.clone() })
            .collect(),
        rules: say::rules(words),
    })
}

fn bench_line(state: &State, run: &Run) -> Result<BenchLine, Failure> {
    let words = &state.words;
    let one = run.run();
    let args = [("at", words.date_time(one.started).into()), ("by", one.by.as_str().into())];
    let closed = view::closed(words, run);
    let state = match closed {
        Some(closed) => closed,
        None => {
            let all = steps(run, Seat::of(state, one.id)?.series);
            Sentence { level: Level::Remark, words: view::progress(words, &all) }
        }
    };
    Ok(BenchLine { id: one.id, title: words.text_with("answer-bench-run", &args), state })
}

pub(crate) fn start_bench(state: &mut State, asked: StartBench) -> Result<BenchView, Failure> {
    let tester = state.record.view().tester(asked.tester)?;
    if tester.identity.live.is_empty() {
        return Err(Failure::of("not_found"));
    }
    if tester.card.live.is_empty() {
        return Err(Failure::of("no_card"));
    }
    edition(&asked.edition)?;
    let references = chosen(state, &asked.references)?;
    let person = state.anyone()?;
    let mut fields = Fields::new(&state.words);
    let by = fields.optional("by", &asked.by, NAME_MOST);
    if asked.plan.len() > MOST_POINTS {
        fields.complain("plan", "complaint-count", &[("most", MOST_POINTS.into())]);
    }
    fields.settle(Some(()))?;
    let by = if by.is_empty() { name_of(state, person)? } else { by };
    let id = BenchId(state.host.id()?);
    let run = BenchRun {
        id,
        tester: asked.tester,
        references: asked.references,
        edition: asked.edition,
        rule: asked.rule,
        adjusted: false,
        mark: None,
        look: TesterLook::default(),
        by,
        started: state.host.now(),
        plan: asked.plan,
    };
    state.write(person, |writer| Ok(writer.append(BenchOpened { run, references })?))?;
    view::bench_view(state, id)
}

fn name_of(state: &State, person: PersonId) -> Result<String, Failure> {
    let people = state.record.view().people()?;
    let known = people.into_iter().find(|known| known.person == person);
    let card = known.and_then(|known| known.local.or_else(|| known.card.first().cloned()));
    Ok(card.map(|card| card.name).unwrap_or_default())
}
