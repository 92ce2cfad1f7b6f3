//! Everything the bench screen shows.

use super::pad;
use super::plan::choices;
use super::run::Run;
use super::say;
use super::seat::Seat;
use super::step::{Figure, Step, steps};
use crate::failure::Failure;
use crate::ops::verifications::title;
use crate::state::State;
use crate::views::*;
use provenohm_assess::bench::{Decision, Measured};
use provenohm_assess::ids::{BenchId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_logbook::entry::body::MeasuredAt;
use provenohm_logbook::view::Stated;
use provenohm_words::Words;

pub(crate) fn bench(state: &mut State, asked: BenchAsk) -> Result<BenchView, Failure> {
    if let Some(step) = asked.step {
        let run = Run::of(state, asked.bench)?;
        let mut seat = Seat::of(state, asked.bench)?;
        if !steps(&run, seat.series).iter().any(|one| one.key.id() == step) {
            return Err(Failure::of("not_found"));
        }
        (seat.step, seat.done) = (Some(step), false);
        seat.keep(state, asked.bench)?;
    }
    bench_view(state, asked.bench)
}

/// The screen now.
pub(crate) fn bench_view(state: &mut State, id: BenchId) -> Result<BenchView, Failure> {
    let run = Run::of(state, id)?;
    let seat = Seat::of(state, id)?;
    let me = state.anyone()?;
    let all = steps(&run, seat.series);
    let here = seat.here(&all);
    let words = &state.words;
    let references = &run.opened.references;
    let step = |step: &Step<'_>| -> Result<BenchStep, Failure> {
        let key = &step.key;
        Ok(BenchStep {
            id: key.id(),
            group: words.volts(key.volts),
            title: say::step(words, key, references),
            detail: say::conditions(words, key.supply, key.position, key.warmth),
            sign: if step.blocked && step.done() == 0 {
                Sign::Look
            } else if step.done() < step.of {
                Sign::Todo
            } else {
                Sign::Done
            },
            done: step.done(),
            of: step.of,
            shown: step.measured.iter().map(|one| line(state, one, key.figure)).collect::<Result<_, _>>()?,
        })
    };
    Ok(BenchView {
        id,
        tester: run.tester(),
        title: run.title(words),
        lines: say::lines(words, &run),
        closed: closed(words, &run),
        series: seat.series,
        series_words: say::series(words, seat.series, run.run().adjusted),
        adjusted: run.run().adjusted,
        look: say::look(words, &run.run().look),
        answers: say::answers(words),
        mark: run.run().mark.clone().unwrap_or_default(),
        temperature: seat.temperature.clone(),
        plan: run.run().plan.clone(),
        choices: run.card.as_ref().map_or_else(
            || PlanChoices {
                volts: Vec::new(),
                what: Vec::new(),
                resistors: Vec::new(),
                supplies: Vec::new(),
                positions: Vec::new(),
                warmths: Vec::new(),
            },
            |card| choices(words, card, references, run.edition),
        ),
        steps: all.iter().map(step).collect::<Result<_, _>>()?,
        progress: progress(words, &all),
        current: here.map(|step| step.key.id()),
        pad: here.map(|step| pad::pad(state, &run, &seat, step)).transpose()?,
        last: last_of(&run, me).map(|last| read_back(words, &run, &all, &last.value.measured)),
        can_undo: last_of(&run, me).is_some(),
    })
}

/// The last thing this person measured in a run that still stands.
pub(crate) fn last_of(run: &Run, person: PersonId) -> Option<&Stated<MeasuredAt>> {
    run.live().filter(|one| one.by == Some(person)).max_by_key(|one| (one.recorded, one.entry))
}

/// The verification a run became.
pub(crate) fn closed(words: &Words, run: &Run) -> Option<Sentence> {
    let made = run.bench.verifications.iter().rfind(|one| one.is_live())?;
    let made = made.value.clone().recorded(made.recorded);
    let words = words.text_with("answer-bench-closed", &[("verification", title(words, &made).into())]);
    Some(Sentence { level: Level::Done, words })
}

/// `12 of 45`: what is planned and can be measured.
pub(crate) fn progress(words: &Words, steps: &[Step<'_>]) -> String {
    let possible = || steps.iter().filter(|step| !step.blocked);
    let done: u32 = possible().map(|step| step.done().min(step.of)).sum();
    let of: u32 = possible().map(|step| step.of).sum();
    words.text_with("answer-bench-progress", &[("done", done.into()), ("of", of.into())])
}

fn line(state: &State, one: &Stated<MeasuredAt>, figure: Figure) -> Result<MeasuredLine, Failure> {
    let withdrawn = if one.is_live() {
        None
    } else {
        let acting = state.record.view().acting_on(one.entry)?;
        let reason = acting.into_iter().next().and_then(|it| it.reason);
        Some(match reason {
            Some(reason) => state.words.text_with("answer-bench-withdrawn", &[("reason", reason.into())]),
            None => state.words.text("answer-bench-taken-back"),
        })
    };
    let measured = &one.value.measured;
    Ok(MeasuredLine { id: measured.id, words: say::shown(&state.words, measured, figure), withdrawn })
}

/// What was measured last: an indication with where it stands against what is permitted, others with their repeat.
fn read_back(words: &Words, run: &Run, steps: &[Step<'_>], one: &Measured) -> BenchReadBack {
    let step = steps.iter().find(|step| step.measured.iter().any(|it| it.value.measured.id == one.id));
    let title = step.map(|step| say::step(words, &step.key, &run.opened.references)).unwrap_or_default();
    let figure = step.map_or(Figure::Indication, |step| step.key.figure);
    let shown = say::shown(words, one, figure);
    let result = run.result();
    let points = || result.voltages.iter().flat_map(|voltage| &voltage.points);
    let point = points().find(|point| point.measured.contains(&one.id));
    let said = match point {
        Some(point) => Sentence {
            level: match (point.decision, point.undecided) {
                (Some(Decision::Conforms), _) => Level::Done,
                _ => Level::Look,
            },
            words: [Some(words.bench_point(point, &run.about())), point.decision.map(|it| words.bench_decision(it))]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(" · "),
        },
        None => {
            let (done, of) = step.map_or((1, 1), |step| (step.done(), step.of.max(step.done())));
            let args = [("now", done.into()), ("of", of.into())];
            Sentence { level: Level::Done, words: words.text_with("answer-bench-repeat", &args) }
        }
    };
    let announce = words.text_with(
        "answer-announce",
        &[
            ("pair", title.as_str().into()),
            ("reading", shown.as_str().into()),
            ("judgement", said.words.as_str().into()),
        ],
    );
    BenchReadBack { title, shown, said, announce }
}
