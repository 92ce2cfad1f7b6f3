//! The office from a device: enrolling, how it stands, which jobs to have, leaving. Nothing here waits for a network.

use crate::attend::{Last, WANTED, Wish, hub_of};
use crate::failure::Failure;
use crate::network::Enrolling;
use crate::read::Fields;
use crate::state::State;
use crate::views::*;
use provenohm_assess::ids::JobId;
use provenohm_exchange::hub::{EnrolCode, JobThere, Link, NoAnswer};
use std::collections::BTreeSet;

pub(crate) fn office(state: &mut State, _: NoInput) -> Result<OfficeView, Failure> {
    view(state)
}

/// While something may come by itself.
const OFTEN: u32 = 500;
/// On a device that is at no office nothing comes by itself.
const SELDOM: u32 = 5_000;

pub(crate) fn pulse(state: &mut State, _: NoInput) -> Result<Pulse, Failure> {
    if !state.is_shared && hub_of(state).map_err(unread)?.is_none() {
        return Ok(Pulse { at: 0, again: SELDOM });
    }
    // It only has to differ from the one before.
    let at = state.record.view().last_said()?.0 & u64::from(u32::MAX);
    Ok(Pulse { at: u32::try_from(at).unwrap_or_default(), again: OFTEN })
}

pub(crate) fn enrol(state: &mut State, asked: Enrol) -> Result<OfficeView, Failure> {
    let mut fields = Fields::new(&state.words);
    let address = fields.needed("address", &plain(&asked.address), "complaint-office-address-needed");
    let code = EnrolCode::typed(&asked.code);
    if code.is_none() {
        fields.complain("code", "complaint-office-code", &[]);
    }
    let name = fields.needed("name", &asked.name, "complaint-name-needed");
    let code = fields.settle(code)?;
    let device = state.record.device().id();
    state.attending.wish(Wish::Enrol(Enrolling { address, code, device, name }));
    view(state)
}

/// An address as people copy it from a browser, without what stands behind it.
fn plain(address: &str) -> String {
    let address = address.trim();
    let (scheme, rest) = address.split_once("://").unwrap_or(("", address));
    let host = rest.split('/').next().unwrap_or_default();
    if scheme.eq_ignore_ascii_case("https") { format!("https://{host}") } else { host.to_owned() }
}

pub(crate) fn keep_in_step(state: &mut State, _: NoInput) -> Result<OfficeView, Failure> {
    state.attending.wish(Wish::Now);
    view(state)
}

pub(crate) fn fetch_job(state: &mut State, asked: OfJob) -> Result<OfficeView, Failure> {
    let mut wanted: BTreeSet<JobId> = state.setting(WANTED)?.unwrap_or_default();
    wanted.insert(asked.job);
    state.keep_setting(WANTED, &wanted)?;
    state.attending.wish(Wish::Now);
    view(state)
}

pub(crate) fn leave_office(state: &mut State, _: NoInput) -> Result<OfficeView, Failure> {
    state.record.keep_hub(None)?;
    Link::forget(&mut state.record)?;
    state.attending.forget();
    view(state)
}

fn view(state: &State) -> Result<OfficeView, Failure> {
    let hub = hub_of(state).map_err(unread)?;
    let words = &state.words;
    let (last, there) = state.attending.told();
    let (step, said) = match (&last, &hub) {
        (Last::Asking, _) => (OfficeStep::Asking, words.text("answer-office-asking")),
        (Last::Refused(failure), _) => (OfficeStep::Refused, failure.words.clone()),
        (Last::NotReached(at), _) => {
            (OfficeStep::Waiting, words.text_with("answer-office-waiting", &[("time", words.time(*at).into())]))
        }
        (_, None) => (OfficeStep::None, words.text("answer-office-none")),
        (Last::InStep(at), Some(_)) => {
            (OfficeStep::InStep, words.text_with("answer-office-in-step", &[("time", words.time(*at).into())]))
        }
        (Last::Never, Some(_)) => (OfficeStep::Asking, words.text("answer-office-asking")),
    };
    let (step, said) = match state.attending.going().filter(|_| hub.is_some()) {
        Some(going) => {
            let args = [("sent", going.sent.into()), ("came", going.came.came.into())];
            (OfficeStep::Asking, words.text_with("answer-office-going", &args))
        }
        None => (step, said),
    };
    let waits = match (step, &hub) {
        (OfficeStep::InStep | OfficeStep::None, _) | (_, None) => 0,
        (_, Some(_)) => state.record.view().readings_since(Link::of(&state.record)?.told)?,
    };
    Ok(OfficeView {
        address: hub.map(|hub| hub.address),
        step,
        words: said,
        waits: (waits > 0).then(|| words.text_with("answer-office-waits", &[("readings", waits.into())])),
        there: not_here(state, there)?,
    })
}

fn not_here(state: &State, there: Vec<JobThere>) -> Result<Vec<OfficeJob>, Failure> {
    let here = state.record.view().books()?;
    let wanted: BTreeSet<JobId> = state.setting(WANTED)?.unwrap_or_default();
    let not_here = there.into_iter().filter(|one| !here.contains(&one.job.into()));
    let line = |one: JobThere| OfficeJob {
        job: one.job,
        words: match one.place.is_empty() {
            true => one.name,
            false => state.words.text_with("job-at", &[("name", one.name.into()), ("place", one.place.into())]),
        },
        coming: wanted.contains(&one.job),
    };
    Ok(not_here.map(line).collect())
}

fn unread(error: NoAnswer) -> Failure {
    Failure::of("storage").because(error)
}
