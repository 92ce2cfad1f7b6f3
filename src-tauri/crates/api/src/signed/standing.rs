//! The sign-offs of a job that stand, seen from now.

use crate::failure::Failure;
use crate::judged::Judged;
use crate::state::State;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use provenohm_assess::ids::{JobId, ReadingId};
use provenohm_assess::judgement::TesterState;
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::books_of;
use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::entry::body::{Book, SignOff};
use provenohm_logbook::view::{Later, Stated, View};
use provenohm_papers::report::{Digest, Signature};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A sign-off that stands, and what has come since.
pub(crate) struct Standing {
    pub(crate) said: Stated<SignOff>,
    /// What its job and testers were told since.
    pub(crate) after: Vec<Later>,
    /// Testers that came to the job since.
    pub(crate) new_testers: usize,
    /// Readings it covers whose tester was found failed since.
    pub(crate) in_doubt: u32,
}

/// A sign-off that stands, and how much has come since: what lists of jobs keep of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Signed {
    pub(crate) number: u64,
    pub(crate) name: String,
    pub(crate) at: Moment,
    /// Entries that came since.
    pub(crate) after: usize,
    pub(crate) new_testers: usize,
    pub(crate) in_doubt: u32,
}

impl Standing {
    /// Counted.
    pub(crate) fn counted(&self) -> Signed {
        Signed {
            number: self.said.value.number,
            name: self.said.value.name.clone(),
            at: self.said.recorded,
            after: self.after.len(),
            new_testers: self.new_testers,
            in_doubt: self.in_doubt,
        }
    }
}

/// What a job and the testers it was signed with were told since. What was known before of a tester that came to the job
/// later is not news of what was signed: the readings taken with it are.
pub(crate) struct Since {
    pub(crate) after: Vec<Later>,
    pub(crate) new_testers: usize,
}

impl Since {
    pub(crate) fn of(view: &View<'_>, job: JobId, said: &Stated<SignOff>) -> Result<Self, Failure> {
        let now = books_of(view, job, &[])?;
        let cut = &said.value.cut;
        let mut then = BTreeSet::from([Book::from(job)]);
        for end in cut {
            then.extend(view.book_of(end.log)?);
        }
        if !now.is_subset(&then) {
            // Nothing may have been here of a tester that was used.
            let later: BTreeSet<EntryRef> = view.after(cut, &[job.into()])?.iter().map(|one| one.entry).collect();
            let signed = view.readings(job)?.into_iter().filter(|one| !later.contains(&one.taken.entry));
            then.extend(signed.filter_map(|one| one.taken.value.reading.tester).map(Book::from));
        }
        let new_testers = now.difference(&then).filter(|book| matches!(book, Book::Tester { .. })).count();
        Ok(Self { after: view.after(cut, now.intersection(&then))?, new_testers })
    }
}

/// The sign-offs that stand: those with the highest number. Two, where two people signed apart.
pub(crate) fn standing(state: &mut State, job: JobId) -> Result<Vec<Standing>, Failure> {
    if latest(&state.record.view(), job)?.is_empty() {
        return Ok(Vec::new());
    }
    let judged = state.judged(job)?;
    standing_of(state, &judged)
}

/// The same of a job as judged now.
pub(crate) fn standing_of(state: &mut State, judged: &Judged) -> Result<Vec<Standing>, Failure> {
    let job = judged.file.job.id;
    let mut all = Vec::new();
    for said in latest(&state.record.view(), job)? {
        let view = state.record.view();
        let Since { after, new_testers } = Since::of(&view, job, &said)?;
        let in_doubt = since(state, judged, &said)?;
        all.push(Standing { said, after, new_testers, in_doubt });
    }
    Ok(all)
}

/// Of the sign-offs that are not withdrawn those with the highest number.
pub(crate) fn latest(view: &View<'_>, job: JobId) -> Result<Vec<Stated<SignOff>>, Failure> {
    let mut live: Vec<_> = view.sign_offs(job)?.into_iter().filter(Stated::is_live).collect();
    let highest = live.iter().map(|one| one.value.number).max();
    live.retain(|one| Some(one.value.number) == highest);
    Ok(live)
}

/// What papers say of the sign-offs that stand.
pub(crate) fn signatures(state: &mut State, job: JobId) -> Result<Vec<Signature>, Failure> {
    let all = standing(state, job)?;
    all.iter().map(|one| signature(state, one)).collect()
}

fn signature(state: &State, one: &Standing) -> Result<Signature, Failure> {
    let said = &one.said.value;
    let entries = state.record.view().evidence(one.said.entry)?;
    Ok(Signature {
        number: said.number,
        name: said.name.clone(),
        at: one.said.recorded,
        model: Digest::named(&said.model.to_string()).ok_or_else(|| Failure::of("unexpected"))?,
        after: u32::try_from(one.after.len()).unwrap_or(u32::MAX),
        in_doubt: one.in_doubt,
        entries: entries.iter().map(|entry| STANDARD.encode(entry.to_wire())).collect(),
    })
}

/// Readings in doubt now that were not when the job was signed.
fn since(state: &mut State, judged: &Judged, said: &Stated<SignOff>) -> Result<u32, Failure> {
    let now = in_doubt(judged);
    // The job is put together as it was signed only if there is something to compare.
    if now.is_empty() {
        return Ok(0);
    }
    let Some(signed) = state.as_signed(judged.file.job.id, said)? else { return Ok(0) };
    let before = in_doubt(&signed.judged);
    let new = now.iter().filter(|id| !before.contains(id) && signed.judged.reading(**id).is_some());
    Ok(u32::try_from(new.count()).unwrap_or(u32::MAX))
}

fn in_doubt(judged: &Judged) -> BTreeSet<ReadingId> {
    let doubted = |state| matches!(state, TesterState::InDoubt | TesterState::Barred);
    let readings = judged.readings.iter().filter(|one| one.taken.stands());
    readings.filter(|one| doubted(one.judgement.tester.state)).map(|one| one.reading.id).collect()
}
