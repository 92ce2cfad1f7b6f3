//! Signing off: what would be signed is told first; one act and a name sign it; a reason takes it back.

mod told;

use crate::failure::Failure;
use crate::judged::Judged;
use crate::read::Fields;
use crate::signed::{model_of, put_together};
use crate::state::{State, maker};
use crate::tally::Tally;
use crate::views::*;
use provenohm_assess::RULES_VERSION;
use provenohm_assess::ids::{JobId, PersonId};
use provenohm_exchange::bundle::books_of;
use provenohm_exchange::job_file::Made;
use provenohm_logbook::entry::body::SignOff;
use provenohm_logbook::entry::{EntryRef, Hash};
use provenohm_logbook::record::{Record, Writer};
use provenohm_words::Words;

pub(crate) use told::{said, signed_lines, since_of};

pub(crate) fn sign_off_view(state: &mut State, asked: OfJob) -> Result<SignOffView, Failure> {
    told::view(state, asked.job)
}

pub(crate) fn after_sign_off(state: &mut State, asked: AfterSignOff) -> Result<AfterSignOffView, Failure> {
    told::after(state, asked.job, &asked.entry)
}

pub(crate) fn sign_off(state: &mut State, asked: SignOffAsk) -> Result<SignOffView, Failure> {
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", &state.acting_name(asked.name)?, "complaint-name-needed");
    fields.settle(Some(()))?;
    may_sign(state, asked.job)?;
    // Whoever reviews may never have recorded here: their card is made on this device.
    let person = state.person_named(&name, "")?;
    let words = state.words.clone();
    let made = Made { at: state.host.now(), by: maker() };
    let mut past = Record::in_memory(&mut state.host)?;
    state.write(person, |writer| signed(writer, &words, asked.job, (person, name), &mut past, made))?;
    told::view(state, asked.job)
}

/// Cuts, judges what was cut, and signs that: nothing another program writes meanwhile comes between.
fn signed(
    writer: &mut Writer<'_>,
    words: &Words,
    job: JobId,
    (person, name): (PersonId, String),
    past: &mut Record,
    made: Made,
) -> Result<EntryRef, Failure> {
    let books = books_of(&writer.view(), job, &[])?;
    let cut = writer.cut_to_sign(job, &books)?;
    let not_here = || Failure::of("sign_off_incomplete");
    let judged = put_together(&writer.view(), job, &cut, past, made)?.ok_or_else(not_here)?;
    not_stopped(words, &judged)?;
    let model = model_of(words, &past.view(), job, &judged)?;
    let digest = model.digest().map_err(|error| Failure::of("schedule").because(error))?;
    let rules = past.view().job(job)?.rules;
    let limit_set = rules.first().map(|rules| Hash::of(&[&rules.bytes.0])).ok_or_else(not_here)?;
    let said = SignOff {
        job,
        number: writer.next_sign_off(job)?,
        person,
        name,
        cut,
        limit_set,
        rules: u64::from(RULES_VERSION),
        language: words.locale().id().to_owned(),
        model: digest.as_str().parse().map_err(|_| Failure::of("unexpected"))?,
    };
    Ok(writer.sign_off(said)?)
}

/// Refuses with what stops it: an open *Stop*, or something only a newer version can read.
fn may_sign(state: &mut State, job: JobId) -> Result<(), Failure> {
    let view = state.record.view();
    if view.critical_unreadable(&books_of(&view, job, &[])?)? > 0 {
        return Err(Failure::of("sign_off_newer"));
    }
    let judged = state.judged(job)?;
    let read = judged.readings.iter().any(|one| one.taken.stands());
    // That nothing could be tested on a visit is as much a statement as a reading.
    if !read && judged.slots().all(|(_, _, slot)| slot.not_tested.is_empty()) {
        return Err(Failure::of("sign_off_nothing"));
    }
    not_stopped(&state.words, &judged)
}

/// Only an open *Stop* keeps a job from being signed.
fn not_stopped(words: &Words, judged: &Judged) -> Result<(), Failure> {
    let stop = Tally::of_job(judged).stop;
    let said = || words.text_with("refused-sign-off-stopped", &[("count", stop.into())]);
    if stop > 0 { Err(Failure::of("sign_off_stopped").saying(said())) } else { Ok(()) }
}

pub(crate) fn withdraw_sign_off(state: &mut State, asked: WithdrawSignOff) -> Result<SignOffView, Failure> {
    let mut fields = Fields::new(&state.words);
    let name = fields.needed("name", &state.acting_name(asked.name)?, "complaint-name-needed");
    let reason = fields.needed("reason", &asked.reason, "complaint-reason-needed");
    fields.settle(Some(()))?;
    let entry: EntryRef = asked.entry.parse().map_err(|_| Failure::of("not_found"))?;
    let all = state.record.view().sign_offs(asked.job)?;
    if !all.iter().any(|one| one.entry == entry && one.is_live()) {
        return Err(Failure::of("not_found"));
    }
    // As with a signature, the name is asked: whoever takes it back may never have recorded here.
    let person = state.person_named(&name, "")?;
    state.write(person, |writer| {
        writer.withdraw(&[entry], &reason)?;
        writer.seal(asked.job.into())?;
        Ok(())
    })?;
    told::view(state, asked.job)
}
