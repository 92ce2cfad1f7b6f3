//! The devices a job is recorded on, and vouching for one.

use crate::failure::Failure;
use crate::ops::undo::token;
use crate::state::State;
use crate::views::*;
use provenohm_assess::ids::{DeviceId, JobId};
use provenohm_assess::judgement::Level;
use provenohm_logbook::entry::body::DeviceKnown;
use provenohm_logbook::entry::{Fact, Hash};
use provenohm_logbook::view::{JobDevice, View};
use provenohm_words::Words;
use std::collections::BTreeSet;

pub(crate) fn devices(state: &mut State, asked: OfJob) -> Result<DevicesView, Failure> {
    view_of(state, asked.job)
}

pub(crate) fn vouch_for_device(state: &mut State, asked: VouchForDevice) -> Result<DevicesView, Failure> {
    let person = state.person(asked.job)?;
    let all = state.record.view().devices(asked.job)?;
    let here = state.record.device();
    let (id, key) = (here.id(), here.key().public());
    let known_here = all.iter().any(|one| one.device == id && one.key == key && one.known);
    let reason = asked.reason.trim();
    // A word from here then makes nothing known; people read it, and who gave it why.
    if !known_here && reason.is_empty() {
        return Err(Failure::of("device_not_known"));
    }
    let meant = |one: &&JobDevice| one.device.to_string() == asked.device && Hash(one.key).to_string() == asked.key;
    let one = all.iter().find(meant).filter(|one| !one.known).ok_or_else(|| Failure::of("not_found"))?;
    let known = Fact::from(DeviceKnown { job: asked.job, device: one.device, key: one.key });
    let known = if reason.is_empty() { known } else { known.because(reason) };
    let receipt = state.write(person, |writer| Ok(writer.append(known)?))?;
    Ok(DevicesView { undo: token(&receipt), ..view_of(state, asked.job)? })
}

/// The devices whose every log in a job's book is that of a device known to the job: a second key under the same name
/// makes both of them doubtful.
pub(crate) fn known_devices(view: &View<'_>, job: JobId) -> Result<BTreeSet<DeviceId>, Failure> {
    let all = view.devices(job)?;
    let unknown: BTreeSet<DeviceId> = all.iter().filter(|one| !one.known).map(|one| one.device).collect();
    Ok(all.iter().map(|one| one.device).filter(|id| !unknown.contains(id)).collect())
}

/// The beginning of a device's id: enough to tell those of one job apart.
pub(crate) fn short(device: DeviceId) -> String {
    device.to_string().chars().take(8).collect()
}

fn view_of(state: &State, job: JobId) -> Result<DevicesView, Failure> {
    let view = state.record.view();
    let here = state.record.device().id();
    let all = view.devices(job)?;
    let lines = all.iter().map(|one| line(&state.words, &view, one, one.device == here)).collect::<Result<_, _>>()?;
    Ok(DevicesView { lines, undo: None })
}

/// What is said of a device that the job does not know.
fn unknown(words: &Words, one: &JobDevice, people: &str) -> String {
    let reasons: Vec<&str> = one.vouched.iter().filter_map(|word| word.reason.as_deref()).collect();
    match one.goes_on_from {
        _ if !one.vouched.is_empty() => {
            let args = [("people", people.into()), ("reason", reasons.join("; ").into())];
            words.text_with("answer-device-vouched-unknown", &args)
        }
        Some(before) => words.text_with("answer-device-goes-on", &[("device", short(before).into())]),
        None => words.text("answer-device-unknown"),
    }
}

fn line(words: &Words, view: &View<'_>, one: &JobDevice, here: bool) -> Result<DeviceLine, Failure> {
    let name = |id| Ok::<_, Failure>(view.card(id)?.map(|card| card.name).unwrap_or_default());
    let people = one.people.iter().map(|id| name(*id)).collect::<Result<Vec<_>, _>>()?;
    let mut vouching = Vec::new();
    for word in &one.vouched {
        vouching.extend(word.by.map(name).transpose()?);
    }
    let args = [
        ("device", short(one.device).into()),
        ("people", people.join(", ").into()),
        ("count", one.entries.into()),
        ("here", if here { "here" } else { "elsewhere" }.into()),
    ];
    let said = match (one.known, one.began) {
        (true, true) => words.text("answer-device-began"),
        (true, false) => words.text_with("answer-device-known", &[("people", vouching.join(", ").into())]),
        (false, _) => unknown(words, one, &vouching.join(", ")),
    };
    let level = if one.known { Level::Done } else { Level::Look };
    Ok(DeviceLine {
        device: one.device.to_string(),
        key: Hash(one.key).to_string(),
        words: words.text_with("answer-device", &args),
        said: Sentence { level, words: said },
        known: one.known,
    })
}
