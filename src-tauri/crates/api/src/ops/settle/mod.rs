//! Settling: what stands side by side is shown one after the other, and a person chooses. Nothing is chosen beforehand.

mod act;
mod made;
mod say;
#[cfg(test)]
mod tests;
mod waiting;

use crate::failure::Failure;
use crate::ops::undo::token;
use crate::state::State;
use crate::views::*;
use provenohm_assess::ids::{JobId, TesterId};
use provenohm_logbook::view::{ToSettle, View};
use say::Say;
use std::collections::BTreeSet;
use waiting::{questions, questions_of, waiting};

/// What is sent to keep every reading of a pair.
const BOTH: &str = "both";

pub(crate) fn settling(state: &mut State, asked: OfJob) -> Result<SettlingView, Failure> {
    settling_view(state, asked.job)
}

pub(crate) fn settle(state: &mut State, asked: Settle) -> Result<Settled, Failure> {
    let judged = state.judged(asked.job)?;
    let mut all = Vec::new();
    for one in questions(&state.record.view(), &judged)? {
        all.push(waiting(&state.record.view(), one)?);
    }
    let found = all.iter().find(|one| one.id == asked.question).ok_or_else(|| Failure::of("not_found"))?;
    let both = asked.choice == BOTH && found.is_of_readings();
    let chosen = found.choices.iter().find(|one| one.id == asked.choice);
    if chosen.is_none() && !both {
        return Err(Failure::of("not_found"));
    }
    let words = match chosen {
        Some(one) => Say::new(state, &judged).settled(&found.question, one)?,
        None => state.words.text("answer-settled-both"),
    };
    // What several books hold, as the name of a person, is asked once and settled in each.
    let elsewhere = all.iter().filter(|one| one.question == found.question && one.id != found.id);
    let elsewhere: Vec<_> = elsewhere
        .filter_map(|one| Some((one, one.choices.iter().find(|choice| chosen.is_some_and(|it| it.says_what(choice)))?)))
        .collect();
    let person = state.person(asked.job)?;
    let receipt = state.write(person, |writer| {
        act::settle(writer, asked.job, found, chosen)?;
        elsewhere.into_iter().try_for_each(|(one, choice)| act::settle(writer, asked.job, one, Some(choice)))
    })?;
    Ok(Settled { done: Done { words, undo: token(&receipt) }, view: settling_view(state, asked.job)? })
}

/// How many things of a job and of some testers wait.
pub(crate) fn how_many(view: &View<'_>, job: JobId, testers: &BTreeSet<TesterId>) -> Result<u32, Failure> {
    Ok(u32::try_from(asked_once(questions_of(view, job, testers)?).len()).unwrap_or(u32::MAX))
}

/// The questions, each once, whichever book it stands in.
fn asked_once(all: Vec<ToSettle>) -> Vec<ToSettle> {
    let mut once: Vec<ToSettle> = Vec::with_capacity(all.len());
    for one in all {
        if !once.iter().any(|other| other.question == one.question) {
            once.push(one);
        }
    }
    once
}

fn settling_view(state: &mut State, job: JobId) -> Result<SettlingView, Failure> {
    let judged = state.judged(job)?;
    let view = state.record.view();
    let say = Say::new(state, &judged);
    let mut all = Vec::new();
    for one in asked_once(questions(&view, &judged)?) {
        all.push(say.question(&waiting(&view, one)?)?);
    }
    Ok(SettlingView {
        job,
        name: judged.file.job.name.clone(),
        words: state.words.text_with("answer-to-settle", &[("count", all.len().into())]),
        questions: all,
        made: made::made(state, &judged)?,
    })
}
