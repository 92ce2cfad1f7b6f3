//! Bundles: a job with its testers out as one file, and what others recorded looked at and taken in.

#[cfg(test)]
mod tests;

use crate::attend::hub_of;
use crate::failure::{DAMAGED, Failure};
use crate::lacking::Lacking;
use crate::long_work::LongWork;
use crate::ops::devices::short;
use crate::ops::files::{file_stem, place_of, write_file, written};
use crate::ops::run::Hand;
use crate::state::State;
use crate::views::*;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use provenohm_assess::ids::{JobId, PersonId, TesterId};
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::{self, Bundle, ENDING, HandOverError, NotABundle};
use provenohm_exchange::hub::Link;
use provenohm_exchange::join::{self, Joined, Progress, Watch};
use provenohm_logbook::entry::EntryRef;
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::record::{By, Record, TakeInError, of_book};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;
use uuid::Uuid;

pub(crate) fn hand_over(state: &mut State, asked: HandOverAsk) -> Result<Written, Failure> {
    let stem = match state.judged(asked.job) {
        Ok(judged) => file_stem(&judged),
        // What cannot be judged can still be handed on.
        Err(failure) if failure.code == DAMAGED => asked.job.to_string(),
        Err(failure) => return Err(failure),
    };
    // Two devices may hand one job over into one folder, and two jobs may bear one name: neither takes the other's place.
    let (device, at) = (short(state.record.device().id()), state.host.now());
    let path = place_of(state, &format!("{stem}-{device}-{}.{ENDING}", at.format("%Y%m%d-%H%M%S")))?;
    // The tester in hand goes too: whoever divides the work gives it with a board nobody has read on yet.
    let in_hand = Hand::of(state)?.tester;
    let testers: Vec<TesterId> = asked.testers.into_iter().chain(in_hand).collect();
    let without = write_bundle(state, asked.job, &testers, &path)?;
    let written = written(state, "answer-handed-over", &[path]);
    Ok(Written { words: without.unwrap_or(written.words), ..written })
}

/// Writes a job's bundle to a file. What of it stays out since it is not as it was written, in a sentence.
pub(crate) fn write_bundle(
    state: &mut State,
    job: JobId,
    also: &[TesterId],
    path: &Path,
) -> Result<Option<String>, Failure> {
    // A seal is the device's own: where nobody records yet, nobody's name is needed for it.
    let person = state.me(job)?.unwrap_or(PersonId(Uuid::nil()));
    let by = By { person, at: state.host.now(), random: &mut state.host };
    let work = Arc::clone(&state.long_work);
    work.begin();
    let handed = bundle::hand_over_watched(&mut state.record, by, job, also, &mut |progress| work.reached(progress))?;
    write_file(path, &handed.bytes)?;
    match own_readings(state, job) {
        Ok(own) => {
            let kept = Told::of(state.host.now(), own);
            state.keep_setting(&of_book(job.into(), HANDED), &kept)?;
        }
        // Nobody can tell which of them were in it.
        Err(failure) if failure.code == DAMAGED => {}
        Err(failure) => return Err(failure),
    }
    let left_out = handed.altered + handed.unproven;
    let without = || state.words.text_with("answer-handed-over-without", &[("count", left_out.into())]);
    Ok((left_out > 0).then(without))
}

/// What this device keeps of a job handed over, or of what came back of it in bundles of other devices. Readings are
/// named, not counted: a record that was set back has fewer, and other ones.
#[derive(Serialize, Deserialize)]
struct Told {
    at: Moment,
    /// Readings of this device that were in it.
    readings: BTreeSet<String>,
}

impl Told {
    fn of(at: Moment, readings: impl IntoIterator<Item = EntryRef>) -> Self {
        Self { at, readings: readings.into_iter().map(|entry| entry.to_string()).collect() }
    }

    /// How many of some readings are not in it.
    fn lacks(told: Option<&Self>, own: &BTreeSet<EntryRef>) -> usize {
        let is_in = |entry: &&EntryRef| told.is_some_and(|told| told.readings.contains(&entry.to_string()));
        own.len() - own.iter().filter(is_in).count()
    }
}

/// What is kept of a job: its hand-over, when it was received last, and what came back.
const HANDED: &str = "handed";
const RECEIVED: &str = "received";
const BACK: &str = "back";

/// Readings of a job that this device recorded, those that no longer stand too.
fn own_readings(state: &State, job: JobId) -> Result<BTreeSet<EntryRef>, Failure> {
    Ok(state.record.view().own_readings(job)?.into_iter().collect())
}

