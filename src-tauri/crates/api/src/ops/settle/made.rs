//! What was settled, as the record says it: what was chosen, by whom and when, and how this person takes it back.

use super::say::Say;
use crate::failure::Failure;
use crate::judged::Judged;
use crate::ops::undo::token_of;
use crate::state::State;
use crate::views::SettledLine;
use provenohm_assess::ids::{DeviceId, PersonId};
use provenohm_assess::moment::Moment;
use provenohm_exchange::bundle::books_of;
use provenohm_logbook::entry::{Body, EntryRef};
use provenohm_logbook::view::Stated;

/// The settlements of a job and its testers that stand, the newest first. Only one's own on this device are taken back: it
/// is an undo.
pub(super) fn made(state: &State, judged: &Judged) -> Result<Vec<SettledLine>, Failure> {
    let job = judged.file.job.id;
    let view = state.record.view();
    let me = state.me(job)?.map(|person| state.ids_of(person)).transpose()?.unwrap_or_default();
    let here = state.record.device().id();
    let say = Say::new(state, judged);
    let mut lines = Vec::new();
    for act in acts(view.settled(&books_of(&view, job, &[])?)?) {
        let Some(said) = act.first() else { continue };
        let own = said.device == Some(here) && said.by.is_some_and(|by| me.contains(&by));
        let entries: Vec<EntryRef> = act.iter().map(|one| one.entry).collect();
        let undo = own.then(|| token_of(&entries));
        lines.push(SettledLine { words: say.made(said)?, by: say.lines(said)?.join(", "), undo });
    }
    lines.reverse();
    Ok(lines)
}

/// Entries of one act stand in several books, as that two testers are two.
fn acts(all: Vec<Stated<Body>>) -> Vec<Vec<Stated<Body>>> {
    let of =
        |one: &Stated<Body>| -> (Option<DeviceId>, Option<PersonId>, Moment) { (one.device, one.by, one.recorded) };
    let mut acts: Vec<Vec<Stated<Body>>> = Vec::new();
    for said in all {
        match acts.iter_mut().find(|act| act.first().is_some_and(|first| of(first) == of(&said))) {
            Some(act) => act.push(said),
            None => acts.push(vec![said]),
        }
    }
    acts.sort_by_key(|act| act.first().map(|one| one.recorded));
    acts
}
