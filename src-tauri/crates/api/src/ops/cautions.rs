//! The cautions: read and confirmed once per job and person.

use crate::failure::Failure;
use crate::state::State;
use crate::views::{CautionsView, OfJob};
use provenohm_logbook::entry::body::CautionsRead;

/// Rises whenever the cautions say something else, so that the record tells which ones were read.
const VERSION: u32 = 1;

pub(crate) fn cautions(state: &mut State, asked: OfJob) -> Result<CautionsView, Failure> {
    let judged = state.judged(asked.job)?;
    let me = state.me(asked.job)?;
    let words = &state.words;
    let read = judged.file.cautions_read.iter().rfind(|read| Some(read.person) == me && read.version == VERSION);
    Ok(CautionsView {
        title: words.cautions_title(),
        points: words.cautions(),
        confirmed: read.map(|read| {
            let person = judged.person(read.person);
            words.text_with(
                "answer-cautions-confirmed",
                &[("person", person.into()), ("at", words.date_time(read.at).into())],
            )
        }),
    })
}

pub(crate) fn confirm_cautions(state: &mut State, asked: OfJob) -> Result<CautionsView, Failure> {
    let (job, person) = (asked.job, state.person(asked.job)?);
    let judged = state.judged(job)?;
    let already = judged.file.cautions_read.iter().any(|read| read.person == person && read.version == VERSION);
    if !already {
        state.write(person, |writer| Ok(writer.append(CautionsRead { job, person, version: VERSION })?))?;
    }
    cautions(state, asked)
}
