//! What a reviewer does: asks for a new reading, or accepts what asks for a look. No reading changes by either.

use crate::failure::Failure;
use crate::judged::{Judged, JudgedReading, NOT_TESTED, Slot};
use crate::ops::origin::find;
use crate::ops::undo::token;
use crate::read::Fields;
use crate::state::State;
use crate::tell;
use crate::views::*;
use provenohm_assess::ids::{JobId, PersonId};
use provenohm_assess::judgement::Level;
use provenohm_exchange::job_file::NotTested;
use provenohm_logbook::entry::body::{Accepted, AcceptedOf, Request};
use provenohm_logbook::entry::{EntryRef, Fact};
use provenohm_logbook::view::Stated;

pub(crate) fn ask_reading(state: &mut State, asked: ReviewAsk) -> Result<Done, Failure> {
    let reason = reason(state, &asked.reason)?;
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let (board, circuit, slot) = find(&judged, &asked.slot())?;
    let readings = readings(&judged, &slot);
    // What a joined reading proves is tested again as it was: joined.
    let joined = readings.first().filter(|_| slot.readings.is_empty());
    let (stage, pair) = joined.map_or((slot.stage, &slot.pair), |one| (one.reading.stage, &one.reading.pair));
    let said = judged.file.not_tested.iter().filter(|said| said.stage == stage && said.pair == *pair);
    let request = Request {
        job,
        pair: pair.clone(),
        stage,
        readings: readings.iter().map(|one| one.reading.id).collect(),
        not_tested: said.map(|said| said.at).collect(),
        person: reviewer(state, job)?,
        at: state.host.now(),
    };
    let place = tell::place(&state.words, &judged, &board.name, &circuit.circuit, pair);
    let receipt = state.write(request.person, |writer| Ok(writer.append(Fact::from(request).because(reason))?))?;
    let words = state.words.text_with("answer-asked-for", &[("place", place.into())]);
    Ok(Done { words, undo: token(&receipt) })
}

pub(crate) fn accept(state: &mut State, asked: ReviewAsk) -> Result<Done, Failure> {
    let reason = reason(state, &asked.reason)?;
    let job = state.job_of_board(asked.board)?;
    let judged = state.judged(job)?;
    let (board, circuit, slot) = find(&judged, &asked.slot())?;
    let place = tell::place(&state.words, &judged, &board.name, &circuit.circuit, &slot.pair);
    let (person, at) = (reviewer(state, job)?, state.host.now());
    let accepted: Vec<Accepted> = match Acceptable::of(&judged, &slot)? {
        Acceptable::Readings(marked) => marked
            .into_iter()
            .map(|one| {
                let codes = one.judgement.look_codes().into_iter().map(str::to_owned).collect();
                Accepted { job, of: AcceptedOf::Reading { reading: one.reading.id }, codes, person, at }
            })
            .collect(),
        Acceptable::NotTested(all) => all
            .into_iter()
            .map(|said| {
                let of = AcceptedOf::NotTested { pair: said.pair, stage: said.stage, at: said.at };
                Accepted { job, of, codes: vec![NOT_TESTED.to_owned()], person, at }
            })
            .collect(),
    };
    let receipt = state.write(person, |writer| {
        for one in accepted {
            writer.append(Fact::from(one).because(reason.as_str()))?;
        }
        Ok(())
    })?;
    let words = state.words.text_with("answer-accepted-now", &[("place", place.into())]);
    Ok(Done { words, undo: token(&receipt) })
}

pub(crate) fn withdraw_review(state: &mut State, asked: WithdrawReview) -> Result<Done, Failure> {
    let reason = reason(state, &asked.reason)?;
    let entry: EntryRef = asked.entry.parse().map_err(|_| Failure::of("not_found"))?;
    let view = state.record.view();
    let is_request = view.requests(asked.job)?.iter().any(|one| one.entry == entry && one.is_live());
    let is_acceptance = view.accepted(asked.job)?.iter().any(|one| one.entry == entry && one.is_live());
    if !is_request && !is_acceptance {
        return Err(Failure::of("not_found"));
    }
    let person = reviewer(state, asked.job)?;
    let receipt = state.write(person, |writer| Ok(writer.withdraw(&[entry], &reason)?))?;
    let key = if is_request { "answer-request-withdrawn" } else { "answer-acceptance-withdrawn" };
    Ok(Done { words: state.words.text(key), undo: token(&receipt) })
}

