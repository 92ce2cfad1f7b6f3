//! Bundles: a job with its testers out as one file, and what others recorded looked at and taken in.

#[cfg(test)]
mod tests;

use crate::failure::Failure;
use crate::ops::files::{file_stem, place_of, write_file, written};
use crate::ops::run::Hand;
use crate::state::State;
use crate::views::*;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_assess::ids::{JobId, PersonId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::{self, Bundle, ENDING, HandOverError, NotABundle, books_of};
use provenohm_exchange::join::{self, Joined, Watch};
use provenohm_logbook::chain::Gap;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{LogId, Seq};
use provenohm_logbook::record::{By, Record, TakeInError};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;
use uuid::Uuid;

pub(crate) fn hand_over(state: &mut State, asked: HandOverAsk) -> Result<Written, Failure> {
    let judged = state.judged(asked.job)?;
    let path = place_of(state, &format!("{}.{ENDING}", file_stem(&judged)))?;
    // The tester in hand goes too: whoever divides the work gives it with a board nobody has read on yet.
    let in_hand = Hand::of(state)?.tester;
    let testers: Vec<TesterId> = asked.testers.into_iter().chain(in_hand).collect();
    write_bundle(state, asked.job, &testers, &path)?;
    Ok(written(state, "answer-handed-over", &[path]))
}

/// Writes a job's bundle to a file.
pub(crate) fn write_bundle(state: &mut State, job: JobId, also: &[TesterId], path: &Path) -> Result<(), Failure> {
    // A seal is the device's own: where nobody records yet, nobody's name is needed for it.
    let person = state.me(job)?.unwrap_or(PersonId(Uuid::nil()));
    let by = By { person, at: state.host.now(), random: &mut state.host };
    let handed = bundle::hand_over(&mut state.record, by, job, also)?;
    write_file(path, &handed.bytes)?;
    let kept = Handed { at: state.host.now(), own: own(state, job)? };
    state.keep_setting(&format!("{HANDED}{job}"), &kept)
}

/// What this device keeps of a job handed over.
#[derive(Serialize, Deserialize)]
struct Handed {
    at: Moment,
    /// Readings recorded here until then.
    own: usize,
}

/// What this device keeps of its own readings that came back in a bundle of another device.
#[derive(Serialize, Deserialize)]
struct Back {
    at: Moment,
    /// Readings of this device that were in it.
    own: usize,
}

/// Settings under which a job's hand-over, what was received last and what came back are kept, before its id.
const HANDED: &str = "handed:";
const RECEIVED: &str = "received:";
const BACK: &str = "back:";

/// Readings of a job that this device recorded, those that no longer stand too: the places of their entries.
fn own_readings(state: &State, job: JobId) -> Result<BTreeSet<(LogId, Seq)>, Failure> {
    let readings = state.record.view().readings_by(job, state.record.device().id())?;
    Ok(readings.iter().map(|entry| (entry.log, entry.seq)).collect())
}

fn own(state: &State, job: JobId) -> Result<usize, Failure> {
    Ok(own_readings(state, job)?.len())
}

/// How many of them a bundle of another device holds; none if this device packed it, or nobody says who did.
fn came_back(state: &State, job: JobId, bundle: &Bundle<'_>) -> Result<Option<usize>, Failure> {
    let here = state.record.device().id();
    if bundle.manifest().by.is_none_or(|by| by == here) {
        return Ok(None);
    }
    let mut own = own_readings(state, job)?;
    let before = own.len();
    for entry in bundle.entries(job.into())?.into_iter().flatten() {
        let entry = entry?;
        own.remove(&(entry.envelope().log, entry.envelope().seq));
    }
    Ok(Some(before - own.len()))
}

pub(crate) fn handed(state: &mut State, asked: OfJob) -> Result<HandedView, Failure> {
    let own = own(state, asked.job)?;
    let handed: Option<Handed> = state.setting(&format!("{HANDED}{}", asked.job))?;
    let received: Option<Moment> = state.setting(&format!("{RECEIVED}{}", asked.job))?;
    let back: Option<Back> = state.setting(&format!("{BACK}{}", asked.job))?;
    let words = &state.words;
    let since = own.saturating_sub(handed.as_ref().map_or(0, |handed| handed.own));
    let mut lines = Vec::new();
    lines.push(match &handed {
        Some(handed) => words.text_with("answer-handed-at", &[("at", words.date_time(handed.at).into())]),
        None => words.text("answer-handed-never"),
    });
    lines.push(words.text_with("answer-handed-not-yet", &[("count", since.into())]));
    lines.extend(received.map(|at| words.text_with("answer-received-at", &[("at", words.date_time(at).into())])));
    if let Some(back) = &back {
        let args = [("at", words.date_time(back.at).into()), ("count", back.own.into())];
        lines.push(words.text_with("answer-received-back", &args));
    }
    let only_here = own.saturating_sub(back.map_or(0, |back| back.own));
    lines.push(words.text_with("answer-only-here", &[("count", only_here.into())]));
    lines.extend(lacking(state, asked.job)?);
    Ok(HandedView { lines })
}

/// What is missing of a job on this device, as far as it can tell: a line each, none where nothing is.
fn lacking(state: &State, job: JobId) -> Result<Vec<String>, Failure> {
    let view = state.record.view();
    let books = books_of(&view, job, &[])?;
    let mut missing = 0;
    let mut without = 0_u64;
    for book in &books {
        missing += view.gaps(*book)?.iter().map(Gap::missing).sum::<u64>();
        without += u64::from(view.logs(*book)?.is_empty());
    }
    let counts = [("answer-bundle-gaps", missing), ("answer-bundle-lacks", without)];
    let there = counts.into_iter().filter(|(_, count)| *count > 0);
    Ok(there.map(|(key, count)| state.words.text_with(key, &[("count", count.into())])).collect())
}

pub(crate) fn preview_bundle(state: &mut State, asked: BundleFile) -> Result<BundleView, Failure> {
    look(state, &decoded(&asked.base64)?)
}

pub(crate) fn take_in_bundle(state: &mut State, asked: BundleFile) -> Result<BundleView, Failure> {
    take_in(state, &decoded(&asked.base64)?)
}

/// Takes a bundle's bytes in.
pub(crate) fn take_in(state: &mut State, bytes: &[u8]) -> Result<BundleView, Failure> {
    let joined = joined(state, bytes, |record, bundle, watch| join::take_in(record, bundle, watch));
    state.forget_judged();
    let view = joined.map(|joined| told(state, &joined))?;
    if let Some(job) = view.job {
        let at = state.host.now();
        state.keep_setting(&format!("{RECEIVED}{job}"), &at)?;
        if let Some(own) = came_back(state, job, &Bundle::open(bytes)?)? {
            let before = state.setting::<Back>(&format!("{BACK}{job}"))?.map_or(0, |back| back.own);
            // Another device may hold less than one that was met before.
            if own >= before && own > 0 {
                state.keep_setting(&format!("{BACK}{job}"), &Back { at, own })?;
            }
        }
    }
    Ok(view)
}

/// Tells what is in a bundle's bytes.
pub(crate) fn look(state: &mut State, bytes: &[u8]) -> Result<BundleView, Failure> {
    let joined = joined(state, bytes, |record, bundle, watch| join::look(record, bundle, watch))?;
    Ok(told(state, &joined))
}

fn decoded(base64: &str) -> Result<Vec<u8>, Failure> {
    BASE64_STANDARD.decode(base64).map_err(|error| Failure::of("not_a_bundle").because(error))
}

fn joined(
    state: &mut State,
    bytes: &[u8],
    join: impl FnOnce(&mut Record, &Bundle<'_>, Watch<'_>) -> Result<Joined, TakeInError<NotABundle>>,
) -> Result<Joined, Failure> {
    let work = Arc::clone(&state.long_work);
    work.begin();
    let bundle = Bundle::open(bytes)?;
    Ok(join(&mut state.record, &bundle, &mut |progress| work.reached(progress))?)
}

fn told(state: &State, joined: &Joined) -> BundleView {
    let words = &state.words;
    let sum = joined.sum();
    let mut lines: Vec<String> = joined
        .books
        .iter()
        .map(|one| {
            let key = match one.taken.book {
                Book::Job { .. } => "answer-bundle-job",
                Book::Tester { .. } => "answer-bundle-tester",
                Book::Reference { .. } => "answer-bundle-reference",
            };
            words.text_with(key, &[("name", one.name.as_str().into()), ("count", one.taken.sum.came.into())])
        })
        .collect();
    let all = |of: fn(&provenohm_logbook::record::Taken) -> u64| joined.books.iter().map(|it| of(&it.taken)).sum();
    let counts: [(&str, u64); 6] = [
        ("answer-bundle-gaps", all(|it| it.gaps.iter().map(|gap| gap.missing()).sum())),
        ("answer-bundle-forks", all(|it| it.forks.len() as u64)),
        ("answer-bundle-newer", all(|it| it.newer)),
        ("answer-bundle-vouched", all(|it| it.vouched)),
        ("answer-bundle-closed", all(|it| it.closed.len() as u64)),
        ("answer-bundle-lacks", joined.lacks.len() as u64),
    ];
    let there = counts.into_iter().filter(|(_, count)| *count > 0);
    lines.extend(there.map(|(key, count)| words.text_with(key, &[("count", count.into())])));
    let job = joined.books.iter().find_map(|one| match one.taken.book {
        Book::Job { job } => Some(job),
        _ => None,
    });
    let [came, joined, same, settle] =
        [sum.came, sum.joined, sum.same, sum.to_settle].map(|count| u32::try_from(count).unwrap_or(u32::MAX));
    let args = [("came", came.into()), ("joined", joined.into()), ("same", same.into()), ("settle", settle.into())];
    BundleView { job, words: words.text_with("answer-bundle-sum", &args), lines, came, joined, same, to_settle: settle }
}

impl From<NotABundle> for Failure {
    fn from(error: NotABundle) -> Self {
        let code = match &error {
            NotABundle::Other => "not_a_bundle",
            NotABundle::Newer => "bundle_newer",
            NotABundle::Damaged => "bundle_damaged",
            _ => "bundle_refused",
        };
        Self::of(code).because(error)
    }
}

impl From<TakeInError<NotABundle>> for Failure {
    fn from(error: TakeInError<NotABundle>) -> Self {
        match error {
            TakeInError::Source(error) => error.into(),
            TakeInError::Write(error) => error.into(),
            TakeInError::Read(error) => error.into(),
            TakeInError::Stopped => Self::of("stopped"),
            other => Self::of("bundle_refused").because(other),
        }
    }
}

impl From<HandOverError> for Failure {
    fn from(error: HandOverError) -> Self {
        match error {
            HandOverError::NoSuchJob => Self::of("not_found"),
            HandOverError::TooLarge(error) => Self::of("bundle_too_large").because(error),
            HandOverError::Write(error) => error.into(),
            HandOverError::Read(error) => error.into(),
        }
    }
}
