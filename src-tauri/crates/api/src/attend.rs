//! Keeping in step with the office while people work: whoever waits for a network holds nothing that they need.

use crate::api::Api;
use crate::failure::Failure;
use crate::network::{Enrolling, HubAt, Network};
use crate::state::State;
use provenohm_assess::ids::JobId;
use provenohm_assess::moment::Moment;
use provenohm_exchange::hub::{JobThere, Link, NoAnswer, Scope, Synced, sync_watched};
use provenohm_logbook::entry::body::Book;
use std::collections::VecDeque;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The choice that keeps the jobs this device wants from the office and does not have yet.
pub(crate) const WANTED: &str = "office-wanted";

/// Between two rounds while both are in step.
const OFTEN: Duration = Duration::from_secs(2);
/// Between two rounds at most, while the office is not reached.
const SELDOM: Duration = Duration::from_secs(60);
/// Without an office there is nothing to do but to wait for a wish.
const IDLE: Duration = Duration::from_secs(30);

/// What a person asks for.
pub(crate) enum Wish {
    /// To be enrolled.
    Enrol(Enrolling),
    /// To be brought in step now.
    Now,
}

/// What came of it last.
#[derive(Clone, Debug, Default)]
pub(crate) enum Last {
    /// Nothing yet.
    #[default]
    Never,
    /// It is being asked.
    Asking,
    /// Both had the same then.
    InStep(Moment),
    /// There was no answer, since then.
    NotReached(Moment),
    /// It does not work, in words.
    Refused(Failure),
}

/// What is asked of whoever attends to the office, and what they say.
#[derive(Default)]
pub(crate) struct Attending {
    held: Mutex<Held>,
    bell: Condvar,
}

#[derive(Default)]
struct Held {
    wishes: VecDeque<Wish>,
    last: Last,
    there: Vec<JobThere>,
    /// How far the round is that goes on; nothing between two of them.
    going: Option<Synced>,
    /// Something was recorded since the last round began.
    news: bool,
    /// Rounds in a row that came to nothing.
    vain: u32,
    /// How often an office was left: what a round says that began before is of no concern any more.
    left: u32,
}

impl Attending {
    /// Asks for something; it is done soon, not now.
    pub(crate) fn wish(&self, wish: Wish) {
        let mut held = self.held();
        (held.last, held.vain) = (Last::Asking, 0);
        held.wishes.push_back(wish);
        self.bell.notify_all();
    }

    /// Something was recorded: an office that is in step has it soon. One that is not reached is tried again in its time.
    pub(crate) fn recorded(&self) {
        self.held().news = true;
        self.bell.notify_all();
    }

    /// What came of it last, and the jobs at the office.
    pub(crate) fn told(&self) -> (Last, Vec<JobThere>) {
        let held = self.held();
        (held.last.clone(), held.there.clone())
    }

    /// How far the round is that goes on, if it carries anything.
    pub(crate) fn going(&self) -> Option<Synced> {
        self.held().going.filter(|synced| synced.sent + synced.came.came > 0)
    }

    /// Forgets what was said of an office that this device left.
    pub(crate) fn forget(&self) {
        let mut held = self.held();
        *held = Held { left: held.left + 1, ..Held::default() };
    }

    /// Whether it ended before its time.
    fn wait(&self, long: Duration) -> bool {
        let rest = |held: &mut Held| held.wishes.is_empty() && !(held.news && matches!(held.last, Last::InStep(_)));
        let (_held, ended) =
            self.bell.wait_timeout_while(self.held(), long, rest).unwrap_or_else(PoisonError::into_inner);
        !ended.timed_out()
    }

    fn held(&self) -> MutexGuard<'_, Held> {
        self.held.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn say(&self, last: Last, since: u32) {
        let mut held = self.held();
        if held.left != since {
            return;
        }
        held.vain = if matches!(last, Last::InStep(_)) { 0 } else { held.vain + 1 };
        // Since when it is not reached is said, not when it was tried last.
        match (&held.last, &last) {
            (Last::NotReached(_), Last::NotReached(_)) => {}
            _ => held.last = last,
        }
    }
}