fn reason(state: &State, typed: &str) -> Result<String, Failure> {
    let mut fields = Fields::new(&state.words);
    let reason = fields.needed("reason", typed, "complaint-reason-needed");
    fields.settle(Some(reason))
}

/// Who reviews: the person at this device, for this job or at all.
fn reviewer(state: &State, job: JobId) -> Result<PersonId, Failure> {
    match state.me(job)? {
        Some(person) => Ok(person),
        None => state.anyone(),
    }
}

/// The readings a slot shows: its own, or the joined one that speaks for it.
fn readings<'a>(judged: &'a Judged, slot: &Slot) -> Vec<&'a JudgedReading> {
    slot.readings.iter().chain(&slot.covered_by).filter_map(|at| judged.readings.get(*at)).collect()
}

/// What of a slot can be accepted.
pub(crate) enum Acceptable<'a> {
    /// The readings that ask for a look.
    Readings(Vec<&'a JudgedReading>),
    /// That it was not tested.
    NotTested(Vec<NotTested>),
}

impl<'a> Acceptable<'a> {
    /// What can be accepted.
    ///
    /// # Errors
    /// `accept_stopped` for what stops a sign-off, `accept_nothing` where nothing asks for a look.
    pub(crate) fn of(judged: &'a Judged, slot: &Slot) -> Result<Self, Failure> {
        let readings = readings(judged, slot);
        if readings.iter().any(|one| one.judgement.level == Level::Stop) {
            return Err(Failure::of("accept_stopped"));
        }
        let marked: Vec<_> = readings.into_iter().filter(|one| one.judgement.level == Level::Look).collect();
        match &slot.not_tested[..] {
            _ if !marked.is_empty() => Ok(Self::Readings(marked)),
            [] => Err(Failure::of("accept_nothing")),
            said => Ok(Self::NotTested(said.to_vec())),
        }
    }
}

/// What reviewers said of a slot and did not withdraw, in the order it was recorded.
pub(crate) fn told(state: &State, judged: &Judged, slot: &Slot) -> Result<Vec<ReviewLine>, Failure> {
    let words = &state.words;
    let (view, job) = (state.record.view(), judged.file.job.id);
    let shown: Vec<_> =
        readings(judged, slot).iter().map(|one| (one.reading.stage, one.reading.pair.clone())).collect();
    let here = |one: &Stated<Request>| {
        let asked = (one.value.stage, one.value.pair.clone());
        asked == (slot.stage, slot.pair.clone()) || shown.contains(&asked)
    };
    let open: Vec<EntryRef> = view.open_requests(job)?.iter().map(|one| one.entry).collect();
    let mut lines = Vec::new();
    for one in view.requests(job)?.iter().filter(|one| one.is_live() && here(one)) {
        let waits = open.contains(&one.entry);
        let said = tell::said_by(words, judged, one.value.person, one.value.at, one.reason.as_deref());
        let key = if waits { "answer-request" } else { "answer-request-answered" };
        lines.push(line(one.entry, ReviewWhat::Request, words.text_with(key, &said), waits));
    }
    let holds = |one: &Accepted| match &one.of {
        AcceptedOf::Reading { reading } => judged.reading(*reading).and_then(|it| judged.acceptance(it)).is_some(),
        AcceptedOf::NotTested { .. } => slot.accepted(judged).is_some(),
    };
    for one in view.accepted(job)?.iter().filter(|one| one.is_live() && is_of(judged, slot, &one.value.of)) {
        let holds = holds(&one.value);
        let said = tell::said_by(words, judged, one.value.person, one.value.at, one.reason.as_deref());
        let key = if holds { "answer-accepted" } else { "answer-accepted-before" };
        lines.push(line(one.entry, ReviewWhat::Accepted, words.text_with(key, &said), holds));
    }
    Ok(lines)
}

fn line(entry: EntryRef, what: ReviewWhat, words: String, holds: bool) -> ReviewLine {
    ReviewLine { entry: entry.to_string(), what, words, holds }
}

/// Whether what was accepted stands in a slot.
fn is_of(judged: &Judged, slot: &Slot, of: &AcceptedOf) -> bool {
    match of {
        AcceptedOf::Reading { reading } => readings(judged, slot).iter().any(|one| one.reading.id == *reading),
        AcceptedOf::NotTested { pair, stage, at } => {
            *pair == slot.pair && *stage == slot.stage && slot.not_tested.iter().any(|said| said.at == *at)
        }
    }
}