/// Those of them that a bundle of another device holds; nothing if this device packed it, or nobody says who did.
fn came_back(state: &State, job: JobId, bundle: &Bundle<'_>) -> Result<BTreeSet<EntryRef>, Failure> {
    let here = state.record.device().id();
    let mut back = BTreeSet::new();
    if bundle.manifest().by.is_none_or(|by| by == here) {
        return Ok(back);
    }
    let own = own_readings(state, job)?;
    for entry in bundle.entries(job.into())?.into_iter().flatten() {
        back.extend(own.get(&entry?.reference()));
    }
    Ok(back)
}

/// Where a job is, as far as this device knows: only here, or handed over and when.
pub(crate) fn whereabouts(state: &State, job: JobId) -> Result<String, Failure> {
    if let Some(key) = at_the_office(state)? {
        return Ok(state.words.text(key));
    }
    let handed: Option<Told> = state.setting(&of_book(job.into(), HANDED))?;
    let words = &state.words;
    Ok(match &handed {
        Some(handed) => words.text_with("answer-handed-at", &[("at", words.date_time(handed.at).into())]),
        None => words.text("answer-handed-never"),
    })
}

/// That all of it is where the office works; nothing if some of it is on this device alone.
fn at_the_office(state: &State) -> Result<Option<&'static str>, Failure> {
    if state.is_shared {
        return Ok(Some("answer-here-for-all"));
    }
    let unread = |error| Failure::of("storage").because(error);
    if hub_of(state).map_err(unread)?.is_none() {
        return Ok(None);
    }
    let link = Link::of(&state.record)?;
    let all_there = link.epoch.is_some() && state.record.view().readings_since(link.told)? == 0;
    Ok(all_there.then_some("answer-at-office-too"))
}

pub(crate) fn handed(state: &mut State, asked: OfJob) -> Result<HandedView, Failure> {
    let kept = |what: &str| of_book(asked.job.into(), what);
    let own = own_readings(state, asked.job)?;
    let handed: Option<Told> = state.setting(&kept(HANDED))?;
    let received: Option<Moment> = state.setting(&kept(RECEIVED))?;
    let back: Option<Told> = state.setting(&kept(BACK))?;
    let mut lines = vec![whereabouts(state, asked.job)?];
    if at_the_office(state)?.is_some() {
        lines.extend(Lacking::of(&state.record.view(), asked.job)?.lines(&state.words));
        return Ok(HandedView { lines });
    }
    let words = &state.words;
    let since = Told::lacks(handed.as_ref(), &own);
    lines.push(words.text_with("answer-handed-not-yet", &[("count", since.into())]));
    lines.extend(received.map(|at| words.text_with("answer-received-at", &[("at", words.date_time(at).into())])));
    let only_here = Told::lacks(back.as_ref(), &own);
    if let Some(back) = &back {
        let args = [("at", words.date_time(back.at).into()), ("count", (own.len() - only_here).into())];
        lines.push(words.text_with("answer-received-back", &args));
    }
    lines.push(words.text_with("answer-only-here", &[("count", only_here.into())]));
    lines.extend(Lacking::of(&state.record.view(), asked.job)?.lines(&state.words));
    Ok(HandedView { lines })
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
        state.keep_setting(&of_book(job.into(), RECEIVED), &at)?;
        let back = came_back(state, job, &Bundle::open(bytes)?)?;
        if !back.is_empty() {
            // Another device may hold less than one that was met before.
            let before: Option<Told> = state.setting(&of_book(job.into(), BACK))?;
            let mut told = Told::of(at, back);
            told.readings.extend(before.into_iter().flat_map(|before| before.readings));
            state.keep_setting(&of_book(job.into(), BACK), &told)?;
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
    let bundle = opened(&work, bytes)?;
    Ok(join(&mut state.record, &bundle, &mut |progress| work.reached(after_opening(progress)))?)
}

/// A bundle opened while somebody watches. That is a third of the way: each entry is read, taken, and proven.
pub(crate) fn opened<'b>(work: &LongWork, bytes: &'b [u8]) -> Result<Bundle<'b>, Failure> {
    let opened = Bundle::open_watched(bytes, &mut |read| work.reached(Progress { of: 3 * read.of, ..read }))?;
    opened.ok_or_else(|| Failure::of("stopped"))
}

/// How far taking a bundle in is, with its opening behind it.
pub(crate) fn after_opening(taken: Progress) -> Progress {
    Progress { done: taken.done + taken.of / 2, of: taken.of + taken.of / 2 }
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
    let counts: [(&str, u64); 7] = [
        ("answer-bundle-mended", all(|it| it.mended)),
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
            HandOverError::Stopped => Self::of("stopped"),
            HandOverError::TooLarge(error) => Self::of("bundle_too_large").because(error),
            HandOverError::Write(error) => error.into(),
            HandOverError::Read(error) => error.into(),
        }
    }
}