impl Api {
    /// One round for whoever attends to the office: does what was asked for, and brings this device in step with the office it is
    /// enrolled at. Says how long to wait until the next.
    pub fn attend(&self, network: &dyn Network) -> Duration {
        let (wish, since) = {
            let mut held = self.attending.held();
            held.news = false;
            (held.wishes.pop_front(), held.left)
        };
        if let Some(Wish::Enrol(asked)) = wish
            && let Err(error) = self.enrol(network, &asked)
        {
            // Nothing is tried again by itself: a person does.
            let failure = said(error).unwrap_or_else(|| Failure::of("office_not_reached"));
            let words = self.state().words.clone();
            self.attending.say(Last::Refused(failure.worded(&words)), since);
            return IDLE;
        }
        match self.in_step(network) {
            Ok(false) => return IDLE,
            Ok(true) => {
                let now = self.state().host.now();
                self.attending.say(Last::InStep(now), since);
            }
            Err(error) => {
                let state = &mut *self.state();
                let now = state.host.now();
                let last = match said(error) {
                    None => Last::NotReached(now),
                    Some(failure) => Last::Refused(failure.worded(&state.words)),
                };
                self.attending.say(last, since);
            }
        }
        let vain = self.attending.held().vain;
        OFTEN.saturating_mul(1 << vain.min(5)).min(SELDOM)
    }

    /// Waits that long, or until somebody asks for something or records it.
    pub fn wait_for_wish(&self, long: Duration) {
        self.attending.wait(long);
    }

    fn enrol(&self, network: &dyn Network, asked: &Enrolling) -> Result<(), NoAnswer> {
        let hub = network.enrol(asked)?;
        let mut state = self.state();
        let kept = serde_json::to_string(&hub).map_err(|_| NoAnswer::NotTheHub)?;
        Link::forget(&mut state.record)?;
        Ok(state.record.keep_hub(Some(&kept))?)
    }

    /// False if this device is at no office.
    fn in_step(&self, network: &dyn Network) -> Result<bool, NoAnswer> {
        let (hub, scopes) = {
            let state = self.state();
            let Some(hub) = hub_of(&state)? else { return Ok(false) };
            (hub, scopes(&state)?)
        };
        let mut line = network.line(&hub)?;
        let mut tell = |synced| self.attending.held().going = Some(synced);
        let done = sync_watched(&mut self.desk(), &mut *line, &scopes, &mut tell);
        self.attending.held().going = None;
        done?;
        self.attending.held().there = line.jobs()?.jobs;
        Ok(true)
    }
}

/// The office this device is enrolled at.
pub(crate) fn hub_of(state: &State) -> Result<Option<HubAt>, NoAnswer> {
    let kept = state.record.device().hub().map_err(provenohm_logbook::record::WriteError::from)?;
    // What an older version wrote otherwise is as good as none: it is enrolled again.
    Ok(kept.and_then(|text| serde_json::from_str(&text).ok()))
}

/// The register, the jobs that are here, and those that are wanted.
fn scopes(state: &State) -> Result<Vec<Scope>, NoAnswer> {
    let mut scopes = vec![Scope::Register];
    let here = state.record.view().books()?;
    let wanted: Vec<JobId> = state.setting(WANTED).ok().flatten().unwrap_or_default();
    let jobs = here.into_iter().filter_map(|book| match book {
        Book::Job { job } => Some(job),
        Book::Tester { .. } | Book::Reference { .. } => None,
    });
    let mut jobs: Vec<JobId> = jobs.chain(wanted).collect();
    jobs.sort_unstable();
    jobs.dedup();
    scopes.extend(jobs.into_iter().map(Scope::Job));
    Ok(scopes)
}

/// Why it does not work, for a person; nothing where the office was only not reached.
fn said(error: NoAnswer) -> Option<Failure> {
    Some(match error {
        NoAnswer::NotReached => return None,
        NoAnswer::OtherKey => Failure::of("office_other_key"),
        NoAnswer::NotTheHub => Failure::of("office_not_the_hub"),
        NoAnswer::Refused { code, words } => Failure::of(&code).saying(words),
        NoAnswer::Write(error) => error.into(),
        NoAnswer::Read(error) => error.into(),
        other => Failure::of("office_not_taken").because(other),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used)]

    use super::*;
    use std::sync::Arc;

    /// Longer than a test may take.
    const LONG: Duration = Duration::from_secs(30);

    /// Ends only if the wait does.
    fn waits_until(attending: &Arc<Attending>, happens: impl FnOnce(&Attending)) {
        let waiting = Arc::clone(attending);
        let waiter = std::thread::spawn(move || waiting.wait(LONG));
        happens(attending);
        assert!(waiter.join().expect("the wait ends"));
    }

    #[test]
    fn what_is_recorded_goes_to_an_office_in_step_at_once() {
        let attending = Arc::new(Attending::default());
        attending.held().last = Last::InStep(Moment::parse_from_rfc3339("2026-11-25T10:15:00Z").expect("an instant"));
        waits_until(&attending, Attending::recorded);
    }

    #[test]
    fn one_that_is_not_reached_is_tried_again_in_its_time() {
        let attending = Attending::default();
        attending.recorded();
        assert!(!attending.wait(Duration::from_millis(1)), "nothing ends it early");
    }
}
